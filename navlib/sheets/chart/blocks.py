"""Where the large things of a chart stand in open sea: its title block and its compass roses."""

from dataclasses import dataclass

import numpy as np

from navlib.sheets.chart import rose as roses
from navlib.sheets.chart import title
from navlib.sheets.chart.frame import Layout
from navlib.sheets.chart.room import Array, Raster, freest, roomiest
from navlib.sheets.chart.rose import PlacedRose
from navlib.sheets.lettering import Placed
from navlib.sheets.window import Box, Window
from navlib.waters import Water

_DEEP_ENOUGH = 5.0  # metres of water that a block may hide
_INLAND = 3.0  # metres above the coast from which a title may hide land
_ON_SIGNS, _ON_LAND = 1000.0, 0.15  # how much a title shuns signs and land, shallow water being 1
_SHARE = 0.16  # of the frame's shorter side: the largest radius of a rose on a small extract


@dataclass(frozen=True)
class Blocks:
    """The title's texts in their box, if there is one, on land or in water, and the roses."""

    title: Box | None
    on_land: bool
    words: list[Placed]
    roses: list[PlacedRose]

    @property
    def boxes(self) -> list[Box]:
        """What names and soundings keep clear of."""
        found = [self.title] if self.title else []
        return [*found, *(box for rose in self.roses for box in rose.boxes())]

    @property
    def breaks(self) -> list[Box]:
        """Where depth lines are broken: at the title and the words of roses."""
        found = [self.title] if self.title else []
        return [*found, *(box for rose in self.roses for _, box in rose.word_boxes())]


def find_blocks(
    water: Water, raster: Raster, signs: list[Box], clutter: Array, layout: Layout
) -> Blocks:
    """Return the title block (on a whole sheet) and the roses, in the freest water there is.

    They keep off land, shallow water, `signs` and the points of `clutter` (mm). The title may also
    stand on land where nothing is marked, and so may the roses of a whole sheet that finds no
    water for them.
    """
    window, coast = raster.window, raster.ground.coast
    crowd = raster.marked_where(np.zeros(raster.marked.shape, dtype=bool))
    crowd.mark_boxes([*signs, *_areas(water, window)], gap=1.0)
    crowd.mark_points(clutter)
    inland = raster.height > coast + _INLAND
    sea = raster.marked_where(crowd.marked | (raster.height > -_DEEP_ENOUGH))
    box, words, on_land = None, [], False
    if layout.whole:
        lines = title.title_lines(water, window.scale, with_tide=layout.plan)
        weight = np.where(crowd.marked, _ON_SIGNS, np.where(inland, _ON_LAND, sea.marked))
        box = freest(raster, weight, *title.size(lines))
        words = title.set_block(lines, box)
        on_land = bool(raster.ground.at(*np.array(box.middle)) > coast)
        crowd.mark_boxes([box], gap=2.0)
        sea.mark_boxes([box], gap=2.0)
    found = _roses(water, sea, layout)
    if layout.whole and not found:
        found = _roses(water, raster.marked_where(crowd.marked | (sea.marked & ~inland)), layout)
    return Blocks(box, on_land, words, found)


def _roses(water: Water, raster: Raster, layout: Layout) -> list[PlacedRose]:
    """Return the real rose and the training roses that find room on the unmarked cells."""
    frame, found = raster.frame, list[PlacedRose]()
    most = min(roses.LARGEST, _SHARE * min(frame.width, frame.height))
    for training in (None, *water.settings.training_roses):
        x, y, reach = roomiest(raster, roses.outer(most) + 0.5)
        radius = reach - roses.outer(0.0) - 0.5
        if radius < roses.LEAST:
            break
        easting, northing = raster.window.grid_at(x, y)
        rose = training or water.rose((float(easting), float(northing)))
        found.append(PlacedRose(rose, x, y, radius, training is not None))
        raster.mark_boxes([found[-1].box], gap=2.0)
    return found


def _areas(water: Water, window: Window) -> list[Box]:
    """Return the boxes around areas that a block must not hide."""
    boxes = []
    for feature in water.of_kind("anomaly", "reserve", "fish farm", "loch"):
        for part in feature.parts:
            x, y = window.place(*np.array(part).T)
            box = Box(float(x.min()), float(y.min()), float(x.max()), float(y.max()))
            boxes.append(box)
    return boxes
