"""What solutions are drawn with: spots, arcs and lines in millimetres of a sheet, y downwards."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

import numpy as np

from navlib.sheets.window import Box, Window

Spot = tuple[float, float]


@dataclass
class Solution:
    """What is drawn on one sheet: answers, what leads to them, limits, and words at a spot.

    `areas` are the limits for all marks, `halves` those for half, `slips` where slips end.
    """

    lines: list[list[Spot]] = field(default_factory=list)
    helps: list[list[Spot]] = field(default_factory=list)
    areas: list[list[Spot]] = field(default_factory=list)
    halves: list[list[Spot]] = field(default_factory=list)
    slips: list[list[Spot]] = field(default_factory=list)
    words: list[tuple[str, Spot]] = field(default_factory=list)


def spot_at(where: Window, place: Iterable[float]) -> Spot:
    """Return the spot of a place in grid metres."""
    x, y = where.place(*place)
    return float(x), float(y)


def off(spot: Spot, bearing: float, mm: float) -> Spot:
    """Return the spot so many millimetres from another, along a bearing from the top of the sheet."""
    t = math.radians(bearing)
    return spot[0] + mm * math.sin(t), spot[1] - mm * math.cos(t)


def towards(a: Spot, b: Spot) -> float:
    """Return the bearing from one spot to another, from the top of the sheet."""
    return math.degrees(math.atan2(b[0] - a[0], a[1] - b[1]))


def arc(about: Spot, radius: float, first: float, last: float) -> list[Spot]:
    """Return spots along an arc between two bearings."""
    count = max(2, math.ceil(abs(last - first) / 3))
    return [off(about, float(t), radius) for t in np.linspace(first, last, count + 1)]


def circle(about: Spot, radius: float) -> list[Spot]:
    """Return spots round a circle."""
    return arc(about, radius, 0, 360)


def middle(spots: Sequence[Spot]) -> Spot:
    """Return the spot in the middle of others."""
    x, y = np.mean(spots, axis=0)
    return float(x), float(y)


def cut(a: Spot, b: Spot, box: Box) -> tuple[Spot, Spot] | None:
    """Return the part of a stroke within a box; None if there is none (Liang and Barsky 1984)."""
    (dx, dy), low, high = (b[0] - a[0], b[1] - a[1]), 0.0, 1.0
    sides = ((-dx, a[0] - box.left), (dx, box.right - a[0]))
    for towards_side, room in (*sides, (-dy, a[1] - box.top), (dy, box.bottom - a[1])):
        if towards_side == 0 and room < 0:
            return None
        if towards_side < 0:
            low = max(low, room / towards_side)
        elif towards_side > 0:
            high = min(high, room / towards_side)
    if low >= high:
        return None
    return (a[0] + low * dx, a[1] + low * dy), (a[0] + high * dx, a[1] + high * dy)
