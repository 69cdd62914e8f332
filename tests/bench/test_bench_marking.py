"""Marking a hundred answers against only reading them, in the same run."""

import pytest

from navlib import questions
from navlib.marking import mark

QUESTIONS = [questions.make(kind, seed) for kind in questions.kinds() for seed in range(9)][:100]
RIGHT = [(question, question.answers) for question in QUESTIONS]
WRONG = [(question, dict.fromkeys(question.asks, "203")) for question in QUESTIONS]


@pytest.mark.benchmark(group="a hundred answers")
def test_only_reading(benchmark):
    def read():
        for question, answers in RIGHT:
            for name, text in answers.items():
                assert question.chain.by_name[name].kind.read(text).value is not None

    benchmark(read)


@pytest.mark.benchmark(group="a hundred answers")
@pytest.mark.parametrize("handed_in", [RIGHT, WRONG], ids=["right", "wrong, with diagnosis"])
def test_marking(benchmark, handed_in):
    benchmark(lambda: [mark(question, answers) for question, answers in handed_in])
