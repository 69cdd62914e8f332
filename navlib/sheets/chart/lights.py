"""Lights on the chart: star and flare, and the sectors in which a light shows each colour.

Bearings of sectors are true and from seaward: what someone at sea reads to the light. So the limit
of bearing B runs on the chart from the light towards B + 180 degrees, and the sector from A to B
lies clockwise from A + 180 to B + 180 (INT 1, P 40).
"""

from dataclasses import dataclass
from typing import Any

import numpy as np
from matplotlib.axes import Axes
from matplotlib.collections import LineCollection
from matplotlib.patches import Patch, PathPatch

from navlib.sheets import style
from navlib.sheets.chart import style as colours
from navlib.sheets.chart.glyphs import figures
from navlib.sheets.chart.parts import Part, Sign, open_shape, ring, shape, shifted
from navlib.sheets.ground import Array
from navlib.sheets.pen import draw_strokes
from navlib.sheets.window import Window
from navlib.waters import Feature, Water

_ARC, _BEYOND = 13.0, 1.5
"""Millimetres from a light to its arcs, and how many times that its limits run, at 1:75 000."""
_FLARE_TURN = 112.0  # degrees clockwise from up the sheet
_LOOK = {
    # colour of the ring's core, width in mm, dashes in widths: each letter is told without colour
    "R": (colours.SECTOR_RED, 0.85, (2.2, 0.7)),
    "G": (colours.SECTOR_GREEN, 0.85, (0.7, 0.7)),
    "W": (colours.SECTOR_WHITE, 0.85, None),
}


def _star(outer: float, inner: float) -> list[tuple[float, float]]:
    turn = np.arange(10) * np.pi / 5
    radius = np.where(np.arange(10) % 2 == 0, outer, inner)
    return [
        (float(r * np.sin(t)), float(-r * np.cos(t))) for r, t in zip(radius, turn, strict=True)
    ]


def flare(start: float = 0.45, length: float = 3.4) -> Part:
    """Return the magenta flare of a light: a drop slanting away from the exact place."""
    widest, half = length - 0.62, 0.62
    bow = [
        (widest + half * float(np.sin(a)), half * float(np.cos(a)))
        for a in np.linspace(0, np.pi, 13)
    ]
    outline = np.array([(start, 0.0), *bow])
    c, s = np.cos(np.radians(_FLARE_TURN - 90)), np.sin(np.radians(_FLARE_TURN - 90))
    return shape([(float(x * c - y * s), float(x * s + y * c)) for x, y in outline], style.MAGENTA)


def star() -> Sign:
    """Return the sign of a light: a black star, white at the exact place, and a flare."""
    return (
        flare(1.0, 4.2),
        shape(_star(1.55, 0.62)),
        open_shape(ring(0.26, count=20), 0.01, "none"),
    )


@dataclass(frozen=True)
class Sector:
    """One sector of a light: degrees true from seaward, clockwise from `start` to `end`."""

    start: float
    end: float
    colour: str

    @property
    def sweep(self) -> float:
        """Degrees from start to end; 360 for one all round."""
        return (self.end - self.start) % 360 or 360.0

    @property
    def middle(self) -> float:
        """The bearing from seaward half-way across the sector."""
        return (self.start + self.sweep / 2) % 360


def sectors(feature: Feature) -> tuple[Sector, ...]:
    """Return the sectors of a light; none if it shows the same all round."""
    return tuple(Sector(float(a), float(b), c) for a, b, c in feature.sectors)


def limits(feature: Feature) -> list[float]:
    """Return the bearings from seaward (degrees true) at which a light changes, each once."""
    ends = {
        bearing % 360 for s in sectors(feature) if s.sweep < 360 for bearing in (s.start, s.end)
    }
    return sorted(ends)


def from_light(x: float, y: float, bearing: float, away: float | Array) -> tuple[Array, Array]:
    """Return spots on the sheet from which a light at (x, y) bears `bearing`, `away` mm off."""
    turn = np.radians(bearing + 180)
    return np.asarray(x + away * np.sin(turn)), np.asarray(y - away * np.cos(turn))


def arc(x: float, y: float, sector: Sector, radius: float) -> Array:
    """Return the arc of a sector about a light at (x, y): points in millimetres, in its order."""
    bearings = np.linspace(sector.start, sector.start + sector.sweep, max(2, int(sector.sweep) + 1))
    turn = np.radians(bearings + 180)
    return np.stack([x + radius * np.sin(turn), y - radius * np.cos(turn)], axis=1)


def arc_radius(window: Window) -> float:
    """Return how many millimetres from their light arcs are drawn: more at larger scales."""
    return _ARC * min(max(75_000 / window.scale, 1.0), 1.8)


def sectored(water: Water, window: Window) -> list[Feature]:
    """Return the lights with sectors that lie in or near the frame."""
    f, reach = window.frame, _BEYOND * arc_radius(window)
    return [
        light
        for light in water.of_kind("light", "beacon")
        if light.sectors and f.holds(*window.place(*light.place), -reach)
    ]


def limit_lines(light: Feature, window: Window) -> list[Array]:
    """Return the limits of a light's sectors on the sheet, from the light outwards (mm)."""
    x, y = window.place(*light.place)
    away = np.array([1.2, _BEYOND * arc_radius(window)])
    return [np.stack(from_light(x, y, bearing, away), axis=1) for bearing in limits(light)]


def draw_sectors(axes: Axes, water: Water, window: Window, clip: Patch) -> None:
    """Draw the arcs and limits of all sector lights, each arc with the letter of its colour."""
    for light in sectored(water, window):
        x, y = (float(v) for v in window.place(*light.place))
        radius = arc_radius(window)
        dashed = LineCollection(
            limit_lines(light, window),
            colors=style.CHART_INK,
            linewidths=style.points(0.14),
            linestyles=[(0, (7, 4))],
            zorder=6.2,
            gid=f"limits-{light.id}",
        )
        axes.add_collection(dashed, autolim=False).set_clip_path(clip)
        shown = sectors(light)
        if {s.colour for s in shown} == {"W"}:  # hidden over land, of one colour: a plain arc
            arcs = [arc(x, y, s, radius) for s in shown]
            draw_strokes(
                axes,
                arcs,
                clip,
                colour=style.CHART_INK,
                width=0.14,
                zorder=6.2,
                gid=f"arc-{light.id}-0",
            )
            continue
        for k, sector in enumerate(shown):
            draw_arc(axes, f"{light.id}-{k}", (x, y), sector, radius, clip)


def draw_arc(
    axes: Axes,
    name: str,
    place: tuple[float, float],
    sector: Sector,
    radius: float,
    clip: Patch | None = None,
) -> None:
    """Draw the coloured arc of a sector about a light, group `arc-NAME`, and its letter."""
    colour, width, dashes = _LOOK[sector.colour]
    points = arc(*place, sector, radius)
    look: dict[str, Any] = {"zorder": 6.25, "capstyle": "butt"}
    for ink, wide, dash, gid in (
        (style.CHART_INK, width + 0.16, None, None),
        (style.PAPER, width, None, None),
        (colour, width, dashes, f"arc-{name}"),
    ):
        draw_strokes(axes, [points], clip, colour=ink, width=wide, dashes=dash, gid=gid, **look)
    narrow = np.radians(sector.sweep) * radius < 3.0
    off = 1.8 if narrow else -1.7
    x, y = (float(v) for v in from_light(*place, sector.middle, radius + off))
    letter = shifted(figures(sector.colour, 6.0, weight="bold")[0], x, y)
    for ink, edge in ((style.PAPER, 0.9), (style.CHART_INK, 0.0)):
        text = PathPatch(
            letter,
            facecolor=ink,
            edgecolor=ink,
            linewidth=style.points(edge),
            joinstyle="round",
            zorder=6.3,
        )
        axes.add_artist(text)
        if clip is not None:
            text.set_clip_path(clip)
