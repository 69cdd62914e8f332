"""Behind the start page: the way on, and what is done with the record, whatever state it is in."""

import json
from pathlib import Path

import nbformat
import pytest

from navlib import questions
from navlib.desk import Exercise, MixedCheckpoint
from navlib.desk.start import Start
from navlib.desk.ways import LESSONS, way_back_to, way_to
from navlib.record import Record, choose, learners
from navlib.widgets import StartPage

NOTEBOOKS = Path(__file__).parent.parent / "lessons"


@pytest.fixture(autouse=True)
def own_record(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Each test has a record of its own."""
    path = tmp_path / "record.sqlite"
    monkeypatch.setenv("NAVLIB_RECORD", str(path))
    return path


def work(record: Record, number: int = 1) -> None:
    desk = Exercise("bearings", number, record)
    desk.do("check", {"answers": desk.question.answers})


def test_someone_new_begins_with_bearings():
    page = Start().face()
    assert page["first"]
    assert page["next"]["to"] == "bearings.ipynb"
    assert page["last"] is None
    assert [topic["to"] for topic in page["topics"]] == [f"{t}.ipynb" for t in questions.topics()]


def test_the_page_follows_what_was_done_elsewhere():
    desk = Start()
    assert desk.face()["kept"] == 0
    work(Record())
    page = desk.face()
    assert page["kept"] == 1
    assert not page["first"]
    assert page["next"]["to"] == "bearings.ipynb#Practice"
    assert page["last"] == {
        "to": "bearings.ipynb#Ten-exercises#bearings/exercise/1",
        "words": "Bearings: exercise 1",
        "when": "today",
    }


@pytest.mark.parametrize("place", ["bearings/practice", "tides/checkpoint/4", "mixed/practice"])
def test_places_lead_back(place: str):
    assert way_back_to(place)


def test_an_exercise_worked_on_deck_leads_back_to_its_card():
    assert way_back_to("bearings/exercise/3/deck") == way_back_to("bearings/exercise/3")


@pytest.mark.parametrize("place", ["", "knots/practice", "bearings", "bearings/riddle/2"])
def test_places_that_are_no_more_lead_nowhere(place: str):
    assert way_back_to(place) is None


@pytest.mark.parametrize("topic", LESSONS)
def test_every_link_has_its_notebook_and_heading(topic: str):
    whole = nbformat.read(NOTEBOOKS / f"{topic}.ipynb", as_version=4)
    text = "\n".join(cell.source for cell in whole.cells if cell.cell_type == "markdown")
    anchors = {
        line.lstrip("# ").replace(" ", "-") for line in text.splitlines() if line.startswith("## ")
    }
    sorts = ["practice", "checkpoint"] + ["exercise"] * (topic in questions.topics())
    for sort in sorts:
        assert way_to(topic, sort).partition("#")[2] in anchors
    assert "(start.ipynb)" in text


def test_learners_are_chosen_added_and_forgotten():
    desk = Start()
    work(desk.record)
    desk.do("choose", {"name": "Ina"})
    page = desk.face()
    assert (page["learner"], page["others"], page["kept"]) == ("Ina", [""], 0)
    work(Record())
    assert "one answer" in desk.do("forget", {})["says"]
    page = desk.face()
    assert (page["learner"], page["others"], page["kept"]) == ("", [], 1)


def test_a_choice_that_cannot_be_kept_is_refused(own_record: Path):
    desk = Start()
    own_record.with_name("record-learners").write_text("a file where the folder should be")
    with pytest.raises(ValueError, match="cannot be kept"):
        desk.do("choose", {"name": "Ina"})
    assert desk.face()["learner"] == ""


def test_what_is_handed_in_bears_a_name_and_can_be_taken_in():
    desk = Start()
    work(desk.record)
    with pytest.raises(ValueError, match="Write your name"):
        desk.do("hand_in", {"name": "  "})
    file = desk.do("hand_in", {"name": "Ina  Holm"})["file"]
    assert file["name"].startswith("hand-in-Ina-Holm-2")
    assert json.loads(file["text"])["learner"] == "Ina Holm"
    assert desk.face()["sign"] == "Ina Holm"
    desk.do("choose", {"name": "Bo"})
    assert "one answer" in desk.do("take_in", {"text": file["text"]})["says"]
    assert "here already" in desk.do("take_in", {"text": file["text"]})["says"]
    assert desk.do("delete", {})["says"] == "Deleted: one answer."
    assert learners() == ["Bo"]


@pytest.mark.parametrize("action", ["face", "__init__", "_open_anew", ""])
def test_nothing_but_what_is_offered_is_done(action: str):
    assert Start().do(action, {}) == {"says": ""}


def test_a_broken_record_is_set_aside_and_said_until_the_page_closes(own_record: Path):
    own_record.write_bytes(b"no record at all" * 400)
    desk = Start()
    for _ in range(2):
        assert "set aside" in desk.face()["note"]
    assert list(own_record.parent.glob("*damaged*"))


def test_a_record_that_cannot_be_written_is_said(own_record: Path):
    own_record.mkdir()
    page = StartPage()
    assert page.trouble == ""
    assert "cannot be saved" in page.page["note"]
    assert page.page["next"]["to"] == "bearings.ipynb"


def test_a_record_that_breaks_under_the_page_is_a_sentence(own_record: Path, caplog):
    page = StartPage()
    before = page.page
    work(choose(""))
    assert page.desk is not None
    page.desk._open_anew = page.desk.record.close  # as if the disk went away
    page._heard(None, {"do": "export", "turn": "1"}, [])
    assert page.trouble.startswith("Your record could not be read: ")
    assert page.page == before


def test_the_mixed_checkpoint_asks_one_or_two_of_each_topic():
    desk = MixedCheckpoint(Record())
    asked = [question.kind.split(".")[0] for question in desk.paper]
    assert {asked.count(topic) for topic in questions.topics()} == {1, 2}
    assert len({question.kind for question in desk.paper}) == 10
    levels = [question.level for question in desk.paper]
    assert levels == sorted(levels)
