"""Demonstrations, one module a topic; a lesson shows one by `demos.NAME()`."""

from navlib.widgets.demos.bearings import DeviationByHeading, ThereAndBack, ThreeNorths, deviation
from navlib.widgets.demos.speed import ClockSum, OneLeg, StreamTurns, TwoSpeeds

there_and_back, three_norths = ThereAndBack, ThreeNorths
one_leg, two_speeds, clock_sum, stream_turns = OneLeg, TwoSpeeds, ClockSum, StreamTurns

__all__ = [
    "ClockSum",
    "DeviationByHeading",
    "OneLeg",
    "StreamTurns",
    "ThereAndBack",
    "ThreeNorths",
    "TwoSpeeds",
    "clock_sum",
    "deviation",
    "one_leg",
    "stream_turns",
    "there_and_back",
    "three_norths",
    "two_speeds",
]
