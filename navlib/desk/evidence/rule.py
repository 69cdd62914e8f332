"""What a parallel rule tells that was laid on a line and walked to a compass rose, or back."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from navlib.angles import signed, wrap
from navlib.desk.evidence.finding import OFF_MM, Finding, Spot, off_line, towards
from navlib.magnetism import Rose

BAR_MM = 12.0
"""Breadth of each bar: so far bar 2's edge lies beyond the gap between the two."""
ASTRAY, MEANT = 2.0, 30.0
"""Degrees beside the line that an eye sees, and those from which the rule was not meant for it."""
READ = 1.0
"""How near a bearing must be to what a ring shows to be read off it, degrees."""
UNTURNED = (90.0, 13.0)
"""Direction and gap of a rule as it comes out of the tray: nothing was done with it yet."""
HELD = "Check: one bar is pressed down while the other moves."


@dataclass(frozen=True)
class Walked:
    """A parallel rule on a chart: the middle of bar 1's edge, which way its edges run, degrees from
    true north, and the gap between the bars in millimetres; `a` and `b` are the ends of the line.
    """

    middle: Spot
    direction: float
    gap_mm: float
    a: Spot
    b: Spot

    @property
    def line(self) -> float:
        """Which way the line runs, degrees."""
        return towards(self.a, self.b)

    @property
    def astray(self) -> float:
        """How far the edges are turned from the line, clockwise positive; either end may lead."""
        return signed(2 * (self.direction - self.line)) / 2

    @property
    def used(self) -> bool:
        """Whether the rule was turned for this line, or near enough to be meant to."""
        return (self.direction, self.gap_mm) != UNTURNED and abs(self.astray) <= MEANT

    @property
    def shown(self) -> float:
        """What the true ring of any rose shows that the rule is walked to."""
        return wrap(self.line + self.astray)

    @property
    def at_line(self) -> bool:
        """Whether one of its edges still lies at one end of the line."""
        t = math.radians(self.direction)
        for off in (0.0, self.gap_mm + BAR_MM):
            edge = (self.middle[0] + off * math.cos(t), self.middle[1] + off * math.sin(t))
            ahead = (edge[0] + math.sin(t), edge[1] - math.cos(t))
            if any(off_line(spot, edge, ahead) <= 2 * OFF_MM for spot in (self.a, self.b)):
                return True
        return False


def of_rule(walked: Walked, read: float | None, roses: Sequence[Rose]) -> Iterator[Finding]:
    """Yield what a rule tells by which a true bearing was taken; `read` is what the learner gave.

    `roses` are those that may stand on the sheet, each with a magnetic ring of its own.
    """
    if not walked.used:
        return
    off = None if read is None else signed(read - walked.shown)
    if abs(walked.astray) > ASTRAY:
        turned = f"{abs(walked.astray):.0f}° to the {'right' if walked.astray > 0 else 'left'}"
        says = (
            f"The rule’s edge lies {turned} of your line. It must cover both places before it is "
            "walked. Check: look along the edge from A to B."
            if walked.at_line
            else f"The rule’s edges run {turned} of your line. It slewed on the way, or did not lie on "
            f"the line when it set out. {HELD}"
        )
        yield Finding(says, explains=off is not None and abs(off) <= READ)
    elif off is not None:
        yield _read_off(walked.shown, off, roses)


def _read_off(shown: float, off: float, roses: Sequence[Rose]) -> Finding:
    """Return what was read off a rose by a rule that kept its line; `off` is by how much it is out."""
    if abs(off) <= ASTRAY:
        return Finding("The rule kept the direction of your line.", good=True)
    begins = f"The rule kept the direction of your line, and the true ring shows {shown:03.0f}"
    figure = f"{begins}, not {wrap(shown + off):03.0f}. "
    for rose in roses:
        if abs(signed(off + rose.printed)) <= READ:
            whose = "the training rose" if rose.source else "the chart’s own rose"
            return Finding(
                f"{figure}You read the inner ring of {whose}, which counts from magnetic north in "
                f"{rose.year:.0f}. Check: a true bearing is read on the outer ring.",
                explains=True,
            )
    if abs(signed(off - 180)) <= ASTRAY:
        return Finding(
            f"{figure}It was read at the other end of the edge. Check: which way do you go, from A "
            "to B?",
            explains=True,
            fits=frozenset({"opposite"}),
        )
    if abs(abs(off) - 10) <= READ:
        return Finding(
            f"{figure}A ten was miscounted on the ring. Check: read it once more, and say the figure "
            "aloud as you write it.",
            explains=True,
            fits=frozenset({"ten-out"}),
        )
    return Finding(
        f"{figure}So it is not the rule. Check: which ring did you read, and from which end?",
        rules_out=frozenset({"opposite"}),
    )


def of_rule_laid_off(walked: Walked, figure: float, compass: float | None) -> Iterator[Finding]:
    """Yield what a rule tells by which a line was drawn that is wrong: `walked` is on that line.

    `figure` is the true bearing to lay off, `compass` the figure that the compass showed.
    """
    if not walked.used or not walked.at_line:
        return
    set_to = wrap(figure + signed(2 * (walked.direction - figure)) / 2)
    ring = f"The rule’s edge runs {set_to:03.0f} by the true ring"
    along = abs(walked.astray) <= ASTRAY
    off = abs(signed(set_to - figure))
    if off <= ASTRAY:
        if not along:
            yield Finding(
                f"{ring}, which is right, but your line does not run along it. So it is the drawing. "
                "Check: let the edge guide the pencil.",
                explains=True,
            )
    elif compass is not None and abs(signed(set_to - compass)) <= ASTRAY:
        yield Finding(
            f"{ring}, the compass’s own figure. The compass counts from magnetic north, the outer "
            "ring from true. Check: the letter of its north behind each figure.",
            explains=along,
            fits=frozenset({"variation-forgotten"}),
        )
    elif along and off <= MEANT:
        yield Finding(
            f"{ring}, not {figure:03.0f}. It was set wrong on the rose, or slewed on the way. {HELD}"
        )
