"""A kind of answer that is a plain number, and how numbers are rounded and written."""

import math
from dataclasses import dataclass
from decimal import Decimal
from functools import cache
from typing import Literal

from navlib.chain.kind import Kind
from navlib.figures import Figure, read_with_unit
from navlib.language import say, to_say
from navlib.notation import Unclear, tidy

Side = Literal["near", "down", "up"]
"""Which way a value is rounded: to the safe side where it decides safety (common practice)."""

WORDS = {
    "cable": to_say("cables"),
    "fathom": to_say("fathoms"),
    "statute mile": to_say("statute miles"),
}
"""Units that are words and so have a plural."""
_SINGLE = (to_say("cable"), to_say("fathom"), to_say("statute mile"))


def to_step(value: float, step: float, side: Side = "near") -> float:
    """Return `value` as a multiple of `step`; a half goes up, what is a multiple stays."""
    steps, hair = value / step, 1e-9
    ways = {"near": steps + 0.5 + hair, "down": steps + hair, "up": steps + 1 - hair}
    return math.floor(ways[side]) * step


@cache
def decimals(step: float) -> int:
    """Return how many figures after the point a multiple of `step` needs."""
    exponent = Decimal(repr(float(step))).normalize().as_tuple().exponent
    return max(0, -int(exponent))


@dataclass(frozen=True)
class Number(Kind[float]):
    """A plain number, with `unit` (any text, may be empty) allowed behind it.

    `side` is the way it is rounded; a negative number is fine.
    """

    unit: str = ""
    rounding: float = 1.0
    side: Side = "near"
    example: str = ""

    def __post_init__(self) -> None:
        """Take a well-written answer as the example."""
        if not self.example:
            object.__setattr__(self, "example", self.write(12 * self.rounding * self.per_unit))

    @property
    def per_unit(self) -> float:
        """What one of the unit asked is in the measure used inside."""
        return 1.0

    def parse(self, text: str) -> tuple[float, tuple[str, ...]]:
        """Return the number; raise Unclear if it is none, or has another unit."""
        figure, word = read_with_unit(text, self.example)
        if word and word.casefold() not in (self.unit.casefold(), say(self.unit).casefold()):
            raise Unclear(
                tidy(text),
                say("“{word}” behind the number is not known here", {"word": word}),
                self.example,
            )
        return figure.value, self.too_fine(figure)

    def write(self, value: float) -> str:
        """Return `value` rounded, with its unit."""
        stepped = to_step(value / self.per_unit, self.rounding, self.side)
        number = f"{stepped + 0.0:.{decimals(self.rounding)}f}"
        unit = self.unit if number == "1" else WORDS.get(self.unit, self.unit)
        return f"{number} {say(unit)}".strip()

    def write_width(self, width: float) -> str:
        """Return a width of tolerance with its unit."""
        return f"{width:g} {say(self.unit)}".strip()

    def apart(self, one: float, other: float) -> float:
        """Return one - other, in the unit asked."""
        return (one - other) / self.per_unit

    def shift(self, value: float, by: float) -> float:
        """Return `value` with `by` of the unit asked added."""
        return value + by * self.per_unit

    def too_fine(self, figure: Figure) -> tuple[str, ...]:
        """Return a note where more figures are written than practitioners write."""
        if figure.decimals <= decimals(self.rounding):
            return ()
        return (
            say(
                "So many figures say more than is known: {figure} is enough.",
                {"figure": self.write_figure(figure)},
            ),
        )

    def write_figure(self, figure: Figure) -> str:
        """Return a number of the unit asked, rounded, with its unit."""
        return self.write(figure.value * self.per_unit)
