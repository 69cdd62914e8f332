"""The stream atlas: where the streams flow in each of the thirteen hours about high water."""

from navlib.language import say
from navlib.sheets import style
from navlib.sheets.bars import fraction
from navlib.sheets.pages.arrows import (
    SLACK,
    Drawn,
    draw_arrows,
    outline,
    ring,
    settle_arrows,
    weight,
)
from navlib.sheets.pages.leaf import LEFT, RIGHT, SMALLEST, TOP, Leaf
from navlib.sheets.pages.printed import MINUS, decimetre
from navlib.sheets.pages.rates import rates_grid, rule_words, set_figures
from navlib.sheets.pages.shores import (
    atlas_window,
    degrees,
    draw_edge,
    draw_names,
    draw_port,
    draw_shores,
    ground_of,
)
from navlib.sheets.paper import Page
from navlib.sheets.window import Box, MercatorWindow
from navlib.tides.hours import in_words
from navlib.waters import Water

HOURS = range(-6, 7)
ROOM = Box(LEFT, TOP + 6.0, RIGHT, TOP + 154.0)
"""Where on the page the map may lie."""


def stream_atlas(water: Water, hour: int) -> Page:
    """Return the page of the stream atlas for one hour from high water, -6 to 6.

    Arrows show the set, true, on a Mercator chart; figures the mean neap and spring rate in tenths
    of a knot with the comma on the place. Raises ValueError for another hour.
    """
    if hour not in HOURS:
        raise ValueError(
            f"a stream atlas has pages from 6 hours before to 6 hours after high water, -6 to 6, "
            f"not {hour}"
        )
    return _page(water, hour)


def hour_words(hour: int) -> str:
    """Return an hour from high water in words: 2 hours after HW."""
    if not hour:
        return "HW"
    return f"{abs(hour)} hour{'s' * (abs(hour) > 1)} {'before' if hour < 0 else 'after'} HW"


def _page(water: Water, hour: int) -> Page:
    name = water.tides.standard.name
    window = atlas_window(water, ROOM)
    leaf = Leaf()
    leaf.head(
        f"{hour_words(hour)} {name}",
        f"Tidal streams, {water.settings.title}",
        f"{fraction(window.scale)} at {degrees(window.lat, 'NS')}, true north up the page",
    )
    drawn = draw_map(leaf, water, window, hour)
    _below(leaf, water, hour, window.frame.bottom)
    strongest = max((d.arrow for d in drawn), key=lambda a: a.spring_kn, default=None)
    shown = say(
        "Tidal streams of {title}, {hour} at {port}: {count} places with neap and spring rates.",
        {
            "title": water.settings.title,
            "hour": in_words(hour),
            "port": name,
            "count": len(drawn),
        },
    )
    if strongest is None:
        return leaf.page(shown)
    most = say(
        "The strongest, {rate} kn at springs, sets {set} degrees true.",
        {"rate": decimetre(strongest.spring_kn), "set": set_figures(strongest.set_to)},
    )
    return leaf.page(f"{shown} {most}")


def draw_map(leaf: Leaf, water: Water, window: MercatorWindow, hour: int) -> list[Drawn]:
    """Draw the streams of an hour over the shores of a water; return those that found room."""
    draw_shores(leaf, water, window)
    taken: list[Box] = []
    draw_edge(leaf, window, taken)
    port = draw_port(leaf, water, window, taken)
    drawn = settle_arrows(water, window, ground_of(water, window), hour, taken)
    draw_names(leaf, water, window, port, taken)
    draw_arrows(leaf, drawn)
    leaf.frames([window.frame], 0.3)
    return drawn


def _below(leaf: Leaf, water: Water, hour: int, top: float) -> None:
    """Draw what stands below the map: the hours, boxes for clock times, the key, and the sums."""
    name = water.tides.standard.name
    y = top + 8.0
    leaf.write(LEFT, y, "Clock time of this page", 9, weight="bold")
    _times(leaf, name, hour, y + 3.0)
    _strip(leaf, hour, y + 26.0)
    _key(leaf, y + 44.0)
    right = LEFT + 108.0
    leaf.write(right, y, "Today’s rate", 9, weight="bold")
    box = Box(right + 8.0, y + 8.0, right + 58.0, y + 52.0)
    rates = [a.spring_kn for h in HOURS for a in water.tides.atlas(h)]
    rates_grid(leaf, water, box, max(rates))
    leaf.paragraph(right, y + 66.0, rule_words(water), RIGHT - right, SMALLEST, 3.5)
    leaf.check_bar(LEFT, 263.0)
    leaf.foot(
        "Computed for invented waters, for training; not for navigation. From the same model as the "
        "diamonds and the gate times. Rates to the nearest 0.1 kn, a half taken up. Wind is in no "
        "prediction, and close inshore the streams turn earlier than these arrows.",
        top=282.0,
    )


def _times(leaf: Leaf, name: str, hour: int, y: float) -> None:
    """Draw boxes for high water's clock time, this hour's, and when the page begins and ends."""
    sign = MINUS if hour < 0 else "+"
    added = f"{sign} {abs(hour)} h =" if hour else "="
    x = [LEFT, LEFT + 41.0, LEFT + 68.0, LEFT + 84.0]
    widths = (24.0, 22.0, 16.0, 16.0)
    leaf.frames([Box(a, y + 4.4, a + w, y + 13.0) for a, w in zip(x, widths, strict=True)])
    for at, words in zip(x, (f"HW {name}", "this page", "holds from", "to"), strict=True):
        leaf.write(at, y + 3.0, words, SMALLEST)
    leaf.write(LEFT + 32.5, y + 10.0, added, 9, weight="bold", align="center")
    leaf.write(LEFT, y + 16.8, "Half an hour each side of the hour. Use the tide table’s zone.", 7)


def _strip(leaf: Leaf, hour: int, y: float) -> None:
    """Draw the thirteen hours in a row, this page's filled."""
    side = 7.5
    boxes = [Box(LEFT + k * side, y, LEFT + (k + 1) * side, y + 6.0) for k in range(13)]
    leaf.frames([b for k, b in zip(HOURS, boxes, strict=True) if k != hour], 0.15)
    leaf.frames([boxes[hour + 6]], 0.15, style.INK)
    for k, box in zip(HOURS, boxes, strict=True):
        text = "HW" if not k else f"{MINUS if k < 0 else '+'}{abs(k)}"
        colour = style.PAPER if k == hour else style.INK
        weight_of = "bold" if k == hour else "normal"
        leaf.write(
            box.middle[0], y + 4.1, text, 7.6, align="center", colour=colour, weight=weight_of
        )


def _key(leaf: Leaf, y: float) -> None:
    leaf.shapes([outline((LEFT, y - 1.0), (LEFT + 8.0, y - 1.0), weight(2.5))])
    leaf.write(LEFT + 9.6, y, "12,25", 7.2)
    leaf.write(
        LEFT + 20.0, y, "sets this way; neaps 1.2 kn, springs 2.5 kn; the comma is the place", 7
    )
    leaf.shapes([ring((LEFT + 4.0, y + 4.2))], "#ffffff", line=0.25)
    leaf.write(LEFT + 20.0, y + 5.2, f"slack: under {SLACK:g} kn at springs", 7)
