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
from navlib.record import Record

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
