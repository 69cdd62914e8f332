"""What a blueprint comes to before anything is built: time, balance, and what is missing."""

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from statistics import median

from navlib.paper.blueprint import Blueprint, Row
from navlib.paper.choosing import (
    askable,
    dated,
    looks,
    on_its_sheet,
    sheets_of,
    suiting,
    tools_of,
    waters_of,
)
from navlib.paper.features import Features, features
from navlib.questions import held, question_type
from navlib.questions.held import Days, NothingHeld
from navlib.sheets.bars import fraction

WORDS_A_MINUTE = 160.0
"""Read in a test, with a look back; common practice."""
FINDING_PLACE, A_STEP, A_READING, BETWEEN, A_LINE = 0.6, 0.7, 1.0, 0.5, 0.5
"""Minutes to begin a question, for each step, for each reading off paper or table, for going between
two lines of it, and for a line drawn; set so that a model paper of 90 minutes comes out. Our own."""
CHECKING = 5 / 6
"""Share of the given time that the questions should take: the rest is for reading and checking."""
LOOKS, TRIED = 8, 300


@dataclass(frozen=True)
class Share:
    """What a topic or a level has of a paper: marks, the minutes meant and the minutes expected."""

    name: str
    marks: int
    minutes: float
    expected: float


@dataclass(frozen=True)
class Finding:
    """What stands out in a blueprint: the question's number (0 for the whole paper) and a sentence.

    A paper cannot be built until what is `missing` is mended; the others are for the coach to weigh.
    """

    number: int
    missing: bool
    sentence: str


@dataclass(frozen=True)
class Plan:
    """A blueprint reckoned up, in minutes and marks; `expected` is what the questions should take."""

    blueprint: Blueprint
    expected: float
    topics: tuple[Share, ...]
    levels: tuple[Share, ...]
    findings: tuple[Finding, ...]

    @property
    def missing(self) -> tuple[Finding, ...]:
        """What must be mended before a paper can be built."""
        return tuple(finding for finding in self.findings if finding.missing)


def plan(blueprint: Blueprint) -> Plan:
    """Return what a blueprint comes to and what is missing, without building anything."""
    expected = {row.number: expected_minutes(row) for row in blueprint.rows}
    levels = {row.number: f"level {_level(row)}" for row in blueprint.rows}
    topics = {row.number: row.topic for row in blueprint.rows}
    return Plan(
        blueprint,
        sum(expected.values()),
        _shares(blueprint, topics, expected),
        tuple(sorted(_shares(blueprint, levels, expected), key=lambda share: share.name)),
        tuple(_findings(blueprint, sum(expected.values()))),
    )


def expected_minutes(row: Row) -> float:
    """Return the minutes that a row's question should take someone who knows how, to a half."""
    return round(2 * median(minutes_for(kind) for kind in row.kinds)) / 2 if row.kinds else 0.0


@cache
def minutes_for(kind: str) -> float:
    """Return the minutes that a kind of question should take, by its steps and words."""
    return median(_minutes(features(question)) for question in looks(kind)[:LOOKS])


def _minutes(f: Features) -> float:
    return (
        FINDING_PLACE
        + f.words / WORDS_A_MINUTE
        + A_STEP * f.steps
        + A_READING * f.looked_up
        + BETWEEN * f.interpolated
        + A_LINE * (f.line_mm > 0)
    )


def _level(row: Row) -> int:
    return question_type(row.kinds[0]).level if row.kinds else 0


def _shares(
    blueprint: Blueprint, names: Mapping[int, str], expected: Mapping[int, float]
) -> tuple[Share, ...]:
    marks: defaultdict[str, int] = defaultdict(int)
    meant: defaultdict[str, float] = defaultdict(float)
    taken: defaultdict[str, float] = defaultdict(float)
    for row in blueprint.rows:
        name = names[row.number]
        marks[name] += row.marks
        meant[name] += row.minutes
        taken[name] += expected[row.number]
    return tuple(Share(name, marks[name], meant[name], taken[name]) for name in marks)


def _findings(blueprint: Blueprint, expected: float) -> Iterator[Finding]:
    given, meant = blueprint.minutes, sum(row.minutes for row in blueprint.rows)
    if meant > given:
        yield Finding(
            0, False, f"The questions are meant to take {meant:g} minutes, and {given} are given."
        )
    if expected > given * CHECKING:
        yield Finding(
            0,
            False,
            f"Someone who knows how should take about {expected:.0f} minutes of the {given}; that "
            f"leaves less than {1 - CHECKING:.0%} for reading through and checking.",
        )
    for row in blueprint.rows:
        yield from _of_row(row, blueprint)
    used = {
        sheet for row in blueprint.rows for kind in row.kinds for sheet in suiting(kind, blueprint)
    }
    for wanted in blueprint.sheets:
        if wanted not in used:
            yield Finding(
                0,
                False,
                f"No question is worked on the {wanted.sheet} of {wanted.water} at "
                f"{fraction(wanted.scale)}; it goes with the paper all the same.",
            )


def _of_row(row: Row, blueprint: Blueprint) -> Iterator[Finding]:
    able = [kind for kind in row.kinds if askable(kind, blueprint)]
    for kind in row.kinds:
        if kind not in able:
            yield Finding(row.number, not able, _no_sheet(kind, bool(able)))
    value = row.marks - row.working
    most = max((len(question_type(kind).prompts) for kind in row.kinds), default=0)
    if value < most:
        yield Finding(
            row.number,
            value == 0,
            f"It asks up to {most} things and has {value} "
            f"{'mark' if value == 1 else 'marks'} for them, working left out: give more marks.",
        )
    for kind in able:
        tools = tools_of(kind)
        if tools and not any(
            tool in name.casefold() for tool in tools for name in blueprint.instruments
        ):
            yield Finding(
                row.number,
                True,
                f"“{kind}” is measured with {_one_of(sorted(tools))}, and none of these is allowed.",
            )
    for kind in able:
        days = (blueprint.first, blueprint.last) if dated(kind) else None
        if not _drawable(kind, days, waters_of(blueprint)):
            yield Finding(
                row.number,
                True,
                f"“{kind}” finds no tide that suits from {blueprint.first} to {blueprint.last} on the "
                "waters of this paper: take more days, another water or another kind.",
            )


@cache
def _drawable(kind: str, days: Days | None, waters: tuple[str, ...]) -> bool:
    """Return whether a kind of question finds numbers within these days and waters."""
    asked = question_type(kind)
    for n in range(TRIED):
        try:
            if asked.draw(held.held(f"plan {n}", days, waters)) is not None:
                return True
        except NothingHeld:
            continue
    return False


def _no_sheet(kind: str, others: bool) -> str:
    assert on_its_sheet(kind)
    able = sorted(
        f"a {sheet} of {water} at {fraction(scale)}" for water, sheet, scale in sheets_of(kind)
    )
    rest = "It is left out." if others else "Add such a sheet, or take another kind."
    return f"“{kind}” is worked on {_one_of(able)}, and none of these is wanted. {rest}"


def _one_of(names: list[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} or {names[-1]}"
