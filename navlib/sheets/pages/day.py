"""One day's height of tide against the clock, with the tidal levels, to read heights from."""

from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from typing import Any

import numpy as np

from navlib.clock import zone_info, zone_name
from navlib.language import say
from navlib.language.days import on_weekday
from navlib.sheets.pages.curves import DASHES, HeightScale, grid_lines, height_scale
from navlib.sheets.pages.leaf import LEFT, MIDDLE, RIGHT, TOP, Leaf, position
from navlib.sheets.pages.printed import (
    MINUS,
    AnyPort,
    clock_note,
    decimetre,
    levels_of,
    midnight,
    role,
)
from navlib.sheets.paper import Page
from navlib.sheets.window import Box
from navlib.tides import Port, Turn, mean_curves, printed_days, through
from navlib.waters import Water

_LEFT, _HOUR_MM, _TOP, _ROOM = LEFT + 8.0, 6.5, 46.0, 150.0
_SPARE = timedelta(days=1)


def day_curve(water: Water, port: AnyPort, day: date) -> Page:
    """Return the height of tide at a port through one day on the clock of the water.

    A secondary port's heights run between its high and low waters as its standard port's mean
    curves do, fitted to each tide.
    """
    clock = water.settings.clock
    start, end = midnight(day, clock), midnight(day + timedelta(days=1), clock)
    turns = printed_days(port, day, 1, clock)[day]
    leaf = Leaf()
    place = position(water, water.tides.place_of(port))
    title = f"{day:%A} {day.day} {day:%B %Y}"
    leaf.head(port.name, f"{place}, {role(water, port)}", "Height of tide through the day", title)
    leaf.paragraph(LEFT, TOP + 0.6, clock_note(port.zone, clock, day, 1), RIGHT - LEFT, 8)
    scale = height_scale(water, port, _ROOM)
    box = Box(
        _LEFT, _TOP, _LEFT + (end - start) / timedelta(hours=1) * _HOUR_MM, _TOP + scale.length
    )
    _grid(leaf, box, scale)
    _hours(leaf, box, start, end, clock, port.zone)
    _levels(leaf, box, scale, levels_of(water, port))
    minutes = range(0, round((end - start) / timedelta(minutes=1)) + 1, 5)
    when = [start + timedelta(minutes=k) for k in minutes]
    heights = np.asarray(_heights(water, port, start, end)(when))
    spots = [
        (_across(box, start, t), _down(box, scale, float(h)))
        for t, h in zip(when, heights, strict=True)
    ]
    leaf.lines([spots], 0.55, gid="day-curve", zorder=7)
    _turns(leaf, box, scale, start, turns)
    y = _list(leaf, box.bottom + 18.0, turns)
    leaf.paragraph(
        LEFT + 86.0,
        box.bottom + 18.0,
        "One small square is 10 minutes across and 0.1 m up. Read the height where the clock time "
        "meets the curve. Dashed: the port’s mean levels and extremes.",
        RIGHT - LEFT - 86.0,
        8,
        4.2,
    )
    leaf.check_bar(_LEFT, max(y + 10.0, 262.0))
    leaf.foot(
        f"Predicted for an invented port, for training; not for navigation. Heights: "
        f"{water.settings.datum.sea_heights}. Wind and air pressure are in no prediction. Times to "
        "the nearest minute, heights to the nearest 0.1 m; a half is taken later and higher."
        + ("" if isinstance(port, Port) else " Between high and low water: mean curves, fitted."),
        top=280.0,
    )
    return leaf.page(
        say(
            "Height of tide at {port} through {day} against clock time: {turns}.",
            {
                "port": port.name,
                "day": on_weekday(day),
                "turns": ", ".join(map(_in_words, turns)) or say("no turn"),
            },
        )
    )


def _in_words(turn: Turn) -> str:
    words = "high water {time} {height} m" if turn.kind == "high" else "low water {time} {height} m"
    return say(words, {"time": f"{turn.time:%H%M}", "height": decimetre(turn.height)})


def _heights(water: Water, port: AnyPort, start: datetime, end: datetime) -> Callable[[Any], Any]:
    if isinstance(port, Port):
        return port.heights
    curves = replace(mean_curves(water.tides.standard), fitted=True)
    return through(port.extremes(start - _SPARE, end + _SPARE), curves)


def _across(box: Box, start: datetime, when: datetime) -> float:
    return box.left + (when.astimezone(UTC) - start) / timedelta(hours=1) * _HOUR_MM


def _down(box: Box, scale: HeightScale, height: float) -> float:
    return box.bottom - (height - scale.low) * scale.metre_mm


def _grid(leaf: Leaf, box: Box, scale: HeightScale) -> None:
    quarters = round(box.width / _HOUR_MM * 6)
    parts = 10
    grid_lines(
        leaf,
        box,
        ((box.left + k * _HOUR_MM / 6, 0 if k % 6 == 0 else 2) for k in range(quarters + 1)),
        (
            (
                box.bottom - k * scale.metre_mm / parts,
                0 if k % parts == 0 else 1 if k % 5 == 0 else 2,
            )
            for k in range((scale.high - scale.low) * parts + 1)
        ),
    )
    for metre in range(scale.low, scale.high + 1):
        y = _down(box, scale, metre) + 1.1
        leaf.write(box.left - 1.6, y, f"{metre}".replace("-", MINUS), 8.5, align="right")
    leaf.write(box.left - 6.0, box.top - 7.6, "metres", 7.4, colour=MIDDLE)


def _hours(leaf: Leaf, box: Box, start: datetime, end: datetime, clock: str, table: str) -> None:
    """Write the hours of the clock below the grid, and those of the table above where they differ."""
    sides = [(clock, box.bottom + 4.4, box.bottom + 9.4)]
    if {zone_name(t, clock) for t in (start, end)} != {zone_name(start, table)}:
        sides.append((table, box.top - 1.8, box.top - 7.6))
    for zone, line, words in sides:
        names = []
        when = start
        while when <= end:
            local = when.astimezone(zone_info(zone))
            if zone_name(when, zone) not in names:
                names.append(zone_name(when, zone))
            x = _across(box, start, when)
            leaf.write(x, line, f"{local:%H}", 7.6, align="center")
            when += timedelta(hours=1)
        what = "clock time" if zone == clock else "table time"
        text = f"hours, {what}, {' then '.join(names)}"
        leaf.write(sum((box.left, box.right)) / 2, words, text, 8, weight="bold", align="center")


def _levels(leaf: Leaf, box: Box, scale: HeightScale, levels: dict[str, float]) -> None:
    strokes, last = [], -1e9
    for name, height in levels.items():
        y = _down(box, scale, height)
        if not box.top <= y <= box.bottom:
            continue
        strokes.append([(box.left, y), (box.right + 1.2, y)])
        last = max(y + 1.0, last + 3.4)
        leaf.write(box.right + 2.0, last, name, 7.4)
    leaf.lines(strokes, 0.26, dashes=DASHES, zorder=5)


def _turns(
    leaf: Leaf, box: Box, scale: HeightScale, start: datetime, turns: tuple[Turn, ...]
) -> None:
    for turn in turns:
        x, y = _across(box, start, turn.time), _down(box, scale, turn.height)
        leaf.shapes([_dot(x, y)], gid="turn", zorder=8)
        high = turn.kind == "high"
        text = f"{turn.time:%H%M}  {decimetre(turn.height)}"
        half = 9.0
        at = min(max(x, box.left + half), box.right - half)
        line = y - 2.6 if high else y + 5.4
        leaf.write(at, line, text, 8.6, weight="bold", align="center", edge=2.6)


def _dot(x: float, y: float) -> list[tuple[float, float]]:
    turn = np.linspace(0, 2 * np.pi, 25)[:-1]
    return [(x + 0.8 * float(np.cos(a)), y + 0.8 * float(np.sin(a))) for a in turn]


def _list(leaf: Leaf, y: float, turns: tuple[Turn, ...]) -> float:
    """Write the day's turns one by one, and return the last line."""
    x = LEFT + 8.0
    for turn in turns:
        name = "High water" if turn.kind == "high" else "Low water"
        weight = "bold" if turn.kind == "high" else "normal"
        text = f"{turn.time:%H%M} {zone_name(turn.time, str(turn.time.tzinfo))}"
        leaf.write(x, y, name, 9, weight=weight)
        leaf.write(x + 26.0, y, text, 9, weight=weight)
        leaf.write(x + 60.0, y, f"{decimetre(turn.height)} m", 9, weight=weight, align="right")
        y += 5.2
    return y
