"""A mark scheme's reasons in words: why an answer may lie so far off, and what follows from what."""

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from navlib.chain.chain import Band, Chain
from navlib.chain.question import Question
from navlib.chain.step import Error, Step, needs
from navlib.kinds.choices import Choice, Order
from navlib.kinds.marks import OnSheet
from navlib.kinds.places import GridReference, Position
from navlib.kinds.times import Clock, Duration
from navlib.paper.awards import labels
from navlib.paper.scripts import to_halves
from navlib.paper.variants import Item


@dataclass(frozen=True)
class Tolerance:
    """How far an answer may lie off, written with its unit: for `full` marks and for `half`.

    Both are empty where an answer is right or it is not; `why` is a sentence or two.
    """

    full: str
    half: str
    why: str


def before(question: Question, asked: str) -> dict[str, Any]:
    """Return the right answers to the parts before, from which a part is marked."""
    earlier = question.asks[: question.asks.index(asked)]
    kinds = question.chain.by_name
    return {name: kinds[name].kind.rounded(question.values[name]) for name in earlier}


def band_of(question: Question, asked: str) -> Band:
    """Return the bands about what follows from a candidate's own earlier answers."""
    return question.chain.band(question.givens, asked, before(question, asked))


def tolerance(question: Question, asked: str) -> Tolerance:
    """Return how far the answer to a part may lie off, and why so far."""
    kind, band = question.chain.by_name[asked].kind, band_of(question, asked)
    if isinstance(kind, Choice):
        return Tolerance("", "", "One of these is right; nothing is nearly right.")
    if isinstance(kind, Order):
        return Tolerance("", "", "The whole order must be right.")
    if isinstance(kind, GridReference) and kind.rounding == 1.0:
        return Tolerance("", "", "The square itself: its lines can be read without error.")
    full, half = written_width(kind, band.full), written_width(kind, band.part)
    minutes = in_minutes(question, asked)
    why = _why(question, asked, full) + (f" On the border: {minutes}." if minutes else "")
    return Tolerance(full, half, why)


def _why(question: Question, asked: str, full: str) -> str:
    fixed = before(question, asked)
    errors = list(_responses(question, asked, fixed))
    kind = question.chain.by_name[asked].kind
    if not errors:
        return f"Nothing is measured here: ± {full} is for rounding on the way."
    told = [
        f"{name}{_basis(error, question)} {'leaves' if len(errors) == 1 else ''}"
        f" {written_width(kind, float(f'{sigma:.2g}'))}".replace("  ", " ")
        for name, error, sigma in errors
    ]
    unit = written_width(kind, kind.rounding)
    spread = told[0] if len(told) == 1 else f"{'; '.join(told)}; together by root of squares"
    return (
        f"{spread[:1].upper()}{spread[1:]} of scatter (standard deviation). Twice that, with half of "
        f"the {unit} that is written, comes to ± {full}."
    )


def in_minutes(question: Question, asked: str) -> str:
    """Return the limit of a position as it is compared on paper, in minutes each way; else nothing.

    A minute of latitude is 1852 m, one of longitude so many times less as the cosine says.
    """
    kind = question.chain.by_name[asked].kind
    if not isinstance(kind, Position) or kind.form != "minutes":
        return ""
    north = band_of(question, asked).full / 1852
    east = north / math.cos(math.radians(question.values[asked][0]))
    north, east = (math.floor(100 * minutes) / 100 for minutes in (north, east))
    return f"{north:.2f}' N–S or {east:.2f}' E–W"


def _responses(
    question: Question, asked: str, fixed: Mapping[str, Any]
) -> Iterator[tuple[str, Error, float]]:
    """Yield each error on the way to a part, by name, and the scatter that it alone leaves there."""
    chain = question.chain
    for step in chain.upstream(asked, fixed):
        for error in step.errors:
            alone = (replace(s, errors=(error,) if s is step else ()) for s in chain.steps)
            sigma = Chain(chain.givens, tuple(alone)).sigma(question.givens, asked, fixed=fixed)
            if sigma > 0:
                yield error.name, error, sigma


def _basis(error: Error, question: Question) -> str:
    """Return what the size of an error rests on, such as the length of the line."""
    taken = needs(error.sigma) if callable(error.sigma) else ()
    givens = question.givens
    if "length_mm" in taken:
        return f" on a line of {givens['length_mm']:.0f} mm"
    if "legs" in taken and "scale" in taken:
        return f" on a way of {sum(givens['legs']) * 1000 / givens['scale']:.0f} mm"
    return f" at 1:{givens['scale']:,.0f}".replace(",", " ") if "scale" in taken else ""


def written_width(kind: Any, width: float) -> str:
    """Return a width of tolerance with its unit."""
    if isinstance(kind, Clock | Duration):
        return f"{width:g} min"
    if isinstance(kind, OnSheet):
        return f"{width:g} mm"
    return str(kind.write_width(width))


def follows(item: Item, asked: str) -> str:
    """Return how a part is worked from a candidate's own earlier answers; empty if it is not.

    Such as “3b from 3a: (own 3a) and 180 is (3b)”.
    """
    question = item.question
    chain, label = question.chain, {name: text for text, name in labels(item).items()}
    earlier = dict.fromkeys(question.asks[: question.asks.index(asked)])
    steps = chain.upstream(asked, earlier)
    taken = {name for step in steps for name in step.needs} & set(earlier)
    if not taken:
        return ""
    words = dict(question.written)
    words |= {name: f"(own {label[name]})" for name in taken}
    changed = set(taken)
    for step in steps:
        if changed & set(step.needs):
            changed.add(step.name)
            words[step.name] = f"‹{step.name.replace('_', ' ')}›"
    words[asked] = f"({label[asked]})"
    lines = "; ".join(
        s.line.format_map(words).rstrip(",") for s in steps if changed & {*s.needs, s.name}
    )
    names = " and ".join(label[name] for name in question.asks if name in taken)
    return f"{label[asked]} follows {names}: {lines}."


def ladder(lines: int, working: float) -> tuple[tuple[int, float], ...]:
    """Return how many lines shown rightly earn how many marks for working, in halves.

    A line has an even share, cut down to halves: the same that `awards` suggests.
    """
    found: dict[float, int] = {}
    for count in range(lines + 1):
        found.setdefault(to_halves(working * count / lines, working), count)
    return tuple((count, marks) for marks, count in found.items() if marks)


def own_lines(question: Question) -> tuple[tuple[Step, str], ...]:
    """Return the steps of a question with their worked lines."""
    return tuple(zip(question.steps, question.working(), strict=True))
