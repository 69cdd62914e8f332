"""A port and its tide: heights at any time, and high and low waters, by harmonic prediction."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from functools import cached_property
from math import isfinite
from typing import overload

import numpy as np
from numpy.typing import NDArray

from navlib.tides.constituents import CONSTITUENTS, arguments, factors, year_start
from navlib.tides.moments import Floats, Many, Moments, One, Times, moment, utc
from navlib.tides.turns import Turn, turning_points

_BLOCK = 4096  # moments worked at once: what fits a processor's near memory


class NodeFactors(StrEnum):
    """For which moment the node corrections hold.

    MID_YEAR is NOAA's way and that of SP 98: one value a calendar year, so heights step by a few
    millimetres at New Year. INSTANT is nearer to nature and up to a centimetre from NOAA's tables.
    """

    MID_YEAR = "middle of the year"
    INSTANT = "the instant"


@dataclass(frozen=True)
class Port:
    """A port with its harmonic constants.

    `mean_level` is mean sea level in metres above chart datum. `constituents` maps a name as NOAA
    writes it to (amplitude in metres, phase lag in degrees on Greenwich, UTC). `zone` names the
    clock of its tide table. Raises ValueError for an unknown name or an impossible constant.

    Heights follow h(t) = mean level + sum f A cos(V0 + u + speed t - G): SP 98, paragraph on
    prediction. For training, not for navigation.
    """

    mean_level: float
    constituents: Mapping[str, tuple[float, float]] = field(hash=False)
    name: str = ""
    source: str = ""
    zone: str = "UT"
    nodes: NodeFactors = NodeFactors.MID_YEAR

    def __post_init__(self) -> None:
        """Check the constants, and keep a copy that is this port's own."""
        if unknown := [name for name in self.constituents if name not in CONSTITUENTS]:
            raise ValueError(
                f"unknown constituent {', '.join(unknown)}: the known ones are "
                f"{', '.join(CONSTITUENTS)}"
            )
        own = {name: (float(a), float(g)) for name, (a, g) in self.constituents.items()}
        for name, (amplitude, phase) in own.items():
            if not (isfinite(amplitude) and amplitude >= 0 and isfinite(phase)):
                raise ValueError(
                    f"{name} has amplitude {amplitude} m and phase {phase}°: an amplitude is zero "
                    "or more metres and a phase a number of degrees, as in (1.45, 204.0)"
                )
        if not isfinite(self.mean_level):
            raise ValueError(f"mean level {self.mean_level} is not a height in metres, such as 2.8")
        object.__setattr__(self, "constituents", own)

    @overload
    def heights(self, times: One) -> float: ...
    @overload
    def heights(self, times: Many) -> Floats: ...
    def heights(self, times: Times) -> float | Floats:
        """Return heights of tide in metres above chart datum; a single time gives a float.

        `times` are aware datetimes or numpy datetime64 (UTC). Raises ValueError for a time that
        does not say its zone.
        """
        moments = utc(times)
        heights = self._height(moments.ravel()).reshape(moments.shape)
        return heights if moments.shape else float(heights)

    @overload
    def rates(self, times: One) -> float: ...
    @overload
    def rates(self, times: Many) -> Floats: ...
    def rates(self, times: Times) -> float | Floats:
        """Return how fast the water rises, in metres per hour, shaped as `heights`."""
        moments = utc(times)
        rates = self._rate(moments.ravel()).reshape(moments.shape)
        return rates if moments.shape else float(rates)

    def extremes(self, start: One, end: One) -> tuple[Turn, ...]:
        """Return every high and low water in [start, end), in order, times in UTC."""
        return turning_points(self._rate, self._height, moment(start), moment(end))

    def _height(self, moments: Moments) -> Floats:
        heights = np.empty(moments.shape)
        for k, amplitudes, angles in self._waves(moments):
            heights[k] = self.mean_level + np.vecdot(np.cos(angles), amplitudes)
        return heights

    def _rate(self, moments: Moments) -> Floats:
        rates = np.empty(moments.shape)
        speeds = self._constants[2]  # f and u stand still beside these
        for k, amplitudes, angles in self._waves(moments):
            rates[k] = -np.vecdot(np.sin(angles), amplitudes * speeds)
        return rates

    @cached_property
    def _constants(self) -> tuple[Floats, Floats, Floats]:
        """Amplitudes (m), phase lags (rad) and speeds (rad/h), one entry a constituent."""
        pairs = np.array(list(self.constituents.values()), float).reshape(-1, 2)
        speeds = np.array([CONSTITUENTS[name].speed for name in self.constituents], float)
        return pairs[:, 0], np.radians(pairs[:, 1]), np.radians(speeds)

    def _waves(self, moments: Moments) -> Iterator[tuple[NDArray[np.intp], Floats, Floats]]:
        """Yield blocks: places in `moments`, amplitudes f A in metres, angles in radians."""
        names = tuple(self.constituents)
        amplitudes, phases, speeds = self._constants
        years = moments.astype("datetime64[Y]")
        for year in np.unique(years):
            f, start = year_start(names, int(year.astype(int)) + 1970)
            start = np.radians(start) - phases
            places = np.flatnonzero(years == year)
            for k in np.split(places, range(_BLOCK, places.size, _BLOCK)):
                if self.nodes == NodeFactors.INSTANT:
                    f, u = factors(names, moments[k])
                    angles = np.radians(arguments(names, moments[k]) + u) - phases
                else:
                    hours = (moments[k] - year) / np.timedelta64(1, "h")
                    angles = np.multiply.outer(hours, speeds) + start
                yield k, f * amplitudes, angles
