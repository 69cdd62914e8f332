"""Demonstrations, one module a topic; a lesson shows one by `demos.NAME()`."""

from navlib.widgets.demos.bearings import DeviationByHeading, ThereAndBack, ThreeNorths, deviation

there_and_back, three_norths = ThereAndBack, ThreeNorths

__all__ = [
    "DeviationByHeading",
    "ThereAndBack",
    "ThreeNorths",
    "deviation",
    "there_and_back",
    "three_norths",
]
