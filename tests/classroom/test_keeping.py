"""The class record: attendance, standing and slips as they follow from what was handed in."""

import io
import json
import random
from datetime import date, timedelta
from pathlib import Path

import pandas
import pdfplumber
import pytest
from evening import KIND, Learner, learners, own_question, slipped

from navlib.classroom.filed import Filed
from navlib.classroom.keep_form import KeepForm
from navlib.classroom.keeping import ClassRecord, class_record, kinds_with
from navlib.classroom.opening import proposals
from navlib.classroom.record_out import csv_text, record_pdf
from navlib.classroom.refusals import Missing

SLIP = "variation-sign"
FIRST, SECOND = 271_828, 314_159


@pytest.fixture
def classes(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Filed:
    """Two evenings of three learners; the third stays away from the second.

    Ina makes a slip and mends it at once, Oskar makes it on both evenings, Mira is right.
    """
    monkeypatch.setenv("NAVLIB_CLASSES", str(tmp_path / "classes"))
    classes = Filed(tmp_path / "classes")
    for number, there in ((FIRST, 3), (SECOND, 2)):
        session = int(classes.begin("An evening", number)["id"])
        classes.ask(session, KIND, open=True)
        present = learners(classes, session, tmp_path / str(number), there)
        for seat, learner in enumerate(present, 1):
            question = own_question(number, 1, seat)
            if seat == 2 or (seat, number) == (1, FIRST):
                learner.hand_in(1, slipped(question, SLIP))
            if seat != 2:
                learner.hand_in(1, dict(question.answers))
        classes.look()
        classes.change(session, ended=True)
    return classes


def kept(classes: Filed) -> ClassRecord:
    return class_record(classes.record(row["id"]) for row in classes.sessions())


def test_standing_counts_first_and_last_answers(classes: Filed):
    record = kept(classes)
    standing = {
        one.shown: (len(one.sessions), tally.asked, tally.first, tally.last)
        for one in record.learners
        for tally in [one.topics["bearings"]]
    }
    # By hand: Ina is mended on the first evening and right on the second; Oskar never is.
    assert standing == {
        "Ina Skarp": (2, 2, 1, 2),
        "Oskar Lund": (2, 2, 0, 0),
        "Mira Holt": (1, 1, 1, 1),
    }
    whole = record.topics["bearings"]
    assert (whole.asked, whole.first, whole.last) == (5, 2, 3)
    assert [evening.there for evening in record.evenings] == [3, 2]
    (slip,) = record.slips
    assert (slip.name, slip.told, slip.learners, slip.alive) == (SLIP, 3, 2, 1)


def test_the_order_of_the_sessions_does_not_matter(classes: Filed):
    records = [classes.record(row["id"]) for row in classes.sessions()]
    expected = class_record(records)
    random.Random(5).shuffle(records)
    assert class_record(records) == expected == class_record(reversed(records))


def test_the_next_session_opens_with_what_lives_on(classes: Filed):
    record = kept(classes)
    slip, topic, away = proposals(record, date.today())
    assert slip["says"].startswith("One learner put the variation on the wrong way")
    assert slip["kind"] in kinds_with(SLIP)
    assert "3 of 5" in topic["says"]
    assert (away["says"], away["named"]) == ("Not there the last time: Mira Holt.", True)
    later = proposals(record, date.today() + timedelta(days=30))
    assert any("was asked last on" in one["says"] for one in later)
    assert proposals(class_record([]), date.today()) == []


def test_a_spreadsheet_reads_the_same_and_runs_nothing(classes: Filed, tmp_path: Path):
    session = int(classes.begin("=1+2", 99)["id"])
    classes.ask(session, KIND, open=True)
    hostile = Learner(classes.offer(session), "=cmd|' /C calc'!A0", 1, tmp_path / "hostile")
    hostile.hand_in(1, dict(own_question(99, 1, 1).answers))
    table = pandas.read_csv(io.StringIO(csv_text(kept(classes))), index_col="name")
    ina = table.loc["Ina Skarp"]
    assert list(ina.filter(like="bearings")) == [2, 1, 2]
    assert table.loc["Oskar Lund", "slips alive"] == SLIP
    text = csv_text(kept(classes))
    assert all(
        not cell.startswith(("=", '"=')) for line in text.splitlines() for cell in line.split(",")
    )


def test_the_printed_record_names_learners_only_when_asked_to(classes: Filed):
    def words(names: bool) -> str:
        with pdfplumber.open(
            io.BytesIO(record_pdf(kept(classes), date(2026, 11, 26), names))
        ) as pdf:
            return "\n".join(page.extract_text() for page in pdf.pages)

    assert "Oskar Lund" in words(names=True)
    assert "Not there the last time: Mira Holt." in words(names=True)
    assert "Learner 2" in words(names=False)
    assert not any(name in words(names=False) for name in ("Ina", "Oskar", "Mira"))


def test_a_learner_is_exported_whole_and_deleted_whole(classes: Filed):
    form = KeepForm()
    told = form.do("data", {"name": "oskar-lund"}, lambda *_: None)
    sessions = json.loads(told["data"])["sessions"]
    assert [len(one["answers"]) for one in sessions] == [1, 1]
    with pytest.raises(ValueError, match="write that name"):
        form.do("forget", {"name": "oskar-lund", "written": "Oskar"}, lambda *_: None)
    form.do("forget", {"name": "oskar-lund", "written": "oskar lund"}, lambda *_: None)
    assert "Oskar" not in json.dumps(form.face())
    left = [path.read_bytes() for path in classes.folder.rglob("*.json")]
    assert not [content for content in left if b"Oskar" in content]


def test_what_retention_would_delete_is_told_first(classes: Filed):
    form = KeepForm()
    told = form.do("keep", {"days": "0", "sure": False}, lambda *_: None)["says"]
    assert told.startswith("2 sessions would be deleted")
    assert len(form.face()["sessions"]) == 2
    form.do("keep", {"days": "0", "sure": True}, lambda *_: None)
    assert form.face()["sessions"] == []
    assert form.face()["days"] == 0
    with pytest.raises(ValueError, match="such as 365, or nothing to keep all; not “soon”"):
        form.do("keep", {"days": "soon"}, lambda *_: None)


def test_a_deletion_that_was_cut_short_can_be_asked_for_again(classes: Filed):
    classes.class_list.forget("oskar-lund")  # here the power went off
    with pytest.raises(Missing):
        classes.forget("oskar-lund")
    assert "oskar-lund" not in json.dumps([classes.record(n["id"]) for n in classes.sessions()])


def test_what_was_deleted_is_not_left_in_the_file_of_the_database(classes: Filed):
    classes.forget("oskar-lund")
    classes.store.database.close()  # which empties the log of writes into the file
    left = [path.read_bytes() for path in classes.folder.rglob("*") if path.is_file()]
    assert not [content for content in left if b"oskar-lund" in content or b"Oskar" in content]
