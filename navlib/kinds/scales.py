"""The scale of a sheet as an answer: 1:50 000."""

import math
import re
from dataclasses import dataclass

from navlib.chain.kind import Kind
from navlib.figures import read_figure
from navlib.kinds.numbers import to_step
from navlib.language import say
from navlib.notation import Impossible, tidy

SMALLEST = 100
"""A denominator below this is no scale of a sheet: a zero or a thousand was lost."""
_STEPS = (5, 0.05), (2, 0.02), (1, 0.01)


@dataclass(frozen=True)
class Scale(Kind[float]):
    """The scale of a sheet, as the denominator of its fraction: 50 000 for 1:50 000.

    `rounding` and `apart` are per cent. Reads 1:50 000, 1 : 50000, 1/50 000, 1 to 50 000 and, with
    a note, 50 000 alone.
    """

    unit: str = "%"
    rounding: float = 2.0
    example: str = "1:50 000"

    def parse(self, text: str) -> tuple[float, tuple[str, ...]]:
        """Return the denominator; raise Misread if none is written or none of a sheet."""
        given = tidy(text)
        fraction = re.fullmatch(r"(?:1|one) ?(?::|/|to|in) ?(.*)", given, flags=re.IGNORECASE)
        figure = read_figure(fraction[1] if fraction else given, self.example)
        if figure.value < SMALLEST:
            problem = say(
                "a sheet on which one is {value} would be as large as a field",
                {"value": f"{figure.value:g}"},
            )
            raise Impossible(given, problem, self.example)
        return figure.value, () if fraction else (say("Write a scale as a fraction: 1:50 000."),)

    def write(self, value: float) -> str:
        """Return the scale to about one per cent: 1:50 000."""
        if value < SMALLEST:
            return f"1:{value:g}"
        tens = 10 ** math.floor(math.log10(value))
        step = next(part for least, part in _STEPS if value >= least * tens) * tens
        return f"1:{to_step(value, step):,.0f}".replace(",", " ")

    def apart(self, one: float, other: float) -> float:
        """Return by how many per cent `one` has the larger denominator."""
        return 100 * (one / other - 1)

    def shift(self, value: float, by: float) -> float:
        """Return a denominator `by` per cent larger."""
        return value * (1 + by / 100)
