"""What a cord and a thumb tell that a way from place to place was measured with."""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from navlib.angles import signed
from navlib.desk.evidence.finding import (
    OFF_MM,
    USED_MM,
    Finding,
    Spot,
    off_way,
    towards,
    way_along,
)
from navlib.language import say
from navlib.sheets.window import MercatorWindow, Window
from navlib.units import NM

LAID_MM, SLACK = 3.0, 0.04
"""How far a length laid by hand may be out, mm, and by what share of it, before an eye sees it."""
BESIDE, MEANT = 10.0, 30.0
"""Degrees beside a leg that an eye sees on a thumb, and those from which it was not meant for it."""
TIED_MM = 2.0
"""How near knots must be to a length on the sheet to be tied by it."""
COUNTED = 0.5
"""The share of a knot's space or a breadth by which a count may be out and still be that count."""


@dataclass(frozen=True)
class Way:
    """A way to measure, straight from spot to spot of the sheet, and what was given for it.

    `mile_mm` is a mile on the sheet, `others_mm` what is taken for a mile by those who make the slips
    it is named by; `read` is the learner's figure in miles.
    """

    spots: tuple[Spot, ...]
    mile_mm: float
    others_mm: Mapping[str, float]
    read: float | None = None

    @property
    def letters(self) -> str:
        """The letters of its spots."""
        return "ABCDEFG"[: len(self.spots)]

    @property
    def length(self) -> float:
        """Its length on paper, mm."""
        return sum(math.dist(a, b) for a, b in pairwise(self.spots))

    @property
    def read_mm(self) -> float | None:
        """What the figure given comes to on paper."""
        return None if self.read is None else self.read * self.mile_mm


def way_on(spots: Sequence[Spot], window: Window, read_m: float | None) -> Way:
    """Return the way through spots of a sheet, with a mile as it is half-way between its ends."""
    (x1, y1), (x2, y2) = spots[0], spots[-1]
    x, y = (x1 + x2) / 2, (y1 + y2) / 2
    if isinstance(window, MercatorWindow):
        lat, lon = (float(degrees) for degrees in window.lat_lon_at(x, y))
        north, east = (float(degrees) for degrees in window.lat_lon_at(x + 1, y - 1))
        mile, minute = 1 / (60 * (north - lat)), 1 / (60 * (east - lon))
        others = {"longitude-scale": minute, "bars-for-minutes": mile / 2}
    else:
        mile = NM * 1000 / window.scale
        others = {"kilometres-for-miles": 1_000_000 / window.scale}
    return Way(tuple(spots), mile, others, None if read_m is None else read_m / NM)


def seen(length: float) -> float:
    """Return by how many millimetres a length of paper must be out for an eye to see it."""
    return math.hypot(LAID_MM, SLACK * length)


# A cord -----------------------------------------------------------------------------------------


def of_cord_on_way(points: Sequence[Spot], knots_mm: float, way: Way) -> Iterator[Finding]:
    """Yield what a cord tells that was laid along a way; `knots_mm` apart, 0 for none."""
    if len(points) < 2:
        return
    first, *_, last = way.spots
    if max(off_way(first, points), off_way(last, points)) > USED_MM:
        return
    laid = abs(way_along(last, points) - way_along(first, points))
    faults = list(_of_laying(points, laid, way))
    yield from faults
    if knots_mm > 0 and way.read is not None and not faults:
        yield from _of_knots(laid, knots_mm, way, way.read)


def _of_laying(points: Sequence[Spot], laid: float, way: Way) -> Iterator[Finding]:
    """Yield where a cord leaves its way, or that it lies slack; `laid` is its length on the way."""
    matches = way.read_mm is not None and abs(way.read_mm - laid) <= seen(laid)
    told_apart = abs(laid - way.length) > seen(way.length)
    off, letter = max((off_way(s, points), x) for s, x in zip(way.spots, way.letters, strict=True))
    if off > 2 * OFF_MM:
        yield Finding(
            say(
                "The cord passes {place} at a distance of {off_mm} mm.",
                {"place": letter, "off_mm": f"{off:.0f}"},
            ),
            say("What is measured along it is then another way."),
            say("Check: lay it over each place, one after the other, before you count."),
            explains=matches and told_apart,
        )
    elif laid - way.length > seen(way.length):
        yield Finding(
            say(
                "The cord takes {laid} mm from {first} to {last}, and the way is {length} mm long.",
                {
                    "laid": f"{laid:.0f}",
                    "length": f"{way.length:.0f}",
                    "first": way.letters[0],
                    "last": way.letters[-1],
                },
            ),
            say("It lies slack, and shows more miles than there are."),
            say("Check: draw it tight from place to place before you count."),
            explains=matches,
        )


def _of_knots(laid: float, knots_mm: float, way: Way, read: float) -> Iterator[Finding]:
    """Yield how far apart the knots are, or how they were counted, in a cord that lies right."""
    shown, counted = laid / way.mile_mm, laid / knots_mm
    band = seen(laid) / way.mile_mm
    if abs(read - shown) <= band:
        yield Finding(say("The cord lies as it should."), good=True)
    elif abs(knots_mm - way.mile_mm) > TIED_MM:
        if abs(read - counted) <= band:
            yield Finding(
                say(
                    "The knots are {knots} mm apart, and a mile is {mile} mm on this sheet.",
                    {"knots": f"{knots_mm:.0f}", "mile": f"{way.mile_mm:.0f}"},
                ),
                say("You counted each for a mile."),
                say("Check: lay one space between knots on the scale for miles."),
                explains=True,
                fits=frozenset(
                    slip for slip, mm in way.others_mm.items() if abs(mm - knots_mm) <= TIED_MM
                ),
            )
    elif abs(abs(read - shown) - 1) <= min(band, COUNTED):
        yield Finding(
            _figure(shown, read),
            say("A knot was miscounted."),
            say("Check: count the knots aloud from the beginning, which is none."),
            explains=True,
            rules_out=frozenset(way.others_mm),
        )
    else:
        yield Finding(
            _figure(shown, read),
            say("So it is not the cord."),
            say("Check: how did you come from knots to your figure?"),
            rules_out=frozenset(way.others_mm),
        )


def _figure(shown: float, read: float) -> str:
    return say(
        "The cord lies right, has a knot each mile, and shows {shown} miles, not {read}.",
        {"shown": f"{shown:.1f}", "read": f"{read:.1f}"},
    )


# A thumb ----------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Paced:
    """A thumb that was walked over a sheet: its left edge, the way it was walked, and breadths."""

    edge: Spot
    direction: float
    width_mm: float
    steps: int

    @property
    def start(self) -> Spot:
        """Where its left edge was before the first step."""
        t, back = math.radians(self.direction), self.steps * self.width_mm
        return self.edge[0] - back * math.sin(t), self.edge[1] + back * math.cos(t)

    @property
    def runs(self) -> float:
        """Which way it went, degrees from the sheet's up."""
        return self.direction if self.steps > 0 else self.direction + 180

    @property
    def covered(self) -> float:
        """How far it went, mm."""
        return abs(self.steps) * self.width_mm


def of_thumb(paced: Paced, way: Way) -> Iterator[Finding]:
    """Yield what a thumb tells that was walked along a way, or along one of its legs."""
    if not paced.steps or paced.width_mm <= 0:
        return
    ends = list(pairwise(zip(way.spots, way.letters, strict=True)))
    legs = [*ends, *((b, a) for a, b in ends)]
    meant = [
        (abs(signed(paced.runs - towards(a, b))), a, first, last)
        for (a, first), (b, last) in legs
        if math.dist(paced.start, a) <= USED_MM
    ]
    astray, begin, first, last = min(meant, default=(math.inf, paced.start, "", ""))
    off = math.dist(paced.start, begin)
    if astray > MEANT:
        return
    if astray > BESIDE:
        yield Finding(
            say(
                "The thumb was walked {beside}° beside the line from {first} to {last}.",
                {"beside": f"{astray:.0f}", "first": first, "last": last},
            ),
            say("What is counted there is another line."),
            say("Check: look along the line before each step."),
        )
    elif off > 2 * OFF_MM:
        yield Finding(
            say(
                "The thumb set out {off_mm} mm from {place}.",
                {"off_mm": f"{off:.0f}", "place": first},
            ),
            say("What was counted is out by as much."),
            say("Check: its edge begins on the place itself."),
        )
    elif len(way.spots) == 2 and way.read_mm is not None:
        yield from _of_breadths(paced, way, way.read_mm, last)


def _of_breadths(paced: Paced, way: Way, read_mm: float, last: str) -> Iterator[Finding]:
    """Yield what was miscounted with a thumb that was walked along a single leg."""
    width, length, covered = paced.width_mm, way.length, paced.covered
    band, breadths = seen(length), length / width
    off, read = read_mm - length, read_mm / way.mile_mm
    if abs(off) <= band:
        yield Finding(say("The thumb was walked as it should be."), good=True)
        return
    mistaken = frozenset(s for s, mm in way.others_mm.items() if abs(read * mm - length) <= band)
    sizes = {
        "count": abs(paced.steps),
        "width": f"{width:.0f}",
        "length": f"{length:.0f}",
        "breadths": f"{breadths:.1f}",
        "place": last,
    }
    if abs(read_mm - covered) <= band:
        yield Finding(
            say(
                "The thumb was walked on by {count} × {width} mm, and the line is {length} mm long.",
                sizes,
            ),
            say("It did not reach {place}." if off < 0 else "It went beyond {place}.", sizes),
            say("Check: the last breadth ends at the place, and what is over counts in part."),
            explains=True,
        )
    elif not -COUNTED * width <= length - covered <= width + band:
        return  # still on its way, or back on it
    elif not mistaken and abs(abs(off) - width) <= min(band, COUNTED * width):
        yield Finding(
            say("The thumb was walked right, and the line is {breadths} breadths long.", sizes),
            say(
                "Your figure has one breadth too few."
                if off < 0
                else "Your figure has one breadth too many."
            ),
            say("Check: the first breadth is counted when the thumb has gone on by one."),
            explains=True,
        )
    elif not mistaken and abs(read - breadths) <= band / width:
        yield Finding(
            say("The thumb was walked right, and the line is {breadths} breadths long.", sizes),
            say("You gave the breadths for miles."),
            say("Check: how far does one breadth reach on the scale?"),
            explains=True,
        )
    else:
        yield Finding(
            say("The thumb was walked right, and the line is {breadths} breadths long.", sizes),
            say("So it is not the walking."),
            say("Check: how far does one breadth reach on the scale?"),
            fits=mistaken,
        )
