"""What stands behind the instructor's desk and the projector, without a server."""

from pathlib import Path
from threading import Event

import pytest
from hall import wait_for

from navlib.classroom.leading import InstructorsDesk, Screen
from navlib.classroom.watching import Watch


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("NAVLIB_CLASSES", str(tmp_path / "classes"))
    return tmp_path / "classes"


def deed(name: str) -> dict[str, object]:
    return {"deed": name, "given": {}}


def test_nothing_is_made_before_a_session_begins(folder: Path):
    desk, screen = InstructorsDesk(), Screen()
    assert screen.face() == {}
    assert (desk.face()["sessions"], desk.face()["run"]) == ([], None)
    assert not folder.exists()


def test_the_projector_follows_the_session_begun_last_and_stays_when_it_ends(folder: Path):
    desk, screen = InstructorsDesk(), Screen()
    desk.do("begin", {"plan": "bearings", "title": "First"})
    assert screen.face()["title"] == "First"
    desk.do("begin", {"title": "Second"})
    assert screen.face()["title"] == "Second"
    desk.do("deed", deed("end"))
    first = desk.face()["sessions"][1]["id"]
    assert screen.face()["title"] == "First", "which still runs"
    desk.do("end", {"session": first})
    assert screen.face()["ended"]
    assert InstructorsDesk().face()["run"] is None, "none is open that has ended"


def test_a_desk_that_begins_anew_goes_on_where_the_session_is(folder: Path):
    desk = InstructorsDesk()
    desk.do("begin", {"plan": "tides"})
    for name in ("next", "next", "open"):
        desk.do("deed", deed(name))
    again = InstructorsDesk().face()["run"]
    assert again["face"]["segment"]["n"] == 1
    assert again["segments"][1]["question"]["state"] == "open"
    assert "picture" not in again["face"], "the sheet is for the projector"
    assert Screen().face()["picture"] or not again["face"]["question"]["picture"]


def test_with_its_number_a_session_has_its_values_again(folder: Path):
    desk, texts = InstructorsDesk(), []
    for _ in range(2):
        desk.do("begin", {"plan": "bearings", "number": " 481 516 234 "})
        desk.do("deed", {"deed": "go", "given": {"n": 5}})
        texts.append(desk.face()["run"]["face"]["question"]["text"])
    assert texts[0] == texts[1]
    with pytest.raises(ValueError, match="“evening” is no session’s number"):
        desk.do("begin", {"number": "evening"})


def test_the_session_file_is_given_and_lies_in_the_folder(folder: Path):
    desk = InstructorsDesk()
    desk.do("begin", {"plan": "bearings", "title": "Tern Reef"})
    given = desk.do("file", {})
    assert (folder / given["file"]["name"]).read_bytes() == given["data"]
    (folder / "holiday.answers.json").write_text("{}")
    assert [one["file"] for one in desk.face()["unread"]] == ["holiday.answers.json"]


def test_a_class_that_cannot_be_reached_is_told_and_looked_for_again(
    monkeypatch: pytest.MonkeyPatch,
):
    from navlib.widgets.session import Projector

    monkeypatch.setenv("NAVLIB_CLASS_URL", "http://127.0.0.1:9/")
    monkeypatch.setenv("JUPYTERHUB_API_TOKEN", "none")
    projector = Projector()
    wait_for(lambda: "cannot be reached" in projector.trouble, "it is told")
    projector.show({"title": "Tern Reef"}, None)
    wait_for(lambda: "cannot be reached" in projector.trouble, "it is looked for again")
    assert projector.face == {"title": "Tern Reef"}, "what was shown stays"
    projector.watch.close()


def test_a_watch_does_what_is_asked_between_two_looks():
    looked, done = [], Event()
    watch = Watch(lambda: looked.append(len(looked)), every_s=0.01)
    watch.ask(done.set)
    assert done.wait(60)
    before = len(looked)
    wait_for(lambda: len(looked) > before + 1, "it goes on looking")
    watch.close()
