"""The hand-drawn plan of a piece of water: where everything is meant to be, before it is made.

A plan is a JSON file in `plans/`, named as the water is. Positions are km east and north of the
south-west corner of the area that the water's settings name; heights are metres above chart datum
unless said otherwise. Every part but the islands may be left out.
"""

import json
from dataclasses import dataclass, fields
from pathlib import Path
from typing import Any

from navlib.waters.errors import WatersError
from navlib.waters.make.frame import Frame
from navlib.waters.settings import Settings, read_settings

PLANS = Path(__file__).parent / "plans"
DATA = Path(__file__).parents[1] / "data"
Row = list[Any]


@dataclass(frozen=True)
class Plan:
    """One water's plan; the comment at each part says what a row of it holds."""

    about: str
    seed: int
    islands: list[dict[str, Any]]  # outline, rough (bend of a side), zones [x, y, radius, rough]
    deep: float = 46.0  # depth that the open sea tends to
    rocks_per_km2: float = 18.0  # tries at strewing small rocks off the rougher coasts
    cones: tuple[dict[str, Any], ...] = ()  # volcanoes; see `cone.make_cones`
    hills: tuple[Row, ...] = ()  # [x, y, height, radius]
    cliffs: tuple[Row, ...] = ()  # [x, y, radius, height]
    crests: tuple[dict[str, Any], ...] = ()  # line, top, reach: land at least so high along a line
    summits: tuple[Row, ...] = ()  # [point, height above the land map's zero]
    lochs: tuple[Row, ...] = ()  # [x, y, half length, half width, slope of its axis]
    shoals: tuple[dict[str, Any], ...] = ()  # sort: bank, foul or sill; see `terrain.shape_sea`
    channels: tuple[dict[str, Any], ...] = ()  # line, or along (a line's id); half_width, depth
    calm_coasts: tuple[Row, ...] = ()  # [x, y, radius] where the coast is as drawn
    steep_shores: tuple[Row, ...] = ()  # [x, y, radius] where the foreshore is narrow
    rocks: tuple[Row, ...] = ()  # [x, y, top, radius in metres]
    points: tuple[Row, ...] = ()  # [id, name, kind, x, y, properties]; "at": on another's place
    labels: tuple[Row, ...] = ()  # the same, left where they are
    quays: tuple[Row, ...] = ()  # [id, the point at its head]
    villages: tuple[Row, ...] = ()  # [id, x, y, radius, houses]
    ways: tuple[Row, ...] = ()  # [id, kind, places]; they find the easy ground between
    lines: tuple[Row, ...] = ()  # [id, name, kind, places, properties], straight as drawn
    areas: tuple[Row, ...] = ()  # [id, name, kind, corners or [middle, radius], properties]
    woods: tuple[Row, ...] = ()  # [id, x, y, radius]; they grow where the ground lets them
    fields: tuple[Row, ...] = ()  # [x, y, long, wide, slope of its axis, fields along, across]
    walls: tuple[Row, ...] = ()  # [id, places]
    lay_bys: tuple[Row, ...] = ()  # [id, the way at whose end it is]
    leading_lines: tuple[Row, ...] = ()  # [id, name, front mark, rear mark, km out to sea]
    limits: tuple[Row, ...] = ()  # [id, the line that it runs round, half width, note]
    bottom_km2: float = 1.2  # sea for each letter of the bottom; 0 for none
    scoured: tuple[Row, ...] = ()  # [x, y, radius] where the stream leaves gravel and stones only


def names() -> tuple[str, ...]:
    """Return the names of the waters that there are plans of."""
    return tuple(sorted(path.stem for path in PLANS.glob("*.json")))


def read_plan(name: str) -> Plan:
    """Return a water's plan; raise WatersError for one that is missing or has unknown parts."""
    path = PLANS / f"{name}.json"
    if not path.exists():
        raise WatersError(f"No plan called “{name}”. There are: {', '.join(names())}.")
    given = json.loads(path.read_text("utf-8"))
    known = [field.name for field in fields(Plan)]
    if unknown := set(given) - set(known):
        raise WatersError(
            f"{path.name}: unknown part “{min(unknown)}”. Known are: {', '.join(known)}."
        )
    return Plan(**given)


def read_frame(path: Path) -> tuple[Frame, Settings, dict[str, Any]]:
    """Return the frame of the area in a settings file, the settings, and the picture's numbers.

    Raises WatersError if the settings are missing or name no area.
    """
    if not path.exists():
        raise WatersError(f"There is no {path.name} in {path.parent.name}; write it first.")
    settings, heights = read_settings(path)
    if settings.area is None:
        raise WatersError(f"{path.name} of {path.parent.name} names no area; the maker needs it.")
    west, south, east, north = settings.area
    if not west - heights["west"] == south - heights["south"] >= 0:
        raise WatersError(
            f"{path.name}: the heights should begin as far west of the area as they begin south "
            f"of it, but they begin {west - heights['west']:g} m and "
            f"{south - heights['south']:g} m before it."
        )
    spacing = heights["spacing"]
    frame = Frame(
        west,
        south,
        spacing,
        int((east - west) / spacing) + 1,
        int((north - south) / spacing) + 1,
        settings.levels.mhws,
        settings.levels.hat,
        settings.levels.msl,
    )
    return frame, settings, heights
