"""What a cord, a romer, a ruler and a pencil line tell."""

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

from navlib.angles import signed
from navlib.desk.evidence.finding import (
    OFF_MM,
    USED_MM,
    Finding,
    Spot,
    off_line,
    off_stretch,
    towards,
)
from navlib.sheets.window import Window

TURNED = 3.0
"""Degrees off the grid that an eye sees on a romer, whose edges are short."""


def of_cord(
    points: Sequence[Spot], coast: Sequence[Spot], ends: tuple[str, str]
) -> Iterator[Finding]:
    """Yield where a cord leaves the coast that it should follow by more than an eye allows."""
    away = [min(off_stretch(spot, p, q) for p, q in pairwise(points)) for spot in coast]
    if sorted(away)[len(away) // 2] > USED_MM:
        return
    worst = max(range(len(away)), key=away.__getitem__)
    if away[worst] <= 2 * OFF_MM:
        yield Finding("The cord follows the coast.", good=True)
        return
    share = worst / max(len(away) - 1, 1)
    near = f"near {ends[0]}" if share < 0.2 else f"near {ends[1]}" if share > 0.8 else "in between"
    yield Finding(
        f"The cord leaves the coast by {away[worst]:.0f} mm {near}. A bay that it jumps makes the coast "
        "shorter. Check: lay it once more there, with more points."
    )


def of_romer(
    corner: Spot, scale: int, turn: float, window: Window, place: Spot, called: str
) -> Iterator[Finding]:
    """Yield what a romer tells that lies at the place which is read off or marked."""
    off = math.dist(corner, place)
    if off > USED_MM:
        return
    if scale != window.scale:
        named, own = (f"1:{n:,}".replace(",", "\N{NO-BREAK SPACE}") for n in (scale, window.scale))
        yield Finding(
            f"The romer lies there with its corner for {named}, and this map is {own}. Its parts do "
            "not fit the squares. Check: ten tenths of the edge must fit one square.",
            fits=frozenset({"other-edge"}),
        )
    elif abs(signed(turn)) > TURNED:
        yield Finding(
            f"The romer is turned {abs(signed(turn)):.0f}° from the grid. Its edges then meet the "
            "lines in the wrong places. Check: both edges lie along grid lines before you read.",
            fits=frozenset({"tenths-backwards"}) if abs(signed(turn)) > 135 else frozenset(),
        )
    elif off > OFF_MM:
        yield Finding(
            f"The romer’s corner lies {off:.0f} mm from {called}. What it shows belongs to the corner. "
            "Check: the corner goes on the place itself."
        )


def of_ruler(zero: Spot, direction: float, a: Spot, b: Spot) -> Iterator[Finding]:
    """Yield what a ruler tells that lies along a leg."""
    if math.dist(zero, a) > USED_MM and math.dist(zero, b) > USED_MM:
        return
    near, far = (a, b) if math.dist(zero, a) <= math.dist(zero, b) else (b, a)
    astray = abs(signed(direction - towards(near, far)))
    if min(astray, abs(180 - astray)) < 10 and math.dist(zero, near) > OFF_MM:
        yield Finding(
            f"The ruler’s zero lies {math.dist(zero, near):.0f} mm from the place that the leg begins "
            "at, and what it shows is out by that. Check: zero on the one place, read at the other."
        )


def of_line(
    ends: tuple[Spot, Spot], a: Spot, b: Spot, letters: tuple[str, str]
) -> Iterator[Finding]:
    """Yield what a pencil line tells that should join two places."""
    gaps = [off_line(spot, *ends) for spot in (a, b)]
    if max(gaps) > USED_MM or math.dist(*ends) < 1 or math.dist(*ends) < math.dist(a, b) / 2:
        return
    worst = gaps.index(max(gaps))
    if gaps[worst] > OFF_MM:
        yield Finding(
            f"Your pencil line misses {letters[worst]} by {gaps[worst]:.0f} mm. A line that is off at "
            "one end is turned. Check: lay the edge on both places before you draw."
        )
