"""The tide table: one month of a port, each day’s high and low waters."""

from collections.abc import Mapping
from datetime import date, timedelta

from navlib.clock import zone_info, zone_name
from navlib.language import say
from navlib.language.days import month_in_year
from navlib.sheets.pages.leaf import LEFT, RIGHT, TOP, Leaf, position
from navlib.sheets.pages.months import LAST_DAY, PITCH, Head, month_cells
from navlib.sheets.pages.printed import (
    AnyPort,
    clock_note,
    decimetre,
    levels_of,
    midnight,
    month_of,
    role,
)
from navlib.sheets.paper import Page
from navlib.tides import Port, Turn, printed_days, springs_and_neaps
from navlib.waters import Water

_MARK, _TIME, _HEIGHT = 22.0, 25.5, 49.0
"""Millimetres from the left of a column to the mark and the time, and to the height's end."""


def tide_table(water: Water, port: AnyPort, year: int, month: int) -> Page:
    """Return the tide table of a port for one month, in the zone of its table."""
    first, count = month_of(year, month)
    days = printed_days(port, first, count, port.zone)
    kinds = spring_days(water, port, first, count)
    leaf = Leaf()
    place = position(water, water.tides.place_of(port))
    leaf.head(port.name, f"{place}, {role(water, port)}", "Tide table", f"{first:%B %Y}")
    leaf.paragraph(
        LEFT, TOP + 0.6, clock_note(port.zone, water.settings.clock, first, count), RIGHT - LEFT, 8
    )
    zones = {zone_name(t.time, port.zone) for turns in days.values() for t in turns}
    zone = zones.pop() if len(zones) == 1 else "clock"
    heads: tuple[Head, ...] = ((_TIME, f"Time {zone}", "left"), (_HEIGHT, "m", "right"))
    most = max(4, *(len(turns) for turns in days.values()))
    for day, (x, y) in month_cells(leaf, first, count, heads).items():
        if day in kinds:
            _spring_sign(leaf, x, y, kinds[day])
        _turns(leaf, x, y, most, days[day])
    _notes(leaf, water, port)
    return leaf.page(_alt(port, first, days))


def spring_days(water: Water, port: AnyPort, first: date, count: int) -> dict[date, str]:
    """Return the days of springs and of neaps among `count` days, on the clock of the port's table.

    They are the standard port's: when M2 and S2 pull together, and when they pull apart.
    """
    standard = port if isinstance(port, Port) else water.tides.standard
    start, end = (midnight(d, port.zone) for d in (first, first + timedelta(days=count)))
    found = springs_and_neaps(standard, start, end)
    return {when.astimezone(zone_info(port.zone)).date(): kind for when, kind in found}


def _spring_sign(leaf: Leaf, x: float, y: float, kind: str) -> None:
    """Write springs or neaps below the day, and draw a long or a short range beside it."""
    leaf.write(x, y + 17.0, kind, 7.4, weight="bold")
    reach = {"springs": 3.3, "neaps": 1.3}[kind]
    across, middle = x + 15.2, y + 9.6
    ends = [middle - reach, middle + reach]
    leaf.lines(
        [[(across, ends[0]), (across, ends[1])]]
        + [[(across - 1.2, e), (across + 1.2, e)] for e in ends],
        0.35,
    )


def _turns(leaf: Leaf, x: float, y: float, most: int, turns: tuple[Turn, ...]) -> None:
    step = (PITCH - 1.6) / most
    size = min(10.4, step * 2.15)
    for k, turn in enumerate(turns):
        line = y + 0.6 + step * (k + 0.8)
        high = turn.kind == "high"
        weight = "bold" if high else "normal"
        _mark(leaf, x + _MARK, line - 0.12 * size, high)
        leaf.write(x + _TIME, line, f"{turn.time:%H%M}", size, weight=weight)
        leaf.write(x + _HEIGHT, line, decimetre(turn.height), size, weight=weight, align="right")


def _mark(leaf: Leaf, x: float, y: float, high: bool) -> None:
    """Draw a full triangle that points up for high water, an empty one down for low water."""
    up = -1.0 if high else 1.0
    points = [(x, y + up * 1.0), (x - 1.1, y - up * 0.8), (x + 1.1, y - up * 0.8)]
    leaf.shapes([points], "#22262b" if high else "#ffffff", line=0.16)


def _notes(leaf: Leaf, water: Water, port: AnyPort) -> None:
    y = LAST_DAY + 6.0
    _mark(leaf, LEFT + 1.2, y - 1.1, True)
    box = leaf.write(LEFT + 4.0, y, "high water", 8, weight="bold")
    _mark(leaf, box.right + 6.0, y - 1.1, False)
    leaf.write(box.right + 8.8, y, "low water", 8)
    levels = levels_of(water, port)
    text = "   ".join(f"{name} {decimetre(metres)}" for name, metres in levels.items())
    leaf.write(RIGHT, y, text, 8, align="right")
    leaf.foot(
        f"Predicted for an invented port, for training; not for navigation. Heights: "
        f"{water.settings.datum.sea_heights}. Wind and air pressure are in no prediction: the sea "
        "may stand 0.3 m higher or lower, and turn earlier or later.",
        "Times to the nearest minute, heights to the nearest 0.1 m; a half is taken later and "
        "higher. “springs” and “neaps” stand on the day when the two main tides pull together, "
        "and when they pull apart.",
        top=LAST_DAY + 16.0,
    )


def _alt(port: AnyPort, first: date, days: Mapping[date, tuple[Turn, ...]]) -> str:
    heights = [turn.height for turns in days.values() for turn in turns]
    return say(
        "Tide table of {port} for {month}: times and heights of each day’s high and low waters in "
        "three columns of days, heights from {lowest} to {highest} m.",
        {
            "port": port.name,
            "month": month_in_year(first),
            "lowest": decimetre(min(heights)),
            "highest": decimetre(max(heights)),
        },
    )
