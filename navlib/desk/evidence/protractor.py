"""What a protractor tells that lies on a line: how it is laid, and what its ring shows."""

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from navlib.angles import signed, wrap
from navlib.desk.evidence.finding import (
    OFF_MM,
    USED_MM,
    Finding,
    Spot,
    figures,
    off_line,
    off_stretch,
    towards,
)
from navlib.desk.evidence.norths import NAMES, STIFF, Eye, Norths
from navlib.language import say


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
    eye: Eye = STIFF

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
        return (
            0.0 if self.swung else math.degrees(math.asin(min(self.off_mm / self.eye.ring_mm, 1.0)))
        )

    @property
    def astray(self) -> float:
        """How far the arm is turned from the line, clockwise positive."""
        return signed(self.turn + self.arm - self.line) if self.swung else 0.0


QUARTER = 5.0
"""How near to a quarter turn a protractor was laid along the wrong lines, degrees."""
LAYING = frozenset({"laid-on-the-easting", "opposite"})
"""Slips of how a protractor is laid and its arm swung, which an instrument that lies right rules out."""


def of_protractor(laid: Laid, read: float | None) -> Iterator[Finding]:
    """Yield what a protractor tells; `read` is the bearing that the learner gave."""
    if not laid.used:
        return
    nearest = laid.eye.read + laid.parallax
    matches = read is not None and abs(signed(read - laid.shown)) <= nearest
    faults = [*_of_its_north(laid), *_of_its_arm(laid)]
    yield from (replace(fault, explains=matches) for fault in faults)
    if not faults and read is not None:
        yield _of_its_ring(laid.shown, read, laid.eye)


def _of_its_north(laid: Laid) -> Iterator[Finding]:
    """Yield how its N lies against the north wanted, if that is to be seen."""
    if abs(laid.twist) <= laid.eye.twist:
        return
    line_right = abs(laid.astray) <= laid.eye.astray
    wanted = say(NAMES[laid.wanted])
    if other := laid.norths.other(laid.turn, laid.wanted, laid.eye):
        apart = abs(signed(laid.norths.by_letter[other] - laid.norths.by_letter[laid.wanted]))
        yield Finding(
            say(
                "Your line is right, but the protractor stands on {stands}, not on {wanted}."
                if line_right
                else "The protractor stands on {stands}, not on {wanted}.",
                {"stands": say(NAMES[other]), "wanted": wanted},
            ),
            say("Here the two lie {apart}° apart.", {"apart": f"{apart:.0f}"}),
            say("Check: which north does the letter behind your figure name?"),
            fits=frozenset({"grid-for-true"}),
            rules_out=LAYING,
        )
    elif abs(abs(laid.twist) - 90) <= QUARTER:
        yield Finding(
            say(
                "Your line is right, but the protractor’s N lies along a line that runs east and west."
                if line_right
                else "The protractor’s N lies along a line that runs east and west."
            ),
            say("That is a quarter turn out."),
            say("Check: N points up the sheet."),
            fits=frozenset({"laid-on-the-easting"}),
            rules_out=frozenset({"opposite"}),
        )
    else:
        yield Finding(
            say(
                TURNED[line_right][laid.twist > 0],
                {"turned": f"{abs(laid.twist):.0f}", "wanted": wanted},
            ),
            say("What it shows is out by as much."),
            say("Check: lay its lines along those of the sheet before you read."),
            rules_out=LAYING if abs(laid.twist) < 45 else frozenset(),
        )


def _of_its_arm(laid: Laid) -> Iterator[Finding]:
    """Yield how its arm, or its thread, and its middle lie against the line."""
    first, last = laid.letters
    off_mm, thread = f"{laid.off_mm:.0f}", laid.eye.thread
    if abs(laid.astray) <= laid.eye.astray:
        if laid.off_mm > OFF_MM and not laid.swung:
            yield Finding(
                say("The protractor’s middle lies {off_mm} mm from the line.", {"off_mm": off_mm}),
                say("The ring is right only about its own middle."),
                say("Check: the middle is on the line before you read."),
            )
    elif abs(abs(laid.astray) - 180) <= laid.eye.astray:
        ends = {"first": first, "last": last}
        yield Finding(
            say(
                "The thread points from {last} to {first}."
                if thread
                else "The arm points from {last} to {first}.",
                ends,
            ),
            say("A bearing is from the first place named."),
            say(
                "Check: the thread runs from {first} over {last}."
                if thread
                else "Check: the arm runs from {first} over {last}.",
                ends,
            ),
            fits=frozenset({"opposite"}),
            rules_out=frozenset({"laid-on-the-easting"}),
        )
    else:
        beside = {
            "beside": f"{abs(laid.astray):.0f}",
            "first": first,
            "last": last,
            "off_mm": off_mm,
        }
        ruled = LAYING if abs(laid.astray) < 45 else frozenset()
        runs = say(BESIDE[thread][laid.astray > 0], beside)
        if laid.off_mm > OFF_MM:
            yield Finding(
                f"{say('The protractor’s middle lies {off_mm} mm from the line.', beside)} {runs}",
                say("The ring is right only about its own middle."),
                say(
                    "Check: the middle on the line first, then swing the thread."
                    if thread
                    else "Check: the middle on the line first, then swing the arm."
                ),
                rules_out=ruled,
            )
        else:
            yield Finding(
                runs,
                say("It must cover the line before the ring is read."),
                say("Check: look along the thread." if thread else "Check: look along the arm."),
                rules_out=ruled,
            )


TURNED = {
    True: {
        True: "Your line is right, but the protractor is turned {turned}° clockwise from {wanted}.",
        False: "Your line is right, but the protractor is turned {turned}° anticlockwise from "
        "{wanted}.",
    },
    False: {
        True: "The protractor is turned {turned}° clockwise from {wanted}.",
        False: "The protractor is turned {turned}° anticlockwise from {wanted}.",
    },
}
"""By whether the line is right, and whether it is turned clockwise."""
BESIDE = {
    False: {
        True: "The arm runs {beside}° to the right of the line from {first} to {last}.",
        False: "The arm runs {beside}° to the left of the line from {first} to {last}.",
    },
    True: {
        True: "The thread runs {beside}° to the right of the line from {first} to {last}.",
        False: "The thread runs {beside}° to the left of the line from {first} to {last}.",
    },
}
"""By whether it is a thread, and whether it runs to the right."""


def _of_its_ring(shown: float, read: float, eye: Eye) -> Finding:
    """Return what was misread off a protractor that lies right; `shown` is what its ring says."""
    off = signed(read - shown)
    if abs(off) <= eye.astray:
        return Finding(say("The protractor lies as it should."), good=True)
    figure = say(
        "The protractor lies right, and its ring shows {shown}, not {read}.",
        {"shown": figures(shown), "read": figures(read)},
    )
    ruled = LAYING
    if abs(signed(read + shown)) <= eye.read + 1:
        why = say("The ring was read as if it counted the other way round.")
        fits = frozenset({"mirror"})
    elif abs(abs(off) - 10) <= eye.read:
        why, fits = say("A ten was miscounted on the ring."), frozenset({"ten-out"})
    elif abs(abs(off) - 180) <= eye.read:
        why, fits = say("It was read at the tail of the line."), frozenset({"opposite"})
        ruled = ruled - fits
    elif _exchanged(shown, read):
        why, fits = say("Two figures have changed places."), frozenset({"digits-exchanged"})
    elif abs(off) < 10:
        why, fits = say("It was misread by a few degrees."), frozenset()
    else:
        return Finding(
            figure,
            say("So it is not the measuring."),
            say("Check: what did you do with the figure after you read it?"),
            rules_out=ruled,
        )
    return Finding(
        figure,
        why,
        say("Check: read it once more, and say the figure aloud as you write it."),
        explains=True,
        fits=fits,
        rules_out=ruled,
    )


def _exchanged(shown: float, read: float) -> bool:
    """Return whether the figures of two bearings are the same in another order."""
    one, other = figures(shown), figures(read)
    swaps = {one[1] + one[0] + one[2], one[0] + one[2] + one[1]}
    return other != one and other in swaps
