"""A blueprint file: every mistake named by its line, read back as it was written, reckoned up."""

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from navlib import questions
from navlib.paper.blueprint import Blueprint, Row, SheetWanted
from navlib.paper.planning import plan
from navlib.paper.reading import FOLDER, BlueprintError, parse, read, ready_made, write

GOOD = """\
title: Bearings
minutes: 20
pass mark: 3
days: {from: 2027-06-01, to: 2027-06-30}
instruments: [pencil, protractor]
sheets:
  - water: kessoray
    sheet: land map
    scale: "1:50 000"
    paper: a4
questions:
  - topic: bearings
    kinds: [measure]
    marks: 4
    minutes: 5
  - topic: tides
    level: 1
    marks: 3
    working: 1
    minutes: 5
"""

MISTAKES = [
    ("kinds: [measure]", "kinds: [bearings.mesure]", 13, "no kind “bearings.mesure”; did you mean"),
    ("kinds: [measure]", "kinds: [tides.range]", 13, "“tides.range” is not on the topic bearings"),
    ("kinds: [measure]", "kinds: [measure, back-bearing]", 13, "keeps to one level"),
    ("kinds: [measure]", "kinds: [measure, measure]", 13, "named twice"),
    ("kinds: [measure]", "level: 4", 13, "no level “4”. There are: 1, 2, 3"),
    ("kinds: [measure]", "colour: red", 13, "has no “colour”"),
    ("topic: tides", "topic: tide", 16, "no topic “tide”; did you mean “tides”?"),
    ("level: 1", "sheet: none", 16, "either “kinds:” or “level:”"),
    ("working: 1", "working: 4", 19, "from 0 to 3, the marks of it, not “4”"),
    ("marks: 4", "marks: four", 14, "“marks” is a whole number from 1 to 100, not “four”"),
    ("marks: 4", "marks: [4]", 14, "not “a list”"),
    ("minutes: 20", "minutes: .inf", 2, "from 1 to 480"),
    ("pass mark: 3", "pass mark: 8", 3, "from 0 to 7, all marks of the paper"),
    ("title: Bearings", "title: ' '", 1, "“title” needs some words"),
    ("title: Bearings\n", "", 1, "needs “title:”"),
    ("minutes: 20", "minutes: 20\nminutes: 30", 3, "“minutes” stands here a second time"),
    ("from: 2027-06-01", "from: June", 4, "a day such as 2027-06-21, not “June”"),
    ("from: 2027-06-01", "from: 2031-06-01", 4, "reckoned from 2025-01-01 to 2029-12-31"),
    ("to: 2027-06-30", "to: 2027-05-30", 4, "end on 2027-05-30, before they begin"),
    ("water: kessoray", "water: kesoray", 7, "did you mean “kessoray”?"),
    ("sheet: land map", "sheet: map", 8, "There are: land map, sea chart"),
    ('"1:50 000"', "30000", 9, "no scale “30000”"),
    ("paper: a4", "paper: letter", 10, "There are: A4, A3"),
    ("questions:\n", "questions: none\nothers:\n", 11, "is a list"),
    ("title: Bearings", "title: Bearings: all", 1, "quotation marks"),
    ("    sheet:", "\tsheet:", 8, "there is a tab. Indent with spaces"),
]


@pytest.mark.parametrize(("right", "wrong", "line", "says"), MISTAKES, ids=[m[3] for m in MISTAKES])
def test_a_mistake_is_told_with_its_line(right, wrong, line, says):
    assert right in GOOD
    with pytest.raises(BlueprintError) as told:
        parse(GOOD.replace(right, wrong, 1), "mine")
    assert (line, True) in [(p.line, says in p.sentence) for p in told.value.problems], told.value
    assert f"line {line}: " in str(told.value)


def test_all_mistakes_are_told_at_once():
    text = GOOD.replace("[measure]", "[mesure]").replace("A4", "A5").replace("a4", "a5")
    with pytest.raises(BlueprintError) as told:
        parse(text.replace("working: 1", "working: 9"), "mine")
    assert [problem.line for problem in told.value.problems] == [10, 13, 19]


def test_what_a_person_writes_is_read():
    made = parse(GOOD, "mine")
    assert made.sheets == (SheetWanted("kessoray", "land map", 50_000, "A4"),)
    assert made.rows[0] == Row(1, "bearings", ("bearings.measure",), 4, 0, 5.0)
    assert "tides.range" in made.rows[1].kinds
    assert made.rows[1].working == 1
    assert (made.notation, made.marks, made.first) == (1, 7, date(2027, 6, 1))


@pytest.mark.parametrize(
    "text",
    [
        "",
        "- a list",
        "just words",
        "a: &a [*a]",
        "? {a: b}\n: c",
        "title: !!python/object/apply:os.system ['true']",
        "\0",
        "questions: [[[]]]\n" + "x: " + "[" * 700,
        "a: &a [1,1]\nb: &b [*a,*a]\nquestions: [*b,*b]",
        "x" * 200_000,
    ],
)
def test_no_file_does_more_than_be_refused(text):
    with pytest.raises(BlueprintError) as told:
        parse(text, "mine")
    assert all(problem.line >= 1 and problem.sentence for problem in told.value.problems)


def test_a_file_in_another_encoding_or_none_at_all(tmp_path):
    file = tmp_path / "mine.yaml"
    file.write_bytes("title: a\nwords: {note: pÿ}\n".encode("latin-1"))
    with pytest.raises(BlueprintError, match=r"line 2: .*UTF-8"):
        read(file)
    with pytest.raises(FileNotFoundError, match="did you mean “chart-work”"):
        read("chart-wrok")


def test_a_question_can_be_held_to_a_sheet():
    by_level = "- topic: position\n    level: 2\n    marks: 3\n    minutes: 2\n    sheet: "
    text = GOOD[: GOOD.index("- topic: bearings")]
    charts = parse(text + by_level + "sea chart\n", "mine").rows[0].kinds
    read_off = {"position.find-the-position", "position.at-the-border"}
    assert set(charts) == read_off | {"position.plot-position", "position.plot-report"}
    assert not set(parse(text + by_level + "none\n", "mine").rows[0].kinds) & set(charts)


# There and back ---------------------------------------------------------------------------------

WORDS = st.text(min_size=1, max_size=40).filter(str.strip)
BY_LEVEL = {}
for _kind in questions.kinds():
    _type = questions.question_type(_kind)
    BY_LEVEL.setdefault((_type.topic, _type.level), []).append(_kind)


@st.composite
def rows(draw, number=1):
    topic, level = draw(st.sampled_from(sorted(BY_LEVEL)))
    kinds = draw(st.lists(st.sampled_from(BY_LEVEL[topic, level]), min_size=1, unique=True))
    marks = draw(st.integers(1, 20))
    minutes = draw(st.integers(1, 80)) / 2
    return Row(number, topic, tuple(kinds), marks, draw(st.integers(0, marks)), minutes)


@st.composite
def blueprints(draw):
    asked = tuple(
        replace(row, number=k) for k, row in enumerate(draw(st.lists(rows(), min_size=1)), 1)
    )[:30]
    marks = sum(row.marks for row in asked)
    days = sorted(draw(st.lists(st.dates(date(2025, 1, 1), date(2029, 12, 31)), min_size=2)))
    sheets = [("land map", 25_000), ("land map", 50_000), ("sea chart", 25_000)]
    wanted = st.builds(
        lambda water, sheet, paper: SheetWanted(water, *sheet, paper),
        *(st.sampled_from(("kessoray", "orrimer")), st.sampled_from(sheets)),
        st.sampled_from(("A4", "A3")),
    )
    return Blueprint(
        "mine",
        draw(WORDS),
        draw(st.integers(1, 480)),
        draw(st.integers(0, marks)),
        draw(st.integers(0, marks)),
        days[0],
        days[-1],
        tuple(draw(st.lists(wanted, max_size=4))),
        tuple(draw(st.lists(WORDS, max_size=5))),
        asked,
        draw(st.dictionaries(WORDS, WORDS, max_size=3)),
    )


@settings(max_examples=40, deadline=None)
@given(blueprints())
def test_what_is_written_reads_back_equal(blueprint):
    assert parse(write(blueprint), "mine") == blueprint


# Ready made -------------------------------------------------------------------------------------


def test_the_ready_made_ones_are_whole():
    assert len(ready_made()) >= 6
    for name in ready_made():
        made = read(name)
        assert made == read(FOLDER / f"{name}.yaml") == parse(write(made), name)
        reckoned = plan(made)
        assert not reckoned.missing, reckoned.missing
        assert reckoned.expected <= made.minutes
        assert sum(row.minutes for row in made.rows) <= made.minutes


def test_the_whole_coast_paper_is_the_model_paper():
    """60 marks in 90 minutes, 42 to pass, about 17 % level 1, half or less level 2: our own model."""
    made = read("whole-coast")
    assert (made.marks, made.minutes, made.pass_mark) == (60, 90, 42)
    levels = {share.name: share.marks for share in plan(made).levels}
    assert levels["level 1"] == pytest.approx(0.17 * 60, abs=1)
    assert len({row.topic for row in made.rows}) == len(questions.topics())


# What is missing --------------------------------------------------------------------------------


def _changed(**parts):
    return replace(read("bearings-and-variation"), **parts)


@pytest.mark.parametrize(
    ("blueprint", "number", "says"),
    [
        (
            _changed(sheets=()),
            1,
            "“bearings.measure” is worked on a land map of kessoray at 1:25 000 or a land map of "
            "kessoray at 1:50 000, and none of these is wanted.",
        ),
        (_changed(instruments=("pencil",)), 1, "measured with protractor"),
        (
            _changed(rows=(Row(1, "bearings", ("bearings.back-bearing",), 2, 2, 3.0),)),
            1,
            "asks up to 2 things and has 0 marks",
        ),
        (
            replace(read("tides"), sheets=(SheetWanted("orrimer", "sea chart", 50_000, "A4"),)),
            0,
            "No question is worked on the sea chart of orrimer",
        ),
    ],
)
def test_what_is_missing_is_told_before_anything_is_built(blueprint, number, says):
    findings = plan(blueprint).findings
    assert any(f.number == number and says in f.sentence for f in findings), findings
    assert all(f.sentence.endswith(".") for f in findings)


def test_days_without_a_tide_that_suits_are_told():
    one_day = date(2027, 6, 21)  # its high waters are early and late, and the question is on noon
    rows = (Row(1, "tides", ("tides.hours-in-order",), 2, 0, 3.0),)
    made = replace(read("tides"), rows=rows, pass_mark=1, first=one_day, last=one_day)
    (finding,) = plan(made).missing
    assert "finds no tide that suits from 2027-06-21 to 2027-06-21" in finding.sentence


def test_too_little_time_is_told():
    made = replace(read("whole-coast"), minutes=40)
    assert [f.number for f in plan(made).findings] == [0, 0]
    shares = plan(made).topics
    assert sum(share.marks for share in shares) == 60
