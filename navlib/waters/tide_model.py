"""The one tidal model of a piece of water: tables, diamonds, atlas and gate times come from it."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from functools import cached_property
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from navlib import streams
from navlib.grids import Grid, convergence, from_grid
from navlib.tides import (
    Levels,
    Port,
    SecondaryPort,
    Turn,
    Water,
    Window,
    day_range,
    tidal_levels,
    tidal_windows,
)
from navlib.tides.crossings import MINUTE, crossings
from navlib.tides.moments import Moments, One, Times, aware, moment, zone
from navlib.tides.signal import mean_turning, turning
from navlib.units import NM, Floats
from navlib.waters.atlas import choose_spots
from navlib.waters.errors import WatersError
from navlib.waters.features import Feature, Place
from navlib.waters.heights import HeightField
from navlib.waters.stream_field import Complex, StreamField, read_streams
from navlib.waters.tides_file import Diamond, TidesFile, read_tides

HOURS = range(-6, 7)
"""Hours of a stream table about high water at the standard port."""
Places = Place | tuple[NDArray[np.float64], NDArray[np.float64]]
"""One place, or arrays of eastings and northings."""
_TO_KNOTS = 3600 / NM
_WITHIN = (np.arange(6) + 0.5) / 6 - 0.5  # middles of the ten minutes of an hour about its instant


@dataclass(frozen=True)
class StreamRow:
    """One hour of a stream table: set in degrees true, rates in knots at mean springs and neaps."""

    hour: int
    set_to: float
    spring_kn: float
    neap_kn: float


@dataclass(frozen=True)
class Arrow:
    """One arrow of a stream atlas: its place, set in degrees true, mean rates in knots."""

    place: Place
    set_to: float
    neap_kn: float
    spring_kn: float


@dataclass(frozen=True, eq=False)
class TideModel:
    """Ports and streams of a piece of water, in step with one another; invented, for training.

    `standard` is the port that all tables name, `secondary` those that follow it. A stream follows
    the standard port's half-daily tide with one ratio and lag a place (M2's), and an overtide that
    grows with its square. Daily streams, wind, weather and eddies are in none of it. Places are
    easting and northing in metres.
    """

    standard: Port
    secondary: tuple[SecondaryPort, ...]
    diamonds: tuple[Diamond, ...]
    field: StreamField
    grid: Grid
    area: tuple[float, float, float, float]
    overtide: complex
    _sites: Mapping[Port | SecondaryPort, Feature]

    def __repr__(self) -> str:
        return f"TideModel({self.standard.name!r}, {len(self.diamonds)} diamonds)"

    @property
    def ports(self) -> tuple[Port | SecondaryPort, ...]:
        """All ports, the standard port first."""
        return (self.standard, *self.secondary)

    @property
    def levels(self) -> Levels:
        """Tidal levels of the standard port, metres above chart datum."""
        return tidal_levels(self.standard)

    def place_of(self, port: Port | SecondaryPort) -> Place:
        """Return a port's place in grid metres."""
        return self._sites[port].place

    def feature_of(self, port: Port | SecondaryPort) -> str:
        """Return the id of the feature where a port is."""
        return self._sites[port].id

    def diamond(self, letter: str) -> Diamond:
        """Return the diamond with this letter; raises KeyError naming those there are."""
        for diamond in self.diamonds:
            if diamond.letter == letter:
                return diamond
        letters = ", ".join(d.letter for d in self.diamonds)
        raise KeyError(f"There is no diamond “{letter}” here. There are: {letters}.")

    def amplitudes(self, place: Places) -> Complex:
        """Return M2's complex (east, north) amplitudes in m/s, true: shape (2, places...).

        The phase counts from M2's high water at the standard port. 0 on land; raises OutsideWaters.
        """
        east, north = self.field.at(*place)
        to_true = np.radians(convergence(*from_grid(place[0], place[1], self.grid), self.grid))
        cos, sin = np.cos(to_true), np.sin(to_true)
        return np.stack([east * cos + north * sin, north * cos - east * sin])

    # The stream at any time ---------------------------------------------------------------------

    def velocity(self, place: Places, times: Times) -> NDArray[np.float64]:
        """Return the stream's (east, north) in knots: shape (2, places..., times...).

        `place` may hold arrays of eastings and northings. 0 on land; raises OutsideWaters.
        """
        return self._flow(self.amplitudes(place), turning(self.standard, times))

    def stream(self, place: Places, times: Times) -> tuple[Floats, Floats]:
        """Return set (degrees true) and rate (kn), shaped as `velocity`; one of each: floats."""
        return streams.arrow(*self.velocity(place, times))

    def _flow(self, amplitudes: Complex, turned: Complex) -> NDArray[np.float64]:
        whole = turned + self.overtide * turned**2
        return np.multiply.outer(amplitudes, whole).real * _TO_KNOTS

    # The trade's tables -------------------------------------------------------------------------

    def rows(self, where: Diamond | Place) -> tuple[StreamRow, ...]:
        """Return the 13 hours of a diamond's table, -6 to +6 about the standard port's high water.

        Each is the mean arrow over the half hour before and after its instant, at mean springs and
        mean neaps; the set is that at springs.
        """
        set_to, spring, neap = self._tables(_place(where))
        return tuple(
            StreamRow(hour, *(float(value[k]) for value in (set_to, spring, neap)))
            for k, hour in enumerate(HOURS)
        )

    @cached_property
    def spots(self) -> NDArray[np.float64]:
        """Places (n, 2) of the atlas's arrows: the same for all hours, none too near another.

        Each diamond has one, so that no gate with a table is a blank on the atlas.
        """
        to_springs = abs(self._mean_turnings()[0]).max() * _TO_KNOTS
        places = [diamond.place for diamond in self.diamonds]
        return choose_spots(self.field, self.area, to_springs, places)

    def atlas(self, hour: int) -> tuple[Arrow, ...]:
        """Return the arrows of one atlas page, `hour` from the standard port's high water.

        Raises ValueError for an hour that is not -6 to 6.
        """
        if hour not in HOURS:
            raise ValueError(
                f"hour {hour} has no atlas page: they run from -6 to 6, high water is 0"
            )
        k = HOURS.index(hour)
        set_to, spring, neap = (values[:, k] for values in self._atlas_tables)
        return tuple(
            Arrow((float(e), float(n)), float(to), float(rate_n), float(rate_s))
            for (e, n), to, rate_s, rate_n in zip(self.spots, set_to, spring, neap, strict=True)
        )

    @cached_property
    def _atlas_tables(self) -> tuple[NDArray[np.float64], ...]:
        return self._tables((self.spots[:, 0], self.spots[:, 1]))

    def _tables(self, place: Places) -> tuple[NDArray[np.float64], ...]:
        """Return set, spring rate and neap rate, shape (places..., 13)."""
        amplitudes = self.amplitudes(place)
        spring, neap = (
            self._flow(amplitudes, turned).mean(axis=-1) for turned in self._mean_turnings()
        )
        set_to, rate = streams.arrow(*spring)
        along = (neap * streams.vector(set_to, 1.0)).sum(axis=0)
        return np.asarray(set_to), np.asarray(rate), np.maximum(along, 0.0)

    def _mean_turnings(self) -> tuple[Complex, Complex]:
        """Return how mean springs and mean neaps turn: (13 hours, moments within the hour)."""
        hours = np.array(HOURS)[:, None] + _WITHIN
        return mean_turning(self.standard, hours), mean_turning(self.standard, hours, 180.0)

    def hours_from_high_water(self, when: datetime) -> tuple[int, Turn]:
        """Return the row of the stream table for a time, and the high water that it counts from.

        A row covers half an hour each side of its instant, its end left out, from the nearest high
        water at the standard port; beyond six hours the sixth holds. Raises ValueError for a time
        without a zone, or if no high water is within a day.
        """
        day = timedelta(days=1)
        highs = [t for t in self.standard.extremes(when - day, when + day) if t.kind == Water.HIGH]
        if not highs:
            raise ValueError(f"no high water within a day of {when:%Y-%m-%d %H%M %Z}")
        high = min(highs, key=lambda turn: abs(turn.time - when))
        row = (when - high.time + timedelta(minutes=30)) // timedelta(hours=1)
        return min(max(row, HOURS[0]), HOURS[-1]), high

    def standard_range_on(self, day: date) -> float:
        """Return the day's range at the standard port in metres, the day of its tide table."""
        return day_range(self.standard, day)

    def rate_on(self, where: Diamond | Place, when: datetime) -> tuple[float, float]:
        """Return set and rate at a time as the trade works them: the row, and today's range.

        Common practice: see `streams.rate_today`; `velocity` is what it stands for. It misleads
        where the tide is mixed, for then the range says little of the half-daily part.
        """
        hour, _ = self.hours_from_high_water(when)
        row = self.rows(where)[hour - HOURS[0]]
        today = when.astimezone(zone(self.standard.zone)).date()
        means = self.levels.spring_range, self.levels.neap_range
        rate = streams.rate_today(row.spring_kn, row.neap_kn, self.standard_range_on(today), *means)
        return row.set_to, float(rate)

    # Gates --------------------------------------------------------------------------------------

    def slack_times(self, place: Place, start: One, end: One) -> tuple[datetime, ...]:
        """Return when the stream turns in [start, end), UTC to the minute.

        It turns when nothing sets either way along the line of its greatest rate; a stream that
        goes round the compass has its least rate then, not none. No stream: no times.
        """
        east, north = self.amplitudes(place)
        twice = np.arctan2(2 * (east * north.conj()).real, abs(east) ** 2 - abs(north) ** 2)
        axis = np.array([np.cos(twice / 2), np.sin(twice / 2)])
        if east == north == 0:
            return ()

        def along(moments: Moments) -> NDArray[np.float64]:
            return np.asarray(axis @ self.velocity(place, moments))

        found, _ = crossings(along, moment(start), moment(end), 20 * MINUTE)
        return tuple(aware((time + MINUTE // 2).astype("M8[m]")) for time in found)

    def windows_below(self, place: Place, knots: float, start: One, end: One) -> tuple[Window, ...]:
        """Return the windows in [start, end] when the rate is under `knots`, in whole minutes.

        They open late and shut early rather than the other way.
        """

        def rate(times: Times) -> Floats:
            return self.stream(place, times)[1]

        return tuple(w.to_minutes() for w in tidal_windows(rate, start, end, below=knots))


def _place(where: Diamond | Place) -> Place:
    return where.place if isinstance(where, Diamond) else where


def load_tides(
    path: Path,
    heights: HeightField,
    features: Mapping[str, Feature],
    grid: Grid,
    area: tuple[float, float, float, float],
) -> TideModel:
    """Return the tidal model in a file `tides.json` and the picture of streams that it names.

    Raises WatersError saying what to mend.
    """
    given: TidesFile = read_tides(path, features)
    picture = path.parent / given.streams.file
    if not picture.exists():
        raise WatersError(f"The folder “{path.parent.name}” has no {picture.name}.")
    flow = given.streams
    for diamond in flow.diamonds:
        west, south, east, north = area
        if not (west <= diamond.place[0] <= east and south <= diamond.place[1] <= north):
            raise WatersError(f"{path.name}: diamond {diamond.letter} lies off this water.")
    field = read_streams(picture, flow.step, flow.spacing, heights, given.standard.mean_level)
    ports: list[Port | SecondaryPort] = [given.standard, *given.secondary]
    sites = {port: features[id] for port, id in zip(ports, given.features, strict=True)}
    overtide = flow.overtide * np.exp(-1j * np.radians(flow.overtide_lag))
    return TideModel(
        given.standard, given.secondary, flow.diamonds, field, grid, area, complex(overtide), sites
    )
