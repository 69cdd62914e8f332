"""A marked script: marks of each part, question and paper, frozen and plain."""

import math
from collections.abc import Mapping
from dataclasses import dataclass

HALF = 0.5
"""Marks are given in halves."""


@dataclass(frozen=True)
class Split:
    """How the marks of a question lie: for each part asked, by its name, and for working."""

    parts: Mapping[str, float]
    working: float


@dataclass(frozen=True)
class PartAward:
    """What one part earns. `label` is that of the paper, such as 3b; `outcome` is an Outcome's value.

    `slips` are the names of slips told surely, `says` whole sentences for the candidate. `decide` is
    true where a person must say what was meant: no marks yet. `notation` is true where a right
    figure lacks its unit, north or zone. `held` is why a carried value earns nothing, else "".
    """

    label: str
    name: str
    text: str
    outcome: str
    marks: float
    out_of: float
    key: str
    slips: tuple[str, ...]
    says: tuple[str, ...]
    decide: bool
    notation: bool
    held: str


@dataclass(frozen=True)
class Overrule:
    """A person's own marks for a whole question, in place of all others, with the reason."""

    marks: float
    reason: str
    marker: str
    at: str = ""


@dataclass(frozen=True)
class ItemAward:
    """What one question earns, part by part, and for working.

    `suggested` is true where nobody has ticked the working, so that its marks are what the answers
    let one suppose. `overruled` holds a person's marks if there are any.
    """

    number: int
    kind: str
    topic: str
    level: int
    out_of: float
    parts: tuple[PartAward, ...]
    working: float
    working_out_of: float
    suggested: bool
    overruled: Overrule | None = None

    @property
    def marks(self) -> float:
        """Marks of the question: a person's if there are any."""
        if self.overruled:
            return to_halves(self.overruled.marks, self.out_of)
        return sum(part.marks for part in self.parts) + self.working

    @property
    def decide(self) -> tuple[PartAward, ...]:
        """Parts on which a person must decide."""
        return () if self.overruled else tuple(part for part in self.parts if part.decide)

    @property
    def undecided(self) -> float:
        """Marks that the decisions still to come may add at most, with the working behind them."""
        if not self.decide:
            return 0.0
        working = self.working_out_of - self.working if self.suggested else 0.0
        return sum(part.out_of for part in self.decide) + working

    @property
    def notation(self) -> bool:
        """Whether a right figure lacks its unit, north or zone."""
        return not self.overruled and any(part.notation for part in self.parts)

    @property
    def slips(self) -> tuple[str, ...]:
        """Names of the slips that were told surely."""
        return tuple(name for part in self.parts for name in part.slips)


@dataclass(frozen=True)
class Script:
    """A candidate's whole paper, marked. `notation` is what was lost, once, for missing units."""

    candidate: str
    name: str
    code: str
    variant: int
    items: tuple[ItemAward, ...]
    notation: float
    out_of: float
    pass_mark: float

    @property
    def total(self) -> float:
        """Marks of the paper, working that is only suggested counted in."""
        return max(0.0, sum(item.marks for item in self.items) - self.notation)

    @property
    def undecided(self) -> float:
        """Marks that the decisions still to come may add at most."""
        return sum(item.undecided for item in self.items)

    @property
    def suggested(self) -> float:
        """Marks for working in `total` that nobody has ticked."""
        return sum(item.working for item in self.items if item.suggested and not item.overruled)

    @property
    def passed(self) -> bool | None:
        """Whether the pass mark is reached; None while it hangs on a decision."""
        if self.total >= self.pass_mark:
            return True
        return None if self.total + self.undecided >= self.pass_mark else False

    @property
    def topics(self) -> dict[str, tuple[float, float]]:
        """Marks earned and marks there were, by topic, in the order of the paper."""
        found: dict[str, tuple[float, float]] = {}
        for item in self.items:
            earned, out_of = found.get(item.topic, (0.0, 0.0))
            found[item.topic] = (earned + item.marks, out_of + item.out_of)
        return found


def to_halves(marks: float, most: float) -> float:
    """Return marks cut down to halves, between 0 and `most`; what is no number is 0."""
    if not math.isfinite(marks):
        return 0.0
    return math.floor(min(max(marks, 0.0), most) / HALF + 1e-9) * HALF


def write_marks(marks: float) -> str:
    """Return marks as they are printed: 3½, ½, 0."""
    whole, half = divmod(round(marks / HALF), 2)
    return f"{whole or ('' if half else 0)}{'½' if half else ''}"
