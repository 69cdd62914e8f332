"""Marking a hundred scripts of a 60-mark paper against only reading what is written, in the same run."""

import random
import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent.parent))

import papers_by_hand as by_hand

from navlib.paper.awards import labels, script

PAPERS = by_hand.papers(10)
SOURCE = random.Random(1)


def written(paper, right):
    """Return answers of a candidate who knows so large a share of it."""
    return {
        label: item.question.answers[name] if SOURCE.random() < right else "203"
        for item in paper.items
        for label, name in labels(item).items()
    }


CLASSES = {
    "all right": [(paper, written(paper, 1.0)) for paper in PAPERS * 10],
    "two in three right": [(paper, written(paper, 0.67)) for paper in PAPERS * 10],
}


@pytest.mark.benchmark(group="a hundred scripts")
def test_only_reading(benchmark):
    def read():
        for paper, answers in CLASSES["all right"]:
            for item in paper.items:
                for label, name in labels(item).items():
                    item.question.chain.by_name[name].kind.read(answers[label])

    benchmark(read)


@pytest.mark.benchmark(group="a hundred scripts")
@pytest.mark.parametrize("sat", CLASSES)
def test_marking(benchmark, sat):
    benchmark.pedantic(
        lambda: [script(paper, "01", answers) for paper, answers in CLASSES[sat]], rounds=2
    )
