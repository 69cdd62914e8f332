"""Where a learner's instruments lie on a sheet: on paper as the chart table says it, and on the ground.

On paper an instrument's *lie* is a plain dict in millimetres of sheet from its upper left corner, y
downwards, and degrees clockwise from the sheet's up: grid north on a land map, true north on a
Mercator chart. On the ground places are easting and northing in grid metres; angles stay as they
lie on the paper, since that is what the hand set.
"""

import math
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from navlib.angles import wrap
from navlib.sheets import Cross, PencilLine
from navlib.sheets.window import Window

Place = tuple[float, float]
Lies = dict[str, Any]
LONGEST_LABEL = 24
MOST_POINTS = 500
"""Points of a cord, or things pencilled, beyond which what a browser sends is cut off."""


@dataclass(frozen=True)
class Protractor:
    """A round protractor: its middle, its N against the sheet's up, its arm's reading on the ring."""

    centre: Place
    turn: float = 0.0
    arm: float = 0.0

    @property
    def along(self) -> float:
        """Which way the arm points, degrees from the sheet's up."""
        return wrap(self.turn + self.arm)


@dataclass(frozen=True)
class ParallelRule:
    """A parallel rule: the middle of bar 1's outer edge, the way its edges run, and the distance
    of bar 2 from bar 1 in millimetres (13 when shut, 43 when open).
    """

    middle: Place
    direction: float = 90.0
    gap_mm: float = 13.0


@dataclass(frozen=True)
class Dividers:
    """Dividers: both points, and the steps walked since they were set down (back is less)."""

    points: tuple[Place, Place]
    steps: int = 0


@dataclass(frozen=True)
class Cord:
    """A cord laid through points; pulled straight it begins at `start` and runs in `direction`."""

    points: tuple[Place, ...]
    start: Place | None = None
    direction: float = 90.0


@dataclass(frozen=True)
class Ruler:
    """A ruler in millimetres: its zero, and the way its edge runs."""

    zero: Place
    direction: float = 90.0


@dataclass(frozen=True)
class Romer:
    """A romer: its corner, the scale that this corner is made for, and its turn."""

    corner: Place
    scale: int = 25_000
    turn: float = 0.0


@dataclass(frozen=True)
class SoftProtractor:
    """A soft protractor, as on deck: its middle, its N against the sheet's up, its thread's reading."""

    centre: Place
    turn: float = 0.0
    arm: float = 0.0


@dataclass(frozen=True)
class KnottedCord:
    """A cord as `Cord`, with knots so many millimetres apart, 0 while there are none."""

    points: tuple[Place, ...]
    start: Place | None = None
    direction: float = 90.0
    knots_mm: float = 0.0


@dataclass(frozen=True)
class Thumb:
    """A thumb laid on a sheet: its left edge, the way it is walked, its breadth, breadths walked."""

    edge: Place
    direction: float = 90.0
    width_mm: float = 20.0
    steps: int = 0


@dataclass(frozen=True)
class PencilCircle:
    """A pencil circle drawn with compasses: its middle, and its radius in metres of the grid."""

    middle: Place
    radius_m: float
    label: str = ""


Handled = (
    Protractor
    | ParallelRule
    | Dividers
    | Cord
    | Ruler
    | Romer
    | PencilLine
    | Cross
    | PencilCircle
    | SoftProtractor
    | KnottedCord
    | Thumb
)
"""Whatever a learner lays or draws on a sheet."""


def on_ground(lies: Mapping[str, Any], window: Window) -> tuple[Handled, ...]:
    """Return what lies on the sheet of `window`, in grid metres.

    `lies` is as the chart table keeps it. What makes no sense is left out, since it comes from a
    browser.
    """
    found: list[Handled] = []
    for name, lie in lies.items():
        if name not in _FROM_PAPER:
            continue
        several = lie[:MOST_POINTS] if isinstance(lie, list) else [lie]
        for one in several:
            try:
                found.append(_FROM_PAPER[name](one, window))
            except (KeyError, TypeError, ValueError, IndexError, OverflowError):
                continue
    return tuple(found)


def on_paper(handled: Iterable[Handled], window: Window) -> Lies:
    """Return the lies, in millimetres of the sheet of `window`, of things given in grid metres."""
    lies: Lies = {}
    for one in handled:
        name, lie = _to_paper(one, window)
        if name in DRAWN:
            lies.setdefault(name, []).append(lie)
        else:
            lies[name] = lie
    return lies


DRAWN = ("pencil line", "pencil mark", "pencil circle")
"""Names of what is drawn, of which there may be several; every other instrument is there once."""


def _place(lie: Mapping[str, Any], window: Window, x: str = "x", y: str = "y") -> Place:
    return _ground((lie[x], lie[y]), window)


def _ground(spot: Any, window: Window) -> Place:
    across, down = _number(spot[0]), _number(spot[1])
    easting, northing = window.grid_at(across, down)
    return _number(easting), _number(northing)


def _number(value: Any) -> float:
    number = float(value)
    if not math.isfinite(number):
        raise ValueError(f"{value} is no place on a sheet.")
    return number


def _angle(value: Any) -> float:
    return wrap(_number(value))


def _label(lie: Mapping[str, Any]) -> str:
    return str(lie.get("label", ""))[:LONGEST_LABEL]


def _line(lie: Mapping[str, Any], window: Window) -> PencilLine:
    return PencilLine(_place(lie, window, "x1", "y1"), _place(lie, window, "x2", "y2"), _label(lie))


def _dividers(lie: Mapping[str, Any], window: Window) -> Dividers:
    points = _place(lie, window, "x1", "y1"), _place(lie, window, "x2", "y2")
    return Dividers(points, int(_number(lie.get("steps", 0))))


def _cord(lie: Mapping[str, Any], window: Window) -> tuple[tuple[Place, ...], Place | None, float]:
    points = tuple(_ground(spot, window) for spot in lie["points"][:MOST_POINTS])
    if pulled := lie.get("straight"):
        return points, _place(pulled, window), _angle(pulled["turn"])
    return points, None, 90.0


def _thumb(lie: Mapping[str, Any], window: Window) -> Thumb:
    breadth, steps = _number(lie["width"]), int(_number(lie.get("steps", 0)))
    return Thumb(_place(lie, window), _angle(lie["turn"]), breadth, steps)


_FROM_PAPER: Mapping[str, Callable[[Mapping[str, Any], Window], Handled]] = {
    "protractor": lambda lie, window: Protractor(
        _place(lie, window), _angle(lie["turn"]), _angle(lie["arm"])
    ),
    "parallel rule": lambda lie, window: ParallelRule(
        _place(lie, window), _angle(lie["turn"]), _number(lie["gap"])
    ),
    "dividers": _dividers,
    "cord": lambda lie, window: Cord(*_cord(lie, window)),
    "ruler": lambda lie, window: Ruler(_place(lie, window), _angle(lie["turn"])),
    "romer": lambda lie, window: Romer(
        _place(lie, window), int(_number(lie["scale"])), _angle(lie["turn"])
    ),
    "soft protractor": lambda lie, window: SoftProtractor(
        _place(lie, window), _angle(lie["turn"]), _angle(lie["arm"])
    ),
    "knotted cord": lambda lie, window: KnottedCord(*_cord(lie, window), _number(lie["knots"])),
    "thumb": _thumb,
    "pencil line": _line,
    "pencil mark": lambda lie, window: Cross(_place(lie, window), _label(lie)),
    "pencil circle": lambda lie, window: _circle(lie, window),
}


def _circle(lie: Mapping[str, Any], window: Window) -> PencilCircle:
    middle = _place(lie, window)
    return PencilCircle(middle, _number(lie["r"]) * _metres_per_mm(middle, window), _label(lie))


def _metres_per_mm(place: Place, window: Window) -> float:
    """Return metres of the grid in a millimetre of paper at a place: on a chart it varies."""
    x, y = window.place(*place)
    return math.dist(window.grid_at(x, y - 1.0), place)


def _to_paper(one: Handled, window: Window) -> tuple[str, Any]:
    """Return the name of an instrument and its lie."""

    def spot(place: Place) -> tuple[float, float]:
        x, y = window.place(*place)
        return round(float(x), 2), round(float(y), 2)

    def at(place: Place, **more: Any) -> dict[str, Any]:
        x, y = spot(place)
        return {"x": x, "y": y, **more}

    def ends(a: Place, b: Place, **more: Any) -> dict[str, Any]:
        (x1, y1), (x2, y2) = spot(a), spot(b)
        return {"x1": x1, "y1": y1, "x2": x2, "y2": y2, **more}

    match one:
        case Protractor(centre, turn, arm):
            return "protractor", at(centre, turn=turn, arm=arm)
        case ParallelRule(middle, direction, gap):
            return "parallel rule", at(middle, turn=direction, gap=gap)
        case Dividers(points, steps):
            return "dividers", ends(*points, steps=steps)
        case Cord(points, start, direction) | KnottedCord(points, start, direction):
            straight = None if start is None else at(start, turn=direction)
            lie = {"points": [list(spot(p)) for p in points], "straight": straight}
            if isinstance(one, KnottedCord):
                return "knotted cord", {**lie, "knots": one.knots_mm}
            return "cord", lie
        case SoftProtractor(centre, turn, arm):
            return "soft protractor", at(centre, turn=turn, arm=arm)
        case Thumb(edge, direction, width, steps):
            return "thumb", at(edge, turn=direction, width=width, steps=steps)
        case Ruler(zero, direction):
            return "ruler", at(zero, turn=direction)
        case Romer(corner, scale, turn):
            return "romer", at(corner, turn=turn, scale=scale)
        case PencilLine(start, end, label):
            return "pencil line", ends(start, end, label=label)
        case PencilCircle(middle, radius, label):
            r = round(radius / _metres_per_mm(middle, window), 2)
            return "pencil circle", at(middle, r=r, label=label)
        case Cross(place, label):
            return "pencil mark", at(place, label=label)
