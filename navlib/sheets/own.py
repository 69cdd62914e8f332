"""A learner's own extract: a window worth working on, chosen by a seed, well spread over the water."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from navlib.grids import convergence
from navlib.sheets.chart.seachart import sea_chart
from navlib.sheets.land.landmap import land_map
from navlib.sheets.paper import Sheet
from navlib.waters import OutsideWaters, Place, Water

Array = NDArray[np.float64]


@dataclass(frozen=True)
class Worth:
    """What a window must hold to be worth working on: at least so many `marks` well inside it,
    lying `apart` (mm) across or down the sheet, and a share of sea between `least` and `most`.
    """

    marks: int
    apart: float
    least_sea: float
    most_sea: float


WORTH: Mapping[str, Worth] = MappingProxyType(
    {"land map": Worth(5, 60.0, 0.15, 0.88), "sea chart": Worth(5, 60.0, 0.35, 0.95)}
)
INSET = 6.0
"""Millimetres from the frame within which a mark does not count."""
_DRAW: Mapping[str, Callable[..., Sheet]] = MappingProxyType(
    {"land map": land_map, "sea chart": sea_chart}
)
_STANDING = ("island", "village", "sound", "summit")
"""Kinds whose names tell a learner where on the whole sheet the extract lies."""
_CELL = 5.0  # millimetres of the sheet between the windows that are looked at
_GOLDEN = (5**0.5 - 1) / 2  # its multiples, whole parts dropped, are the evenest spread of a line


def own_extract(
    water: Water,
    seed: int,
    *,
    sheet: str = "land map",
    scale: int | None = None,
    size_mm: tuple[float, float] | None = None,
) -> Sheet:
    """Return an extract of a learner's own: the same `seed` gives the same window.

    `sheet` is "land map" or "sea chart"; `scale` (the water's usual one unless given) and `size_mm`
    (150 x 130 unless given) as for those. Windows lie wherever there is enough to work on (`WORTH`,
    and a name of standing), and the windows of neighbouring seeds far from each other. Raises
    ValueError for an unknown sheet, and OutsideWaters if no window of that size is worth working on.
    """
    if sheet not in _DRAW:
        raise ValueError(f"A sheet is {' or '.join(_DRAW)}, not “{sheet}”.")
    size = size_mm or (150.0, 130.0)
    usual = water.settings.scales
    scale = scale or (usual.land_map if sheet == "land map" else usual.sea_chart)[0]
    centre = own_centre(water, seed, sheet, scale, size)
    return _DRAW[sheet](water, centre, scale=scale, size_mm=size)


def own_centre(
    water: Water, seed: int, sheet: str, scale: int, size_mm: tuple[float, float]
) -> Place:
    """Return easting and northing (m) of the middle of a learner's own extract."""
    centres = _worthy(water, sheet, scale, size_mm)
    if not len(centres):
        raise OutsideWaters(
            f"No window of {size_mm[0]:g} x {size_mm[1]:g} mm at 1:{scale} of "
            f"{water.settings.title} holds enough to work on. Take another size or scale, for "
            f"example 150 x 130 mm at 1:{water.settings.scales.land_map[0]}."
        )
    along = (seed % 2**31) * _GOLDEN % 1.0
    easting, northing = centres[int(along * len(centres))]
    return float(easting), float(northing)


@lru_cache(maxsize=16)
def _worthy(water: Water, sheet: str, scale: int, size_mm: tuple[float, float]) -> Array:
    """Return the middles of all windows worth working on, to and fro from south to north."""
    half = np.array(size_mm) * scale / 2000
    centres = _fitting(water, sheet, half, _CELL * scale / 1000)
    worth = WORTH[sheet]
    marks = np.array([m.place for m in water.marks()]).reshape(-1, 2)
    inset = half - INSET * scale / 1000
    if sheet == "sea chart":  # it is turned against the grid: count what lies in it either way
        inset = inset * 0.9
    held = np.all(np.abs(marks[None] - centres[:, None]) < inset, axis=2)
    reach = np.where(held[..., None], marks[None], np.nan)
    good = np.flatnonzero(held.sum(axis=1) >= worth.marks)
    centres, reach = centres[good], reach[good]
    span = np.nanmax(reach, axis=1) - np.nanmin(reach, axis=1) if len(centres) else centres
    wide = span.max(axis=1, initial=0) >= worth.apart * scale / 1000
    sea = _sea_share(water, centres, half)
    wide &= (sea >= worth.least_sea) & (sea <= worth.most_sea)
    known = [f.place for f in water.of_kind(*_STANDING) if f.name]
    away = np.abs(np.array(known).reshape(1, -1, 2) - centres[:, None])
    chosen: Array = centres[wide & np.any(np.all(away < inset * 0.85, axis=2), axis=1)]
    return chosen


def _fitting(water: Water, sheet: str, half: Array, cell: float) -> Array:
    """Return the middles on a grid of windows that lie wholly on the water, row by row."""
    west, south, east, north = water.bounds
    if sheet == "sea chart":
        lat, lon = water.lat_lon(((west + east) / 2, (south + north) / 2))
        turn = abs(np.radians(float(convergence(lat, lon, water.settings.grid)))) + 0.01
        half = np.array([[np.cos(turn), np.sin(turn)], [np.sin(turn), np.cos(turn)]]) @ half * 1.02
        west, south, east, north = water.height_field.bounds
    across = np.arange(west + half[0], east - half[0] + 1, cell)
    down = np.arange(south + half[1], north - half[1] + 1, cell)
    rows = [[(e, n) for e in across[:: 1 - 2 * (k % 2)]] for k, n in enumerate(down)]
    return np.array(rows, dtype=float).reshape(-1, 2)


def _sea_share(water: Water, centres: Array, half: Array) -> Array:
    """Return which share of each window is sea at high water springs."""
    u = np.linspace(-0.95, 0.95, 14)
    spots = np.stack(np.meshgrid(u, u), axis=-1).reshape(1, -1, 2) * half + centres[:, None]
    height = np.asarray(water.height_field.at(spots[..., 0], spots[..., 1]))
    return np.asarray((height < water.settings.levels.mhws).mean(axis=1), dtype=float)
