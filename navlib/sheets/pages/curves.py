"""The tide curve as a form to work on by hand: mean spring and neap curves, and a grid of heights."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from math import ceil, floor

import numpy as np

from navlib.clock import zone_name
from navlib.language import say
from navlib.sheets.pages.leaf import (
    LEFT,
    MIDDLE,
    PALE,
    RIGHT,
    SMALLEST,
    TOP,
    Leaf,
    position,
)
from navlib.sheets.pages.printed import (
    MINUS,
    AnyPort,
    decimetre,
    levels_of,
    midnight,
    role,
)
from navlib.sheets.paper import Page
from navlib.sheets.window import Box
from navlib.tides import Curve, MeanCurves, Port, mean_curves, printed_days
from navlib.waters import Water

HOUR_MM, FACTOR_MM, HOURS = 7.5, 110.0, 7
"""Millimetres to an hour and to the whole range; hours shown each side of high water."""
ZERO_X, BASE_Y = LEFT + 8.0 + HOURS * HOUR_MM, 158.0
"""Where high water lies across the page, and factor 0 down it."""
_GRID_LEFT, _GRID_WIDTH = 134.0, 60.0
DASHES = (0.0, (5.0, 2.4))
_STEPS = (50.0, 40.0, 30.0, 25.0, 20.0, 15.0, 12.5, 10.0, 7.5, 6.0, 5.0, 4.0, 2.5)


@dataclass(frozen=True)
class HeightScale:
    """Whole metres `low` to `high`, each `metre_mm` long, in a given room."""

    low: int
    high: int
    metre_mm: float

    @property
    def length(self) -> float:
        """Millimetres of the whole scale."""
        return (self.high - self.low) * self.metre_mm


def height_scale(water: Water, port: AnyPort, room_mm: float) -> HeightScale:
    """Return a scale that holds all heights of tide at a port, as long as there is room."""
    levels = water.tides.levels
    more = 0.0 if isinstance(port, Port) else levels_of(water, port)["MHWS"] - levels.mhws
    low, high = floor(min(levels.lat, 0.0)), ceil(levels.hat + max(more, 0.0))
    fitting = [mm for mm in _STEPS if mm * (high - low) <= room_mm]
    return HeightScale(low, high, fitting[0] if fitting else room_mm / (high - low))


def curve_spot(hours: float, factor: float) -> tuple[float, float]:
    """Return where on the page a factor at so many hours after high water lies."""
    return ZERO_X + hours * HOUR_MM, BASE_Y - factor * FACTOR_MM


def tide_curve(water: Water, port: AnyPort, day: date | None = None) -> Page:
    """Return the mean curves of a port on a form for hand work, with the tides of `day` if given.

    A secondary port takes the shape of its standard port’s curves.
    """
    standard = port if isinstance(port, Port) else water.tides.standard
    curves = mean_curves(standard)
    leaf = Leaf()
    place = position(water, water.tides.place_of(port))
    right = f"{day.day} {day:%B %Y}" if day else "Tide curve"
    leaf.head(port.name, f"{place}, {role(water, port)}", "Height of tide by the curve", right)
    _levels(leaf, water, port)
    _factor_grid(leaf)
    _curves(leaf, curves)
    _hour_boxes(leaf)
    scale = height_scale(water, port, _GRID_WIDTH)
    _height_grid(leaf, scale)
    _form(leaf, port, day)
    leaf.check_bar(LEFT, 266.0)
    leaf.foot(
        "Curves: the tides that keep step with springs and neaps, from the port’s harmonic "
        "constants. Invented port, for training; not for navigation. "
        + ("" if port is standard else f"The curves are those of {standard.name}. ")
        + "Wind and air pressure are in no prediction.",
        top=282.0,
    )
    return leaf.page(
        say(
            "Tide curve of {port}: factor against hours before and after high water at mean springs "
            "(range {springs} m) and mean neaps (range {neaps} m), a grid of heights for the line "
            "from high to low water, and boxes to fill in.",
            {
                "port": port.name,
                "springs": decimetre(curves.spring_range),
                "neaps": decimetre(curves.neap_range),
            },
        )
    )


def _levels(leaf: Leaf, water: Water, port: AnyPort) -> None:
    levels = levels_of(water, port)
    leaf.write(LEFT, TOP + 0.6, "   ".join(f"{n} {decimetre(v)}" for n, v in levels.items()), 8)
    springs = decimetre(water.tides.levels.spring_range)
    neaps = decimetre(water.tides.levels.neap_range)
    owner = "" if isinstance(port, Port) else f" at {water.tides.standard.name}"
    words = f"Mean range{owner}: springs {springs} m, neaps {neaps} m"
    leaf.write(RIGHT, TOP + 0.6, words, 8, align="right", weight="bold")


def grid_lines(
    leaf: Leaf, box: Box, across: Iterable[tuple[float, int]], down: Iterable[tuple[float, int]]
) -> None:
    """Draw a grid in a box: lines at x `across` and y `down`, each of rank 0 (strong), 1 or 2."""
    ranked: dict[int, list[Sequence[tuple[float, float]]]] = {0: [], 1: [], 2: []}
    for x, rank in across:
        ranked[rank].append([(x, box.top), (x, box.bottom)])
    for y, rank in down:
        ranked[rank].append([(box.left, y), (box.right, y)])
    for rank, (width, colour) in enumerate(((0.2, MIDDLE), (0.13, "#8f959b"), (0.07, PALE))):
        leaf.lines(ranked[rank], width, colour, zorder=4.0 - rank)


def _factor_grid(leaf: Leaf) -> None:
    left, top = curve_spot(-HOURS, 1)
    right, bottom = curve_spot(HOURS, 0)
    minor = 6  # ten minutes
    grid_lines(
        leaf,
        Box(left, top, right, bottom),
        (
            (ZERO_X + k * HOUR_MM / minor, 0 if k % minor == 0 else 2)
            for k in range(-HOURS * minor, HOURS * minor + 1)
        ),
        ((BASE_Y - k * FACTOR_MM / 50, 0 if k % 5 == 0 else 2) for k in range(51)),
    )
    for k in range(11):
        leaf.write(left - 1.4, BASE_Y - k * FACTOR_MM / 10 + 1.0, f"{k / 10:.1f}", 8, align="right")
    leaf.write(left - 6.6, top - 4.2, "factor", 8, weight="bold")
    leaf.write(ZERO_X, top - 4.2, "HW", 8, weight="bold", align="center")


def _curves(leaf: Leaf, curves: MeanCurves) -> None:
    for name, curve, width, dashes in (
        ("spring", curves.spring, 0.55, None),
        ("neap", curves.neap, 0.45, DASHES),
    ):
        leaf.lines([_drawn(curve)], width, gid=f"{name}-curve", dashes=dashes, zorder=7)
    top = BASE_Y - FACTOR_MM - 4.2
    x = ZERO_X - HOURS * HOUR_MM + 10.0
    for name, dashes, at in (("springs", None, x), ("neaps", DASHES, ZERO_X + 14.0)):
        leaf.lines([[(at, top - 1.0), (at + 12.0, top - 1.0)]], 0.5, dashes=dashes)
        leaf.write(at + 13.5, top, name, 8)


def _drawn(curve: Curve) -> list[tuple[float, float]]:
    """Return the curve's line on the page, a spot every few minutes and at both its ends."""
    keep = np.unique(np.r_[np.arange(0, len(curve.hours), 4), len(curve.hours) - 1])
    return [curve_spot(curve.hours[k], curve.factors[k]) for k in keep]


def _hour_boxes(leaf: Leaf) -> None:
    """Draw boxes for the clock times of the hours, odd and even hours in two rows."""
    leaf.write(ZERO_X, BASE_Y + 4.2, "HW", 8, weight="bold", align="center")
    for hour in range(-6, 7):
        x = ZERO_X + hour * HOUR_MM
        if hour:
            sign = MINUS if hour < 0 else "+"
            leaf.write(x, BASE_Y + 4.2, f"{sign}{abs(hour)}", 8, align="center")
        top = BASE_Y + (6.0 if hour % 2 == 0 else 14.4)
        if hour % 2:
            leaf.lines([[(x, BASE_Y + 5.4), (x, top)]], 0.1, MIDDLE, zorder=3)
        leaf.frames(
            [Box(x - HOUR_MM + 0.5, top, x + HOUR_MM - 0.5, top + 7.2)],
            0.18 if hour else 0.5,
            "#ffffff",
        )
    leaf.write(LEFT + 8.0, BASE_Y + 26.4, "Hours before and after high water: write the clock", 7.4)
    leaf.write(LEFT + 8.0, BASE_Y + 29.8, "time of HW in its box, then the hours each side.", 7.4)


def _height_grid(leaf: Leaf, scale: HeightScale) -> None:
    """Draw the grid for the line from the height of high water (top) to that of low water."""
    left, top, bottom = _GRID_LEFT, BASE_Y - FACTOR_MM, BASE_Y
    right = left + scale.length
    parts = 10 if scale.metre_mm >= 8 else 5
    grid_lines(
        leaf,
        Box(left, top, right, bottom),
        (
            (left + k * scale.metre_mm / parts, 0 if k % parts == 0 else 2)
            for k in range((scale.high - scale.low) * parts + 1)
        ),
        ((BASE_Y - k * FACTOR_MM / 50, 0 if k % 5 == 0 else 2) for k in range(51)),
    )
    for metre in range(scale.low, scale.high + 1):
        x = left + (metre - scale.low) * scale.metre_mm
        text = f"{metre}".replace("-", MINUS)
        leaf.write(x, top - 1.3, text, 8, align="center")
        leaf.write(x, bottom + 4.2, text, 8, align="center")
    middle = (left + right) / 2
    leaf.write(middle, top - 5.4, "height of HIGH water, m", 8, weight="bold", align="center")
    leaf.write(middle, bottom + 8.6, "height of LOW water, m", 8, weight="bold", align="center")
    y = bottom + 13.4
    y = leaf.paragraph(
        left,
        y,
        "Draw the line from high water above to low water below. From the hour go up to the curve, "
        "across to your line, then up or down to the height.",
        RIGHT - left,
        7.4,
        3.5,
    )


def _form(leaf: Leaf, port: AnyPort, day: date | None) -> None:
    """Draw the places for the day’s tides and for the working."""
    top, rows = 197.0, 8.4
    zone = zone_name(midnight(day, port.zone), port.zone) if day else ""
    left = Box(LEFT, top, LEFT + 84.0, top + 5 * rows)
    leaf.write(left.left, top - 2.0, "The day’s tides", 9, weight="bold")
    written = printed_days(port, day, 1, port.zone)[day] if day else ()
    x = [left.left, left.left + 20.0, left.left + 50.0, left.right]
    heads = ("", f"Time {zone}".strip() if day else "Time (zone:        )", "Height, m")
    for k, head in enumerate(heads):
        if head:
            leaf.write(x[k] + 2.0, top + 5.4, head, 7.4, colour=MIDDLE)
    for k in range(4):
        y = top + (k + 1) * rows + 5.8
        if k < len(written):
            turn = written[k]
            high = turn.kind == "high"
            weight = "bold" if high else "normal"
            leaf.write(x[0] + 2.0, y, "HW" if high else "LW", 9, weight=weight)
            leaf.write(x[1] + 2.0, y, f"{turn.time:%H%M}", 10, weight=weight)
            leaf.write(x[2] + 16.0, y, decimetre(turn.height), 10, weight=weight, align="right")
        else:
            leaf.write(x[0] + 2.0, y, "HW / LW", 7.4, colour=MIDDLE)
    _ruled(leaf, left, rows, x)

    right = Box(LEFT + 92.0, top, RIGHT, top + 7 * rows)
    leaf.write(right.left, top - 2.0, "Working", 9, weight="bold")
    steps = (
        "Range  =  HW − LW",
        "Springs, neaps or between?",
        "Time wanted, in the table’s zone",
        "Hours before or after HW",
        "Factor from the curve",
        "Factor × range",
        "Height  =  LW + factor × range",
    )
    for k, step in enumerate(steps):
        leaf.write(right.left + 2.0, top + k * rows + 5.6, step.replace("−", MINUS), 8)
    _ruled(leaf, right, rows, [right.left, right.left + 58.0, right.right])
    leaf.paragraph(
        left.left,
        left.bottom + 5.4,
        "Table time here; change to clock time once, last. Between mean springs and mean neaps "
        "read both curves and go between them by the range.",
        left.width,
        SMALLEST,
        3.4,
    )


def _ruled(leaf: Leaf, box: Box, pitch: float, across: Sequence[float]) -> None:
    count = round(box.height / pitch)
    down = [box.top + k * pitch for k in range(count + 1)]
    leaf.lines([[(box.left, y), (box.right, y)] for y in down], 0.13, MIDDLE)
    leaf.lines([[(x, box.top), (x, box.bottom)] for x in across], 0.13, MIDDLE)
