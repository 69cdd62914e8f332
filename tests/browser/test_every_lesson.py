"""A student works an exercise of each lesson, stops, comes back; and no figure is cut off."""

import re
from collections.abc import Callable

import nbformat
import pytest
from cards import answer, beyond_the_drawing, card, cut_off
from playwright.sync_api import Page, expect
from rig import LESSONS, Lab

from navlib import questions

Open = Callable[[str], Page]


@pytest.mark.parametrize(
    ("topic", "number", "asked", "slip"),
    [  # the lesson on bearings has a test of its own, which does more
        ("variation", 2, "variation", "change-wrong-way"),
        ("distance", 2, "ground", "wrong-scale"),
        ("speed", 1, "time", "decimal-hours"),
        ("position", 6, "position", "decimals-for-minutes"),
        ("tides", 3, "height", "wrong-end"),
    ],
)
def test_slip_hint_right_reload_resume(
    open_lesson: Open, lab: Lab, topic: str, number: int, asked: str, slip: str
):
    question = questions.exercise(topic, number)
    step = question.chain.by_name[asked]
    made = next(one for one in step.slips if one.name == slip)
    wrong = step.kind.write(question.chain.run(question.givens, {asked: made})[asked])
    right = question.answers[asked]

    page = open_lesson(topic)
    exercise = card(page, f"Exercise {number}:")
    part, box = exercise.locator(".nav-part").first, exercise.get_by_role("textbox").first

    answer(exercise, wrong)
    expect(part).to_have_attribute("data-outcome", "wrong")
    expect(part).to_contain_text(made.says.format_map({**question.written, "yours": wrong}))

    exercise.get_by_role("button", name="Give me a hint").click()
    expect(exercise).to_contain_text(question.hints(asked)[0])

    answer(exercise, right)
    expect(part).to_have_attribute("data-outcome", "right")
    page.reload()
    expect(part).to_have_attribute("data-outcome", "right")
    expect(box).to_have_value(right)

    lab.end_kernels()  # the computer is shut down; another day begins
    page = open_lesson(topic)
    expect(part).to_have_attribute("data-outcome", "right")
    expect(box).to_have_value(right)


@pytest.mark.parametrize("topic", questions.topics())
def test_no_demonstration_or_chart_table_is_cut_off(open_lesson: Open, lab: Lab, topic: str):
    notebook = nbformat.read(LESSONS / f"{topic}.ipynb", as_version=4)
    shown = [
        cell.source for cell in notebook.cells if re.match(r"demos\.|chart_table\(", cell.source)
    ]
    assert len(shown) >= 3
    shown = [f"from navlib.widgets import chart_table, demos\n{source}" for source in shown]
    lab.write("figures", ["# Figures", *shown])
    page = open_lesson("figures")
    figures = page.locator(".nav-demo, .nav-chart-table")
    expect(figures).to_have_count(len(shown))
    for width, height in ((1920, 1080), (800, 900), (683, 384)):
        page.set_viewport_size({"width": width, "height": height})
        for figure in figures.all():
            figure.scroll_into_view_if_needed()
            assert cut_off(figure, "svg *, .nav-stage, .nav-stage *") == []
            assert beyond_the_drawing(figure) == []
