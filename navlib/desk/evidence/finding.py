"""What is found by looking at a sheet with instruments on it, and the geometry of looking.

Each function looks at one instrument, in millimetres of paper and degrees, and says what it finds;
nothing is found where the instrument was not used for the task. What an instrument shows is what
someone reads who reads it rightly.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from navlib.angles import wrap

Spot = tuple[float, float]
"""Millimetres of sheet, y downwards."""

USED_MM = 15.0
"""How near the task an instrument must lie to have been used for it."""
OFF_MM = 1.5
"""Millimetres beside a line or a place that an eye sees."""


@dataclass(frozen=True)
class Finding:
    """What one instrument tells: a sentence of evidence, one of reason and one of check.

    `explains` is whether the answer is what this leads to; `fits` are slips that say the same,
    `rules_out` slips that the instrument shows were not made. `good` is for a finding that there is
    no fault in how the instrument lies; it needs no reason and nothing to check.
    """

    evidence: str
    reason: str = ""
    check: str = ""
    explains: bool = False
    fits: frozenset[str] = frozenset()
    rules_out: frozenset[str] = frozenset()
    good: bool = False

    @property
    def says(self) -> str:
        """Its sentences, one after the other."""
        return " ".join(filter(None, (self.evidence, self.reason, self.check)))


def figures(angle: float) -> str:
    """Return a direction in three figures, as a ring is read."""
    return f"{round(angle) % 360:03d}"


def towards(a: Spot, b: Spot) -> float:
    """Return the direction from one spot to another, degrees clockwise from the sheet's up."""
    return wrap(math.degrees(math.atan2(b[0] - a[0], a[1] - b[1])))


def off_line(spot: Spot, a: Spot, b: Spot) -> float:
    """Return millimetres from a spot to the straight line through two others."""
    length = math.dist(a, b)
    if length == 0:
        return math.dist(spot, a)
    across = (b[0] - a[0]) * (spot[1] - a[1]) - (b[1] - a[1]) * (spot[0] - a[0])
    return abs(across) / length


def off_stretch(spot: Spot, a: Spot, b: Spot) -> float:
    """Return millimetres from a spot to the nearest spot of the stretch between two others."""
    t = along(spot, a, b)
    return math.dist(spot, (a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])))


def along(spot: Spot, a: Spot, b: Spot) -> float:
    """Return how far along a stretch lies what is nearest to a spot, from 0 at a to 1 at b."""
    way = (b[0] - a[0], b[1] - a[1])
    far = way[0] ** 2 + way[1] ** 2 or 1.0
    return min(max(((spot[0] - a[0]) * way[0] + (spot[1] - a[1]) * way[1]) / far, 0.0), 1.0)


def way_along(spot: Spot, points: Sequence[Spot]) -> float:
    """Return millimetres from the beginning of a way to where it passes nearest to a spot."""
    best, found, before = math.inf, 0.0, 0.0
    for a, b in pairwise(points):
        leg, off = math.dist(a, b), off_stretch(spot, a, b)
        if off < best:
            best, found = off, before + along(spot, a, b) * leg
        before += leg
    return found


def off_way(spot: Spot, points: Sequence[Spot]) -> float:
    """Return millimetres from a spot to the nearest spot of a way."""
    return min(off_stretch(spot, a, b) for a, b in pairwise(points))
