"""Every sheet and page of a piece of water, each under a name, drawn when it is taken out."""

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date
from functools import partial
from pathlib import Path
from typing import Literal

from navlib.sheets import pages
from navlib.sheets.bars import fraction
from navlib.sheets.chart.seachart import sea_chart
from navlib.sheets.land.landmap import land_map
from navlib.sheets.legend import legend
from navlib.sheets.paper import Page
from navlib.waters import Water

Format = Literal["pdf", "svg", "png"]
FORMATS: tuple[Format, ...] = ("pdf", "svg", "png")


@dataclass(frozen=True)
class Item:
    """A sheet or page: the name that its file gets, what it is in words, and how it is drawn."""

    name: str
    about: str
    draw: Callable[[], Page]


def shelf(water: Water, day: date) -> tuple[Item, ...]:
    """Return all sheets and pages of `water`, those with dates for `day` and its month."""
    return (*_maps(water), *_tides(water, day))


def choose(items: Sequence[Item], names: Sequence[str]) -> tuple[Item, ...]:
    """Return the items of these names, or whose names begin so; all if none is given.

    Raises ValueError with the names there are if one is not among them.
    """
    for name in names:
        if not any(item.name.startswith(name) for item in items):
            raise ValueError(
                f"There is no sheet called “{name}”. There are: "
                f"{', '.join(item.name for item in items)}."
            )
    return tuple(i for i in items if not names or any(i.name.startswith(n) for n in names))


def write(page: Page, file: Path, dpi: int = 200) -> None:
    """Write a page to `file`, in the format that its ending names: .pdf, .svg or .png.

    Raises ValueError for another ending.
    """
    match file.suffix.lower():
        case ".pdf":
            content = page.pdf()
        case ".svg":
            content = page.svg().encode()
        case ".png":
            content = page.png(dpi)
        case other:
            raise ValueError(f"A sheet is written as .pdf, .svg or .png, not as “{other}”.")
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_bytes(content)


def _maps(water: Water) -> list[Item]:
    scales = water.settings.scales
    items = [
        Item(
            f"land-map-{scale}",
            f"Land map, {fraction(scale)}, the whole water",
            partial(land_map, water, bounds=water.bounds, scale=scale),
        )
        for scale in scales.land_map
    ]
    items += [
        Item(
            f"sea-chart-{scale}",
            f"Sea chart, {fraction(scale)}",
            partial(sea_chart, water, scale=scale),
        )
        for scale in scales.sea_chart
    ]
    items += [
        Item(f"legend-{_plain(kind)}", f"Signs of the {kind}", partial(legend, kind))
        for kind in ("land map", "sea chart")
    ]
    return items


def _tides(water: Water, day: date) -> list[Item]:
    items = []
    for port in water.tides.ports:
        name = _plain(port.name)
        items += [
            Item(
                f"tide-table-{name}-{day:%Y-%m}",
                f"Tide table of {port.name}, {day:%B %Y}",
                partial(pages.tide_table, water, port, day.year, day.month),
            ),
            Item(
                f"tide-day-{name}-{day}",
                f"Height of tide at {port.name} through {day:%d %B %Y}",
                partial(pages.day_curve, water, port, day),
            ),
        ]
    standard = water.tides.standard
    items += [
        Item(
            f"tide-curve-{_plain(standard.name)}",
            f"Mean tide curves of {standard.name}, a form to work on",
            partial(pages.tide_curve, water, standard),
        ),
        Item(
            "tide-differences",
            "Differences of the secondary ports",
            partial(pages.differences_page, water),
        ),
        Item(
            f"slack-times-{day:%Y-%m}",
            f"Slack in the main gate, {day:%B %Y}",
            partial(pages.gate_page, water, day.year, day.month),
        ),
        Item("tidal-diamonds", "Tables of the tidal diamonds", partial(pages.diamonds_page, water)),
    ]
    for hour in range(-6, 7):
        when = (
            f"{abs(hour)} h {'before' if hour < 0 else 'after'} high water"
            if hour
            else "high water"
        )
        items.append(
            Item(
                f"stream-atlas-{_plain(when).removesuffix('-high-water')}",
                f"Tidal streams {'at ' if not hour else ''}{when} at {standard.name}",
                partial(pages.stream_atlas, water, hour),
            )
        )
    return items


def _plain(name: str) -> str:
    return re.sub(r"\W+", "-", name.lower()).strip("-")
