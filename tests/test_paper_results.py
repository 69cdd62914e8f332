"""Results of a simulated sitting: class list, feedback, item analysis, and their pages."""

import csv
import io
import random
import re
from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from functools import cache
from pathlib import Path

import nbformat
import numpy as np
import pandas as pd
import pypdfium2
import pytest
from hypothesis import given
from hypothesis import strategies as st

from navlib import questions
from navlib.chain.question import Question
from navlib.desk.ways import LESSONS
from navlib.paper import cells, lessons
from navlib.paper.awards import labels, script
from navlib.paper.blueprint import Blueprint, Row
from navlib.paper.differences import compare
from navlib.paper.feedback import feedback
from navlib.paper.handouts import feedback_pdf, results_pdf
from navlib.paper.results import class_csv, class_list, item_findings
from navlib.paper.scripts import Overrule, Script
from navlib.paper.variants import Item, Paper

KINDS = {
    "position.six-figures": (5, 1),
    "bearings.true-to-magnetic": (5, 1),
    "variation.rose-to-date": (6, 2),
    "distance.cables": (4, 0),
    "speed.eta": (5, 1),
    "tides.over-the-bank": (6, 2),
    "tides.tidal-hour": (5, 1),
    "bearings.map-to-compass": (7, 2),
    "speed.there-and-back": (5, 1),
    "variation.chart-to-compass": (7, 2),
    "tides.height-at": (5, 1),
}
PLAN = Blueprint(
    "coast",
    "Coastal navigation",
    90,
    42,
    1,
    date(2026, 1, 1),
    date(2026, 12, 31),
    (),
    ("pencil",),
    tuple(
        Row(number, kind.partition(".")[0], (kind,), marks, working, 6.0)
        for number, (kind, (marks, working)) in enumerate(KINDS.items(), 1)
    ),
    {},
)
HOSTILE = '=HYPERLINK("x") #read("common.typ") <script> *_$'
GRID_SIGN = 8
"""The question in which one in three puts the grid magnetic angle on the wrong way."""


@cache
def paper(variant: int, sitting: str = "first") -> Paper:
    items = tuple(
        Item(row, questions.make(row.kinds[0], 100 * variant + row.number), 0, {})
        for row in PLAN.rows
    )
    return Paper(PLAN, sitting, variant, f"K-{variant:02}", items, ())


def with_slip(question: Question, slip: str) -> dict[str, str]:
    """Return what someone writes who makes this slip and works on rightly from there."""
    for step in question.steps:
        for one in step.slips:
            if one.name == slip:
                own = one.route(**{name: question.values[name] for name in one.needs})
                values = question.chain.run(question.givens, fixed={step.name: own})
                kinds = question.chain.by_name
                return {name: kinds[name].kind.write(values[name]) for name in question.asks}
    raise KeyError(slip)


def answers(of: Paper, wrong: Mapping[int, str], blank: set[int]) -> dict[str, str]:
    """Return right answers but for questions left blank and those with a slip, by number."""
    written = {}
    for item in of.items:
        own = item.question.answers
        if item.number in wrong:
            own = with_slip(item.question, wrong[item.number])
        for label, part in labels(item).items():
            written[label] = "" if item.number in blank else own[part]
    return written


def all_working(of: Paper) -> dict[int, float]:
    return {item.number: item.row.working for item in of.items}


@cache
def whole_class() -> tuple[Script, ...]:
    """Return 24 candidates on six variants: the first knows most, the last least.

    Who knows less leaves more questions blank, but question 1, which only the weak get right; every
    third makes one slip.
    """
    source = random.Random(7)
    scripts = []
    for n in range(24):
        of = paper(1 + n * 7 % 24 // 4)
        blank = {i for i in range(2, 12) if source.random() < 0.9 * n / 23}
        blank |= {1} if n < 14 else set()
        wrong = {GRID_SIGN: "grid-magnetic-sign"} if n % 3 == 0 else {}
        ticks = {number: 0 if number in blank else most for number, most in all_working(of).items()}
        scripts.append(
            script(of, f"{n + 1:02}", answers(of, wrong, blank - set(wrong)), ticks, None, "")
        )
    return tuple(scripts)


def lone(written: Mapping[str, str] | None = None, name: str = "", **more) -> Script:
    of = paper(1)
    given = answers(of, {}, set()) if written is None else written
    return script(of, "07", given, more.pop("ticks", all_working(of)), more.pop("by", None), name)


def pages(pdf: bytes) -> list[str]:
    with pypdfium2.PdfDocument(pdf) as document:
        return [document[n].get_textpage().get_text_range() for n in range(len(document))]


# A simulated sitting


def test_those_who_know_more_stand_above_those_who_know_less():
    totals = [row.marks for row in class_list(whole_class())]
    assert min(totals[:8]) > max(totals[-6:])
    for one in whole_class():
        known = sum(i.out_of for i in one.items if any(part.text for part in i.parts))
        carried = one.items[GRID_SIGN - 1]
        assert one.total == known - (carried.out_of - carried.marks if carried.slips else 0)


def test_the_planted_slip_is_counted_in_its_question_alone():
    found = item_findings(whole_class())
    counts = {question.number: dict(question.slips) for question in found.questions}
    assert counts.pop(GRID_SIGN) == {"grid-magnetic-sign": 8}
    assert not any(counts.values())


def test_reliability_is_that_of_pandas():
    scripts = whole_class()
    frame = pd.DataFrame([[item.marks for item in one.items] for one in scripts])
    covariance = frame.cov().to_numpy()
    alpha = 11 / 10 * (1 - np.trace(covariance) / covariance.sum())
    found = item_findings(scripts)
    assert found.coefficient == "Cronbach’s alpha"
    assert found.reliability.value == pytest.approx(alpha)
    sem = frame.sum(axis=1).std() * (1 - alpha) ** 0.5
    assert found.error.value == pytest.approx(sem)


def test_the_question_that_only_the_weak_get_right_goes_to_review_and_no_other():
    found = item_findings(whole_class())
    assert [question.number for question in found.questions if question.review] == [1]
    assert "wrong key" in found.questions[0].discrimination.says


def test_a_variant_with_a_harder_question_is_found_by_what_its_candidates_earned():
    scripts = []
    for n in range(24):
        of = paper(1 + n % 6)
        blank = {2 + n % 5} | ({9} if of.variant == 3 else set())
        scripts.append(script(of, f"{n:02}", answers(of, {}, blank), {}, None))
    found = item_findings(scripts)
    assert [q.number for q in found.questions if q.variants.review] == [9]
    assert found.questions[8].variants.variant == 3


# Class list


@pytest.mark.parametrize(
    ("marks", "looked"), [(39.5, False), (40, True), (42, True), (44, True), (44.5, False)]
)
def test_papers_near_the_pass_mark_go_to_a_second_person(marks, looked):
    full = lone()
    items = list(full.items)
    items[0] = replace(items[0], overruled=None, working=items[0].working - (60 - marks))
    scripts = [replace(full, items=tuple(items)), replace(full, candidate="08")]
    row = class_list(scripts)[0]
    assert row.marks == marks
    assert any("second person" in look for look in row.looks) is looked


def test_an_answer_to_decide_is_named_and_keeps_the_pass_open():
    of = paper(1)
    written = answers(of, {}, {2, 3, 4, 8, 9})
    unread = {**written, "2": "north-ish"}
    row = class_list([script(of, "07", unread, all_working(of))])[0]
    assert row.looks[0] == "Decide what was meant in 2."
    assert row.verdict == "open" or row.marks >= 42


def test_two_markers_far_apart_discuss_and_two_that_agree_are_not_asked_again():
    one, other = lone(), lone({"1": "?"}, ticks={})
    assert any(
        "discuss" in x for x in class_list([one], [compare(one, other, ("A", "B"))])[0].looks
    )
    assert class_list([one], [compare(one, one, ("A", "B"))])[0].looks == ()


@pytest.mark.parametrize(("count", "drawn"), [(1, 1), (4, 1), (24, 2), (25, 2), (30, 3)])
def test_one_paper_in_ten_is_drawn_for_a_second_person(count, drawn):
    full = lone()
    rows = class_list(replace(full, candidate=f"{n:02}") for n in range(count))
    assert sum("sample" in " ".join(row.looks) for row in rows) == drawn


def test_class_list_as_csv_reads_back_and_holds_no_formula():
    named = replace(whole_class()[0], name=HOSTILE)
    text = class_csv(class_list((named, *whole_class()[1:])))
    rows = list(csv.DictReader(io.StringIO(text)))
    assert len(rows) == 24
    assert rows[0]["name"] == f"'{HOSTILE}"
    assert cells.content(rows[0]["name"]) == HOSTILE
    assert float(rows[0]["marks"]) == named.total
    assert not any(value.startswith(("=", "+", "@")) for row in rows for value in row.values())


@given(st.text())
def test_a_cell_gives_back_what_was_written_and_never_begins_as_a_formula(text):
    written = cells.cell(text)
    assert cells.content(written) == text
    assert not written.startswith(("=", "+", "-", "@", "\t", "\r", "\n"))


# Feedback


def test_feedback_says_the_slip_where_to_go_back_and_what_to_practise():
    of = paper(1)
    marked = script(
        of, "07", answers(of, {GRID_SIGN: "grid-magnetic-sign"}, set()), all_working(of)
    )
    told = feedback(marked)
    (lost,) = told.lost
    assert (lost.number, lost.title) == (GRID_SIGN, "From the map to the compass")
    assert "wrong way" in lost.says[0][1]
    assert lost.back.says == "Lesson “Bearings”, section “Three norths”"
    assert told.sets[0].why == "Question 8: you put the grid magnetic angle on the wrong way."
    assert told.sets[0].kinds[0] == "From the map to the compass"
    assert "Exercise" in told.sets[0].how
    assert len(told.sets) == 3
    assert len(told.strengths) == 2


@pytest.mark.parametrize("blank", [set(), set(range(1, 12))], ids=["all right", "nothing written"])
def test_everybody_has_two_strengths_and_three_sets(blank):
    told = feedback(lone(answers(paper(1), {}, blank), ticks={}))
    assert len(set(told.strengths)) == 2
    assert len(told.sets) == 3
    assert len({one.kinds for one in told.sets}) == 3


def test_feedback_gives_away_no_answer_to_what_was_left_blank():
    of = paper(1)
    told = feedback(lone({}, ticks={}))
    words = repr(told)
    for item in of.items:
        for key in item.question.answers.values():
            assert key not in words


def test_working_and_units_are_told_once_for_the_whole_paper():
    marked = lone(ticks={3: 1, 6: 0})
    told = feedback(replace(marked, notation=1.0))
    assert told.lost == ()
    assert [name for name, _ in told.notes] == ["Working", "Units, norths and zones"]
    assert "questions 3 and 6 not all of the working can be followed: 3 marks" in told.notes[0][1]


def test_reasons_of_an_overruling_stay_with_the_coach():
    marked = lone(by={4: Overrule(1.0, "copied from a neighbour", "AB")})
    told = feedback(marked)
    assert told.lost[0].number == 4
    assert "neighbour" not in repr(told)


def test_every_section_that_feedback_leads_to_stands_in_its_lesson():
    folder = Path(__file__).parent.parent / "lessons"
    for topic in questions.topics():
        assert lessons.TITLES[topic] == LESSONS[topic].title
        notebook = nbformat.read(folder / f"{topic}.ipynb", as_version=4)
        text = "\n".join(c.source for c in notebook.cells if c.cell_type == "markdown")
        heads = set(re.findall(r"^#+ (.+)$", text, re.MULTILINE))
        places = [lessons.practice(topic), *map(lessons.back_to, questions.kinds(topic))]
        assert {place.section for place in places} <= heads
    known = {
        f"{topic}.{kind}"
        for topic, sections in lessons.SECTIONS.items()
        for kinds in sections.values()
        for kind in kinds.split()
    }
    assert known <= set(questions.kinds())


# Pages


def test_a_good_candidates_feedback_is_one_page_and_the_same_bytes_each_time():
    of = paper(1)
    marked = script(of, "07", answers(of, {GRID_SIGN: "grid-magnetic-sign"}, {4}), all_working(of))
    told = feedback(marked)
    pdf = feedback_pdf(told, PLAN.title)
    (text,) = pages(pdf)
    assert "not for navigation" in text
    assert "Three norths" in text
    assert "1 of 1" in text
    assert feedback_pdf(told, PLAN.title) == pdf


def test_hostile_names_and_long_answers_are_printed_as_they_stand():
    long = "#panic() " * 60
    told = feedback(lone({"1": long, "2": long, "4a": long}, name=HOSTILE, ticks={}))
    said = tuple(replace(lost, says=((lost.says[0][0], long * 4),)) for lost in told.lost)
    text = pages(feedback_pdf(replace(told, lost=said), HOSTILE, closing=long))
    assert len(text) > 1
    assert '=HYPERLINK("x") #read("common.typ") <script> *_$' in text[0]
    assert "#panic()" in text[0]


@pytest.mark.parametrize("large", [False, True])
def test_results_pages_name_everyone_and_every_question(large):
    named = replace(whole_class()[0], name=HOSTILE)
    text = "\n".join(pages(results_pdf((named, *whole_class()[1:]), PLAN.title, large=large)))
    assert "#read(" in text
    assert all(f"{n:02}" in text for n in range(1, 25))
    assert "Cronbach’s alpha" in text
    assert "grid magnetic sign (8)" in " ".join(text.split())


def test_results_of_one_candidate_and_of_none():
    assert "Class list" in pages(results_pdf([lone()], PLAN.title))[0]
    with pytest.raises(ValueError, match="no paper has been marked"):
        results_pdf([], PLAN.title)
