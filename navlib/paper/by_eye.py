"""What is drawn on a paper's sheet, as a marker sees it beside the solution drawn in the scheme.

Nobody measures a pencil mark to the metre at a kitchen table. A marker says how far off it lies, or
at which of the lettered slips it ends; the same marker as elsewhere judges what that comes to.
"""

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from string import ascii_lowercase as LETTERS

from navlib import waters
from navlib.chain.question import Question
from navlib.chain.step import Slip
from navlib.kinds.marks import OnSheet, Pencilled
from navlib.language import say
from navlib.notation import Misread, Unclear, tidy
from navlib.paper.slips import slip_values
from navlib.questions.plotted import on_grid
from navlib.waters import Place

RIGHT = frozenset({"right", "ok", "✓", "✔"})
"""How a marker writes that what is drawn lies where it should (in its tidied form)."""
NONE = frozenset({"none", "nothing"})
"""How a marker writes that nothing is drawn, besides a dash."""
_OFF = re.compile(r"(\d{1,3}(?:[.,]\d+)?)\s*(mm|cm)?")


@dataclass(frozen=True)
class SlipEnd:
    """Where a usual slip ends on the sheet, and the letter that it has there."""

    letter: str
    slip: Slip
    end: Pencilled


@dataclass(frozen=True)
class Off(Pencilled):
    """Something drawn so many millimetres of paper off, nobody said which way."""

    mm: float = 0.0


@dataclass(frozen=True)
class ByEye(OnSheet):
    """Something drawn, as a marker sees it: right, so far off, at a slip's letter, or read off."""

    key: Pencilled = field(default_factory=lambda: Pencilled(()))
    ends: Mapping[str, Pencilled] = field(default_factory=dict, hash=False)

    def parse(self, text: str) -> tuple[Pencilled, tuple[str, ...]]:
        """Return what was seen; raise Misread with an example for what cannot be read."""
        seen = tidy(text).casefold()
        if seen in RIGHT:
            return self.key, ()
        if seen in self.ends:
            return self.ends[seen], ()
        if off := _OFF.fullmatch(seen):
            mm = float(off[1].replace(",", ".")) * (10 if off[2] == "cm" else 1)
            return Off(self.key.places, self.key.scale, self.key.radius_m, mm), ()
        try:
            return super().parse(text)
        except Misread:
            problem = "that is neither a distance nor a letter of the solved sheet"
            raise Unclear(tidy(text), problem, self._examples()) from None

    def apart(self, one: Pencilled, other: Pencilled) -> float:
        """Return millimetres between the two; what is off no known way is near to no slip."""
        for drawn, beside in ((one, other), (other, one)):
            if isinstance(drawn, Off):
                return drawn.mm if beside == self.key else math.inf
        return super().apart(one, other)

    def _examples(self) -> str:
        letters = [*self.ends]
        if letters:
            return say(
                "2 mm (how far off), {letter} (the letter of a slip), right, or - for nothing drawn",
                {"letter": letters[0]},
            )
        return say("2 mm (how far off), right, or - for nothing drawn")


def plotted(question: Question) -> str:
    """Return the name of the part that is drawn on the sheet; empty if none is."""
    kinds = question.chain.by_name
    return next((name for name in question.asks if isinstance(kinds[name].kind, OnSheet)), "")


def none_drawn(question: Question, seen: Mapping[str, str]) -> bool:
    """Return whether a marker, in what was `seen` by name of part, says that nothing is drawn."""
    return seen.get(plotted(question), "").casefold() in NONE


def drawn_spots(question: Question) -> tuple[Place, ...]:
    """Return what a right drawing reaches, in grid metres: a mark alone, ends of a line, a rim."""
    name = plotted(question)
    if not name or question.values[name] is None:
        return ()
    water, key = waters.load(question.picture.water), question.values[name]
    spots = [on_grid(water, place) for place in key.places]
    if r := key.radius_m:
        (east, north) = spots[0]
        spots = [(east + x * r, north + y * r) for x, y in ((0, 1), (1, 0), (0, -1), (-1, 0))]
    return tuple(spots)


def slip_ends(question: Question) -> tuple[SlipEnd, ...]:
    """Return where the usual slips of a plotting question end, in the order of their letters."""
    name = plotted(question)
    if not name:
        return ()
    found = zip(LETTERS, slip_values(question), strict=False)
    return tuple(SlipEnd(letter, slip, values[name]) for letter, (slip, values) in found)


def seen_by_eye(question: Question) -> Question:
    """Return the question with what is drawn read as a marker enters it; others as they are."""
    name = plotted(question)
    if not name:
        return question
    ends = {one.letter: one.end for one in slip_ends(question)}
    kind = question.chain.by_name[name].kind
    assert isinstance(kind, OnSheet)
    seen = ByEye(
        kind.sort, kind.lettering, kind.drawn_only, kind.rounding, question.values[name], ends
    )
    steps = (replace(s, kind=seen) if s.name == name else s for s in question.chain.steps)
    return replace(question, chain=replace(question.chain, steps=tuple(steps)))


def slip_named(question: Question, text: str) -> Slip | None:
    """Return the slip whose letter a marker entered; None if it was something else."""
    seen = tidy(text).casefold()
    return next((one.slip for one in slip_ends(question) if one.letter == seen), None)
