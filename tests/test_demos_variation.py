"""The lesson on variation: its exercises and what its demonstrations are handed."""

import re
from pathlib import Path

import nbformat
import pytest
from traitlets import TraitError

import navlib
from navlib import questions
from navlib.questions.variation.causes import DEVIATION, HAND, ROCK, VARIATION
from navlib.widgets import demos
from navlib.widgets.demos.variation import HEADING_STEP, checks

ROOT = Path(navlib.__file__).parent.parent


def sources(folder):
    notebook = nbformat.read(ROOT / folder / "variation.ipynb", as_version=4)
    return [cell.source for cell in notebook.cells if cell.cell_type == "code"]


def test_the_exercises_get_harder_and_no_kind_comes_twice():
    made = [questions.exercise("variation", n) for n in questions.exercises("variation")]
    levels = [question.level for question in made]
    assert levels == sorted(levels)
    assert len({question.kind for question in made}) == 10


def test_lesson_and_answers_show_all_ten():
    for folder, call in (("lessons", "lesson.exercise"), ("answers", "lesson.solution")):
        shown = [source for source in sources(folder) if source.startswith(call)]
        assert shown == [f"{call}({number})" for number in questions.exercises("variation")]


def test_the_worked_examples_are_not_among_the_exercises():
    worked = re.findall(r'worked\("(\S+)", (\d+)\)', "\n".join(sources("lessons")))
    assert worked
    texts = {questions.exercise("variation", n).text for n in questions.exercises("variation")}
    assert not texts & {questions.make(kind, int(seed)).text for kind, seed in worked}


def test_the_checks_show_their_cause_and_nothing_else():
    """A scatter of a degree or two must not hide which boat, heading or place is out."""
    found = checks()
    assert all(len(rows) * HEADING_STEP == 360 for rows in found.values())
    assert all(abs(out) >= 6 for row in found[VARIATION] for out in row)
    assert all(abs(out) >= 6 for row in found[ROCK] for out in row[:2])
    rest = [out for row in found[ROCK] for out in row[2:]]
    rest += [out for row in found[DEVIATION] for out in row[1::2]]
    rest += [out for row in found[HAND] for out in row]
    assert max(map(abs, rest)) <= 2
    by_heading = [row[0] for row in found[DEVIATION]]
    assert max(by_heading) > 5
    assert min(by_heading) < -5


def test_the_waters_have_the_norths_of_the_sheets():
    # By the model and the grids, subject to half a degree: 2.4 W and 4.5 W; 23.2 E and 0.7 E.
    assert demos.wrong_way().waters == [["Kessoray", -2.5, -4.5], ["Orrimer", 23.0, 0.5]]
    # 7.25 W is 5¼° west of the National Grid's middle meridian, 1¾° east of UTM zone 29's.
    assert [place["apart"] for place in demos.grid_lean().places] == [-5.25, 1.75, -1.25]


@pytest.mark.parametrize(
    ("demo", "traits"),
    [
        (demos.rose_ages, {"printed": -40}),
        (demos.rose_ages, {"slip": "guessed"}),
        (demos.wrong_way, {"deviation": 40}),
        (demos.grid_lean, {"apart": 9}),
        (demos.to_blame, {"cause": "the moon"}),
        (demos.off_the_line, {"run": 0}),
    ],
)
def test_a_demonstration_refuses_what_it_cannot_draw(demo, traits):
    with pytest.raises(TraitError):
        demo(**traits)


def test_no_demonstration_takes_on_what_is_meant_for_the_chart_table():
    """Both lie on one page: `pointer-events: none` for a scale's figures would hold a handle."""
    widgets = Path(demos.__file__).parent.parent
    classes = re.compile(r"\bnav-[\w-]+")

    def named(*globs):
        texts = [file.read_text(encoding="utf-8") for one in globs for file in widgets.glob(one)]
        return set(classes.findall("".join(texts)))

    shared = named("kit.css")
    assert named("table/*.css") & named("demos/*.js") <= shared


def test_no_colour_is_named_outside_the_palette():
    css = (Path(demos.__file__).parent / "variation.css").read_text(encoding="utf-8")
    assert not re.search(r"#[0-9a-f]{3,8}\b|rgb|hsl", css)
