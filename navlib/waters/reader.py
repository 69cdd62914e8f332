"""Opens a piece of water: its height field, features and settings, checked as they are read."""

from dataclasses import dataclass, field
from datetime import date
from functools import cache, lru_cache
from pathlib import Path

from navlib.angles import to_nearest
from navlib.grids import Grid, from_grid
from navlib.magnetism import Rose, annual_change, variation
from navlib.waters.errors import WatersError
from navlib.waters.features import Feature, Place, read_features
from navlib.waters.heights import HeightField, read_heights
from navlib.waters.settings import Settings, read_settings
from navlib.waters.sight import clear_view, land_crossed
from navlib.waters.tide_model import TideModel, load_tides

_SHIPPED = Path(__file__).parent / "data"
_FILES = ("settings.json", "features.geojson")


@dataclass(frozen=True, eq=False)
class Water:
    """A piece of water to learn on; everything on its sheets derives from what is held here."""

    name: str
    height_field: HeightField
    features: tuple[Feature, ...]
    settings: Settings
    _by_id: dict[str, Feature] = field(repr=False)
    _tides: TideModel | None = field(default=None, repr=False)

    def __repr__(self) -> str:
        return f"Water({self.name!r}, {len(self.features)} features)"

    @property
    def tides(self) -> TideModel:
        """Its tidal model; raises WatersError if its folder has no tides.json."""
        if self._tides is None:
            raise WatersError(
                f"{self.settings.title} has no tides: its folder has no tides.json. See "
                "“Add own waters” in DEVELOPERS.md."
            )
        return self._tides

    @property
    def bounds(self) -> tuple[float, float, float, float]:
        """West, south, east and north limits of the area that is taught on, in grid metres."""
        return self.settings.area or self.height_field.bounds

    def feature(self, id: str) -> Feature:
        """Return the feature with this id; raises KeyError with the nearest ids if there is none."""
        try:
            return self._by_id[id]
        except KeyError:
            from difflib import get_close_matches

            near = get_close_matches(id, self._by_id, n=3, cutoff=0.4) or list(self._by_id)[:3]
            raise KeyError(
                f"{self.settings.title} has no feature “{id}”. Near it: {', '.join(near)}."
            ) from None

    def of_kind(self, *kinds: str) -> tuple[Feature, ...]:
        """Return the features of these kinds, in the order of the file."""
        return tuple(f for f in self.features if f.kind in kinds)

    def marks(self) -> tuple[Feature, ...]:
        """Return the features that a bearing can be taken on or measured between."""
        return tuple(f for f in self.features if f.sighted)

    def height(self, place: Place) -> float:
        """Return the height of land or sea bed at a place (m above chart datum)."""
        return float(self.height_field.at(*place))

    def top(self, feature: Feature) -> float:
        """Return the height of a feature's top (m above chart datum), ground and what is on it."""
        base = max(self.height(feature.place), 0.0)
        return base + max(feature.structure, 2.0)

    def lat_lon(self, place: Place) -> tuple[float, float]:
        """Return latitude and longitude (WGS 84 degrees) of a place on the grid."""
        return _lat_lon(self.settings.grid, float(place[0]), float(place[1]))

    def rose(self, place: Place) -> Rose:
        """Return the variation at a place as its charts print it: for the sheet's year, to 1'."""
        day = date(self.settings.sheet_date.year, 1, 1)
        lat, lon = self.lat_lon(place)
        printed = to_nearest(float(variation(lat, lon, day)), 1 / 60)
        return Rose(printed, day.year, to_nearest(float(annual_change(lat, lon, day)), 1.0))

    def sees(
        self, eye: Place, target: Feature, *, eye_height: float = 2.0, sea: float | None = None
    ) -> bool:
        """Return whether a feature shows from a place, `eye_height` metres above sea or ground.

        `sea` is the sea's level above chart datum (m); mean high water springs unless given.
        """
        level = self.settings.levels.mhws if sea is None else sea
        return clear_view(
            self.height_field,
            eye,
            target.place,
            eye_height=eye_height,
            top=max(self.top(target), level + 2.0),
            sea=level,
        )

    def land_crossed(self, start: Place, end: Place, *, level: float | None = None) -> float:
        """Return the metres of a straight grid line over land (above high water springs).

        With `level`, over ground above that many metres above chart datum.
        """
        shore = self.settings.levels.mhws if level is None else level
        return land_crossed(self.height_field, start, end, shore)


@lru_cache(maxsize=8192)
def _lat_lon(grid: Grid, easting: float, northing: float) -> tuple[float, float]:
    lat, lon = from_grid(easting, northing, grid)  # slow for one place, and the same come again
    return float(lat), float(lon)


def _holds(outer: tuple[float, ...], inner: tuple[float, ...]) -> bool:
    return all(o <= i for o, i in zip(outer[:2], inner[:2], strict=True)) and all(
        o >= i for o, i in zip(outer[2:], inner[2:], strict=True)
    )


@cache
def shipped() -> tuple[str, ...]:
    """Return the names of the waters that come with the library."""
    return tuple(sorted(p.name for p in _SHIPPED.iterdir() if (p / "settings.json").exists()))


@cache
def load(name: str | Path = "kessoray") -> Water:
    """Return a piece of water by its short name, or from a folder of your own.

    Raises WatersError saying what to mend if a file is missing or not as it should be.
    """
    folder = Path(name) if isinstance(name, Path) or "/" in name else _SHIPPED / name
    if not folder.is_dir():
        raise WatersError(
            f"No water called “{name}”. Shipped are: {', '.join(shipped())}. "
            "For your own, give the path of its folder."
        )
    for file in _FILES:
        if not (folder / file).exists():
            raise WatersError(f"The folder “{folder.name}” has no {file}.")
    settings, heights = read_settings(folder / "settings.json")
    picture = folder / str(heights.pop("file"))
    if not picture.exists():
        raise WatersError(f"The folder “{folder.name}” has no {picture.name}.")
    height_field = read_heights(picture, **heights)
    if settings.area and not _holds(height_field.bounds, settings.area):
        raise WatersError(
            f"settings.json: “area” should lie within the height picture, which runs from "
            f"{height_field.bounds[:2]} to {height_field.bounds[2:]}, but is {settings.area}."
        )
    bounds = settings.area or height_field.bounds
    features = read_features(folder / "features.geojson", bounds)
    by_id = {f.id: f for f in features}
    tides = None
    if (folder / "tides.json").exists():
        tides = load_tides(folder / "tides.json", height_field, by_id, settings.grid, bounds)
    return Water(folder.name, height_field, features, settings, by_id, tides)
