"""The map under a stream atlas: a Mercator chart of all of a water, its shores and few names."""

from functools import lru_cache, partial

import numpy as np
from matplotlib.collections import LineCollection
from matplotlib.patches import PathPatch, Rectangle
from matplotlib.path import Path

from navlib.sheets import style
from navlib.sheets.ground import Array, Ground, survey
from navlib.sheets.pages.leaf import SMALLEST, Leaf, measure
from navlib.sheets.placing import Wish, around, beside, land_share, settle
from navlib.sheets.window import Box, MercatorWindow
from navlib.waters import Water

SCALES = (
    *(10_000, 15_000, 20_000, 25_000, 30_000, 40_000, 50_000, 60_000, 75_000),
    *(100_000, 125_000, 150_000, 175_000, 200_000, 250_000, 300_000, 400_000, 500_000),
)
"""Scale denominators that a map may have."""
_LAND, _SHORE = "#e4ddca", "#f1ecdd"


def atlas_window(water: Water, room: Box) -> MercatorWindow:
    """Return the window that shows all of a water, at the largest round scale that `room` holds."""
    west, south, east, north = water.bounds
    along = np.linspace(0, 1, 9)
    e = np.r_[west + along * (east - west), west + along * (east - west), [west] * 9, [east] * 9]
    n = np.r_[
        [south] * 9, [north] * 9, south + along * (north - south), south + along * (north - south)
    ]
    lats, lons = np.array(
        [water.lat_lon((float(a), float(b))) for a, b in zip(e, n, strict=True)]
    ).T
    lat, lon = float(lats.min() + lats.max()) / 2, float(lons.min() + lons.max()) / 2
    for scale in SCALES:
        window = MercatorWindow(water.settings.grid, lat, lon, lat, scale, Box(0, 0, 0, 0))
        x, y = window.at_lat_lon(lats, lons)
        width, height = float(np.ptp(x)), float(np.ptp(y))
        if width <= room.width and height <= room.height:
            break
    left = room.middle[0] - width / 2
    frame = Box(left, room.top, left + width, room.top + height)
    return MercatorWindow(water.settings.grid, lat, lon, lat, scale, frame)


@lru_cache(maxsize=4)
def ground_of(water: Water, window: MercatorWindow) -> Ground:
    """Return the ground around a window, as coarse as this scale can show."""
    whole = survey(water, window)
    step = max(1, int(0.22 * window.scale / 1000 / water.height_field.spacing))
    return Ground(
        window,
        whole.easting[::step],
        whole.northing[::step],
        whole.height[::step, ::step],
        whole.coast,
        whole.zero,
    )


@lru_cache(maxsize=4)
def _areas(
    water: Water, window: MercatorWindow
) -> tuple[Path, Path | None, Path | None, list[Array]]:
    """Return the whole ground's outline, what lies below high and low water, and the coast."""
    ground = ground_of(water, window)
    x, y = ground.mesh
    rim = [np.stack([x[k], y[k]], axis=1) for k in (0, -1)]
    rim += [np.stack([x[:, k], y[:, k]], axis=1) for k in (0, -1)]
    ring_of = np.vstack([rim[0], rim[3], rim[1][::-1], rim[2][::-1]])
    return Path(ring_of), ground.below(ground.coast), ground.below(0.0), ground.lines(ground.coast)


def draw_shores(leaf: Leaf, water: Water, window: MercatorWindow) -> None:
    """Paint land and foreshore, the sea left white, and draw the coast, all within the frame."""
    f = window.frame
    data = leaf.axes.transData
    clip = Rectangle((f.left, f.top), f.width, f.height, transform=data, visible=False)
    leaf.axes.add_artist(clip)
    rim, high, low, coast = _areas(water, window)
    for k, (path, colour) in enumerate(((rim, _LAND), (high, _SHORE), (low, style.PAPER))):
        if path is not None:
            leaf.axes.add_artist(
                PathPatch(path, facecolor=colour, edgecolor="none", zorder=1 + 0.1 * k)
            ).set_clip_path(clip)
    lines = LineCollection(
        coast, colors=style.INK, linewidths=style.points(0.16), joinstyle="round", zorder=2
    )
    leaf.axes.add_collection(lines, autolim=False)
    lines.set_clip_path(clip)


def degrees(value: float, halves: str) -> str:
    """Return an angle in whole minutes, with the letter of its half: 58°45′N for halves "NS"."""
    minutes = round(abs(value) * 60)
    return f"{minutes // 60}°{minutes % 60:02d}′{halves[value < 0]}"


def draw_edge(leaf: Leaf, window: MercatorWindow, taken: list[Box]) -> None:
    """Draw ticks of latitude and longitude inside the frame, and write their figures."""
    f = window.frame
    _, west = window.lat_lon_at(f.left, f.middle[1])
    _, east = window.lat_lon_at(f.right, f.middle[1])
    north, _ = window.lat_lon_at(f.middle[0], f.top)
    south, _ = window.lat_lon_at(f.middle[0], f.bottom)
    step = next(s for s in (1, 2, 5, 10, 20) if (east - west) * 60 / s < 9)
    ticks = []
    for k in range(int(np.ceil(west * 60 / step)), int(np.floor(east * 60 / step)) + 1):
        x = float(window.at_lat_lon(window.lat, k * step / 60)[0])
        ticks += [[(x, f.top), (x, f.top + 1.8)], [(x, f.bottom), (x, f.bottom - 1.8)]]
        taken += [Box(x - 0.3, f.top, x + 0.3, f.top + 1.8)]
        taken += [Box(x - 0.3, f.bottom - 1.8, x + 0.3, f.bottom)]
        leaf.write(x, f.top - 1.2, degrees(k * step / 60, "EW"), SMALLEST, align="center")
    for k in range(int(np.ceil(south * 60 / step)), int(np.floor(north * 60 / step)) + 1):
        y = float(window.at_lat_lon(k * step / 60, window.lon)[1])
        if not f.top + 3 < y < f.bottom - 3:
            continue
        ticks += [[(f.left, y), (f.left + 1.8, y)], [(f.right, y), (f.right - 1.8, y)]]
        taken += [
            Box(f.right - 1.8, y - 0.3, f.right, y + 0.3),
            Box(f.left, y - 0.3, f.left + 2, y + 0.3),
        ]
        taken.append(leaf.write(f.left + 2.6, y + 0.9, degrees(k * step / 60, "NS"), SMALLEST))
    leaf.lines(ticks, 0.25)


def draw_port(leaf: Leaf, water: Water, window: MercatorWindow, taken: list[Box]) -> Box:
    """Draw the standard port's sign, a full square, and return its box."""
    x, y = (float(v) for v in window.place(*water.tides.place_of(water.tides.standard)))
    r = 1.1
    leaf.shapes([[(x - r, y - r), (x + r, y - r), (x + r, y + r), (x - r, y + r)]], zorder=7)
    taken.append(Box(x - r, y - r, x + r, y + r))
    return taken[-1]


def draw_names(
    leaf: Leaf, water: Water, window: MercatorWindow, port: Box, taken: list[Box]
) -> None:
    """Write the standard port's name and those of the large islands where there is room."""
    wishes = []
    width, height, _ = measure(water.tides.standard.name, 8.0, "bold", style.SERIF)
    spots = tuple(sorted(beside(port, width, height), key=lambda s: s[0]))
    wishes.append(Wish(water.tides.standard.name, "bold", spots))
    share = partial(land_share, ground=ground_of(water, window))
    for island in water.of_kind("island"):
        if island.rank > 2:
            continue
        width, height, _ = measure(island.name, 9.0, "normal", style.SERIF, "italic")
        x, y = (float(v) for v in window.place(*island.place))
        choice = list(around(x, y, width, height, 16.0 if island.rank == 1 else 6.0, 1.5))
        costs = [c + 5.0 * (1 - land) for (c, _), land in zip(choice, share(choice), strict=True)]
        outside = list(beside(Box(x - 2.5, y - 2.5, x + 2.5, y + 2.5), width, height))
        costs += [
            2.0 + c + 3.0 * land for (c, _), land in zip(outside, share(outside), strict=True)
        ]
        choice += outside
        order = np.argsort(costs, kind="stable")
        spots = tuple((float(costs[k]), choice[k][1]) for k in order)
        wishes.append(Wish(island.name, "italic", spots))
    for name in settle(wishes, taken, window.frame):
        bold = name.letters == "bold"
        weight_of, size = ("bold", 8.0) if bold else ("normal", 9.0)
        slant: style.Slant = "normal" if bold else "italic"
        depth = measure(name.text, size, weight_of, style.SERIF, slant)[2]
        leaf.write(
            name.box.left,
            name.box.bottom - depth,
            name.text,
            size,
            weight=weight_of,
            slant=slant,
            family=style.SERIF,
            edge=1.6 if bold else 0.0,
            zorder=7.5,
        )
