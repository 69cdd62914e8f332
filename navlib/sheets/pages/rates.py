"""Today's rate of a stream between its rates at mean springs and mean neaps, on paper."""

from functools import partial
from math import ceil, floor

from navlib.sheets.pages.curves import DASHES, grid_lines
from navlib.sheets.pages.leaf import SMALLEST, Leaf
from navlib.sheets.pages.printed import MINUS, decimetre, tenths
from navlib.sheets.window import Box
from navlib.waters import Water


def tenth_figures(rate_kn: float) -> str:
    """Return a rate as an atlas prints it, in tenths of a knot and two figures: 0.6 is 06."""
    return f"{tenths(rate_kn):02d}"


def set_figures(set_to: float) -> str:
    """Return a set in three figures, the nearest whole degree: 045."""
    return f"{floor(set_to + 0.5) % 360:03d}"


def rule_words(water: Water) -> str:
    """Return how today's rate follows from the two rates, with this water's mean ranges."""
    levels = water.tides.levels
    neaps, spread = levels.neap_range, levels.spring_range - levels.neap_range
    written = partial(_metres, spread=spread)
    return (
        f"Rate today = neap rate + (spring rate − neap rate) × (range_today_−_{written(neaps)}) "
        f"÷_{written(spread)}, with today’s range at {water.tides.standard.name} in metres."
    ).translate({ord("−"): MINUS, ord("_"): "\N{NO-BREAK SPACE}"})


def _metres(metres: float, spread: float) -> str:
    """Return a mean range as the sum needs it: to the centimetre where springs hardly differ."""
    return decimetre(metres) if spread >= 1 else f"{metres:.2f}"


def rates_grid(leaf: Leaf, water: Water, box: Box, greatest_kn: float) -> None:
    """Draw a grid of range against rate for the line through a neap and a spring rate.

    `box` is the grid; its figures stand up to 10 mm outside it.
    """
    levels = water.tides.levels
    top_range = ceil(levels.hat - levels.lat)
    knots = max(2, ceil(greatest_kn * 1.15))
    metre, knot = box.height / top_range, box.width / knots
    parts, steps = (10 if size >= 9 else 5 for size in (knot, metre))
    grid_lines(
        leaf,
        box,
        (
            (box.left + k * knot / parts, 0 if k % parts == 0 else 2)
            for k in range(knots * parts + 1)
        ),
        (
            (box.bottom - k * metre / steps, 0 if k % steps == 0 else 2)
            for k in range(top_range * steps + 1)
        ),
    )
    for k in range(knots + 1):
        leaf.write(box.left + k * knot, box.bottom + 3.8, f"{k}", 7.4, align="center")
    for k in range(0, top_range + 1):
        leaf.write(box.left - 1.4, box.bottom - k * metre + 1.0, f"{k}", 7.4, align="right")
    spread = levels.spring_range - levels.neap_range
    strokes = []
    for name, value in (("springs", levels.spring_range), ("neaps", levels.neap_range)):
        y = box.bottom - value * metre
        strokes.append([(box.left, y), (box.right + 1.0, y)])
        leaf.write(box.right + 1.8, y + 1.0, f"{name} {_metres(value, spread)}", SMALLEST)
    leaf.lines(strokes, 0.35, dashes=DASHES)
    leaf.write(box.left - 4.0, box.top - 2.4, "range today, m", SMALLEST)
    leaf.write((box.left + box.right) / 2, box.bottom + 7.4, "rate, kn", SMALLEST, align="center")
