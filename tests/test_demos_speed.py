"""The lesson on time, distance and speed: its exercises and what its demonstrations promise."""

import re
from pathlib import Path

import nbformat
import pytest
from traitlets import TraitError

import navlib
from navlib import questions
from navlib.widgets import demos

ROOT = Path(navlib.__file__).parent.parent
FRONT = sorted(Path(demos.__file__).parent.glob("*.[jc]s*"))
EVERY = (demos.one_leg, demos.two_speeds, demos.clock_sum, demos.stream_turns)


def sources(folder):
    notebook = nbformat.read(ROOT / folder / "speed.ipynb", as_version=4)
    return [cell.source for cell in notebook.cells if cell.cell_type == "code"]


def test_the_exercises_get_harder_and_no_kind_comes_twice():
    made = [questions.exercise("speed", number) for number in questions.exercises("speed")]
    levels = [question.level for question in made]
    assert levels == sorted(levels)
    assert len({question.kind for question in made}) == 10


def test_lesson_and_answers_show_all_ten():
    for folder, call in (("lessons", "lesson.exercise"), ("answers", "lesson.solution")):
        shown = [source for source in sources(folder) if source.startswith(call)]
        assert shown == [f"{call}({number})" for number in questions.exercises("speed")]


def test_the_worked_examples_are_not_among_the_exercises():
    worked = re.findall(r'worked\("(\S+)", (\d+)\)', "\n".join(sources("lessons")))
    assert worked
    texts = {questions.exercise("speed", n).text for n in questions.exercises("speed")}
    assert not texts & {questions.make(kind, int(seed)).text for kind, seed in worked}


@pytest.mark.parametrize("demo", EVERY)
def test_a_demonstration_is_written_the_same_each_time(demo):
    data, _ = demo()._repr_mimebundle_()
    assert data["text/plain"] == repr(demo()) == demo.words
    assert demo.words.startswith("A figure to move: ")


@pytest.mark.parametrize(
    ("demo", "traits"),
    [
        (demos.one_leg, {"speed": 0}),
        (demos.one_leg, {"find": "course"}),
        (demos.two_speeds, {"home": 0.5}),
        (demos.clock_sum, {"clock": 1440}),
        (demos.stream_turns, {"stream": -3}),
    ],
)
def test_a_demonstration_refuses_what_it_cannot_draw(demo, traits):
    with pytest.raises(TraitError):
        demo(**traits)


@pytest.mark.parametrize("file", FRONT, ids=lambda file: file.name)
def test_the_front_end_needs_no_network_and_is_short(file):
    text = file.read_text(encoding="utf-8").replace("http://www.w3.org/2000/svg", "")
    assert not re.search(r"https?:|^import |import\(|fetch\(|XMLHttp|@import|url\(", text, re.M)
    assert text.count("\n") < 300
    assert "innerHTML" not in text
    assert file.suffix == ".css" or text.startswith("// @ts-check\n")


def test_no_colour_is_named_outside_the_palette():
    css = (Path(demos.__file__).parent / "speed.css").read_text(encoding="utf-8")
    assert not re.search(r"#[0-9a-f]{3,8}\b|rgb|hsl", css)
