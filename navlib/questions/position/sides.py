"""Two sides of a right-angled triangle, east and north, to a distance and a bearing."""

import math
from collections.abc import Callable
from dataclasses import dataclass

from navlib.angles import reciprocal, wrap
from navlib.chain.kind import Kind
from navlib.chain.step import Slip, Step, Work, taking
from navlib.grids import grid_leg
from navlib.kinds.angles import Bearing
from navlib.kinds.numbers import Number
from navlib.language import say, to_say


@dataclass(frozen=True)
class Side(Number):
    """One side of the triangle with its way, written 3.4 km east: the first way is positive."""

    rounding: float = 0.1
    ways: tuple[str, str] = (to_say("east"), to_say("west"))

    def parse(self, text: str) -> tuple[float, tuple[str, ...]]:
        """Return the number, negative for the second way; raise Unclear if it is none."""
        plain = text.strip()
        named = [(name, way) for way in self.ways for name in (say(way), way)]
        written = ((n, way) for n, way in named if plain.casefold().endswith(n.casefold()))
        name, way = next(written, ("", ""))
        value, notes = super().parse(plain[: len(plain) - len(name)])
        return (-value if way == self.ways[1] else value), notes

    def write(self, value: float) -> str:
        """Return the number without a sign, its unit and its way."""
        number = super().write(abs(value)).replace(" ′", "′")
        return f"{number} {say(self.ways[value < 0])}"


NORTHWARD = (to_say("north"), to_say("south"))


def distance_step(kind: Kind[float], of: float) -> Step:
    """Return the step from “east” and “north”, each `of` metres to one, to a distance."""

    def made(work: Callable[[float, float], float]) -> Work:
        return taking(lambda east, north: work(east, north) * of, "east", "north")

    return Step(
        "distance",
        kind,
        made(lambda east, north: grid_leg(0.0, 0.0, east, north).distance_m),
        how="The straight way is the long side of a right-angled triangle: square both sides, "
        "add, take the root (Pythagoras).",
        line="{east}, {north}: the root of their squares added is {distance}",
        check="Longer than the longer side, shorter than both sides together?",
        slips=(
            Slip(
                "sides-added",
                made(lambda east, north: abs(east) + abs(north)),
                "Yours, {yours}, is the way round the corner: first east or west, then north or "
                "south. You go straight across. Check: sketch the triangle; which of its sides is "
                "your way?",
            ),
            Slip(
                "root-forgotten",
                made(lambda east, north: east**2 + north**2),
                "Yours, {yours}, is the two squares added: the root is still to be taken. Check: "
                "the straight way is never longer than the two sides end to end.",
                0.7,
            ),
            Slip(
                "squares-subtracted",
                made(lambda east, north: math.sqrt(abs(east**2 - north**2))),
                "Yours, {yours}, takes one square from the other. The straight way is the longest "
                "side, so the squares are added. Check: is yours longer than both {east} and "
                "{north}?",
                0.7,
            ),
        ),
    )


def bearing_step(letter: str) -> Step:
    """Return the step from “east” and “north” to the bearing of the way."""

    def made(work: Callable[[float, float], float | None]) -> Work:
        return taking(work, "east", "north")

    def bearing(east: float, north: float) -> float:
        return float(grid_leg(0.0, 0.0, east, north).bearing)

    def quadrant_lost(east: float, north: float) -> float | None:
        return bearing(abs(east), abs(north)) if east < 0 or north < 0 else None

    return Step(
        "bearing",
        Bearing(letter),
        made(bearing),
        how="The angle from north is the one whose tangent is east divided by north. Sketch it, "
        "and turn the angle into a bearing: which quarter is it in?",
        line="{east}, {north}: that is {bearing}",
        check="Sketch the two sides: does your bearing point into that quarter?",
        slips=(
            Slip(
                "quadrant-lost",
                made(quadrant_lost),
                "Yours, {yours}, is the bare angle, as if the way led north-east. It goes {east} "
                "and {north}. Check: sketch the two sides first, then say the quarter.",
            ),
            Slip(
                "angle-from-east",
                made(lambda east, north: wrap(90 - bearing(east, north))),
                "Yours, {yours}, measures the angle from east, as in a mathematics lesson. "
                "Bearings start at north and turn clockwise: east goes over north in the tangent. "
                "Check: nearly north is nearly 000.",
            ),
            Slip(
                "opposite",
                made(lambda east, north: reciprocal(bearing(east, north))),
                "Yours, {yours}, points the other way, from the second place to the first. Take "
                "the first from the second. Check: is the second place east or west of the first?",
            ),
        ),
    )
