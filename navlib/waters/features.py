"""Features of a piece of water: what kinds there are, and how they are read from GeoJSON."""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType
from typing import Any

from navlib.waters.errors import WatersError

Place = tuple[float, float]
"""Easting and northing in metres."""


@dataclass(frozen=True)
class KindOfFeature:
    """`shape` is point, line or area; `sighted` whether a bearing can be taken on one."""

    shape: str
    sighted: bool = False


_SIGHTED = [
    *["headland", "summit", "light", "beacon", "daymark", "church", "mast", "chimney"],
    *["cottage", "ruin", "jetty", "beach", "skerry", "rock", "buoy"],
]
_NAMED = ["island", "bay", "sound", "overfalls", "bank", "cliff", "village", "bridge"]
_LINES = [
    *["road", "bridge road", "track", "path", "causeway", "burn", "quay", "ferry", "wall"],
    *["power cable", "submarine cable", "leading line", "limit"],
]
_SEEN_CLOSE = ["spot height", "anchorage", "mooring", "bottom", "lay-by", "wreck"]
_AREAS = ["buildings", "loch", "wood", "fish farm", "reserve", "anomaly", "radio shadow"]
KINDS: Mapping[str, KindOfFeature] = MappingProxyType(
    {
        **dict.fromkeys(_SIGHTED, KindOfFeature("point", sighted=True)),
        **dict.fromkeys([*_NAMED, *_SEEN_CLOSE], KindOfFeature("point")),
        **dict.fromkeys(_LINES, KindOfFeature("line")),
        **dict.fromkeys(_AREAS, KindOfFeature("area")),
    }
)
"""The kinds of feature that sheets and questions know."""

_GEOMETRY = {
    "point": ("Point",),
    "line": ("LineString",),
    "area": ("Polygon", "MultiPolygon"),
}
_PROPERTIES: Mapping[str, tuple[type, ...]] = {
    "structure": (int, float),
    "map_height": (int, float),
    "elevation": (int, float),
    "conspicuous": (bool,),
    "pillar": (bool,),
    "light": (str,),
    "buoy": (str,),
    "note": (str,),
    "from": (str,),
    "rank": (int,),
    "turn": (int, float),
    "sectors": (list,),
    "clearance": (int, float),
    "deflection": (int, float),
    "rate": (int, float),
    "period": (str,),
}
_COLOURS = ("W", "R", "G")
Sector = tuple[float, float, str]
"""Of a light: from and to, degrees true as seen from the sea, clockwise; W, R or G."""


@dataclass(frozen=True)
class Feature:
    """One thing on the sheet; `easting`, `northing` are its place (the middle, if it has length).

    `parts` holds its lines or rings. `structure` is the height of what is built above the ground,
    `map_height` the printed height above the land map's zero, `elevation` a light's above mean
    high water springs, all in metres; `rank` 1 is a name in large letters, 3 a small one; `turn` is
    the angle of the name, degrees anticlockwise. `clearance` is metres above the highest tide under
    a bridge or cable; `deflection` the most a compass is out by there, degrees east positive; `rate`
    the fastest stream in knots; `period` the time of year in words.
    """

    id: str
    name: str
    kind: str
    easting: float
    northing: float
    parts: tuple[tuple[Place, ...], ...] = ()
    structure: float = 0.0
    map_height: float | None = None
    elevation: float | None = None
    conspicuous: bool = False
    pillar: bool = False
    light: str = ""
    buoy: str = ""
    note: str = ""
    since: str = ""
    rank: int = 3
    turn: float = 0.0
    sectors: tuple[Sector, ...] = ()
    clearance: float | None = None
    deflection: float | None = None
    rate: float | None = None
    period: str = ""

    @property
    def place(self) -> Place:
        """Easting and northing in metres."""
        return self.easting, self.northing

    @property
    def sighted(self) -> bool:
        """Whether a bearing can be taken on it."""
        return KINDS[self.kind].sighted


def read_features(path: Path, bounds: tuple[float, float, float, float]) -> tuple[Feature, ...]:
    """Return the features in a GeoJSON file whose positions are grid metres within `bounds`.

    `bounds` are west, south, east, north. Raises WatersError if the file is not as it should be.
    """
    try:
        collection = json.loads(path.read_text(encoding="utf-8"))
    except ValueError as fault:
        raise WatersError(f"{path.name} is not JSON: {fault}.") from None
    if not isinstance(collection, dict) or not isinstance(collection.get("features"), list):
        raise WatersError(
            f'{path.name}: expected a GeoJSON FeatureCollection, {{"type": "FeatureCollection", '
            f'"features": [...]}}.'
        )
    features: dict[str, Feature] = {}
    for number, item in enumerate(collection["features"], 1):
        feature = _read_one(item, f"{path.name}, feature {number}", bounds)
        if feature.id in features:
            raise WatersError(
                f"{path.name}, feature {number}: the id “{feature.id}” is taken already; "
                "give each feature its own."
            )
        features[feature.id] = feature
    return tuple(features.values())


def _read_one(item: Any, where: str, bounds: tuple[float, float, float, float]) -> Feature:
    if not isinstance(item, dict):
        raise WatersError(f"{where}: expected an object, found {item!r}.")
    properties, geometry = dict(item.get("properties") or {}), item.get("geometry") or {}
    given = {name: properties.pop(name, None) for name in ("id", "name", "kind")}
    if not (isinstance(given["id"], str) and given["id"]):
        raise WatersError(f'{where}: it has no id. Write for example "id": "church-rock".')
    where = f"{where} (“{given['id']}”)"
    if not isinstance(given["name"], str):
        raise WatersError(f'{where}: it has no name. Write "name": "" if it has none.')
    if given["kind"] not in KINDS:
        raise WatersError(
            f"{where}: unknown kind “{given['kind']}”. Kinds are: {', '.join(KINDS)}."
        )
    for name, value in properties.items():
        if name not in _PROPERTIES:
            raise WatersError(
                f"{where}: unknown property “{name}”. Known are: {', '.join(_PROPERTIES)}."
            )
        kinds = _PROPERTIES[name]
        if not isinstance(value, kinds) or (isinstance(value, bool) and bool not in kinds):
            raise WatersError(f"{where}: “{name}” should be {_in_words(kinds)}, but is {value!r}.")
    shape = KINDS[given["kind"]].shape
    parts = _parts(geometry, shape, where)
    for east, north in (place for part in parts for place in part):
        if not (bounds[0] <= east <= bounds[2] and bounds[1] <= north <= bounds[3]):
            raise WatersError(
                f"{where}: {east:g}, {north:g} lies off the sheet, whose eastings run from "
                f"{bounds[0]:g} to {bounds[2]:g} and northings from {bounds[1]:g} to "
                f"{bounds[3]:g}. Positions are easting, northing in metres, not longitude, latitude."
            )
    if "sectors" in properties:
        properties["sectors"] = _sectors(properties["sectors"], where)
    if "from" in properties:
        properties["since"] = properties.pop("from")
    return Feature(
        given["id"],
        given["name"],
        given["kind"],
        *_middle(parts, shape),
        parts=() if shape == "point" else parts,
        **properties,
    )


def _sectors(given: list[Any], where: str) -> tuple[Sector, ...]:
    try:
        sectors = tuple((float(start), float(end), str(colour)) for start, end, colour in given)
    except (TypeError, ValueError):
        sectors = ()
    right = [0 <= a <= 360 and 0 <= b <= 360 and colour in _COLOURS for a, b, colour in sectors]
    if not right or not all(right):
        raise WatersError(
            f"{where}: “sectors” should be a list of from, to (true, from the sea) and W, R or G, "
            f'such as [[340.5, 344, "W"]], but is {given!r}.'
        )
    return sectors


def _in_words(kinds: tuple[type, ...]) -> str:
    return {bool: "true or false", str: "text", int: "a number", list: "a list"}[kinds[0]]


def _parts(geometry: Any, shape: str, where: str) -> tuple[tuple[Place, ...], ...]:
    found = geometry.get("type") if isinstance(geometry, dict) else None
    if found not in _GEOMETRY[shape]:
        raise WatersError(
            f"{where}: a feature of this kind needs a {' or '.join(_GEOMETRY[shape])}, "
            f"but its geometry is {found}."
        )
    given = geometry.get("coordinates")
    try:
        if found == "Point":
            lines = [[given]]
        elif found == "LineString":
            lines = [given]
        elif found == "Polygon":
            lines = given
        else:
            lines = [ring for polygon in given for ring in polygon]
        parts = tuple(tuple((float(e), float(n)) for e, n in line) for line in lines)
    except (TypeError, ValueError):
        raise WatersError(
            f"{where}: its coordinates should be [easting, northing] in metres, "
            f"for example [96580, 1002347]."
        ) from None
    if not parts or not all(parts) or (shape == "line" and len(parts[0]) < 2):
        raise WatersError(f"{where}: it has too few positions for a {found}.")
    return parts


def _middle(parts: tuple[tuple[Place, ...], ...], shape: str) -> Place:
    if shape == "line":
        return parts[0][len(parts[0]) // 2]
    places = [place for part in parts for place in part]
    return (
        sum(east for east, _ in places) / len(places),
        sum(north for _, north in places) / len(places),
    )
