"""The secondary ports: their differences from the standard port, and how to put them on."""

from datetime import timedelta

from navlib.clock import zone_info, zone_name
from navlib.language import say
from navlib.sheets.pages.curves import grid_lines
from navlib.sheets.pages.leaf import LEFT, MIDDLE, PALE, RIGHT, SMALLEST, TOP, Leaf, position
from navlib.sheets.pages.printed import (
    MINUS,
    decimetre,
    halves,
    levels_of,
    midnight,
    tenths,
)
from navlib.sheets.paper import Page
from navlib.sheets.style import SERIF
from navlib.sheets.window import Box
from navlib.tides import Differences, SecondaryPort, printed_days
from navlib.waters import Water

_TIMES = (62.0, 80.0, 100.0, 118.0)
_HEIGHTS = (137.0, 152.0, 167.0, 182.0)
"""Where the columns of times and of heights end, millimetres from the left."""
_NAMES = ("MHWS", "MHWN", "MLWN", "MLWS")


def differences_page(water: Water) -> Page:
    """Return the differences of all secondary ports of a water, with a form for working."""
    tides = water.tides
    leaf = Leaf()
    leaf.head(
        "Secondary ports",
        f"Differences on {tides.standard.name}, {water.settings.title}",
        "Times in hours and minutes, heights in metres",
    )
    y = _standard(leaf, water, TOP + 12.0)
    for port in tides.secondary:
        y = _secondary(leaf, water, port, y)
    y = _how(leaf, water, y + 8.0)
    y = _form(leaf, y + 8.0)
    _grids(leaf, y + 12.0)
    leaf.foot(
        f"Invented ports, for training; not for navigation. Heights: "
        f"{water.settings.datum.sea_heights}. Wind and air pressure are in no prediction.",
        top=282.0,
    )
    names = ", ".join(port.name for port in tides.secondary)
    return leaf.page(
        say(
            "Time and height differences of the secondary ports {names} on {port}, with the standard "
            "port’s levels, the steps to put them on and a form for working.",
            {"names": names, "port": tides.standard.name},
        )
    )


def signed_clock(minutes: float) -> str:
    """Return a time difference as tables print it: +0012, −0050."""
    whole = tenths(minutes / 10)
    sign = MINUS if whole < 0 else "+"
    return f"{sign}{abs(whole) // 60:02d}{abs(whole) % 60:02d}"


def _standard(leaf: Leaf, water: Water, y: float) -> float:
    """Write the heads of the columns and the standard port; return the line below them."""
    tides = water.tides
    for at, words in ((71.0, "High water"), (109.0, "Low water")):
        leaf.write(LEFT + at, y - 6.0, words, 8, weight="bold", align="center")
    leaf.write(LEFT + 157.0, y - 6.0, "Heights at", 8, weight="bold", align="center")
    for end, name in zip(_HEIGHTS, _NAMES, strict=True):
        leaf.write(LEFT + end, y - 1.6, name, 8, align="right", colour=MIDDLE)
    leaf.lines([[(LEFT, y), (RIGHT, y)]], 0.25, MIDDLE)
    leaf.write(LEFT, y + 6.4, tides.standard.name, 11, weight="bold", family=SERIF)
    leaf.write(LEFT, y + 11.0, position(water, tides.place_of(tides.standard)), 7.4)
    leaf.write(LEFT + _TIMES[-1], y + 6.4, "standard port", 8, align="right")
    levels = levels_of(water, tides.standard)
    for end, name in zip(_HEIGHTS, _NAMES, strict=True):
        leaf.write(LEFT + end, y + 6.4, decimetre(levels[name]), 9.4, align="right")
    leaf.lines([[(LEFT, y + 14.0), (RIGHT, y + 14.0)]], 0.25, MIDDLE)
    return y + 14.0


def _secondary(leaf: Leaf, water: Water, port: SecondaryPort, y: float) -> float:
    """Write a secondary port: the hours its time differences hold for, and all differences."""
    high, low = halves(port)
    leaf.write(LEFT, y + 6.4, port.name, 11, weight="bold", family=SERIF)
    leaf.write(LEFT, y + 11.0, position(water, water.tides.place_of(port)), 7.4)
    hours = [hour for half in (high, low) for hour in half.hours]
    for end, hour in zip(_TIMES, hours, strict=True):
        for k, later in enumerate((0, 12)):
            at = (hour + later) % 24
            text = f"{int(at):02d}{round(at % 1 * 60):02d}"
            leaf.write(LEFT + end, y + 4.6 + 3.6 * k, text, 7.4, align="right", colour=MIDDLE)
    minutes = [value for half in (high, low) for value in half.minutes]
    for end, value in zip(_TIMES, minutes, strict=True):
        leaf.write(LEFT + end, y + 13.6, signed_clock(value), 9.4, weight="bold", align="right")
    metres = (*high.metres, *reversed(low.metres))
    levels = levels_of(water, port)
    for end, value, name in zip(_HEIGHTS, metres, _NAMES, strict=True):
        leaf.write(LEFT + end, y + 13.6, decimetre(value, True), 9.4, weight="bold", align="right")
        leaf.write(
            LEFT + end, y + 4.6, f"{decimetre(levels[name])}", 7.4, align="right", colour=MIDDLE
        )
    leaf.lines([[(LEFT, y + 17.0), (RIGHT, y + 17.0)]], 0.1, PALE)
    return y + 17.0


def _how(leaf: Leaf, water: Water, y: float) -> float:
    """Write the steps, and an example worked with the figures that the tables print."""
    leaf.write(LEFT, y, "How to use it", 9, weight="bold")
    zone = zone_name(midnight(water.settings.sheet_date, water.tides.standard.zone))
    y += 5.6
    steps = (
        f"1.  Take high and low water of the standard port from its table, in table time ({zone}).",
        "2.  Find the time difference: each column holds for the two hours at its head. Between "
        "the hours go from one difference to the other in step with the time.",
        "3.  Find the height difference: between springs and neaps, and a little beyond them, go "
        "in step with the standard port’s height. The small figures are the port’s own levels.",
        "4.  Add both, with their signs. Change to clock time once, last.",
    )
    for step in steps:
        y = leaf.paragraph(LEFT, y, step, RIGHT - LEFT, 8, 4.1) + 0.6
    if not water.tides.secondary:
        return y
    return leaf.paragraph(LEFT, y + 1.6, example(water), RIGHT - LEFT, 8, 4.1)


def example(water: Water) -> str:
    """Return the first secondary port's first high water of the sheet's day, worked in words.

    As by hand, from printed figures: each difference is rounded, then added.
    """
    port, standard = water.tides.secondary[0], water.tides.standard
    day, zone = water.settings.sheet_date, standard.zone
    turns = printed_days(standard, day, 2, zone)
    turn = next(t for ts in turns.values() for t in ts if t.kind == "high")
    high: Differences = halves(port)[0]
    clock = turn.time.astimezone(zone_info(port.table_zone))
    minutes = tenths(high.minutes_at(clock.hour + clock.minute / 60) / 10)
    height = tenths(turn.height) / 10
    metres = tenths(high.metres_at(height)) / 10
    found = turn.time + timedelta(minutes=minutes)
    return (
        f"Example, {turn.time.day} {turn.time:%B %Y}: HW {standard.name} {turn.time:%H%M}, "
        f"{decimetre(height)} m. Time difference {signed_clock(minutes)}, height difference "
        f"{decimetre(metres, True)} m. HW {port.name} {found:%H%M}, {decimetre(height + metres)} m."
    )


def _form(leaf: Leaf, y: float) -> float:
    """Draw a form for two high and two low waters; return the line below it."""
    leaf.write(LEFT, y, "Working", 9, weight="bold")
    top, pitch, name = y + 3.0, 7.6, 46.0
    rows = ("", "Standard port", "Difference", "Secondary port", "Clock time")
    width = (RIGHT - LEFT - name) / 4
    bottom = top + len(rows) * pitch
    across = [LEFT, LEFT + name, *(LEFT + name + k * width / 2 for k in range(1, 9))]
    down = [top + k * pitch for k in range(len(rows) + 1)]
    leaf.lines([[(LEFT, at), (RIGHT, at)] for at in down], 0.13, MIDDLE)
    leaf.lines([[(at, top), (at, bottom)] for at in across], 0.13, MIDDLE)
    for k, row in enumerate(rows[1:], start=1):
        leaf.write(LEFT + 2.0, top + k * pitch + 5.0, row, 8)
    for k in range(8):
        x = LEFT + name + (k + 0.5) * width / 2
        what = ("HW", "m") if k < 4 else ("LW", "m")
        leaf.write(x, top + 5.0, what[k % 2], SMALLEST, align="center", colour=MIDDLE)
    return bottom


def _grids(leaf: Leaf, top: float) -> None:
    """Draw squared paper for going between two differences by a line, as far as there is room."""
    bottom = 268.0
    if bottom - top < 30:
        return
    side, small = 80.0, 2.5
    high = (bottom - top) // 10 * 10
    for left, words in ((LEFT, "Time difference"), (RIGHT - side, "Height difference")):
        leaf.write(left, top - 2.0, f"{words}, drawn: a line through the two known ones", 7.4)
        box = Box(left, top, left + side, top + high)
        across, down = round(box.width / small), round(box.height / small)
        grid_lines(
            leaf,
            box,
            ((left + k * small, 0 if k % 4 == 0 else 2) for k in range(across + 1)),
            ((top + k * small, 0 if k % 4 == 0 else 2) for k in range(down + 1)),
        )
