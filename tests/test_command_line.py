"""The command line says what is wrong in a sentence, and a lesson is known by its metadata alone."""

import json
from pathlib import Path

import pytest

from navlib.__main__ import main
from navlib.lab.lesson import find, is_lesson_file, names
from navlib.lab.server import environment
from navlib.record import Record

LESSON = {"metadata": {"navlib": {"lesson": "tides"}}}


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    for name, content in {"tides": LESSON, "bearings": LESSON, "mine": {"metadata": {}}}.items():
        (tmp_path / f"{name}.ipynb").write_text(json.dumps(content))
    (tmp_path / "torn.ipynb").write_text("{")
    return tmp_path


def test_lessons_are_told_from_other_notebooks(folder: Path):
    assert names(folder) == ["bearings", "tides"]


@pytest.mark.parametrize("content", ["", "[]", "{}", '{"metadata": {"navlib": true}}', "\xff"])
def test_whatever_cannot_be_read_is_no_lesson(tmp_path: Path, content: str):
    path = tmp_path / "odd.ipynb"
    path.write_bytes(content.encode("latin-1"))
    assert not is_lesson_file(path)
    assert not is_lesson_file(tmp_path / "nowhere.ipynb")


def test_the_start_page_opens_if_no_lesson_is_named(folder: Path):
    assert find(folder).stem == "bearings"
    (folder / "start.ipynb").write_text(json.dumps(LESSON))
    assert find(folder).stem == "start"
    assert find(folder, "tides").stem == "tides"


def test_no_lesson_of_that_name(folder: Path, capsys: pytest.CaptureFixture[str]):
    assert main(["lessons", "knots", "--folder", str(folder)]) == 2
    assert capsys.readouterr().err == (
        "There is no lesson called “knots”. There are: bearings, tides.\n"
    )


def test_no_lessons_at_all(tmp_path: Path, capsys: pytest.CaptureFixture[str]):
    assert main(["lessons", "--folder", str(tmp_path / "nowhere")]) == 2
    assert capsys.readouterr().err.startswith("There are no lessons in the folder")


def test_help_names_the_commands(capsys: pytest.CaptureFixture[str]):
    with pytest.raises(SystemExit, match="0"):
        main(["--help"])
    said = capsys.readouterr().out
    assert "open a lesson in your browser" in said
    assert "not for navigation" in said


def test_a_users_own_jupyter_settings_do_not_reach_a_lesson(tmp_path: Path):
    theirs = {"JUPYTER_CONFIG_DIR": "theirs", "JUPYTERLAB_SETTINGS_DIR": "theirs", "PATH": "kept"}
    env = environment(theirs, tmp_path)
    assert "theirs" not in env.values()
    assert env["PATH"] == "kept"


def test_record_is_shown_exported_and_deleted(tmp_path: Path, monkeypatch, capsys):
    monkeypatch.setenv("NAVLIB_RECORD", str(tmp_path / "r.sqlite"))
    record = Record()
    record.attempt("here", "kind", 1, {"a": "042 T"})
    assert main(["record"]) == 0
    assert "Answers kept: 1." in capsys.readouterr().out
    assert main(["record", "export", str(tmp_path / "mine.json")]) == 0
    assert "042 T" in (tmp_path / "mine.json").read_text(encoding="utf-8")
    assert main(["record", "export", str(tmp_path / "no such folder" / "mine.json")]) == 2
    monkeypatch.setattr("builtins.input", lambda _: "no")
    assert main(["record", "delete"]) == 0
    assert len(record.attempts()) == 1
    assert main(["record", "delete", "--yes"]) == 0
    assert record.attempts() == []


def test_learners_share_a_machine_and_answers_come_over_from_another(
    tmp_path: Path, monkeypatch, capsys
):
    monkeypatch.setenv("NAVLIB_RECORD", str(tmp_path / "r.sqlite"))
    Record().attempt("here", "kind", 1, {"a": "042 T"})
    main(["record", "export", str(tmp_path / "mine.json")])
    assert main(["learner", "Ina"]) == 0
    assert Record().attempts() == []
    assert main(["record", "import", str(tmp_path / "mine.json")]) == 0
    assert main(["record", "import", str(tmp_path / "mine.json")]) == 0
    assert "Taken in: 0 answers." in capsys.readouterr().out
    assert len(Record().attempts()) == 1
    assert main(["learner", ""]) == 0
    assert main(["learner"]) == 0
    assert "Others here: Ina." in capsys.readouterr().out
    assert main(["learner", "--forget"]) == 2
    assert main(["learner", "Ina", "--forget"]) == 0
    assert len(Record().attempts()) == 1
    (tmp_path / "mine.json").write_text("[")
    assert main(["record", "import", str(tmp_path / "mine.json")]) == 2
    assert "Traceback" not in capsys.readouterr().err
