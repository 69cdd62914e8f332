"""Rocks, wrecks and broken water: what class a rock is, by the height field, and its sign.

Source of the signs: INT 1, K 10 to K 13 rocks, K 28 wreck, H 44 overfalls.
"""

from functools import cache

import numpy as np

from navlib.sheets import style
from navlib.sheets.chart.glyphs import figures
from navlib.sheets.chart.parts import (
    DOT,
    Part,
    Points,
    Sign,
    dotted,
    line,
    open_shape,
    ring,
    shape,
    shifted,
)
from navlib.tides import Levels
from navlib.waters import Feature, Water

AWASH = 0.2
"""Metres above or below chart datum within which a rock counts as awash there; our own limit."""
_DEEPEST = 3.0  # metres below chart datum; a deeper top is a sounding and no danger to our boats
_REACH, _STANDS_OUT = 4, 1.2  # nodes around a rock, and metres by which it stands above all there


def rock_class(height: float, levels: Levels) -> str:
    """Return what a rock whose top is `height` metres above chart datum does as the tide moves.

    "islet" never covers at mean high water springs, "covers and uncovers", "awash" at chart datum
    within AWASH, else "underwater".
    """
    if height >= levels.mhws:
        return "islet"
    if height > AWASH:
        return "covers and uncovers"
    return "awash" if height >= -AWASH else "underwater"


@cache
def field_rocks(water: Water) -> tuple[Feature, ...]:
    """Return the rocks that the height field has besides those with names, as features.

    One is a top that does not stand above mean high water springs, has at most 3 m over it at
    chart datum, and within about 100 m is surrounded by water at least 1.2 m lower.
    """
    field = water.height_field
    height, r = field.values, _REACH
    core = height[r:-r, r:-r]
    j, i = np.nonzero((core > -_DEEPEST) & (core < water.settings.levels.mhws))
    here = core[j, i]
    for down in (-1, 0, 1):
        for across in (-1, 0, 1):
            beside = height[j + r + down, i + r + across]
            # of equal neighbours the first stands for all
            keep = here > beside if (down, across) < (0, 0) else here >= beside
            j, i, here = j[keep], i[keep], here[keep]
    for turn in np.arange(16) * np.pi / 8:
        down, across = round(r * np.sin(turn)), round(r * np.cos(turn))
        around = height[j + r + down, i + r + across]
        keep = (around < here - _STANDS_OUT) & (around < 0)
        j, i, here = j[keep], i[keep], here[keep]
    named = np.array([f.place for f in water.of_kind("rock", "skerry", "wreck")] or [(0.0, 0.0)])
    result: list[Feature] = []
    for east, north in zip(
        field.west + (i + r) * field.spacing, field.south + (j + r) * field.spacing, strict=True
    ):
        near = np.vstack([named, *(np.array([f.place]) for f in result)])
        if np.hypot(near[:, 0] - east, near[:, 1] - north).min() > 2 * r * field.spacing:
            id = f"rock-{east:.0f}-{north:.0f}"
            result.append(Feature(id, "", "rock", float(east), float(north)))
    return tuple(result)


def _height_beside(height: float, x: float) -> Part:
    """Return a drying height, underlined, with its middle `x` mm across from the rock."""
    tenths = round(height * 10)
    path = figures(
        f"{tenths // 10}",
        6.2,
        slant="italic",
        small=f"{tenths % 10}" if tenths % 10 else "",
        small_size=5.0,
        underlined=True,
    )[0]
    return Part(shifted(path, x, 0.1), fill=style.CHART_INK)


def rock(height: float, levels: Levels, *, marked: bool = False) -> Sign:
    """Return the sign of a rock whose top is `height` metres above chart datum.

    `marked` leaves room for a beacon that stands on it.
    """
    kind, arm = rock_class(height, levels), 0.95
    upright: list[Points] = [[(-arm, 0), (arm, 0)], [(0, -arm), (0, arm)]]
    danger = dotted(ring(1.55))
    if kind == "islet":
        return (shape(ring(0.5), style.CHART_LAND, style.CHART_INK),)
    if kind == "covers and uncovers":
        beside = _height_beside(height, -3.0 if marked else 2.9 - 0.6)
        if marked:
            return (danger, beside)
        slant = 0.7 * arm
        star = [*upright, [(-slant, -slant), (slant, slant)], [(-slant, slant), (slant, -slant)]]
        return (*(line(s, 0.2) for s in star), beside)
    cross = tuple(line(s, 0.2) for s in upright)
    if kind == "awash":
        dots = [shape(ring(0.16, x, y, 10)) for x in (-0.5, 0.5) for y in (-0.5, 0.5)]
        return (danger, *cross, *dots)
    return (danger, *cross)


def wreck() -> Sign:
    """Return the sign of a dangerous wreck: keel and ribs in a dotted line."""
    turn = np.linspace(0, 2 * np.pi, 41)
    oval = [(2.3 * float(np.cos(t)), 1.5 * float(np.sin(t))) for t in turn]
    ribs: list[Points] = [[(x, -h), (x, h)] for x, h in ((-0.8, 0.55), (0.0, 0.85), (0.8, 0.55))]
    return (dotted(oval), line([(-1.6, 0), (1.6, 0)], 0.2), *(line(r, 0.2) for r in ribs))


def overfalls() -> Sign:
    """Return the sign of overfalls: short breaking waves strewn about the place."""
    wave = [
        (0.75 * float(a) / np.pi, -0.36 * abs(float(np.sin(a))))
        for a in np.linspace(-np.pi, np.pi, 25)
    ]
    places = (
        (-2.1, -1.3),
        (0.4, -1.7),
        (2.5, -0.9),
        (-0.9, 0.2),
        (1.5, 0.5),
        (-2.4, 1.5),
        (0.5, 1.9),
    )
    return tuple(line([(x + a, y + b) for a, b in wave], 0.18) for x, y in places)


def islet_or_dot(height: float, levels: Levels) -> Sign:
    """Return the sign at the exact place of a skerry: a dot, as the land shows, or a rock's."""
    if rock_class(height, levels) == "islet":
        return (open_shape(ring(0.42), 0.14), DOT)
    return rock(height, levels)
