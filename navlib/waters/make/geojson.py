"""GeoJSON of what the maker places, from local metres."""

from typing import Any

import numpy as np

from navlib.waters.make.frame import Frame, Points

Json = dict[str, Any]


def feature(key: str, name: str, kind: str, geometry: Json, **more: Any) -> Json:
    """Return a GeoJSON feature."""
    properties = {"id": key, "name": name, "kind": kind, **more}
    return {"type": "Feature", "properties": properties, "geometry": geometry}


def point(frame: Frame, x: float, y: float) -> Json:
    """Return the geometry of a point."""
    return {"type": "Point", "coordinates": frame.grid(np.array([[x, y]]))[0]}


def line(frame: Frame, points: Points) -> Json:
    """Return the geometry of a line."""
    return {"type": "LineString", "coordinates": frame.grid(points)}


def area(frame: Frame, *rings: Points) -> Json:
    """Return the geometry of an area with its closed outer ring and those of its holes."""
    return {"type": "Polygon", "coordinates": [frame.grid(ring) for ring in rings]}
