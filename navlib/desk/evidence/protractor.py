"""What a protractor tells that lies on a line: how it is laid, and what its ring shows."""

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from navlib.angles import signed, wrap
from navlib.desk.evidence.finding import (
    OFF_MM,
    USED_MM,
    Finding,
    Spot,
    off_line,
    off_stretch,
    towards,
)

TWIST, ASTRAY = 1.5, 2.0
"""Degrees off north, and beside the line, that an eye sees on paper: more than the instrument's own."""
RING_MM = 35.0
"""Radius of the ring, in millimetres of paper."""
READ = 1.0
"""How near a bearing must be to what the ring shows to be read off it, degrees."""


NAMES = {"T": "true north", "G": "the grid lines", "M": "magnetic north"}


@dataclass(frozen=True)
class Norths:
    """Which way the norths lie on a sheet, degrees clockwise from its up, by letter: T, G, M."""

    by_letter: Mapping[str, float]

    def other(self, turn: float, wanted: str) -> str:
        """Return which north a protractor stands on instead of the one wanted; empty for none."""
        near = {
            letter: abs(signed(turn - way))
            for letter, way in self.by_letter.items()
            if abs(signed(way - self.by_letter[wanted])) > TWIST
        }
        best = min(near, key=lambda letter: near[letter], default="")
        return best if best and near[best] <= 1.0 else ""


@dataclass(frozen=True)
class Laid:
    """A protractor on a line of the sheet that a bearing is read of.

    `hub` is its middle, `turn` its north and `arm` the arm's reading on its ring; `a` and `b` are the
    ends of the line, by their `letters`; `wanted` is the north that the bearing counts from.
    """

    hub: Spot
    turn: float
    arm: float
    a: Spot
    b: Spot
    norths: Norths
    wanted: str
    letters: tuple[str, str] = ("A", "B")

    @property
    def used(self) -> bool:
        """Whether it lies on the line, or near enough to be meant to."""
        return off_stretch(self.hub, self.a, self.b) <= USED_MM

    @property
    def line(self) -> float:
        """Which way the line runs, degrees from the sheet's up."""
        return towards(self.a, self.b)

    @property
    def swung(self) -> bool:
        """Whether the arm was swung; else the ring is read where the pencil line crosses it."""
        return abs(signed(self.arm)) > 0.05

    @property
    def shown(self) -> float:
        """What the ring shows."""
        return self.arm if self.swung else wrap(self.line - self.turn)

    @property
    def twist(self) -> float:
        """How far its north is turned from the right one, clockwise positive."""
        return signed(self.turn - self.norths.by_letter[self.wanted])

    @property
    def off_mm(self) -> float:
        """How far its middle lies from the line."""
        return off_line(self.hub, self.a, self.b)

    @property
    def parallax(self) -> float:
        """By how much the ring may mislead if its middle is off the line and no arm is swung."""
        return 0.0 if self.swung else math.degrees(math.asin(min(self.off_mm / RING_MM, 1.0)))

    @property
    def astray(self) -> float:
        """How far the arm is turned from the line, clockwise positive."""
        return signed(self.turn + self.arm - self.line) if self.swung else 0.0


LAYING = frozenset({"laid-on-the-easting", "opposite"})
"""Slips of how a protractor is laid and its arm swung, which an instrument that lies right rules out."""


def of_protractor(laid: Laid, read: float | None) -> Iterator[Finding]:
    """Yield what a protractor tells; `read` is the bearing that the learner gave."""
    if not laid.used:
        return
    matches = read is not None and abs(signed(read - laid.shown)) <= READ + laid.parallax
    faults = list(_laying_faults(laid))
    yield from (replace(fault, explains=matches) for fault in faults)
    if not faults and read is not None:
        yield from _reading_faults(laid.shown, read)


def _laying_faults(laid: Laid) -> Iterator[Finding]:
    wanted = NAMES[laid.wanted]
    line_right = abs(laid.astray) <= ASTRAY
    begins = "Your line is right, but the" if line_right else "The"
    if abs(laid.twist) > TWIST:
        if other := laid.norths.other(laid.turn, laid.wanted):
            stands = NAMES[other]
            apart = abs(signed(laid.norths.by_letter[other] - laid.norths.by_letter[laid.wanted]))
            yield Finding(
                f"{begins} protractor stands on {stands}, not on {wanted}. Here the two lie "
                f"{apart:.0f}° apart. Check: which north does the letter behind your figure name?",
                fits=frozenset({"grid-for-true"}),
                rules_out=LAYING,
            )
        elif abs(abs(laid.twist) - 90) < 5:
            yield Finding(
                f"{begins} protractor’s N lies along a line that runs east and west. That is a "
                "quarter turn out. Check: N points up the sheet.",
                fits=frozenset({"laid-on-the-easting"}),
                rules_out=frozenset({"opposite"}),
            )
        else:
            side = "clockwise" if laid.twist > 0 else "anticlockwise"
            yield Finding(
                f"{begins} protractor is turned {abs(laid.twist):.0f}° {side} from {wanted}, and what "
                "it shows is out by as much. Check: lay its lines along those of the sheet before "
                "you read.",
                rules_out=LAYING if abs(laid.twist) < 45 else frozenset(),
            )
    if not line_right:
        first, last = laid.letters
        if abs(abs(laid.astray) - 180) <= ASTRAY:
            yield Finding(
                f"The arm points from {last} to {first}. A bearing is from the first place named. "
                f"Check: the arm runs from {first} over {last}.",
                fits=frozenset({"opposite"}),
                rules_out=frozenset({"laid-on-the-easting"}),
            )
        else:
            side = "right" if laid.astray > 0 else "left"
            beside = f"{abs(laid.astray):.0f}° to the {side} of the line from {first} to {last}"
            says = (
                f"The protractor’s middle lies {laid.off_mm:.0f} mm from the line, and its arm runs "
                f"{beside}. The ring is right only about its own middle. Check: the middle on the line "
                "first, then swing the arm."
                if laid.off_mm > OFF_MM
                else f"The arm runs {beside}. It must cover the line before the ring is read. Check: "
                "look along the arm."
            )
            yield Finding(says, rules_out=LAYING if abs(laid.astray) < 45 else frozenset())
    elif laid.off_mm > OFF_MM and not laid.swung:
        yield Finding(
            f"The protractor’s middle lies {laid.off_mm:.0f} mm from the line. The ring is right only "
            "about its own middle. Check: the middle is on the line before you read."
        )


def _reading_faults(shown: float, read: float) -> Iterator[Finding]:
    """Yield what was misread off a protractor that lies right; `shown` is what its ring says."""
    off = signed(read - shown)
    if abs(off) <= ASTRAY:
        yield Finding("The protractor lies as it should.", good=True)
        return
    figure = f"The protractor lies right, and its ring shows {shown:03.0f}, not {read:03.0f}. "
    ruled = LAYING
    if abs(signed(read + shown)) <= READ + 1:
        why, fits = "The ring was read as if it counted the other way round", frozenset({"mirror"})
    elif abs(abs(off) - 10) <= READ:
        why, fits = "A ten was miscounted on the ring", frozenset({"ten-out"})
    elif abs(abs(off) - 180) <= READ:
        why, fits = "It was read at the tail of the line", frozenset({"opposite"})
        ruled = ruled - fits
    elif _exchanged(shown, read):
        why, fits = "Two figures have changed places", frozenset({"digits-exchanged"})
    elif abs(off) < 10:
        why, fits = "It was misread by a few degrees", frozenset()
    else:
        yield Finding(
            f"{figure}So it is not the measuring. Check: what did you do with the figure after you "
            "read it?",
            rules_out=ruled,
        )
        return
    yield Finding(
        f"{figure}{why}. Check: read it once more, and say the figure aloud as you write it.",
        explains=True,
        fits=fits,
        rules_out=ruled,
    )


def _exchanged(shown: float, read: float) -> bool:
    """Return whether the figures of two bearings are the same in another order."""
    one, other = (f"{round(x) % 360:03d}" for x in (shown, read))
    swaps = {one[1] + one[0] + one[2], one[0] + one[2] + one[1]}
    return other != one and other in swaps


# A bearing laid off -----------------------------------------------------------------------------


def of_laying_off(
    laid: Laid, start: Spot, figure: float, compass: float | None
) -> Iterator[Finding]:
    """Yield what a protractor tells by which a line was drawn: `laid` is on that line.

    `start` is where the line should begin, `figure` what should be laid off there, `compass` the
    figure that the compass showed.
    """
    if math.dist(laid.hub, start) > USED_MM or not laid.swung:
        return
    # The line may be drawn along the arm or the other way, to or from the mark.
    along = min(abs(laid.astray), 180 - abs(laid.astray)) <= ASTRAY
    ring = f"The arm shows {laid.arm:03.0f} on the ring"
    right_figure = abs(signed(laid.arm - figure)) <= ASTRAY
    if abs(laid.twist) > TWIST:
        other = laid.norths.other(laid.turn, laid.wanted)
        stands = (
            f"stands on {NAMES[other]}"
            if other
            else f"is turned {abs(laid.twist):.0f}°, away from north"
        )
        begins = f"{ring}, which is right, but the" if right_figure else "The"
        yield Finding(
            f"{begins} protractor {stands}, not on {NAMES[laid.wanted]}. The line is turned "
            "by as much. Check: which north does your figure count from?",
            explains=along and right_figure,
            fits=frozenset({"laid-on-the-easting"})
            if abs(abs(laid.twist) - 90) < 5
            else frozenset(),
        )
    elif compass is not None and not right_figure and abs(signed(laid.arm - compass)) <= ASTRAY:
        yield Finding(
            f"{ring}, the compass’s own figure, and the protractor stands on "
            f"{NAMES[laid.wanted]}. The compass counts from magnetic north. Check: the letter of "
            "its north behind each figure.",
            explains=along,
            fits=frozenset({"variation-forgotten", "grid-magnetic-forgotten"}),
        )
    elif right_figure and not along:
        yield Finding(
            f"{ring}, which is right, and the protractor lies right, but your line does not run "
            "along the arm. So it is the drawing. Check: let the arm’s edge guide the pencil.",
            explains=True,
        )
