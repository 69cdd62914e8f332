"""A sitting's folder: nothing entered is lost, nobody's key lies about, and tables come back whole."""

import csv
import io
import json
import os
import signal
import stat
import subprocess
import sys
import time
from itertools import combinations

import papers_by_hand as by_hand
import pdfplumber
import pikepdf
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from navlib.paper import entries, reading
from navlib.paper.awards import labels
from navlib.paper.entries import Entry
from navlib.paper.folder import read_secret
from navlib.paper.form_reader import columns
from navlib.paper.forms import take_in, write_form
from navlib.paper.printed import paper_pdf
from navlib.paper.sitting import Sitting

KINDS = ("bearings.back-bearing", "variation.compass-error", "speed.time", "tides.over-the-bank")
PLAN = by_hand.blueprint(KINDS)
PAPERS = by_hand.papers(4, PLAN)
FIRST = PAPERS[0].code


@pytest.fixture
def sitting(tmp_path):
    return Sitting.new(tmp_path / "spring", PLAN, 4, by_hand.SECRET, papers=PAPERS)


def right(paper):
    return {
        label: item.question.answers[name]
        for item in paper.items
        for label, name in labels(item).items()
    }


def test_a_sitting_is_read_back_as_it_was_made(sitting):
    again = Sitting(sitting.path, PAPERS)
    assert again.plan == sitting.plan
    assert again.plan.blueprint == PLAN
    assert list(again.papers) == list(again.plan.codes.values())
    with pytest.raises(FileExistsError, match="Choose another folder"):
        Sitting.new(sitting.path, PLAN, 4, papers=PAPERS)
    with pytest.raises(ValueError, match="no sitting in"):
        Sitting(sitting.path / "papers")


def test_the_secret_is_the_coachs_alone(sitting):
    secret = sitting.path / "secret"
    if os.name == "posix":
        assert stat.S_IMODE(secret.stat().st_mode) == 0o600
    known = (by_hand.SECRET, by_hand.SECRET.hex().encode())
    for path in sitting.path.rglob("*"):
        if path.is_file() and path != secret:
            assert not any(key in path.read_bytes() for key in known), path
    kept = secret.read_text()
    others = (*PAPERS[:3], by_hand.papers(4, PLAN, first_seed=9)[3])
    with pytest.raises(ValueError, match="not that of this sitting"):
        Sitting(sitting.path, others).make_papers()
    secret.write_text("00ff")
    with pytest.raises(ValueError, match="not that of this sitting"):
        Sitting(sitting.path, PAPERS).make_papers()
    for lost in (lambda: secret.write_text("no hex"), secret.unlink):
        lost()
        with pytest.raises(ValueError, match="“secret” is not in"):
            Sitting(sitting.path).make_papers()
    secret.write_text(kept)


def test_papers_are_made_again_from_the_secret_and_resits_have_others(tmp_path):
    plan = reading.read("warm-up")
    first = Sitting.new(tmp_path / "first", plan, 3, b"a secret of 16 b")
    again = Sitting(tmp_path / "first")
    assert again.papers == first.papers
    assert reading.parse((first.path / "blueprint.yaml").read_text(), plan.name) == plan
    secret = read_secret(first.path)
    follows = [("first", 3)]
    resit = Sitting.new(tmp_path / "resit", plan, 2, secret, "resit", follows=follows)
    follows += [("resit", 2)]
    third = Sitting.new(tmp_path / "third", plan, 1, secret, "third", follows=follows)
    assert Sitting(third.path).papers == third.papers
    sittings = (first, resit, third)
    assert len({code for sitting in sittings for code in sitting.papers}) == 6
    for one, other in combinations(map(asked, sittings), 2):
        assert not one & other


def test_a_sitting_keeps_its_kinds_and_a_changed_workbook_says_so(tmp_path):
    """A row by level is kept as the kinds it had; other questions than were printed mark nothing."""
    text = reading.write(reading.read("warm-up")).replace(
        "kinds:\n  - distance.to-miles", "level: 1"
    )
    plan = reading.parse(text, "by-level")
    assert len(plan.rows[2].kinds) > 1
    Sitting.new(tmp_path / "s", plan, 1, b"a secret of 16 b")
    file = tmp_path / "s" / "sitting.json"
    whole = json.loads(file.read_text(encoding="utf-8"))
    assert tuple(whole["blueprint"]["rows"][2]["kinds"]) == plan.rows[2].kinds
    ((code, _),) = whole["seals"].items()
    file.write_text(json.dumps({**whole, "seals": {code: "0" * 16}}), encoding="utf-8")
    with pytest.raises(ValueError, match=f"other questions now than on {whole['made'][:10]}"):
        Sitting(tmp_path / "s").make_papers()


def asked(sitting):
    return {
        (item.number, item.question.text)
        for paper in sitting.papers.values()
        for item in paper.items
    }


def test_what_candidates_get_holds_no_key_and_no_way_to_it(tmp_path):
    sitting = Sitting.new(tmp_path / "first", reading.read("warm-up"), 1)
    (paper,) = sitting.papers.values()
    printed = sitting.path / "papers" / "01.pdf"
    printed.write_bytes(paper_pdf(paper, number="01"))
    with pikepdf.open(printed) as pdf:
        streams = [o.read_bytes() for o in pdf.objects if isinstance(o, pikepdf.Stream)]
    with pdfplumber.open(printed) as pdf:
        words = " ".join(page.extract_text() for page in pdf.pages)
    secret = read_secret(sitting.path)
    for key in (secret, secret.hex().encode(), *(s.encode() for s in sitting.plan.seals.values())):
        assert not any(key in stream for stream in (printed.read_bytes(), *streams))
    asked = " ".join(item.question.text for item in paper.items)
    for item in paper.items:
        for answer in item.question.answers.values():
            assert answer not in words or answer in asked


def test_corrections_come_later_and_the_history_is_kept(sitting):
    sitting.enter("7", FIRST.lower().replace("-", " "), {"1a": "O48 M", "3": "1 h"}, "AB", {1: 2})
    sitting.enter("07", FIRST, {"1A ": "048 M"}, "AB", name="Ann Other")
    stands = Sitting(sitting.path, PAPERS).entered()["07"]
    assert stands.answers == {"1a": "048 M", "3": "1 h"}
    assert (stands.code, stands.name, stands.working) == (FIRST, "Ann Other", {"1": 2.0})
    assert [e.answers.get("1a") for e in sitting.history()] == ["O48 M", "048 M"]
    assert all(entry.at for entry in sitting.history())


@pytest.mark.parametrize(
    ("code", "answers", "working", "says"),
    [
        (FIRST[:-1] + ("2" if FIRST[-1] != "2" else "3"), {}, {}, f"Is it {FIRST}"),
        (by_hand.papers(1, PLAN, 90)[0].code, {}, {}, "of another sitting"),
        (FIRST, {"1c": "042"}, {}, "no part “1c”; it has 1a, 1b, 2a"),
        (FIRST, {"1a": "0" * 501}, {}, "501 characters"),
        (FIRST, {}, {1: 2.5}, "2.5 marks were given; it has 0 to 2, in halves"),
        (FIRST, {}, {1: float("nan")}, "in halves"),
        (FIRST, {}, {9: 1}, "no question 9"),
    ],
)
def test_what_cannot_be_is_refused_in_plain_words(sitting, code, answers, working, says):
    with pytest.raises(ValueError, match=says):
        sitting.enter("07", code, answers, "AB", working)
    assert sitting.history() == []


def test_a_person_overrules_with_a_reason(sitting):
    sitting.enter("07", FIRST, right(PAPERS[0]), "AB")
    assert sitting.script("07").total == 24
    for reason in ("", "  "):
        with pytest.raises(ValueError, match="Give the reason"):
            sitting.overrule("07", 1, 3, reason, "AB")
    with pytest.raises(ValueError, match="0 to 6, in halves"):
        sitting.overrule("07", 1, 7, "generous", "AB")
    with pytest.raises(ValueError, match="Nothing has been entered for candidate 08"):
        sitting.overrule("08", 1, 2, "seen", "AB")
    sitting.overrule("07", 1, 2.5, "no line on the sheet", "CD")
    found = Sitting(sitting.path, PAPERS).script("07")
    assert found.total == 20.5
    assert (found.items[0].overruled.reason, found.items[0].overruled.marker) == (
        "no line on the sheet",
        "CD",
    )
    sitting.overrule("07", 1, None, "the line was on sheet 2", "CD")
    assert sitting.script("07").total == 24
    assert len(sitting.history()) == 3


def test_two_markers_are_kept_apart_and_compared(sitting):
    good = right(PAPERS[0])
    sitting.enter("07", FIRST, good, "AB")
    sitting.enter("07", FIRST, {**good, "1a": good["1a"].lower()}, "CD")
    (same,) = sitting.differences()
    assert (same.places, same.discuss) == ((), False)
    sitting.enter("07", FIRST, {"3": "9 min"}, "CD")
    (differ,) = sitting.differences()
    assert [place.label for place in differ.places] == ["3", "3 working"]
    assert (differ.places[0].second, differ.by, differ.discuss) == ("9 min", -6, True)
    assert "AB gives 24, CD gives 18. That is more than 3 marks apart: discuss it" in differ.says
    sitting.overrule("07", 3, 3, "the working is there", "CD")
    (near,) = sitting.differences()
    assert (near.by, near.discuss) == (-3, False)
    assert sitting.markers() == ("AB", "CD")
    # The first marker's entries count; what anyone overruled counts for all.
    assert (sitting.script("07").total, sitting.script("07", "AB").total) == (21, 24)


WRITER = """
import sys
from pathlib import Path
from navlib.paper.entries import Entry, append
for number in range(int(sys.argv[2])):
    append(Path(sys.argv[1]), Entry(sys.argv[3], "C", "AB", {"1": "x" * 300 + str(number)}))
    print(number, flush=True)
"""


def writer(path, count, who):
    return subprocess.Popen(
        [sys.executable, "-c", WRITER, str(path), str(count), who],
        stdout=subprocess.PIPE,
        text=True,
    )


def test_two_programs_may_enter_at_once(tmp_path):
    path = tmp_path / "entries.jsonl"
    for program in [writer(path, 60, who) for who in ("01", "02")]:
        program.communicate(timeout=60)
        assert program.returncode == 0
    lines, damaged = entries.read(path)
    assert damaged == []
    for who in ("01", "02"):
        told = [line.answers["1"] for line in lines if line.candidate == who]
        assert told == ["x" * 300 + str(number) for number in range(60)]


def test_what_was_entered_before_the_machine_died_is_there(tmp_path):
    path = tmp_path / "entries.jsonl"
    for wait in (0.02, 0.05):
        program = writer(path, 100_000, "01")
        program.stdout.readline()
        time.sleep(wait)
        os.kill(program.pid, getattr(signal, "SIGKILL", signal.SIGTERM))
        told = program.communicate(timeout=60)[0].split()
        lines, damaged = entries.read(path)
        assert len(damaged) <= 1
        last = int(told[-1]) if told else 0
        assert ("x" * 300 + str(last)) in {line.answers["1"] for line in lines}


def test_a_line_that_was_cut_off_is_told_and_the_next_one_is_whole(sitting):
    sitting.enter("07", FIRST, {"3": "1 h"}, "AB")
    path = sitting.path / "marks" / "entries.jsonl"
    whole = path.read_bytes()
    path.write_bytes(whole + whole[: len(whole) // 2])
    assert len(sitting.history()) == 1
    assert sitting.damaged[0].line == 2
    sitting.enter("08", PAPERS[1].code, {"3": "2 h"}, "AB")
    assert [entry.candidate for entry in sitting.history()] == ["07", "08"]
    assert sitting.damaged[0].text in whole.decode()


@given(st.text(max_size=40), st.dictionaries(st.text(max_size=5), st.text(max_size=40), max_size=3))
@settings(max_examples=30, deadline=None)
def test_whatever_is_written_comes_back_letter_for_letter(tmp_path_factory, name, answers):
    path = tmp_path_factory.mktemp("lines") / "entries.jsonl"
    entry = entries.append(path, Entry("07", "C", "AB", answers, {}, name))
    assert entries.read(path) == ([entry], [])


def test_entries_of_a_newer_workbook_are_not_guessed_at(sitting):
    path = sitting.path / "marks" / "entries.jsonl"
    path.write_text(json.dumps({"form": 2, "sort": "entry"}) + "\n")
    with pytest.raises(ValueError, match="update this one"):
        sitting.history()


# The table for spreadsheets


def filled(sitting, change=None):
    """Return a sitting's table with right answers in it, but as `change` says by row and label."""
    rows = list(csv.reader(io.StringIO(write_form(sitting).removeprefix("\ufeff"))))
    for number, (row, paper) in enumerate(zip(rows[1:], PAPERS, strict=True), 2):
        for label, text in right(paper).items():
            row[rows[0].index(label)] = text
        for (at, label), text in (change or {}).items():
            if at == number:
                row[rows[0].index(label)] = text
    return rows


def as_bytes(rows, separator=",", encoding="utf-8-sig", line="\r\n"):
    out = io.StringIO()
    csv.writer(out, delimiter=separator, lineterminator=line).writerows(rows)
    return out.getvalue().encode(encoding)


def told(remarks):
    return " | ".join(map(str, remarks))


def test_the_table_has_a_row_a_paper_and_comes_back_as_it_was_entered(sitting):
    heads = "candidate,name,paper,1a,1b,1 working,2a,2b,2 working,3,3 working,4a,4b,4 working"
    text = write_form(sitting)
    assert text.startswith("\ufeff" + heads + "\r\n01,,")
    names = [
        "=HYPERLINK(A1)",
        "+1",
        "-",
        "@x",
        "'=quoted",
        "'tis",
        "#import(x) *bold*",
        'a "b", c; d',
    ]
    for name, paper in zip(names, [*PAPERS, *PAPERS], strict=True):
        number = f"{names.index(name) + 1:02}"
        sitting.enter(number, paper.code, {**right(paper), "3": name}, "AB", {1: 1.5}, name)
    text = write_form(sitting, "AB")
    assert not any(
        cell[:1] in "=+-@" for row in csv.reader(io.StringIO(text)) for cell in row if cell
    )
    form = take_in(sitting, text.encode(), "AB")
    assert (form.problems, form.taken, form.unchanged) == ((), 0, len(names))
    other = take_in(sitting, text.encode(), "CD")
    assert other.taken == len(names)
    both = [sitting.entered(marker).values() for marker in ("AB", "CD")]
    for one, two in zip(*both, strict=True):
        assert (one.answers, one.working, one.name) == (two.answers, two.working, two.name)


@pytest.mark.parametrize("separator", [",", ";", "\t"])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "cp1252", "utf-16", "utf-16-le"])
@pytest.mark.parametrize("line", ["\n", "\r\n", "\r"])
def test_as_spreadsheets_save_it(sitting, separator, encoding, line):
    rows = [
        row[::-1] for row in filled(sitting, {(2, "name"): "Renée Ørsted", (2, "1 working"): "1½"})
    ]
    rows[0] = [head.upper() for head in rows[0]]
    form = take_in(sitting, as_bytes(rows, separator, encoding, line), "AB")
    assert (form.problems, form.taken) == ((), 4)
    assert sitting.entered()["01"].name == "Renée Ørsted"
    assert sitting.entered()["01"].working == {"1": 1.5}
    assert [script.total for script in sitting.scripts()] == [23.5, 24, 24, 24]
    assert bool(form.notes) == (encoding == "cp1252")


def test_every_mistake_is_told_by_row_and_column_at_once_and_good_rows_are_taken(sitting):
    change = {
        (2, "paper"): FIRST[:-2] + "22",
        (2, "1a"): "4-May",
        (3, "2 working"): "3",
        (3, "3"): "x" * 10_000,
        (3, "4a"): "2\0m",
        (5, "1b"): "#NAME?",
    }
    data = as_bytes(filled(sitting, change))
    form = take_in(sitting, data, "AB")
    says = told(form.problems)
    for part in (
        f"Row 2, column C “paper”: “{FIRST[:-2]}22” is no paper of this sitting.",
        f"Is it {FIRST}?",
        "Row 3, column I “2 working”: Working of question 2: 3 marks were given",
        "Row 3, column J “3”: “xxxx",
        "has 10,000 characters; an answer has at most 500",
        "Row 3, column L “4a”: “2 m” holds a character that cannot be seen (NUL)",
        "Row 5, column E “1b”: “#NAME?” is a spreadsheet's sign of failure",
    ):
        assert part in says
    assert (form.taken, form.aside, list(sitting.entered())) == (1, (2, 3, 5), ["03"])
    aside = list(csv.reader(io.StringIO(form.kept.read_text("utf-8-sig"))))
    assert aside[0][:3] == ["row", "problem", "candidate"]
    assert [row[0] for row in aside[1:]] == ["2", "3", "5"]
    assert "sign of failure" in aside[3][1]
    assert "x" * 10_000 in aside[2]
    given = next(form.kept.parent.glob("*-as-given.csv"))
    assert given.read_bytes() == data


def test_rows_put_aside_can_be_mended_and_taken_in(sitting):
    form = take_in(sitting, as_bytes(filled(sitting, {(4, "1a"): "2026-05-04"})), "AB")
    rows = list(csv.reader(io.StringIO(form.kept.read_text("utf-8-sig"))))
    assert "is a date" in rows[1][1]
    rows[1][rows[0].index("1a")] = right(PAPERS[2])["1a"]
    again = take_in(sitting, as_bytes(rows), "AB")
    assert (again.problems, again.taken) == ((), 1)
    assert [script.total for script in sitting.scripts()] == [24] * 4


def test_doubled_and_missing_rows(sitting):
    rows = filled(sitting, {(3, "candidate"): "1"})
    rows[4][3:] = [""] * len(rows[4][3:])
    form = take_in(sitting, as_bytes(rows[:3] + rows[4:]), "AB")
    assert form.taken == 0
    assert "Row 2, column A “candidate”: Candidate 01 stands in row 3 too" in told(form.problems)
    assert f"There is no row for paper {PAPERS[2].code} (candidate 03)" in told(form.notes)
    assert "Row 4: Nothing is entered for candidate 04" in told(form.notes)


def test_columns_that_are_unknown_missing_or_there_twice(sitting):
    rows = filled(sitting)
    rows[0][rows[0].index("2b")] = "2d"
    form = take_in(sitting, as_bytes(rows), "AB")
    assert "column H “2d”: No question has this label. Is it 2b?" in told(form.problems)
    assert form.taken == 0
    remarks = [
        [*row, text]
        for row, text in zip(filled(sitting), ["remarks", "", "fell ill", "", ""], strict=True)
    ]
    form = take_in(sitting, as_bytes(remarks), "AB")
    assert (form.taken, "“remarks”" in told(form.notes)) == (4, True)
    rows[0][rows[0].index("2d")] = "2a"
    assert "there twice" in told(take_in(sitting, as_bytes(rows), "AB").problems)
    headless = take_in(sitting, as_bytes(rows[1:]), "AB")
    assert "“candidate” and “paper” is not among them" in told(headless.problems)
    assert headless.aside == (2, 3, 4)


def test_noughts_that_a_spreadsheet_dropped_are_told_kindly(sitting):
    form = take_in(sitting, as_bytes(filled(sitting, {(2, "1a"): "2"})), "AB")
    assert form.problems == ()
    assert "Row 2, column D “1a”: “2” is read as 002. A spreadsheet drops noughts" in told(
        form.notes
    )


@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"\0" * 50,
        b"\xff\xfe",
        b'"',
        b'candidate,paper,1a\r\n"07,' + b"x" * 200_000,
        b"PK\x03\x04\xff",
    ],
)
def test_what_is_no_table_is_told_and_nothing_is_taken(sitting, data):
    form = take_in(sitting, data, "AB")
    assert form.taken == 0
    assert form.problems
    assert form.kept.exists()


@given(st.binary(max_size=200), st.text(max_size=60))
@settings(max_examples=40, deadline=None)
def test_no_table_makes_it_fall(tmp_path_factory, data, text):
    sitting = Sitting.new(tmp_path_factory.mktemp("s"), PLAN, 4, b"x", papers=PAPERS)
    head = ",".join(columns(sitting)).encode()
    take_in(sitting, data, "AB")
    take_in(sitting, head + b"\n" + f"07,{text},{FIRST},{text}".encode(errors="ignore"), "AB")
