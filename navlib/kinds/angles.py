"""Answers that are angles: a bearing with its north, an angle to east or west, a plain angle."""

import re
from dataclasses import dataclass, field

from navlib import bearings
from navlib.angles import (
    lower_marks,
    parse_degrees,
    parse_east_west,
    signed,
    signed_difference,
    to_nearest,
    wrap,
    write_east_west,
)
from navlib.chain.kind import Kind
from navlib.language import say, to_say
from navlib.magnetism import parse_rose
from navlib.notation import Impossible, Unclear, tidy


class _RoundTheCircle(Kind[float]):
    """What angles have in common: how far apart two are is taken the short way round."""

    def apart(self, one: float, other: float) -> float:
        """Return how far `one` lies clockwise of `other`, in (-180, 180] degrees."""
        return signed_difference(one, other)

    def shift(self, value: float, by: float) -> float:
        """Return `value` turned clockwise by `by` degrees, in [0, 360)."""
        return wrap(value + by)

    def write_width(self, width: float) -> str:
        """Return a width of tolerance in degrees: 2°."""
        return f"{width:g}°"


@dataclass(frozen=True)
class Bearing(_RoundTheCircle):
    """A bearing in degrees from `north` (T, M, G or C), written 042°T.

    Without its letter it is read as counted from `north`, with a note, or queried if
    `letter_needed` (where several norths are in play). Another north is queried, never converted.
    Decimals are read only if `rounding` is below 1. A point of the compass is an answer only if
    `points` is set, as for bearings by eye.
    """

    north: str = "T"
    rounding: float = 1.0
    points: bool = False
    letter_needed: bool = False
    unit: str = field(init=False, default="")
    example: str = field(init=False, default="")

    def __post_init__(self) -> None:
        object.__setattr__(self, "unit", f"°{self.north}")
        object.__setattr__(self, "example", self.write(42.0))

    def parse(self, text: str) -> tuple[float, tuple[str, ...]]:
        """Return the bearing in [0, 360) and notes; raise Misread as `bearings.parse` does."""
        written = bearings.parse(text, decimals=self.rounding < 1)
        given, asked = tidy(text), say(bearings.NORTHS[self.north])
        if written.north and written.north != self.north:
            problem = say(
                "you wrote {north}; the question asks for {asked}",
                {"north": say(bearings.NORTHS[written.north]), "asked": asked},
            )
            raise Unclear(given, problem, self.example)
        if written.point:
            if not self.points:
                problem = say(
                    "{point} is a point of the compass; a measured bearing has figures",
                    {"point": written.point},
                )
                raise Unclear(given, problem, self.example)
            return written.degrees, written.notes
        if written.north:
            return written.degrees, written.notes
        figures = self.write(written.degrees)
        if self.letter_needed:
            problem = "it does not say from which north, and more than one is in play here"
            raise Unclear(given, problem, figures)
        note = say(
            "Say from which north: {figures}. It was taken as {asked}.",
            {"figures": figures, "asked": asked},
        )
        return written.degrees, (*written.notes, note)

    def write(self, value: float) -> str:
        """Return the bearing in three figures with its north: 042°T."""
        return bearings.write(value, self.north, self.rounding)


@dataclass(frozen=True)
class EastWest(_RoundTheCircle):
    """A variation, deviation, convergence or grid magnetic angle: degrees, east positive.

    Written 2°W, or 2°22'W if `rounding` (in degrees) is below 1.
    """

    rounding: float = 1.0
    unit: str = field(init=False, default="°")
    example: str = field(init=False, default="")

    def __post_init__(self) -> None:
        object.__setattr__(self, "example", self.write(-142 / 60))

    def parse(self, text: str) -> tuple[float, tuple[str, ...]]:
        """Return degrees in [-180, 180]; raise Misread as `parse_east_west` does.

        A whole rose, var 4 W 2020 (14'E), is read as the variation printed on it.
        """
        try:
            return parse_east_west(text, self.example), ()
        except Unclear:
            if not re.search(r"\b(?:1[6-9]|2[01])\d\d\b", text):
                raise
        return parse_rose(text).printed, ()

    def write(self, value: float) -> str:
        """Return the angle with its side: 2°22'W."""
        return write_east_west(value, self.rounding)

    def write_width(self, width: float) -> str:
        """Return a width of tolerance: ± 1' where minutes are written, else degrees."""
        return f"{width * 60:.0f}'" if self.rounding < 0.1 else super().write_width(width)

    def shift(self, value: float, by: float) -> float:
        """Return `value` moved to the east by `by` degrees, in (-180, 180]."""
        return signed(value + by)


RELATIVE = to_say("relative")
_EITHER_BOW = "red 35 or green 35"
_BOW_SIDE = "red|green|port|starboard|r|g"
_FROM_BOW = re.compile(
    rf"(?:(?P<before>{_BOW_SIDE}) ?)?(?P<amount>[\d.].*?)"
    rf"(?: ?(?:on |to )?(?:the )?(?P<after>{_BOW_SIDE})(?: bow| side)?)?"
)


@dataclass(frozen=True)
class Angle(_RoundTheCircle):
    """A plain angle in degrees, in [0, 360): between two marks, or clockwise from the bow.

    Written 35°, with one decimal if `rounding` is below 1. With `from_bow` it is written
    035° relative, and red 35 or 35° to port is read as 325, green 35 as 035.
    """

    from_bow: bool = False
    rounding: float = 1.0
    unit: str = field(init=False, default="")
    example: str = field(init=False, default="")

    def __post_init__(self) -> None:
        object.__setattr__(self, "unit", "° relative" if self.from_bow else "°")
        object.__setattr__(self, "example", self.write(35.0))

    def parse(self, text: str) -> tuple[float, tuple[str, ...]]:
        """Return the angle in [0, 360); raise Unclear for a bearing, Impossible over 360°."""
        given = tidy(text)
        own = re.escape(say(RELATIVE).casefold())
        words = re.sub(rf" ?\b(?:relative|rel|{own})$", "", lower_marks(text)).strip()
        if re.match(r"-[ .]?\d", words):
            if self.from_bow:
                raise Unclear(given, "a minus could be port or a slip", say(_EITHER_BOW))
            raise Impossible(given, "this angle is never negative", self.example)
        if re.search(r"\d[°' ]*\(?(?:t|m|g|c|true|mag|magnetic|grid|compass)\b", words):
            problem = (
                "you wrote a bearing from a north; the question asks for the angle from the bow"
                if self.from_bow
                else "you wrote a bearing from a north; the question asks for the angle between the "
                "two directions"
            )
            raise Unclear(given, problem, self.example)
        side = ""
        if self.from_bow and (match := _FROM_BOW.fullmatch(words)):
            words, side = match["amount"], (match["before"] or match["after"] or "")[:1]
            if match["before"] and match["after"]:
                raise Unclear(given, "the side is written twice", say(_EITHER_BOW))
        degrees = parse_degrees(words, self.example, given)
        if degrees > (180 if side else 360):
            problem = (
                "this angle is never over 180° on one side"
                if side
                else "this angle is never over 360°"
            )
            raise Impossible(given, say(problem), self.example)
        return wrap(-degrees if side in ("r", "p") else degrees), ()

    def write(self, value: float) -> str:
        """Return 35°, or 035° relative from the bow."""
        rounded = wrap(to_nearest(wrap(value), self.rounding))
        figures = f"{rounded:.0f}" if self.rounding >= 1 else f"{rounded:.1f}"
        three = 3 if self.rounding >= 1 else 5
        return f"{figures.zfill(three)}° {say(RELATIVE)}" if self.from_bow else f"{figures}°"
