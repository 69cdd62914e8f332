"""The signs of single things on the sea chart: which thing has which, and where it stands."""

from dataclasses import dataclass

import numpy as np
from matplotlib.axes import Axes
from matplotlib.patches import Patch

from navlib.sheets.chart import buoys, dangers, landmarks, lights, parts
from navlib.sheets.chart.parts import Sign
from navlib.sheets.window import Box, Window
from navlib.waters import Feature, Place, Water

SIGNED = (
    *("light", "beacon", "daymark", "buoy", "mooring", "rock", "skerry", "wreck", "overfalls"),
    *("headland", "beach", "jetty", "church", "mast", "chimney", "cottage", "ruin", "summit"),
    *("spot height", "anchorage", "fish farm"),
)
"""Kinds of feature with a sign of their own at their place."""
_LARGE_SCALE_ONLY, _LARGE_SCALE = ("mooring",), 50_000
_ASIDE = 4.0  # millimetres between an overhead line and the figure of its clearance


@dataclass(frozen=True, eq=False)
class Standing:
    """A sign and the place (grid metres) that it stands for; `id` names its group in a drawing."""

    id: str
    place: Place
    sign: Sign


def signed_features(water: Water, window: Window) -> list[Standing]:
    """Return the signs whose places lie in the frame, also of rocks that only the sea bed shows.

    The figure of a clearance and the arrow of the direction of buoyage are signs too.
    """
    found = [
        Standing(f.id, f.place, sign_of(water, f))
        for f in (*water.of_kind(*SIGNED), *dangers.field_rocks(water))
        if window.scale <= _LARGE_SCALE or f.kind not in _LARGE_SCALE_ONLY
    ]
    for feature in water.features:
        if feature.clearance is not None:
            sign = _clearance(water, feature, window)
            found.append(Standing(f"{feature.id}-clearance", overhead(water, feature), sign))
    for line in water.of_kind("leading line"):
        found.append(Standing(f"{line.id}-buoyage", line.parts[0][0], _buoyage(line, window)))
    x, y = window.place(*np.array([s.place for s in found]).reshape(-1, 2).T)
    return [s for s, *at in zip(found, x, y, strict=True) if window.frame.holds(*at)]


def overhead(water: Water, feature: Feature) -> Place:
    """Return the place of a bridge or overhead line where the sea bed under it is lowest."""
    if not feature.parts:
        return feature.place
    line = np.array(feature.parts[0])
    run = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(line, axis=0).T))])
    at = np.linspace(0.0, run[-1], max(2, int(run[-1] / 10)))
    e, n = np.interp(at, run, line[:, 0]), np.interp(at, run, line[:, 1])
    lowest = int(np.argmin(water.height_field.at(e, n)))
    return float(e[lowest]), float(n[lowest])


def sign_of(water: Water, feature: Feature) -> Sign:
    """Return the sign of a feature of a kind in SIGNED, about its place."""
    levels, kind = water.settings.levels, feature.kind
    lit = (lights.flare(),) if feature.light else ()
    if kind == "light":
        return lights.star()
    if kind == "buoy":
        return (*lit, *buoys.buoy(feature.buoy))
    if kind == "beacon":
        return (*lit, *buoys.beacon(buoys.mark_of(feature), buoys.is_tower(feature)))
    if kind == "daymark":
        return (*lit, *buoys.daymark())
    if kind == "mooring":
        return buoys.mooring_buoy()
    if kind == "rock":
        return dangers.rock(water.height(feature.place), levels, marked=_carries(water, feature))
    if kind == "skerry":
        return dangers.islet_or_dot(water.height(feature.place), levels)
    if kind == "wreck":
        return dangers.wreck()
    if kind == "overfalls":
        return dangers.overfalls()
    if kind == "church" and "spire" in feature.note:
        return landmarks.LANDMARKS["spire"]
    if kind == "summit" and feature.pillar:
        return landmarks.LANDMARKS["pillar"]
    return landmarks.LANDMARKS[kind]


def _carries(water: Water, rock: Feature) -> bool:
    """Return whether a beacon stands on a rock."""
    return any(
        np.hypot(b.easting - rock.easting, b.northing - rock.northing) < 30
        for b in water.of_kind("beacon", "light")
    )


def _clearance(water: Water, feature: Feature, window: Window) -> Sign:
    """Return a clearance's figure, set off square to the line that it belongs to."""
    lines = feature.parts or next((f.parts for f in _bridges(water, feature)), ())
    across = np.array([0.0, 1.0])
    if lines:
        ends = np.stack(window.place(*np.array([lines[0][0], lines[0][-1]]).T), axis=1)
        along = (ends[1] - ends[0]) / max(float(np.hypot(*(ends[1] - ends[0]))), 1e-9)
        across = np.array([-along[1], along[0]])
    if across[1] < 0:
        across = -across
    x, y = _ASIDE * across
    return parts.moved(landmarks.clearance(float(feature.clearance or 0.0)), float(x), float(y))


def _bridges(water: Water, bridge: Feature) -> list[Feature]:
    """Return the bridge roads of a water, nearest to a bridge first."""
    return sorted(
        water.of_kind("bridge road"),
        key=lambda f: np.hypot(f.easting - bridge.easting, f.northing - bridge.northing),
    )


def _buoyage(line: Feature, window: Window) -> Sign:
    """Return the arrow of the direction of buoyage, beside the seaward end of a leading line."""
    ends = np.stack(window.place(*np.array([line.parts[0][0], line.parts[0][-1]]).T), axis=1)
    way = ends[1] - ends[0]
    turn = float(np.degrees(np.arctan2(way[0], -way[1])))
    return parts.turned(parts.moved(landmarks.buoyage_arrow(), -7.0, 0.0), turn)


def sign_box(standing: Standing, window: Window) -> Box:
    """Return the box (mm) that a sign fills on the sheet."""
    x, y = window.place(*standing.place)
    return parts.box_of(standing.sign, float(x), float(y), parts.size(window))


def draw_signs(axes: Axes, water: Water, window: Window, clip: Patch) -> None:
    """Draw the sign of each thing in the frame, as a group `sign-ID` of its own."""
    factor = parts.size(window)
    for standing in signed_features(water, window):
        x, y = (float(v) for v in window.place(*standing.place))
        parts.draw(axes, standing.sign, x, y, factor=factor, clip=clip, gid=f"sign-{standing.id}")
