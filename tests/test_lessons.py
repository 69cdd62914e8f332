"""Every lesson: ten exercises that rise, all of them shown and worked, examples apart from them."""

import re
from pathlib import Path

import nbformat
import pytest

import navlib
from navlib import questions

ROOT = Path(navlib.__file__).parent.parent


def sources(folder: str, topic: str) -> list[str]:
    notebook = nbformat.read(ROOT / folder / f"{topic}.ipynb", as_version=4)
    return [cell.source for cell in notebook.cells if cell.cell_type == "code"]


@pytest.fixture(params=questions.topics())
def topic(request: pytest.FixtureRequest) -> str:
    return str(request.param)


def test_the_exercises_get_harder_and_no_kind_comes_twice(topic):
    made = [questions.exercise(topic, number) for number in questions.exercises(topic)]
    levels = [question.level for question in made]
    assert levels == sorted(levels)
    assert len({question.kind for question in made}) == 10


def test_lesson_and_answers_show_all_ten(topic):
    for folder, call in (("lessons", "lesson.exercise"), ("answers", "lesson.solution")):
        shown = [source for source in sources(folder, topic) if source.startswith(call)]
        assert shown == [f"{call}({number})" for number in questions.exercises(topic)]


def test_the_worked_examples_are_not_among_the_exercises(topic):
    worked = re.findall(r'worked\("(\S+)", (\d+)\)', "\n".join(sources("lessons", topic)))
    assert worked
    texts = {questions.exercise(topic, n).text for n in questions.exercises(topic)}
    assert not texts & {questions.make(kind, int(seed)).text for kind, seed in worked}
