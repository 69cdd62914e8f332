"""The learner's record: nothing acknowledged is ever lost, nothing damaged is thrown away."""

import json
import random
import signal
import sqlite3
import subprocess
import sys
import time
from contextlib import closing

import pytest

from navlib.marking import mark
from navlib.questions import make
from navlib.record import Record, choose, chosen, default_path, forget, learners
from navlib.record.places import path_of
from navlib.record.schema import SCHEMA

ENDLESS_WRITER = """
import sys
from navlib.record import Record
record = Record(sys.argv[1])
while True:
    number = record.attempt("here", "kind", 1, {"a": "042 T"})
    print(number, flush=True)
"""


def test_kill_at_any_moment_loses_no_acknowledged_attempt(tmp_path):
    """200 writers are killed in mid-write; a number printed is an attempt acknowledged."""
    path, source, acknowledged = tmp_path / "record.sqlite", random.Random(1), 0
    for _ in range(200):
        writer = subprocess.Popen(
            [sys.executable, "-c", ENDLESS_WRITER, str(path)], stdout=subprocess.PIPE, text=True
        )
        for _ in range(source.randint(1, 4)):
            acknowledged = int(writer.stdout.readline())
        time.sleep(source.uniform(0, 0.002))  # somewhere inside a later write
        writer.send_signal(getattr(signal, "SIGKILL", signal.SIGTERM))
        acknowledged = max([acknowledged, *map(int, writer.stdout.read().split())])
        writer.stdout.close()
        writer.wait()
        record = Record(path)
        assert record.note == ""
        assert [a.id for a in record.attempts()][:acknowledged] == list(range(1, acknowledged + 1))
        record.close()
    assert acknowledged > 200
    assert sqlite3.connect(path).execute("PRAGMA integrity_check").fetchone() == ("ok",)


def test_attempt_is_kept_before_it_is_judged_and_with_its_judgement_after(tmp_path):
    record = Record(tmp_path / "r.sqlite")
    question = make("bearings.true-to-magnetic", 1)
    number = record.attempt("bearings/exercise/2", question.kind, question.seed, question.answers)
    assert [a.id for a in record.unjudged()] == [number]
    record.judged(number, mark(question, question.answers))
    (attempt,) = Record(tmp_path / "r.sqlite").attempts("bearings")
    assert attempt.right
    assert attempt.marks == attempt.out_of == 1
    assert record.unjudged() == []
    assert record.attempts("bear") == []  # a place is a whole name, not its first letters


def test_learners_do_not_see_each_other_and_delete_only_their_own(tmp_path):
    ann, ben = (Record(tmp_path / "r.sqlite", learner) for learner in ("one", "two"))
    ann.attempt("here", "k", 1, {"a": "1"})
    ben.attempt("here", "k", 2, {"a": "2"})
    ben.remember("open", "k 2")
    assert [a.seed for a in ann.attempts()] == [1]
    assert json.loads(ann.export())["attempts"][0]["answers"] == {"a": "1"}
    assert ann.delete() == 1
    assert ann.attempts() == []
    assert [a.seed for a in ben.attempts()] == [2]
    assert ben.recall("open") == "k 2"


def test_deleted_answers_are_not_left_in_the_file(tmp_path):
    record, question = Record(tmp_path / "r.sqlite"), make("bearings.true-to-magnetic", 1)
    number = record.attempt("here", question.kind, 1, {"magnetic": "something very private"})
    record.judged(number, mark(question, {"magnetic": "something very private"}))
    record.remember("somewhere", "very private too")
    record.delete()
    record.close()
    with closing(sqlite3.connect(tmp_path / "r.sqlite")) as file:
        for table in ("attempts", "judgements", "notes"):
            assert file.execute(f"SELECT count(*) FROM {table}").fetchone() == (0,)
    assert all(b"very private" not in file.read_bytes() for file in tmp_path.iterdir())


def test_deleting_gives_the_room_back(tmp_path):
    """Pages kept for later use could still hold old answers, whatever SQLite was built to do."""
    record = Record(tmp_path / "r.sqlite")
    empty = record.path.stat().st_size
    for number in range(60):
        record.attempt("here", "k", number, {"a": "a long answer " * 200})
    record.delete()
    record.close()
    assert record.path.stat().st_size <= max(empty, 32_768)


def test_damaged_file_is_set_aside_not_deleted(tmp_path):
    (tmp_path / "r.sqlite").write_bytes(b"not a record at all " * 400)
    record = Record(tmp_path / "r.sqlite")
    assert "set aside" in record.note
    record.attempt("here", "k", 1, {})
    (aside,) = tmp_path.glob("r-damaged-*")
    assert aside.read_bytes().startswith(b"not a record")


@pytest.mark.parametrize("trouble", ["a file where its folder should be", "a newer record"])
def test_record_that_cannot_be_used_is_left_alone_and_says_so(tmp_path, trouble):
    path = tmp_path / "folder" / "r.sqlite"
    if trouble == "a newer record":
        path.parent.mkdir()
        with sqlite3.connect(path) as newer:
            newer.execute("PRAGMA user_version = 99")
        newer.close()
    else:
        path.parent.write_text("in the way")
    record = Record(path)
    assert "cannot be saved" in record.note
    assert record.attempts() == []
    assert record.attempt("here", "k", 1, {}) == 1
    if trouble == "a newer record":
        with sqlite3.connect(path) as newer:
            assert newer.execute("PRAGMA user_version").fetchone() == (99,)
        newer.close()


# --- last year's record --------------------------------------------------------------------------

FIRST_FORM = """
CREATE TABLE attempts (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    learner TEXT NOT NULL,
    at TEXT NOT NULL,
    place TEXT NOT NULL,
    kind TEXT NOT NULL,
    seed INTEGER NOT NULL,
    answers TEXT NOT NULL,
    hints INTEGER NOT NULL
);
CREATE INDEX attempts_by_place ON attempts (learner, place, id);
CREATE TABLE judgements (
    attempt INTEGER PRIMARY KEY REFERENCES attempts (id) ON DELETE CASCADE,
    outcomes TEXT NOT NULL,
    marks REAL NOT NULL,
    out_of REAL NOT NULL,
    slips TEXT NOT NULL
);
CREATE TABLE notes (
    learner TEXT NOT NULL,
    name TEXT NOT NULL,
    value TEXT NOT NULL,
    PRIMARY KEY (learner, name)
) WITHOUT ROWID;
INSERT INTO attempts VALUES
    (7, 'me', '2025-11-24T18:00:00+00:00', 'bearings/practice', 'bearings.back-bearing', 5,
     '{"magnetic": "042 M"}', 1);
INSERT INTO judgements VALUES (7, '{"magnetic": "wrong"}', 0.0, 1.0, '["variation-sign"]');
INSERT INTO notes VALUES ('me', 'bearings/practice', 'bearings.back-bearing 5');
PRAGMA user_version = 1;
"""


def test_record_of_last_year_opens_and_is_carried_over(tmp_path):
    path = tmp_path / "r.sqlite"
    with closing(sqlite3.connect(path)) as old:
        old.executescript(FIRST_FORM)
    for _ in range(2):  # carried over, then opened as it now is
        record = Record(path)
        assert record.note == ""
        (attempt,) = record.attempts()
        assert (attempt.id, attempt.answers, attempt.slips) == (
            7,
            {"magnetic": "042 M"},
            ("variation-sign",),
        )
        assert attempt.chances is None
        assert attempt.lies is None
        assert record.recall("bearings/practice") == "bearings.back-bearing 5"
        record.close()
    with closing(sqlite3.connect(path)) as file:
        assert file.execute("PRAGMA user_version").fetchone() == (SCHEMA,)
    record = Record(path)
    assert record.attempt("here", "k", 1, {}, chances=("variation-sign",)) == 8
    assert record.attempts("here")[0].chances == ("variation-sign",)


# --- handing over --------------------------------------------------------------------------------


def answered(record, seed, text="042 T"):
    question = make("bearings.true-to-magnetic", seed)
    number = record.attempt("here", question.kind, seed, {"magnetic": text}, 1, ("variation-sign",))
    record.judged(number, mark(question, {"magnetic": text}))


def told(record):
    """Return what is known of each attempt, without its number."""
    return [(a.at, a.seed, a.answers, a.hints, a.outcomes, a.chances) for a in record.attempts()]


def test_answers_of_another_machine_are_taken_in_once(tmp_path):
    here, there = Record(tmp_path / "here.sqlite"), Record(tmp_path / "there.sqlite")
    answered(here, 1)
    answered(there, 2)
    answered(there, 2)  # the same answer again within a second is an attempt of its own
    there.remember("bearings/practice", "bearings.back-bearing 5")
    here.remember("bearings/checkpoint", "12")
    assert here.take_in(there.export()) == 2
    assert here.take_in(there.export()) == 0
    assert there.take_in(here.export()) == 1
    assert sorted(map(repr, told(here))) == sorted(map(repr, told(there)))
    assert len(told(here)) == 3
    assert here.recall("bearings/practice") == "bearings.back-bearing 5"
    assert here.recall("bearings/checkpoint") == "12"
    assert {a.learner for a in here.attempts()} == {"me"}


def test_attempt_not_judged_yet_gets_its_judgement_from_the_other_machine(tmp_path):
    here, there = Record(tmp_path / "here.sqlite"), Record(tmp_path / "there.sqlite")
    question = make("bearings.true-to-magnetic", 1)
    number = there.attempt("here", question.kind, 1, question.answers)
    here.take_in(there.export())
    there.judged(number, mark(question, question.answers))
    assert here.unjudged()
    assert here.take_in(there.export()) == 0
    assert here.unjudged() == []
    assert here.attempts()[0].right


def damaged(**changes):
    """Return an export with something wrong in its second attempt."""
    row = {
        "at": "2026-11-24T18:00:00+00:00",
        "place": "here",
        "kind": "k",
        "seed": 1,
        "answers": {"a": "1"},
        "hints": 0,
        "outcomes": {"a": "right"},
        "marks": 1.0,
        "out_of": 1.0,
        "slips": [],
    }
    return json.dumps({"navlib-record": 1, "attempts": [row, row | changes], "notes": {}})


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "no answers"),
        ("not JSON", "no answers"),
        ("[1, 2]", "no answers"),
        ('{"navlib-record": true, "attempts": []}', "no answers"),
        ('{"navlib-record": 1, "attempts": {}}', "no answers"),
        ('{"navlib-record": 1, "attempts": [], "notes": {"a": 1}}', "no answers"),
        ('{"navlib-record": 99, "attempts": []}', "newer version"),
        ('{"navlib-record": 1, "attempts": [3]}', "Answer 1 .* damaged"),
        (damaged(at="yesterday"), "Answer 2 .* damaged"),
        (damaged(at="2026-11-24T18:00:00"), "Answer 2 .* damaged"),
        (damaged(seed="1; DROP TABLE attempts"), "Answer 2 .* damaged"),
        (damaged(seed=2**70), "Answer 2 .* damaged"),
        (damaged(answers={"a": 1}), "Answer 2 .* damaged"),
        (damaged(outcomes=["right"]), "Answer 2 .* damaged"),
        (damaged(slips="variation-sign"), "Answer 2 .* damaged"),
    ],
)
def test_file_that_is_no_export_is_refused_whole(tmp_path, text, says):
    record = Record(tmp_path / "r.sqlite")
    with pytest.raises(ValueError, match=says):
        record.take_in(text)
    assert record.attempts() == []


def test_export_of_the_first_form_is_taken_in(tmp_path):
    record = Record(tmp_path / "r.sqlite")
    assert record.take_in(damaged()) == 2
    assert [attempt.chances for attempt in record.attempts()] == [None, None]


# --- several learners ----------------------------------------------------------------------------


@pytest.fixture
def machine(tmp_path, monkeypatch):
    monkeypatch.setenv("NAVLIB_RECORD", str(tmp_path / "record.sqlite"))
    return tmp_path


def test_nobody_sees_anothers_answers_without_choosing_their_name(machine):
    assert (learners(), chosen(), Record().path) == ([], "", default_path())
    answered(Record(), 1)
    answered(choose("Skua"), 2)
    open_lesson = Record()
    answered(choose("Tern"), 3)
    assert learners() == ["Skua", "Tern"]
    assert [a.seed for a in Record().attempts()] == [3]
    assert [a.seed for a in open_lesson.attempts()] == [2]  # a lesson stays with its learner
    assert [a.seed for a in choose("Skua").attempts()] == [2]
    assert chosen() == Record().name == "Skua"
    assert [a.seed for a in choose("").attempts()] == [1]
    assert (chosen(), Record().path) == ("", default_path())


def test_a_name_is_the_same_learner_however_it_is_typed(machine):
    first = choose("  Åse   Holm ")
    assert first.name == "Åse Holm"
    again = choose("a\N{COMBINING RING ABOVE}SE holm")
    assert again.path == first.path
    assert learners() == [chosen()] == ["Åse Holm"]


@pytest.mark.parametrize(
    "name",
    [
        "../../somewhere",
        "C:\\temp\\x",
        "con",
        "a/b",
        "*?<>|",
        "名前",
        "🛶",
        ". .",
        "it's",
        "-rf",
        "e" * 60,
        "tab\there",
        "nul\0l",
    ],
)
def test_any_name_gives_a_safe_file_of_its_own(machine, name):
    record = choose(name)
    assert record.note == ""
    assert record.path.parent == path_of("x").parent
    assert record.path.name.isascii()
    assert len(record.path.name) < 64
    assert not set(record.path.name) - set("abcdefghijklmnopqrstuvwxyz0123456789-.")
    assert record.path != choose("another").path
    assert record.name in learners()


def test_too_long_a_name_is_refused_in_words(machine):
    with pytest.raises(ValueError, match="at most 60"):
        choose("e" * 61)


def test_deleting_answers_keeps_the_name_and_forgetting_takes_it_too(machine):
    answered(choose("Skua"), 2)
    assert Record().delete() == 1
    assert learners() == ["Skua"]
    answered(Record(), 2)
    answered(choose("Tern"), 3)
    assert forget("skua") == 1
    assert (learners(), chosen()) == (["Tern"], "Tern")
    assert not path_of("Skua").exists()
    assert forget("Tern") == 1
    assert (learners(), chosen()) == ([], "")
    assert forget("nobody") == 0


def test_damaged_record_of_a_learner_is_set_aside_and_the_learner_stays(machine):
    skua = choose("Skua")
    answered(skua, 2)
    skua.close()
    path_of("Skua").write_bytes(b"not a record at all " * 400)
    assert "set aside" in Record().note
    assert learners() == ["Skua"]


def test_choice_that_cannot_be_kept_still_gives_a_record_and_says_so(machine):
    path_of("Skua").parent.write_text("in the way")
    record = choose("Skua")
    assert "cannot be saved" in record.note
    assert record.attempt("here", "k", 1, {}) == 1
    assert learners() == []
