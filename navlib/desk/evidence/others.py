"""What a cord along a coast, a romer, a ruler and a pencil line tell."""

import math
from collections.abc import Iterator, Sequence

from navlib.angles import signed
from navlib.desk.evidence.finding import (
    OFF_MM,
    USED_MM,
    Finding,
    Spot,
    off_line,
    off_way,
    towards,
)
from navlib.language import say
from navlib.sheets.window import Window

TURNED = 3.0
"""Degrees off the grid that an eye sees on a romer, whose edges are short."""


def of_cord(
    points: Sequence[Spot], coast: Sequence[Spot], ends: tuple[str, str]
) -> Iterator[Finding]:
    """Yield where a cord leaves the coast that it should follow by more than an eye allows."""
    if len(points) < 2:
        return
    away = [off_way(spot, points) for spot in coast]
    if sorted(away)[len(away) // 2] > USED_MM:
        return
    worst = max(range(len(away)), key=away.__getitem__)
    if away[worst] <= 2 * OFF_MM:
        yield Finding(say("The cord follows the coast."), good=True)
        return
    share = worst / max(len(away) - 1, 1)
    yield Finding(
        say(
            "The cord leaves the coast by {away} mm in between."
            if 0.2 <= share <= 0.8
            else "The cord leaves the coast by {away} mm near {place}.",
            {"away": f"{away[worst]:.0f}", "place": ends[share > 0.5]},
        ),
        say("A bay that it jumps makes the coast shorter."),
        say("Check: lay it once more there, with more points."),
    )


def of_romer(
    corner: Spot, scale: int, turn: float, window: Window, place: Spot, letter: str
) -> Iterator[Finding]:
    """Yield what a romer tells that lies at the place which is read off or marked.

    `letter` is what stands at the place on the sheet, empty for the learner's own mark.
    """
    off = math.dist(corner, place)
    if off > USED_MM:
        return
    turned = abs(signed(turn))
    if scale != window.scale:
        named, own = (f"1:{n:,}".replace(",", "\N{NO-BREAK SPACE}") for n in (scale, window.scale))
        yield Finding(
            say(
                "The romer lies there with its corner for {named}, and this map is {own}.",
                {"named": named, "own": own},
            ),
            say("Its parts do not fit the squares."),
            say("Check: ten tenths of the edge must fit one square."),
            fits=frozenset({"other-edge"}),
        )
    elif turned > TURNED:
        yield Finding(
            say("The romer is turned {turned}° from the grid.", {"turned": f"{turned:.0f}"}),
            say("Its edges then meet the lines in the wrong places."),
            say("Check: both edges lie along grid lines before you read."),
            fits=frozenset({"tenths-backwards"}) if turned > 135 else frozenset(),
        )
    elif off > OFF_MM:
        yield Finding(
            say(
                "The romer’s corner lies {off_mm} mm from {place}."
                if letter
                else "The romer’s corner lies {off_mm} mm from your mark.",
                {"off_mm": f"{off:.0f}", "place": letter},
            ),
            say("What it shows belongs to the corner."),
            say("Check: the corner goes on the place itself."),
        )


def of_ruler(zero: Spot, direction: float, a: Spot, b: Spot) -> Iterator[Finding]:
    """Yield what a ruler tells that lies along a leg."""
    near, far = (a, b) if math.dist(zero, a) <= math.dist(zero, b) else (b, a)
    off = math.dist(zero, near)
    astray = abs(signed(direction - towards(near, far)))
    if OFF_MM < off <= USED_MM and min(astray, abs(180 - astray)) < 10:
        yield Finding(
            say(
                "The ruler’s zero lies {off_mm} mm from the place that the leg begins at.",
                {"off_mm": f"{off:.0f}"},
            ),
            say("What it shows is out by that."),
            say("Check: zero on the one place, read at the other."),
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
            say(
                "Your pencil line misses {place} by {off_mm} mm.",
                {"place": letters[worst], "off_mm": f"{gaps[worst]:.0f}"},
            ),
            say("A line that is off at one end is turned."),
            say("Check: lay the edge on both places before you draw."),
        )
