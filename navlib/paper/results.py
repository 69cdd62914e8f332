"""The results of a sitting: who has how many marks, whom to look at again, and what the paper did."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from navlib.paper.cells import table
from navlib.paper.differences import Comparison
from navlib.paper.findings import Findings, findings
from navlib.paper.lessons import question_title, title
from navlib.paper.scripts import Script, write_marks
from navlib.paper.topics import Topic, topics_of

NEAR = 2.0
"""Marks from the pass mark within which a second person marks the paper. Common practice."""
SAMPLE = 10
"""One paper in so many is marked by a second person, whatever its marks. Common practice."""


@dataclass(frozen=True)
class Row:
    """A candidate in the class list; `looks` are the reasons to look at the paper again."""

    candidate: str
    name: str
    code: str
    variant: int
    marks: float
    out_of: float
    passed: bool | None
    topics: tuple[Topic, ...]
    looks: tuple[str, ...]

    @property
    def percent(self) -> int:
        """Marks per hundred, cut down, so that nobody seems to have reached what they have not."""
        return int(100 * self.marks / self.out_of + 1e-9) if self.out_of else 0

    @property
    def verdict(self) -> str:
        """The result in a word."""
        return {True: "pass", False: "not yet", None: "open"}[self.passed]


def class_list(scripts: Iterable[Script], differences: Iterable[Comparison] = ()) -> list[Row]:
    """Return the class, in the order of the candidates' numbers.

    `differences` are of papers that two people marked. To be looked at again are papers with answers
    to decide, within `NEAR` marks of the pass mark (unless two have marked them and agree), those on
    which two markers differ, and a sample over the whole range of marks.
    """
    scripts = sorted(scripts, key=lambda script: script.candidate)
    twice = {one.candidate: one for one in differences}
    sample = {script.candidate for script in _sample(scripts)}
    return [
        Row(
            script.candidate,
            script.name,
            script.code,
            script.variant,
            script.total,
            script.out_of,
            script.passed,
            topics_of(script),
            tuple(_looks(script, twice.get(script.candidate), script.candidate in sample)),
        )
        for script in scripts
    ]


def _sample(scripts: Sequence[Script]) -> list[Script]:
    """Return one paper in `SAMPLE`, at least one, evenly over the marks: the middle of each ten."""
    ranked = sorted(scripts, key=lambda script: (script.total, script.candidate))
    return [
        ranked[min(first + SAMPLE // 2, len(ranked) - 1)]
        for first in range(0, max(len(ranked) - SAMPLE // 2, min(1, len(ranked))), SAMPLE)
    ]


def _looks(script: Script, twice: Comparison | None, sample: bool) -> Iterable[str]:
    waiting = [part.label for item in script.items for part in item.decide]
    if waiting:
        yield f"Decide what was meant in {', '.join(waiting)}."
    if twice is not None and twice.discuss:
        yield f"Two markers are {write_marks(abs(twice.by))} marks apart: discuss it."
    if twice is None:
        if abs(script.total - script.pass_mark) <= NEAR:
            yield f"Within {NEAR:g} marks of the pass mark: a second person marks it."
        elif sample:
            yield f"Drawn for the sample, one paper in {SAMPLE}: a second person marks it."
    if script.suggested and script.total - script.suggested < script.pass_mark <= script.total:
        yield (
            f"The pass hangs on {write_marks(script.suggested)} marks for working that nobody has "
            "ticked yet."
        )


def class_csv(rows: Sequence[Row]) -> str:
    """Return the class list as CSV, with a column for the share of each topic in per cent."""
    topics = list(dict.fromkeys(topic.topic for row in rows for topic in row.topics))
    heads = ("number", "name", "paper", "marks", "out of", "per cent", "result")
    return table(
        (*heads, *(f"{title(topic)}, per cent" for topic in topics), "look again"),
        (
            (
                *(row.candidate, row.name, row.code, row.marks, row.out_of),
                *(row.percent, row.verdict),
                *(_per_cent(row, topic) for topic in topics),
                " ".join(row.looks),
            )
            for row in rows
        ),
    )


def _per_cent(row: Row, topic: str) -> object:
    found = next((one for one in row.topics if one.topic == topic), None)
    return None if found is None else round(100 * found.share)


def item_findings(scripts: Sequence[Script]) -> Findings:
    """Return what a sitting says about its questions and variants (see `findings`).

    Marks for notation, lost once for a whole paper, belong to no question and are left out. Raises
    ValueError without any script, as nothing is known of the questions then.
    """
    if not scripts:
        raise ValueError("no paper has been marked yet: enter answers first")
    first = scripts[0].items
    return findings(
        np.array([[item.marks for item in script.items] for script in scripts]),
        [item.out_of for item in first],
        [script.variant for script in scripts],
        [[item.slips for item in script.items] for script in scripts],
        [item.number for item in first],
        scripts[0].pass_mark,
    )


def question_titles(scripts: Sequence[Script]) -> dict[int, str]:
    """Return by number what each question is: the title of its kind, or its topic if kinds differ."""
    kinds: dict[int, set[str]] = {}
    for script in scripts:
        for item in script.items:
            kinds.setdefault(item.number, set()).add(item.kind)
    return {
        number: question_title(next(iter(of))) if len(of) == 1 else title(min(of).partition(".")[0])
        for number, of in kinds.items()
    }
