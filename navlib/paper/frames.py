"""Windows for a paper's sheets: as large as the paper holds, where there is enough to ask about."""

from collections.abc import Callable, Sequence
from functools import cache, cached_property

import numpy as np

from navlib import waters
from navlib.language import say
from navlib.paper.blueprint import SheetWanted
from navlib.questions.held import View
from navlib.questions.picture import SheetWindow, called
from navlib.sheets.chart import frame as chart_frame
from navlib.sheets.chart.seachart import large_blocks
from navlib.sheets.land import margin as land_margin
from navlib.sheets.land.frame import SIDE, TOP, land_window
from navlib.sheets.own import own_centre
from navlib.sheets.window import Box, Window
from navlib.waters import OutsideWaters, Place

PAPER_MM = {"A4": (210.0, 297.0), "A3": (297.0, 420.0)}
"""Width and height of paper, ISO 216."""
PRINTER_MM = 10.0
"""Along each edge that many printers leave white."""
FOOT_MM = 12.0
"""Kept below a sheet for the page's own foot: code, page x of y."""
INSET_MM = 12.0
"""Paper between a mark and the frame of its sheet, at least."""
CLEAR_MM = 2.0
"""Paper between a mark and a chart's title or rose."""
WINDOWS = 3
"""Windows of each sheet that neighbours take in turn."""
_STEP_MM = 2.0


def page_mm(wanted: SheetWanted, size_mm: tuple[float, float]) -> tuple[float, float]:
    """Return width and height of the whole sheet whose frame has this size, margins and all."""
    if wanted.sheet == "land map":
        below = land_margin.bottom(waters.load(wanted.water), size_mm[0])
        return size_mm[0] + 2 * SIDE, size_mm[1] + TOP + below
    around = chart_frame.layout(wanted.scale, size_mm)
    return (
        size_mm[0] + around.left + around.right,
        size_mm[1] + around.top + around.bottom,
    )


def room_mm(paper_size: str) -> tuple[tuple[float, float], tuple[float, float]]:
    """Return the room for a sheet on this paper, upright and across: width and height, twice."""
    width, height = PAPER_MM[paper_size]
    one = (width - 2 * PRINTER_MM, height - 2 * PRINTER_MM - FOOT_MM)
    other = (height - 2 * PRINTER_MM, width - 2 * PRINTER_MM - FOOT_MM)
    return one, other


@cache
def frame_mm(wanted: SheetWanted) -> tuple[float, float]:
    """Return the largest frame whose sheet the paper holds, and which the water fills.

    Raises OutsideWaters if no frame of any size is worth working on at that scale.
    """
    sizes = [size for room in room_mm(wanted.paper_size) for size in _filling(wanted, room)]
    for size in sorted(sizes, key=lambda size: -size[0] * size[1]):
        try:
            own_centre(waters.load(wanted.water), 0, wanted.sheet, wanted.scale, size)
        except OutsideWaters:
            continue
        return size
    raise OutsideWaters(
        f"No {wanted.sheet} of {wanted.water} at 1:{wanted.scale} on {wanted.paper_size} shows enough."
    )


def _filling(wanted: SheetWanted, room: tuple[float, float]) -> list[tuple[float, float]]:
    """Return frames that fill a room: the whole width, or less if that leaves more height."""
    found = []
    for width in np.arange(150.0, room[0], _STEP_MM):
        whole = page_mm(wanted, (width, 130.0))
        height = np.floor((130.0 + room[1] - whole[1]) / _STEP_MM) * _STEP_MM
        while height >= 110.0 and page_mm(wanted, (width, height))[0] <= room[0]:
            if page_mm(wanted, (width, height))[1] <= room[1]:
                found.append((float(width), float(height)))
            height -= 2 * _STEP_MM
    return found


def window(wanted: SheetWanted, seed: int) -> SheetWindow:
    """Return the window of this seed, with nothing marked in it."""
    size = frame_mm(wanted)
    centre = own_centre(waters.load(wanted.water), seed, wanted.sheet, wanted.scale, size)
    alt = say("{sheet}, one to {scale}.", {"sheet": called(wanted.sheet), "scale": wanted.scale})
    return SheetWindow(wanted.water, wanted.scale, centre, size, (), alt, sheet=wanted.sheet)


@cache
def on_paper(shown: SheetWindow) -> Window:
    """Return where places lie on the sheet of a window, in millimetres."""
    water = waters.load(shown.water)
    if shown.sheet == "land map":
        return land_window(water, shown.centre, None, shown.scale, shown.size_mm)
    return chart_frame.chart_window(water, shown.centre, None, shown.scale, shown.size_mm)


class PaperSheet:
    """A window as a paper's sheet: where places lie on it, in millimetres, and what it can ask about.

    `room` is how many choices each kind of question has there.
    """

    def __init__(self, shown: SheetWindow, keeps: Callable[[Place, Place], bool]) -> None:
        """Make the sheet of a window; `keeps` says which ends of lines its sitting may ask about."""
        self.shown, self._paper = shown, on_paper(shown)
        self.room: dict[str, int] = {}
        known = [feature.place for feature in waters.load(shown.water).features]
        x, y = self._paper.place(*np.array(known, float).T)  # all at once: a projection is slow
        self._spots = dict(zip(known, zip(x.tolist(), y.tolist(), strict=True), strict=True))
        bounds = (self._paper.west, self._paper.south, self._paper.east, self._paper.north)
        whole = (shown.water, shown.sheet, shown.scale, shown.centre, bounds, self.holds)
        self.view = View(*whole, keeps)
        self.open_view = View(*whole, lambda first, last: True)

    @property
    def states_norths(self) -> bool:
        """Whether its norths or roses stand in the margin; those of a whole chart lie in it."""
        chart = self.shown.sheet == "sea chart"
        return not (chart and chart_frame.layout(self.shown.scale, self.shown.size_mm).whole)

    @cached_property
    def _blocks(self) -> list[Box]:
        """What stands in a chart and hides what lies under it: its title and its roses."""
        if self.shown.sheet == "land map":
            return []
        return large_blocks(waters.load(self.shown.water), self._paper)

    def covered(self, place: Place) -> bool:
        """Return whether a place lies under the chart's title or in one of its roses."""
        x, y = self.mm(place)
        return any(box.holds(x, y, -CLEAR_MM) for box in self._blocks)

    def mm(self, place: Place) -> tuple[float, float]:
        """Return where a place lies on the sheet, in millimetres from its top left corner."""
        if place not in self._spots:
            x, y = self._paper.place(*place)
            self._spots[place] = float(x), float(y)
        return self._spots[place]

    def holds(self, place: Place) -> bool:
        """Return whether a place lies well inside the frame."""
        return self._paper.frame.holds(*self.mm(place), INSET_MM)


def choose_sheet(
    pool: Sequence[PaperSheet], variant: int, turn: int, taken: Sequence[object]
) -> PaperSheet:
    """Return one of the best windows in turn, or at a later `turn` one of the others.

    None of those `taken` by the paper before, as long as there are others.
    """
    best = min(WINDOWS, len(pool))
    order = [*((variant + k) % best for k in range(best)), *range(best, len(pool))]
    order = [k for k in order if pool[k].shown not in taken] or order
    return pool[order[turn % len(order)]]
