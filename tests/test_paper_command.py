"""The coach's command line from blueprint to feedback: what it says, and how it ends."""

import csv
import io
import re
from dataclasses import replace
from pathlib import Path

import pytest

from navlib.__main__ import main
from navlib.paper import reading
from navlib.paper.awards import labels
from navlib.paper.sitting import Sitting


def run(capsys: pytest.CaptureFixture[str], *words: object) -> tuple[int, str, str]:
    """Return the exit status of a command, and what it said on both outputs."""
    status = main(["paper", *map(str, words)])
    said = capsys.readouterr()
    return status, said.out, said.err


@pytest.fixture(scope="module")
def spring(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Two papers of the shortest blueprint, with all their files."""
    folder = tmp_path_factory.mktemp("papers") / "spring"
    assert main(["paper", "make", "warm-up", "--count", "2", "--to", str(folder)]) == 0
    return folder


def filled(sitting: Sitting, **changed: str) -> list[list[str]]:
    """Return the sitting's own table with every answer right, but for columns `changed` in row 01."""
    text = (sitting.path / "answers.csv").read_text(encoding="utf-8-sig")
    heads, *rows = csv.reader(io.StringIO(text))
    for row in rows:
        paper = sitting.papers[row[heads.index("paper")]]
        for item in paper.items:
            for label, name in labels(item).items():
                row[heads.index(label)] = item.question.answers[name]
    for head, value in changed.items():
        rows[0][heads.index(head)] = value
    return [heads, *rows]


def save(file: Path, rows: list[list[str]]) -> Path:
    with file.open("w", encoding="utf-8", newline="") as out:
        csv.writer(out).writerows(rows)
    return file


def test_help_shows_the_whole_way(capsys):
    with pytest.raises(SystemExit, match="0"):
        main(["paper", "--help"])
    said = capsys.readouterr().out
    ways = re.findall(r"python -m navlib paper ([a-z]\S*)", said)
    assert ways == [
        *("blueprints", "plan", "make", "form", "take-in", "results", "feedback", "make")
    ]
    with pytest.raises(SystemExit, match="0"):
        main(["paper", "make", "--help"])
    assert "--count 12 --to spring" in capsys.readouterr().out


def test_blueprints_and_what_one_comes_to(capsys, tmp_path: Path):
    status, said, _ = run(capsys, "blueprints")
    assert status == 0
    assert all(name in said for name in reading.ready_made())
    status, said, _ = run(capsys, "plan", "warm-up")
    assert (status, "Nothing is missing." in said) == (0, True)
    whole = reading.read("chart-work")
    (tmp_path / "bare.yaml").write_text(reading.write(replace(whole, sheets=())), "utf-8")
    status, said, _ = run(capsys, "plan", tmp_path / "bare.yaml")
    assert (status, "MISSING: Question" in said) == (2, True)
    text = reading.write(whole).replace("minutes: 45", "minutes: many")
    (tmp_path / "bad.yaml").write_text(text, "utf-8")
    status, _, wrong = run(capsys, "plan", tmp_path / "bad.yaml")
    assert status == 2
    assert re.search(r"line \d+: “minutes” is a whole number", wrong)
    status, _, wrong = run(capsys, "plan", "warmup")
    assert status == 2
    assert "did you mean “warm-up”" in wrong


def test_what_is_made_and_what_is_not(capsys, spring: Path, tmp_path: Path):
    names = sorted(file.name for file in (spring / "papers").iterdir())
    assert [name[:3] for name in names] == ["01-", "02-"]
    assert len(list((spring / "coach").glob("scheme-*.pdf"))) == 2
    again = ("make", "warm-up", "--count", 2, "--to", spring)
    status, _, wrong = run(capsys, *again)
    assert (status, "already" in wrong) == (2, True)
    for words, says in (
        (("make", "--count", 2), "Name a blueprint"),
        (("make", "warm-up", "--count", 0, "--to", tmp_path / "none"), "1 to 200"),
        (("make", "--resit-of", spring, "--sitting", "first", "--count", 1), "name of its own"),
        (("make", "warm-up", "--count", 1, "--secret", __file__), "holds no secret"),
        (("results", tmp_path), "no sitting"),
    ):
        status, _, wrong = run(capsys, *words)
        assert (status, says in wrong) == (2, True), wrong
    assert list(tmp_path.iterdir()) == []


def test_answers_go_in_marks_and_feedback_come_out(capsys, spring: Path, tmp_path: Path):
    sitting = Sitting(spring)
    assert run(capsys, "results", spring)[0] == 2  # nothing is marked yet
    status, said, _ = run(capsys, "form", spring)
    assert (status, str(spring / "answers.csv") in said) == (0, True)
    assert run(capsys, "form", spring)[0] == 2  # what someone filled in is not written over
    table = spring / "coach" / "marking.csv"
    table.write_text(kept := table.read_text("utf-8").replace("01,,", "01,Ina,"), "utf-8")
    assert "Ina" in kept
    assert run(capsys, "print", spring)[0] == 0
    assert table.read_text("utf-8") == kept

    first = next(iter(labels(next(iter(sitting.papers.values())).items[0])))
    rows = filled(sitting, **{first: "7"})
    rows[2][rows[0].index("paper")] = "K7M4-QXZ"
    table = save(tmp_path / "torn.csv", rows)
    status, said, wrong = run(capsys, "take-in", spring, table, "--marker", "AB")
    assert status == 1
    assert wrong.startswith("Row 3, column ")
    assert "Papers taken in: 1" in said
    save(spring / "answers.csv", filled(sitting, **{first: "7"}))
    status, said, wrong = run(capsys, "take-in", spring, "--marker", "AB")
    assert (status, wrong) == (0, "")
    assert "Papers taken in: 1; as entered before: 1." in said

    status, said, _ = run(capsys, "results", spring)
    marks = sitting.plan.blueprint.marks
    lost = sitting.plan.blueprint.rows[0].marks
    assert status == 0
    assert re.search(rf"01 +{marks - lost} of {marks} +pass", said)
    assert re.search(rf"02 +{marks} of {marks} +pass", said)
    assert (spring / "results" / "results.pdf").read_bytes().startswith(b"%PDF")
    status, said, told = run(capsys, "feedback", spring, "--closing", "The resit is in May.")
    assert (status, "Written: 2 sheets" in said) == (0, True)
    assert "Feedback for candidate 01" in told
    assert sorted(f.name for f in (spring / "results").glob("feedback*")) == [
        *("feedback-01.pdf", "feedback-02.pdf")
    ]


def test_two_markers_are_compared(capsys, spring: Path):
    sitting = Sitting(spring)
    code = sitting.plan.codes["02"]
    label = next(iter(labels(sitting.papers[code].items[0])))
    for marker, text in (("AB", "042°M"), ("CD", "-")):
        sitting.enter("02", code, {label: text}, marker)
    status, said, _ = run(capsys, "differences", spring)
    assert status == 0
    assert re.search(rf"{label} +AB: 042°M +CD: –", said)


def test_a_resit_takes_the_secret_and_differs(capsys, spring: Path, tmp_path: Path):
    words = ("make", "--resit-of", spring, "--count", 1, "--to", tmp_path / "resit")
    assert run(capsys, *words)[0] == 0
    resit, first = Sitting(tmp_path / "resit"), Sitting(spring)
    assert resit.plan.name == "resit"
    assert (resit.path / "secret").read_text() == (first.path / "secret").read_text()
    assert resit.plan.follows == ((first.plan.name, len(first.papers)),)
    (one,) = resit.papers.values()
    other = first.papers[first.plan.codes["01"]]
    asked = [{item.question.text for item in paper.items} for paper in (one, other)]
    assert not asked[0] & asked[1]
