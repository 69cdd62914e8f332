"""The map's frame: how large it is and where it lies; nothing is drawn for that."""

from navlib.sheets.window import Box, GridWindow
from navlib.units import NM
from navlib.waters import OutsideWaters, Place, Water

TOP, SIDE = 23.0, 10.0
"""Millimetres above and beside the map's frame."""
NARROWEST = 112.0
"""The narrowest frame, in millimetres, below which the bars and arrows have room."""

BARS_DOWN, MILES_DOWN = 13.0, 8.2
"""Millimetres of the bar of kilometres below the frame, and of the bar of miles below that."""
_BESIDE_BARS, _LONGEST = 46.0, 104.0
_FOR_UNIT = {"km": 8.0, "nautical miles": 24.0}


def bar_room(window: GridWindow, unit: str) -> float:
    """Return how long the bar of a unit may be, in millimetres; its name takes the rest."""
    return min(window.frame.width - _BESIDE_BARS, _LONGEST) - _FOR_UNIT[unit]


def unit_left_of_zero(unit_mm: float, room: float) -> bool:
    """Return whether a bar has one unit in parts left of its zero; else its zero is its end."""
    return 2 * unit_mm <= room


def zero_of_miles(window: GridWindow) -> tuple[float, float]:
    """Return where on the sheet the zero of the bar of nautical miles is, in millimetres."""
    unit_mm = NM * 1000 / window.scale
    left = unit_mm if unit_left_of_zero(unit_mm, bar_room(window, "nautical miles")) else 0.0
    return window.frame.left + left, window.frame.bottom + BARS_DOWN + MILES_DOWN


def land_window(
    water: Water,
    centre: Place | None,
    bounds: tuple[float, float, float, float] | None,
    scale: int,
    size_mm: tuple[float, float],
) -> GridWindow:
    """Return the window of a land map; arguments and errors as for `land_map`."""
    if (centre is None) == (bounds is None):
        raise ValueError("Give either the centre of the window or its bounds, not both.")
    if scale <= 0:
        raise ValueError(f"A scale is a whole number above zero, such as 25000, not {scale}.")
    metres = scale / 1000.0
    if bounds is None:
        assert centre is not None
        half_w, half_h = size_mm[0] * metres / 2, size_mm[1] * metres / 2
        bounds = (centre[0] - half_w, centre[1] - half_h, centre[0] + half_w, centre[1] + half_h)
    west, south, east, north = bounds
    limits = water.bounds
    if west < limits[0] or south < limits[1] or east > limits[2] or north > limits[3]:
        raise OutsideWaters(
            f"A window from E {west:.0f} to {east:.0f}, N {south:.0f} to {north:.0f} runs off "
            f"{water.settings.title}, which lies within E {limits[0]:.0f} to {limits[2]:.0f}, "
            f"N {limits[1]:.0f} to {limits[3]:.0f}. Move it, make it smaller or take a larger scale."
        )
    width, height = (east - west) / metres, (north - south) / metres
    if width < NARROWEST or height < 40:
        raise ValueError(
            f"A map frame of {width:.0f} x {height:.0f} mm is too small for its scale bars and "
            f"north arrows; make it at least {NARROWEST:g} mm wide and 40 mm high."
        )
    frame = Box(SIDE, TOP, SIDE + width, TOP + height)
    return GridWindow(west, south, east, north, scale, frame)
