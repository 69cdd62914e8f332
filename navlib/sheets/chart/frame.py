"""The chart's frame: how large it is, where it lies, and at which latitude its scale is true."""

from dataclasses import dataclass

import numpy as np

from navlib.sheets.window import Box, MercatorWindow
from navlib.waters import OutsideWaters, Place, Water, WatersError

LARGEST = (354.0, 250.0)
"""Millimetres across and down of the largest frame that finds room on A3 with its margins."""
NARROWEST, LOWEST = 112.0, 40.0
_WHOLE = (225.0, 165.0)  # from this size on a sheet is whole: title, roses and tables of its own
_NEAR = 5000.0  # metres from the standard port within which a plan takes in a sound
_NARROW = 140.0  # below this width the notes in the foot take more lines
_PLAN = 30_000  # from this denominator down a sheet is a plan, with scale bars


@dataclass(frozen=True)
class Layout:
    """How a chart is laid out: a `whole` sheet, a `plan` with scale bars, a `narrow` one, and its
    margins (mm)."""

    whole: bool
    plan: bool
    narrow: bool = False

    @property
    def left(self) -> float:
        """Millimetres left of the frame."""
        return 16.0

    @property
    def right(self) -> float:
        """Millimetres right of the frame; a whole sheet has its tables there."""
        return 49.0 if self.whole else 16.0

    @property
    def top(self) -> float:
        """Millimetres above the frame."""
        return 16.0 if self.whole else 26.0

    @property
    def bottom(self) -> float:
        """Millimetres below the frame."""
        if self.whole:
            return 31.0
        return (57.0 if self.plan else 40.0) + (6.0 if self.narrow else 0.0)


def layout(scale: int, size_mm: tuple[float, float]) -> Layout:
    """Return the layout of a chart of this scale and frame."""
    whole = size_mm[0] >= _WHOLE[0] and size_mm[1] >= _WHOLE[1]
    return Layout(whole, scale <= _PLAN, size_mm[0] < _NARROW)


def true_latitude(water: Water) -> float:
    """Return the latitude where the scale of all charts of a water is true: its middle, to 5'."""
    west, south, east, north = water.bounds
    lat, _ = water.lat_lon(((west + east) / 2, (south + north) / 2))
    return round(lat * 12) / 12


def chart_window(
    water: Water,
    centre: Place | None,
    bounds: tuple[float, float, float, float] | None,
    scale: int | None,
    size_mm: tuple[float, float] | None,
) -> MercatorWindow:
    """Return the window of a chart; arguments and errors as for `sea_chart`."""
    if centre is not None and bounds is not None:
        raise ValueError("Give either the centre of the chart or its bounds, not both.")
    scale = water.settings.scales.sea_chart[0] if scale is None else scale
    if scale <= 0:
        raise ValueError(f"A scale is a whole number above zero, such as 75000, not {scale}.")
    if centre is not None:
        return _checked(water, _window(water, centre, scale, size_mm or (150.0, 130.0)))
    given = bounds or water.bounds
    middle = (given[0] + given[2]) / 2, (given[1] + given[3]) / 2
    if bounds is None and (given[2] - given[0]) * 1000 / scale > 1.3 * LARGEST[0]:
        middle = _harbour(water) or middle
    if size_mm is not None:
        return _checked(water, _window(water, middle, scale, size_mm))
    if bounds is None:
        return _fitted(water, middle, scale)
    around = _window(water, middle, scale, LARGEST)
    corners = np.array([(e, n) for e in given[::2] for n in given[1::2]])
    x, y = around.place(corners[:, 0], corners[:, 1])
    size = float(np.ptp(x)), float(np.ptp(y))
    easting, northing = around.grid_at(*((v.min() + v.max()) / 2 for v in (x, y)))
    return _checked(water, _window(water, (float(easting), float(northing)), scale, size))


def _harbour(water: Water) -> Place | None:
    """Return the middle between the standard port and the sound nearest to it: what a plan shows."""
    try:
        port = water.tides.place_of(water.tides.standard)
    except WatersError:
        return None
    away = {np.hypot(f.easting - port[0], f.northing - port[1]): f for f in water.of_kind("sound")}
    if not away or min(away) > _NEAR:
        return port
    sound = away[min(away)]
    return (port[0] + sound.easting) / 2, (port[1] + sound.northing) / 2


def _window(
    water: Water, centre: Place, scale: int, size_mm: tuple[float, float]
) -> MercatorWindow:
    margins = layout(scale, size_mm)
    lat, lon = water.lat_lon(centre)
    frame = Box(margins.left, margins.top, margins.left + size_mm[0], margins.top + size_mm[1])
    return MercatorWindow(water.settings.grid, lat, lon, true_latitude(water), scale, frame)


def _beyond(water: Water, window: MercatorWindow) -> tuple[float, float]:
    """Return how many metres a window runs off the height field eastwards or west, and up or down."""
    west, south, east, north = water.height_field.bounds
    return (
        max(west - window.west, window.east - east),
        max(south - window.south, window.north - north),
    )


def _fitted(water: Water, middle: Place, scale: int) -> MercatorWindow:
    """Return the largest window about a place that fits A3 and the height field fills."""
    width, height = LARGEST
    while True:
        window = _window(water, middle, scale, (float(width), float(height)))
        across, down = _beyond(water, window)
        if (across <= 0 and down <= 0) or min(width, height) < LOWEST:
            return _checked(water, window)
        width, height = width - (across > 0), height - (down > 0)


def _checked(water: Water, window: MercatorWindow) -> MercatorWindow:
    frame = window.frame
    if frame.width < NARROWEST or frame.height < LOWEST:
        raise ValueError(
            f"A chart frame of {frame.width:.0f} x {frame.height:.0f} mm is too small for its bars "
            f"and notes; make it at least {NARROWEST:g} mm wide and {LOWEST:g} mm high."
        )
    if max(_beyond(water, window)) > 0:
        limits = water.height_field.bounds
        raise OutsideWaters(
            f"A chart from E {window.west:.0f} to {window.east:.0f}, N {window.south:.0f} to "
            f"{window.north:.0f} runs off {water.settings.title}, which lies within E "
            f"{limits[0]:g} to {limits[2]:g}, N {limits[1]:g} to {limits[3]:g}. Move it, make it "
            "smaller or take a larger scale."
        )
    return window
