"""The lesson on scale and distance: its exercises and what its demonstrations hand to the browser."""

import re
from pathlib import Path

import nbformat
import numpy as np
import pytest
from traitlets import TraitError

import navlib
from navlib import questions
from navlib.geodesy import meridional_parts
from navlib.widgets import demos

ROOT = Path(navlib.__file__).parent.parent
FRONT = Path(demos.__file__).parent


def sources(folder: str) -> list[str]:
    notebook = nbformat.read(ROOT / folder / "distance.ipynb", as_version=4)
    return [cell.source for cell in notebook.cells if cell.cell_type == "code"]


def test_the_exercises_get_harder_and_no_kind_comes_twice():
    made = [questions.exercise("distance", number) for number in questions.exercises("distance")]
    levels = [question.level for question in made]
    assert levels == sorted(levels)
    assert len({question.kind for question in made}) == 10


def test_lesson_and_answers_show_all_ten():
    for folder, call in (("lessons", "lesson.exercise"), ("answers", "lesson.solution")):
        shown = [source for source in sources(folder) if source.startswith(call)]
        assert shown == [f"{call}({number})" for number in questions.exercises("distance")]


def test_the_worked_examples_are_not_among_the_exercises():
    worked = re.findall(r'worked\("(\S+)", (\d+)\)', "\n".join(sources("lessons")))
    assert worked
    texts = {questions.exercise("distance", n).text for n in questions.exercises("distance")}
    assert not texts & {questions.make(kind, int(seed)).text for kind, seed in worked}


def test_every_step_of_the_coast_stands_on_the_coast():
    coast = demos.coast_in_steps().coast
    ends = [coast["line"][0], coast["line"][-1]]
    for walked in coast["walks"]:
        points = np.array(walked["points"])
        assert [list(points[0]), list(points[-1])] == ends
        steps = np.hypot(*np.diff(points, axis=0).T)
        assert np.allclose(steps[:-1], walked["step"], atol=1.5)  # points are whole metres
        assert abs(steps[-1] - walked["rest"]) < 1.5
        assert len(steps) == walked["steps"] + 1


def test_the_chart_is_as_tall_as_a_mercator_chart():
    border = demos.latitude_border()
    tenth = len(border.parts) - 1
    top = meridional_parts(border.south + tenth / 6) - meridional_parts(border.south)
    assert border.parts[-1] == pytest.approx(top, abs=0.001)


@pytest.mark.parametrize(
    ("demo", "traits"),
    [
        (demos.units_beside, {"miles": 0}),
        (demos.paper_to_ground, {"scale": 60_000}),
        (demos.two_minutes, {"latitude": 90}),
        (demos.latitude_border, {"level": 49}),
        (demos.coast_in_steps, {"step": 25}),
    ],
)
def test_a_demonstration_refuses_what_it_cannot_draw(demo, traits):
    with pytest.raises(TraitError):
        demo(**traits)


def test_no_colour_is_named_outside_the_palette():
    css = (FRONT / "distance.css").read_text(encoding="utf-8")
    assert not re.search(r"#[0-9a-f]{3,8}\b|rgb|hsl", css)
