"""Two markers on the same paper: where their readings or marks differ, and when to talk it over."""

from collections.abc import Iterator
from dataclasses import dataclass

from navlib.notation import tidy
from navlib.paper.scripts import Script, write_marks

DISCUSS = 3.0
"""Marks that two markers may differ by in total before they talk it over. Common practice."""


@dataclass(frozen=True)
class Difference:
    """One place where two markers differ: its label, such as 3b or 3 working, and each one's view."""

    label: str
    first: str
    second: str
    first_marks: float
    second_marks: float

    @property
    def by(self) -> float:
        """Marks by which the second is higher."""
        return self.second_marks - self.first_marks


@dataclass(frozen=True)
class Comparison:
    """One candidate's paper, marked by two people."""

    candidate: str
    first: str
    second: str
    first_total: float
    second_total: float
    places: tuple[Difference, ...]

    @property
    def by(self) -> float:
        """Marks by which the second total is higher."""
        return self.second_total - self.first_total

    @property
    def discuss(self) -> bool:
        """Whether the two differ so much that they should talk it over."""
        return abs(self.by) > DISCUSS

    @property
    def says(self) -> str:
        """What is to be done, as a sentence."""
        totals = (
            f"{self.candidate}: {self.first} gives {write_marks(self.first_total)}, "
            f"{self.second} gives {write_marks(self.second_total)}."
        )
        if self.discuss:
            return f"{totals} That is more than {write_marks(DISCUSS)} marks apart: discuss it."
        if not self.places:
            return f"{totals} They agree everywhere."
        return f"{totals} They differ at {', '.join(place.label for place in self.places)}."


def compare(first: Script, second: Script, markers: tuple[str, str]) -> Comparison:
    """Return where two markings of the same candidate's paper differ."""
    ours, theirs = dict(_views(first)), dict(_views(second))
    nothing = ("", 0.0)
    places = tuple(
        Difference(label, one[0], other[0], one[1], other[1])
        for label in dict.fromkeys((*ours, *theirs))
        for one, other in [(ours.get(label, nothing), theirs.get(label, nothing))]
        if _plain(one[0]) != _plain(other[0]) or one[1] != other[1]
    )
    return Comparison(first.candidate, *markers, first.total, second.total, places)


def _views(script: Script) -> Iterator[tuple[str, tuple[str, float]]]:
    """Yield each place where markers can differ, with what was read or ticked there and its marks."""
    yield "paper", (script.code, 0.0)
    for item in script.items:
        for part in item.parts:
            yield part.label, (part.text, 0.0 if item.overruled else part.marks)
        if item.working_out_of:
            ticked = "not ticked" if item.suggested else write_marks(item.working)
            yield f"{item.number} working", (ticked, 0.0 if item.overruled else item.working)
        if item.overruled:
            yield f"{item.number} overruled", (item.overruled.reason, item.marks)


def _plain(text: str) -> str:
    """Return a text as it counts for a difference: 042 T is 042t."""
    return tidy(text).replace(" ", "").casefold()
