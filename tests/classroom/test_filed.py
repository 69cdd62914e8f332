"""A class without a server: hand-in files are noticed, read once, and trusted in nothing."""

import json
import os
from pathlib import Path
from typing import Any

import pytest
from evening import KIND, NAMES, Learner, learners, own_question, slipped, touched

from navlib.classroom.class_files import LARGEST
from navlib.classroom.filed import Filed
from navlib.classroom.handing import Seat
from navlib.classroom.judging import judgement, marked
from navlib.classroom.refusals import Missing

NUMBER = 271_828


@pytest.fixture
def classes(tmp_path: Path) -> Filed:
    return Filed(tmp_path / "classes")


@pytest.fixture
def session(classes: Filed) -> int:
    return int(classes.begin("Tides & streams: an evening", NUMBER)["id"])


@pytest.fixture
def asked(classes: Filed, session: int) -> int:
    return int(classes.ask(session, KIND, open=True)["id"])


@pytest.fixture
def present(classes: Filed, session: int, asked: int, tmp_path: Path) -> list[Learner]:
    return learners(classes, session, tmp_path / "homes", 3)


def right(seat: int) -> dict[str, str]:
    return dict(own_question(NUMBER, 1, seat).answers)


def kept(classes: Filed, session: int) -> list[tuple[str, dict[str, str]]]:
    rows = classes.record(session)["answers"]
    return [(row["name"], row["answers"]) for row in rows]


def test_a_file_is_noticed_when_it_is_new_and_when_it_has_changed(
    classes: Filed, session: int, asked: int, present: list[Learner]
):
    ina, *_ = present
    wrong = slipped(own_question(NUMBER, 1, 1), "variation-sign")
    ina.hand_in(1, wrong)
    assert [slip["name"] for slip in classes.board(asked)["slips"]] == ["variation-sign"]
    touched(ina.hand_in(1, right(1)))
    board = classes.board(asked, names=True)
    assert (board["in"], board["outcomes"]["right"], board["slips"]) == (1, 1, [])
    assert [(one["shown"], one["seat"], one["tries"]) for one in board["people"]] == [
        ("Ina Skarp", 1, 2)
    ]
    assert kept(classes, session) == [("ina-skarp", wrong), ("ina-skarp", right(1))]


def test_an_answer_counts_once_however_often_its_file_lies_there(
    classes: Filed, session: int, present: list[Learner]
):
    path = present[0].hand_in(1, right(1))
    for copy in ("by mail.json", "Ina-Skarp-01.answers (1).json", "Ina.answers.json.txt"):
        (classes.folder / copy).write_bytes(path.read_bytes())
    touched(path)
    assert kept(classes, session) == [("ina-skarp", right(1))]
    assert kept(Filed(classes.folder), session) == [("ina-skarp", right(1))]
    assert classes.unread() == []


def handed(classes: Filed, **changes: Any) -> bytes:
    """Return a hand-in file of seat 9, changed."""
    whole = {"navlib-answers": 1, "number": NUMBER, "seat": 9, "name": "Eve", "answers": []}
    whole["begun"] = classes.sessions()[0]["begun"]
    return json.dumps(whole | changes).encode()


ANSWER = {"key": "k" * 12, "position": 1, "given": "2026-11-05T18:00:00+00:00"}
FINE = {**ANSWER, "answers": {"magnetic": "042 M"}, "lies": {}}
HOSTILE: dict[str, tuple[dict[str, Any] | bytes, str]] = {
    "half written": (b'{"navlib-answers": 1, "num', "only half of it"),
    "empty": (b"", "only half of it"),
    "no text": (b"\xff\xfe\x00PNG" * 100, "no text"),
    "enormous": (b" " * (LARGEST + 1), "larger than 1 MB"),
    "deep": (b"[" * 100_000, "damaged"),
    "no object": (b"[1, 2]", "no hand-in file"),
    "something else": (b'{"cells": []}', "no hand-in file"),
    "from tomorrow": ({"navlib-answers": 2}, "newer version"),
    "another class": ({"number": 5}, "not in this folder"),
    "another evening": ({"begun": "2020-01-01T18:00:00+00:00"}, "not in this folder"),
    "a seat that is none": ({"seat": "1; DROP TABLE"}, "no hand-in file"),
    "seat below": ({"seat": 0}, "no hand-in file"),
    "a true seat": ({"seat": True}, "no hand-in file"),
    "a name that is none": ({"name": ["Eve"]}, "no hand-in file"),
    "a long name": ({"name": "E" * 5000}, "no hand-in file"),
    "answers that are none": ({"answers": {"magnetic": "042"}}, "no hand-in file"),
    "a path for a key": ({"answers": [{**FINE, "key": "../../etc/passwd"}]}, "no hand-in file"),
    "a long answer": ({"answers": [{**FINE, "answers": {"magnetic": "0" * 201}}]}, "no hand-in"),
    "a huge number": ({"answers": [{**FINE, "position": 10**40}]}, "no hand-in file"),
    "what was not asked": ({"answers": [{**FINE, "position": 77}]}, "question 77"),
}


@pytest.mark.parametrize("name", HOSTILE)
def test_what_cannot_be_read_is_told_by_its_name_and_stays(
    classes: Filed, session: int, asked: int, present: list[Learner], name: str
):
    content, why = HOSTILE[name]
    path = classes.folder / "eve.answers.json"
    path.write_bytes(content if isinstance(content, bytes) else handed(classes, **content))
    before = path.read_bytes()
    present[0].hand_in(1, right(1))
    assert classes.board(asked)["outcomes"]["right"] == 1, "the others' answers are taken"
    (told,) = classes.unread()
    assert told["file"] == "eve.answers.json"
    assert why in told["why"]
    assert path.read_bytes() == before
    path.write_bytes(handed(classes, answers=[FINE]))
    touched(path)
    assert classes.board(asked)["in"] == 2, "mended, it is read"
    assert classes.unread() == []


@pytest.mark.parametrize(
    "changes",
    [
        {"name": "\u202e\x1b[2J<script>alert(1)</script>"},
        {"name": ""},
        {"name": "🙂"},
        {"answers": [{**FINE, "answers": {"magnetic": "\x00'; DROP TABLE class_answers; --"}}]},
        {"answers": [{**FINE, "answers": {"__class__": "042 M", "magnetic": "042 M"}}]},
        {"answers": [{**FINE, "lies": {"pencil line": [{"x1": "NaN"}], "__init__": 5}}]},
        {"owner": "instructor", "role": "instructor", "state": "revealed", "counted": True},
    ],
)
def test_odd_content_is_taken_as_it_is_and_does_nothing(
    classes: Filed, session: int, asked: int, changes: dict[str, Any]
):
    content = handed(classes, **{"answers": [FINE], **changes})
    (classes.folder / "eve.answers.json").write_bytes(content)
    assert len(kept(classes, session)) == 1
    assert classes.unread() == []
    assert classes.session(session)["questions"][0]["state"] == "open"
    assert {one["role"] for one in classes.people()} == {"learner"}
    assert "\x1b" not in json.dumps(classes.people(), ensure_ascii=False)


def test_a_pipe_and_a_way_out_of_the_folder_are_not_followed(
    classes: Filed, session: int, tmp_path: Path
):
    secret = tmp_path / "mine.answers.json"
    secret.write_bytes(handed(classes, answers=[FINE]))
    strange = {"out.json"}
    if hasattr(os, "mkfifo"):  # Windows has no pipes among its files
        os.mkfifo(classes.folder / "pipe.json")
        strange.add("pipe.json")
    (classes.folder / "out.json").symlink_to(secret)
    (classes.folder / "round").symlink_to(classes.folder, target_is_directory=True)
    assert kept(classes, session) == []
    assert {one["file"] for one in classes.unread()} == strange


def test_two_who_wrote_one_seat_are_told_apart(
    classes: Filed, session: int, asked: int, present: list[Learner], tmp_path: Path
):
    present[0].hand_in(1, right(1))
    assert classes.board(asked)["in"] == 1
    other = Learner(classes.offer(session), "Oskar Lund", 1, tmp_path / "other")
    other.hand_in(1, right(1))
    assert classes.board(asked)["in"] == 1
    (told,) = classes.unread()
    assert told["file"].endswith("Oskar-Lund-01.answers.json")
    assert "Oskar Lund and Ina Skarp" in told["why"]
    moved = Learner(classes.offer(session), "Oskar Lund", 2, tmp_path / "moved")
    moved.hand_in(1, right(2))
    assert classes.board(asked)["outcomes"]["right"] == 2


def test_an_answer_given_before_its_question_is_opened_waits_for_that(
    classes: Filed, session: int, present: list[Learner]
):
    later = classes.ask(session, KIND)["id"]
    learner = Learner(classes.offer(session), NAMES[0], 1, present[0].home)
    learner.hand_in(2, own_question(NUMBER, 2, 1).answers)
    assert classes.board(later)["in"] == 0
    assert classes.unread() == []
    classes.move(later, "open")
    assert classes.board(later)["outcomes"]["right"] == 1


def test_the_session_file_says_what_is_asked_and_no_answer(
    classes: Filed, session: int, asked: int, present: list[Learner]
):
    offered = classes.offer(session)
    assert offered.name == f"Tides-streams-an-evening-{session}.class.json"
    made = own_question(NUMBER, 1, 1)
    text = offered.read_text("utf-8")
    assert not [answer for answer in made.answers.values() if answer in text]
    states = [json.loads(text)["questions"][0]["state"]]
    for state in ("closed", "revealed"):
        classes.move(asked, state)
        states.append(json.loads(offered.read_text("utf-8"))["questions"][0]["state"])
    assert states == ["open", "closed", "revealed"]


def test_a_learner_is_told_what_may_be_told_and_more_after_the_reveal(
    classes: Filed, session: int, asked: int, present: list[Learner], tmp_path: Path
):
    oskar = present[1]
    own = own_question(NUMBER, 1, 2)
    face = oskar.seat.now()["question"]
    assert (face["text"], face["state"], face["reveal"]) == (own.text, "open", None)
    reply = oskar.seat.hand_in(1, slipped(own, "variation-sign")).reply
    assert reply is not None
    assert reply["parts"] == {"magnetic": {"read": True, "says": []}}
    classes.move(asked, "revealed")
    again = Seat(classes.offer(session).read_text("utf-8"), NAMES[1], 2, oskar.home)
    face = again.now()["question"]
    assert face["mine"]["parts"]["magnetic"]["outcome"] == "wrong"
    assert face["reveal"]["parts"]["magnetic"]["answer"] == own.answers["magnetic"]


def test_a_learners_answers_outlive_the_notebook_and_a_damaged_file(
    classes: Filed, present: list[Learner]
):
    ina = present[0]
    text = ina.offered.read_text("utf-8")
    ina.seat.hand_in(1, {"magnetic": "042 M"})
    other = Seat(text, NAMES[0], 1, ina.home)
    other.hand_in(1, {"magnetic": "043 M"})
    ina.seat.hand_in(1, {"magnetic": "044 M"})
    _, content = Seat(text, NAMES[0], 1, ina.home).to_file()
    answers = [one["answers"]["magnetic"] for one in json.loads(content)["answers"]]
    assert answers == ["042 M", "043 M", "044 M"]
    (file,) = ina.home.glob("*.json")
    file.write_text("{")
    assert Seat(text, NAMES[0], 1, ina.home).now()["question"]["mine"] is None
    assert [one.read_text() for one in ina.home.glob("*.damaged")] == ["{"]


def test_what_was_written_down_and_not_judged_is_judged_by_the_next(
    classes: Filed, session: int, asked: int, present: list[Learner]
):
    present[0].hand_in(1, right(1))
    classes.look()
    row = classes.store.hand_in(asked, "ina-skarp", "key-00000001", right(1))
    assert row.id in [one["id"] for one in classes.store.unjudged()]
    again = Filed(classes.folder)
    assert again.store.unjudged() == []
    question = own_question(NUMBER, 1, 1)
    told = judgement(question, marked(question, right(1)))
    assert again.record(session)["answers"][-1]["outcomes"] == told["outcomes"]


def test_who_is_forgotten_and_what_is_deleted_does_not_come_again(
    classes: Filed, session: int, present: list[Learner]
):
    paths = [one.hand_in(1, right(seat)) for seat, one in enumerate(present, 1)]
    assert len(kept(classes, session)) == 3
    classes.forget("ina-skarp")
    assert [path.exists() for path in paths] == [False, True, True]
    assert {name for name, _ in kept(classes, session)} == {"oskar-lund", "mira-holt"}
    with pytest.raises(Missing, match="nobody"):
        classes.forget("ina-skarp")
    classes.change(session, ended=True)
    assert classes.keep_days(1) == 0
    assert classes.keep_days(0) == 1
    assert classes.sessions() == []
    assert list(classes.folder.rglob("*.json")) == []


def test_what_is_kept_no_longer_goes_when_the_next_session_begins(classes: Filed, session: int):
    classes.keep_days(0)
    classes.change(session, ended=True)
    later = classes.begin("The next evening")["id"]
    assert [one["id"] for one in classes.sessions()] == [later]
    assert classes.keep_days(None) == 0
    classes.change(later, ended=True)
    classes.begin("One more")
    assert len(classes.sessions()) == 2, "all are kept"


@pytest.mark.parametrize("seat", [0, -1, True, "7", 10_000])
def test_a_seat_that_is_none_is_refused(classes: Filed, session: int, tmp_path: Path, seat: Any):
    text = classes.offer(session).read_text("utf-8")
    with pytest.raises(ValueError, match="from 1"):
        Seat(text, "Ina", seat, tmp_path)
    with pytest.raises(ValueError, match="no session file"):
        Seat('{"cells": []}', "Ina", 1, tmp_path)
