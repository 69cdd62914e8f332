"""What the demonstrations of tides are handed once, from the tidal models: curves, rows, a chart."""

from collections.abc import Sequence
from datetime import UTC, date, datetime, timedelta
from functools import cache
from itertools import pairwise
from typing import Any

import numpy as np
from contourpy import FillType, contour_generator
from numpy.typing import NDArray

from navlib import waters
from navlib.grids import convergence, from_grid
from navlib.language.days import full, in_year
from navlib.questions.tides.draws import HEIGHT, KESSORAY, ORRIMER, levels, model, turns_about
from navlib.questions.tides.rates import LETTERS, printed_row, rows
from navlib.questions.tides.steps import ahead
from navlib.tides import Differences, Turn, Water
from navlib.waters import Place

DAYS = {
    "springs": (KESSORAY, date(2026, 7, 16)),
    "neaps": (KESSORAY, date(2026, 7, 24)),
    "mixed": (ORRIMER, date(2026, 7, 12)),
}
"""A day at springs, one at neaps, and one of a mixed tide, each with its water."""
FORTNIGHT = date(2026, 7, 14), 15
"""First day and number of days from one springs to the next."""
GATE = "A"
"""The diamond whose strongest hour stands for the stream of the fortnight."""

WIDE, TALL, PER_KM = 640, 440, 25.0
"""The drawing of the chart: its size, and its units to a kilometre."""
_MIDDLE = 96_500.0, 1_002_000.0
_COARSE = 3  # nodes of the height field to a step of the drawn coast
_SMALLEST = 4.0  # square units of the drawing of an island that is drawn


# Days -------------------------------------------------------------------------------------------


@cache
def day_of(name: str) -> dict[str, Any]:
    """Return a day of `DAYS`: its port, the turns about it, and the height each ten minutes.

    Turns are (minutes from midnight UT, metres, 1 for high water) as the table prints them, the
    last of the day before to the first of the day after.
    """
    water, day = DAYS[name]
    midnight = datetime(day.year, day.month, day.day, tzinfo=UTC)
    turns = turns_about(water, day)
    minutes = np.arange(0, 24 * 60 + 1, 10)
    port = model(water).standard
    heights = port.heights([midnight + timedelta(minutes=int(m)) for m in minutes])
    return {
        "port": port.name,
        "date": full(day),
        "ahead": int(ahead(midnight)) if water == KESSORAY else 0,
        "turns": [_turn(turn, midnight) for turn in _covering(turns, midnight)],
        "curve": [[int(m), round(float(h), 3)] for m, h in zip(minutes, heights, strict=True)],
    }


def _turn(turn: Turn, midnight: datetime) -> list[float]:
    minutes = round((turn.time - midnight) / timedelta(minutes=1))
    return [minutes, turn.height, int(turn.kind == Water.HIGH)]


def _covering(turns: Sequence[Turn], midnight: datetime) -> Sequence[Turn]:
    """Return the turns from the last before midnight to the first after the next."""
    first = max(k for k, turn in enumerate(turns) if turn.time < midnight)
    last = min(k for k, turn in enumerate(turns) if turn.time >= midnight + timedelta(days=1))
    return turns[first : last + 1]


def levels_shown() -> list[list[Any]]:
    """Return names and heights of the levels of the first water, the highest first."""
    means = levels(KESSORAY)
    names = ("hat", "mhws", "mhwn", "mlwn", "mlws")
    return [[name.upper(), round(getattr(means, name), 1)] for name in names]


def clearance() -> float:
    """Return the printed clearance of Span Bridge above HAT, metres."""
    printed = waters.load(KESSORAY).feature("span-bridge").clearance
    if printed is None:
        raise TypeError("the demonstration needs a clearance of Span Bridge")
    return printed


# Secondary ports and streams --------------------------------------------------------------------


def secondary_ports() -> list[dict[str, Any]]:
    """Return the secondary ports with their differences for high and low water."""
    return [
        {"name": port.name, "high": _half(port.high), "low": _half(port.low)}
        for port in model(KESSORAY).secondary
    ]


def _half(half: Any) -> dict[str, Any]:
    if not isinstance(half, Differences):
        raise TypeError("the demonstration shows differences between two columns only")
    return {name: list(value) for name, value in vars(half).items()}


@cache
def fortnight() -> dict[str, Any]:
    """Return each day's range from springs to springs, the mean ranges, and the gate's rates."""
    first, count = FORTNIGHT
    days = [first + timedelta(days=n) for n in range(count)]
    strongest = max(rows(GATE).values(), key=lambda row: row.spring_kn)
    return {
        "days": [in_year(day) for day in days],
        "ranges": [HEIGHT.rounded(model(KESSORAY).standard_range_on(day)) for day in days],
        "means": mean_ranges(),
        "gate": f"{GATE}, {model(KESSORAY).diamond(GATE).name}",
        "rates": [strongest.spring_kn, strongest.neap_kn],
    }


def mean_ranges() -> list[float]:
    """Return the mean ranges at springs and at neaps, metres, as the levels printed give them."""
    means = levels(KESSORAY)
    return [round(means.spring_range, 1), round(means.neap_range, 1)]


# The chart --------------------------------------------------------------------------------------


@cache
def chart() -> dict[str, Any]:
    """Return the first water with its streams: land, diamonds, and the atlas hour by hour.

    North on the drawing is true north. A ring of land is x, y, x, y ... in units of the drawing; a
    diamond has its place, its name and 13 printed rows [set, spring rate, neap rate]; the arrows
    have places, and for each of 13 hours a list of such rows.
    """
    tides = model(KESSORAY)
    spots = _on_drawing(tides.spots[:, 0], tides.spots[:, 1])
    inside = (spots[0] > 8) & (spots[0] < WIDE - 8) & (spots[1] > 8) & (spots[1] < TALL - 8)
    return {
        "land": _land(),
        "diamonds": {letter: _diamond(letter) for letter in LETTERS},
        "spots": np.round(spots.T[inside], 1).tolist(),
        "hours": [_arrows(hour, inside) for hour in range(-6, 7)],
        "means": mean_ranges(),
    }


def _arrows(hour: int, shown: NDArray[np.bool_]) -> list[list[float]]:
    """Return the rows of one page of the atlas, of the arrows that are shown."""
    page = zip(model(KESSORAY).atlas(hour), shown, strict=True)
    kept = [arrow for arrow, inside in page if inside]
    printed = (waters.StreamRow(hour, a.set_to, a.spring_kn, a.neap_kn) for a in kept)
    return [_row(printed_row(row)) for row in printed]


def _row(row: waters.StreamRow) -> list[float]:
    return [row.set_to % 360, round(row.spring_kn, 1), round(row.neap_kn, 1)]


def _diamond(letter: str) -> dict[str, Any]:
    diamond = model(KESSORAY).diamond(letter)
    return {
        "name": diamond.name,
        "at": np.round(_on_drawing(*map(np.asarray, diamond.place)), 1).tolist(),
        "rows": [_row(rows(letter)[hour]) for hour in range(-6, 7)],
    }


def _on_drawing(east: NDArray[np.float64], north: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return x and y of grid places on the drawing, true north up."""
    turn = np.radians(_convergence(_MIDDLE))
    de, dn = (east - _MIDDLE[0]) / 1000, (north - _MIDDLE[1]) / 1000
    true_east = de * np.cos(turn) + dn * np.sin(turn)
    true_north = dn * np.cos(turn) - de * np.sin(turn)
    return np.stack([WIDE / 2 + PER_KM * true_east, TALL / 2 - PER_KM * true_north])


def _convergence(place: Place) -> float:
    grid = waters.load(KESSORAY).settings.grid
    return float(convergence(*from_grid(*place, grid), grid))


def _land() -> list[list[float]]:
    """Return the land above mean high water springs as rings on the drawing."""
    water = waters.load(KESSORAY)
    east, north, height = water.height_field.window(*water.height_field.bounds)
    east, north, height = east[::_COARSE], north[::_COARSE], height[::_COARSE, ::_COARSE]
    tracer = contour_generator(east, north, height, fill_type=FillType.OuterOffset)
    rings = []
    for points, offsets in zip(*tracer.filled(levels(KESSORAY).mhws, 1e6), strict=True):
        for start, end in pairwise(offsets):
            x, y = _on_drawing(points[start:end, 0], points[start:end, 1])
            if abs(np.sum(x[:-1] * y[1:] - x[1:] * y[:-1])) / 2 > _SMALLEST:
                rings.append(np.round(np.stack([x, y], axis=1), 1).ravel().tolist())
    return rings
