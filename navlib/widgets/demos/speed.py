"""Demonstrations of the lesson on time, distance and speed.

Distances in nautical miles, speeds in knots, durations in minutes.
"""

import traitlets

from navlib.clock import DAY
from navlib.widgets.demos.demonstration import Demonstration
from navlib.widgets.shown import front


def _front_of(name: str) -> str:
    """Return the front-end module of the demonstration `name`, with what it builds on."""
    shared = ("controls", "quantities", "timeline")
    return front("kit.js", *(f"demos/{one}.js" for one in (*shared, name)))


class OfTime(Demonstration):
    """A figure of time and way."""

    _css = front("kit.css", "sheet.css", "demos/demo.css", "demos/speed.css")


class OneLeg(OfTime):
    """Distance, speed and time on one leg; the one that `find` names follows from the other two.

    What the trait of that one holds is not looked at.
    """

    words = "A figure to move: a boat on a line of miles; distance, speed and time go together."
    _esm = _front_of("one_leg")

    find = traitlets.Enum(("time", "distance", "speed"), "time").tag(sync=True)
    distance = traitlets.Float(3.4, min=0.1, max=8).tag(sync=True)
    speed = traitlets.Float(3.0, min=1, max=8).tag(sync=True)
    minutes = traitlets.Float(68.0, min=1, max=240).tag(sync=True)


class TwoSpeeds(OfTime):
    """The same way out and home at two speeds: `distance` is one way and stays as it was made."""

    words = "A figure to move: out and home at two speeds, and the mean speed of the trip."
    _esm = _front_of("two_speeds")

    distance = traitlets.Float(2.0, min=0.5, max=8).tag(sync=True)
    out = traitlets.Float(4.0, min=2, max=6).tag(sync=True)
    home = traitlets.Float(2.0, min=2, max=6).tag(sync=True)


class ClockSum(OfTime):
    """A clock sum in hops over the full hours, on the clocks of UT and BST.

    `clock` is the time that is known, in minutes from midnight UT: the departure, or with `back`
    the time to be there. `minutes` lie between it and the other end.
    """

    words = "A figure to move: a clock sum in hops over the full hours and over midnight."
    _esm = _front_of("clock_sum")

    clock = traitlets.Int(23 * 60 + 25, min=0, max=DAY - 1).tag(sync=True)
    minutes = traitlets.Int(68, min=1, max=300).tag(sync=True)
    back = traitlets.Bool(False).tag(sync=True)


class StreamTurns(OfTime):
    """One leg in a stream that turns on the way.

    `speed` is through the water; `stream` is positive with the boat, negative against it, until
    `turn` minutes after the start, and then runs the other way. `distance` stays as it was made.
    """

    words = "A figure to move: a leg on which the stream turns, worked piece by piece."
    _esm = _front_of("stream_turns")

    distance = traitlets.Float(6.0, min=2, max=10).tag(sync=True)
    speed = traitlets.Float(3.0, min=2.5, max=5).tag(sync=True)
    stream = traitlets.Float(-1.0, min=-1.5, max=1.5).tag(sync=True)
    turn = traitlets.Float(90.0, min=0, max=240).tag(sync=True)
