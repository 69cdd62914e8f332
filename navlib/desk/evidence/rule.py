"""What a parallel rule tells that was laid on a line and walked to a compass rose, or back."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from navlib.angles import signed, wrap
from navlib.desk.evidence.finding import OFF_MM, Finding, Spot, figures, off_line, towards
from navlib.language import say
from navlib.magnetism import Rose

BAR_MM = 12.0
"""Breadth of each bar: so far bar 2's edge lies beyond the gap between the two."""
ASTRAY, MEANT = 2.0, 30.0
"""Degrees beside the line that an eye sees, and those from which the rule was not meant for it."""
READ = 1.0
"""How near a bearing must be to what a ring shows to be read off it, degrees."""
REACH_MM = 90.0
"""How far along its edge from the middle a rule is laid over a rose."""
UNTURNED = (90.0, 13.0)
"""Direction and gap of a rule as it comes out of the tray: nothing was done with it yet."""


@dataclass(frozen=True)
class Stood:
    """A rose where it stands on the sheet: its middle, and the radius of its true ring, mm."""

    rose: Rose
    middle: Spot
    radius: float


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
    def edges(self) -> tuple[tuple[Spot, Spot], ...]:
        """Two spots of the outer edge of each bar, the first about its middle."""
        t = math.radians(self.direction)
        found = []
        for off in (0.0, self.gap_mm + BAR_MM):
            middle = (self.middle[0] + off * math.cos(t), self.middle[1] + off * math.sin(t))
            found.append((middle, (middle[0] + math.sin(t), middle[1] - math.cos(t))))
        return tuple(found)

    @property
    def at_line(self) -> bool:
        """Whether one of its edges still lies at one end of the line."""
        return any(
            off_line(spot, *edge) <= 2 * OFF_MM for spot in (self.a, self.b) for edge in self.edges
        )

    def beside(self, stood: Stood) -> float:
        """Return how far its nearer edge passes a rose's middle, mm, right of the way of the line
        positive; infinite where the rule does not lie over the rose.
        """
        t = math.radians(self.shown)
        passes = []
        for middle, _ in self.edges:
            dx, dy = middle[0] - stood.middle[0], middle[1] - stood.middle[1]
            if abs(dx * math.sin(t) - dy * math.cos(t)) <= REACH_MM:
                passes.append(dx * math.cos(t) + dy * math.sin(t))
        return min(passes, key=abs, default=math.inf)

    def at(self, stood: Stood) -> bool:
        """Whether one of its edges lies on a rose's middle, as far as an eye sees."""
        return abs(self.beside(stood)) <= OFF_MM


def of_rule(walked: Walked, read: float | None, roses: Sequence[Stood]) -> Iterator[Finding]:
    """Yield what a rule tells by which a true bearing was taken; `read` is what the learner gave.

    A rule that lies neither on the line nor at one of the `roses` may have been pushed away, and is
    believed only where it says what the learner gave.
    """
    if not walked.used:
        return
    off = None if read is None else signed(read - walked.shown)
    matches = off is not None and abs(off) <= READ
    at = [stood for stood in roses if walked.at(stood)]
    if abs(walked.astray) > ASTRAY:
        if walked.at_line or at or matches:
            yield _turned(walked, matches)
    elif off is not None and abs(off) <= ASTRAY:
        yield Finding(say("The rule kept the direction of your line."), good=True)
    elif off is not None:
        past = list(_past_the_middle(walked, off, roses))
        yield from past
        if not past and (walked.at_line or at):
            yield _read_off(walked.shown, off, at or roses)


def _turned(walked: Walked, matches: bool) -> Finding:
    """Return how a rule is turned from the line, and where that happened."""
    turned, right = {"turned": f"{abs(walked.astray):.0f}"}, walked.astray > 0
    if walked.at_line:
        return Finding(
            say(
                "The rule’s edge lies {turned}° to the right of your line."
                if right
                else "The rule’s edge lies {turned}° to the left of your line.",
                turned,
            ),
            say("It must cover both places before it is walked."),
            say("Check: look along the edge from A to B."),
            explains=matches,
        )
    return Finding(
        say(
            "The rule’s edges run {turned}° to the right of your line."
            if right
            else "The rule’s edges run {turned}° to the left of your line.",
            turned,
        ),
        say("It slewed on the way, or did not lie on the line when it set out."),
        say("Check: one bar is pressed down while the other moves."),
        explains=matches,
    )


def _past_the_middle(walked: Walked, off: float, roses: Sequence[Stood]) -> Iterator[Finding]:
    """Yield the rose that was read by an edge which passes its middle, if that gives what was read."""
    for stood in roses:
        past = walked.beside(stood)
        if abs(past) < stood.radius:
            out = math.degrees(math.asin(past / stood.radius))
            if abs(signed(off - out)) <= READ:
                yield Finding(
                    say(
                        "The rule’s edge passes the middle of the rose at {off_mm} mm, and its ring "
                        "shows {read} there, not {shown}.",
                        {
                            "off_mm": f"{abs(past):.0f}",
                            "read": figures(walked.shown + off),
                            "shown": figures(walked.shown),
                        },
                    ),
                    say("A ring is right only about its own middle."),
                    say("Check: walk the rule on until its edge lies on the cross in the middle."),
                    explains=True,
                )
                return


def _read_off(shown: float, off: float, roses: Sequence[Stood]) -> Finding:
    """Return what was read off a rose by a rule that kept its line; `off` is by how much it is out."""
    figure = say(
        "The rule kept the direction of your line, and the true ring shows {shown}, not {read}.",
        {"shown": figures(shown), "read": figures(shown + off)},
    )
    for stood in roses:
        if abs(signed(off + stood.rose.printed)) <= READ:
            return Finding(
                figure,
                say(
                    "You read the inner ring of the training rose, which counts from magnetic north "
                    "in {year}."
                    if stood.rose.source
                    else "You read the inner ring of the chart’s own rose, which counts from magnetic "
                    "north in {year}.",
                    {"year": f"{stood.rose.year:.0f}"},
                ),
                say("Check: a true bearing is read on the outer ring."),
                explains=True,
            )
    if abs(signed(off - 180)) <= ASTRAY:
        return Finding(
            figure,
            say("It was read at the other end of the edge."),
            say("Check: which way do you go, from A to B?"),
            explains=True,
            fits=frozenset({"opposite"}),
        )
    if abs(abs(off) - 10) <= READ:
        return Finding(
            figure,
            say("A ten was miscounted on the ring."),
            say("Check: read it once more, and say the figure aloud as you write it."),
            explains=True,
            fits=frozenset({"ten-out"}),
        )
    return Finding(
        figure,
        say("So it is not the rule."),
        say("Check: which ring did you read, and from which end?"),
        rules_out=frozenset({"opposite"}),
    )


def of_rule_laid_off(walked: Walked, figure: float, compass: float | None) -> Iterator[Finding]:
    """Yield what a rule tells by which a line was drawn that is wrong: `walked` is on that line.

    `figure` is the true bearing to lay off, `compass` the figure that the compass showed.
    """
    if not walked.used or not walked.at_line:
        return
    set_to = wrap(figure + signed(2 * (walked.direction - figure)) / 2)
    runs = {"set_to": figures(set_to), "figure": figures(figure)}
    along = abs(walked.astray) <= ASTRAY
    off = abs(signed(set_to - figure))
    if off <= ASTRAY:
        if not along:
            yield Finding(
                say(
                    "The rule’s edge runs {set_to} by the true ring, which is right, but your line "
                    "does not run along it.",
                    runs,
                ),
                say("So it is the drawing."),
                say("Check: let the edge guide the pencil."),
                explains=True,
            )
    elif compass is not None and abs(signed(set_to - compass)) <= ASTRAY:
        yield Finding(
            say("The rule’s edge runs {set_to} by the true ring, the compass’s own figure.", runs),
            say("The compass counts from magnetic north, the outer ring from true."),
            say("Check: the letter of its north behind each figure."),
            explains=along,
            fits=frozenset({"variation-forgotten"}),
        )
    elif along and off <= MEANT:
        yield Finding(
            say("The rule’s edge runs {set_to} by the true ring, not {figure}.", runs),
            say("It was set wrong on the rose, or slewed on the way."),
            say("Check: one bar is pressed down while the other moves."),
        )
