"""The command line says what is wrong in a sentence, and a lesson is known by its metadata alone."""

import json
from pathlib import Path

import pytest

from navlib.__main__ import main
from navlib.lab.lesson import is_lesson_file, names
from navlib.lab.server import environment

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
