"""A port's own mean spring and neap curves, and heights by them with today's range between.

The trade's tidal curve: a factor f read at hours before or after high water, then
height = low water + f x range.
"""

from dataclasses import dataclass, field
from datetime import datetime, timedelta
from functools import lru_cache

import numpy as np

from navlib.tides.constituents import CONSTITUENTS
from navlib.tides.levels import semidiurnal
from navlib.tides.moments import Floats, Times, aware, moment
from navlib.tides.port import Port
from navlib.tides.shortcuts import reached, share_of_duration
from navlib.tides.turns import Tide

_MINUTES = np.arange(-13 * 60, 13 * 60 + 1) / 60  # hours about high water, a minute apart


@dataclass(frozen=True)
class Curve:
    """One mean curve: `factors` (0 at low water, 1 at high) at `hours` from high water.

    It runs from the low water before to the low water after; `high` and `low` are its mean
    heights in metres.
    """

    hours: tuple[float, ...] = field(repr=False)
    factors: tuple[float, ...] = field(repr=False)
    high: float
    low: float

    def factor(self, hours: Floats | float) -> Floats:
        """Return f at `hours` after high water (before: negative); 0 beyond its low waters."""
        return np.asarray(np.interp(hours, self.hours, self.factors))


@dataclass(frozen=True)
class MeanCurves:
    """A port's mean spring and neap curves, with their mean ranges in metres.

    As the trade reads them, hours from high water count as they are. Where today's tide takes a
    longer or shorter time than the mean one, that misses its low water. With `fitted` (ours, not
    the trade's) the curve's rise or fall is first stretched to today's duration.
    """

    spring: Curve
    neap: Curve
    spring_range: float
    neap_range: float
    fitted: bool = False

    @property
    def name(self) -> str:
        """What to call it beside other methods."""
        return "the port's own curve" + (", fitted to the duration" if self.fitted else "")

    def factor(self, hours: Floats | float, tide_range: float) -> Floats:
        """Return f at `hours` after high water, between the two curves by range.

        Beyond mean springs or mean neaps the nearer curve holds (common practice).
        """
        return self._between(tide_range, self.spring.factor(hours), self.neap.factor(hours))

    def height(self, tide: Tide, when: Times, range_m: float | None = None) -> float | Floats:
        """Return heights in metres at `when`; a single time gives a float.

        `range_m` is today's range at the standard port where the tide is a secondary port's.
        Raises ValueError for a time outside the tide.
        """
        f = self._share_of_range(tide, share_of_duration(tide, when), range_m)
        heights = tide.low.height + f * tide.range
        return heights if np.ndim(heights) else float(heights)

    def time(self, tide: Tide, height: float, range_m: float | None = None) -> datetime:
        """Return the UTC time at which the tide first passes `height`; ValueError if it does not.

        A height that the curve has not yet reached when the tide turns is given the turn's time.
        """
        target = (reached(tide, height) - tide.low.height) / tide.range
        start, end = moment(tide.start.time), moment(tide.end.time)
        share = np.linspace(0, 1, 721)
        f = self._share_of_range(tide, share, range_m)
        passed = f >= target if tide.rising else f <= target
        k = int(passed.argmax()) if passed.any() else share.size - 1
        if k and f[k] != f[k - 1]:
            part = np.clip((target - f[k - 1]) / (f[k] - f[k - 1]), 0, 1)
            return aware(start + (share[k - 1] + part * (share[k] - share[k - 1])) * (end - start))
        return aware(start + share[k] * (end - start))

    def _share_of_range(self, tide: Tide, share: Floats, range_m: float | None) -> Floats:
        """Return f once a `share` of the tide's duration has gone by."""
        from_high = share - 1 if tide.rising else share
        tide_range = tide.range if range_m is None else range_m
        if not self.fitted:
            return self.factor(from_high * (tide.duration / timedelta(hours=1)), tide_range)
        limb = 0 if tide.rising else -1
        return self._between(
            tide_range,
            *(c.factor(from_high * abs(c.hours[limb])) for c in (self.spring, self.neap)),
        )

    def _between(self, tide_range: float, spring: Floats, neap: Floats) -> Floats:
        springs = (tide_range - self.neap_range) / (self.spring_range - self.neap_range)
        springs = min(max(springs, 0.0), 1.0)
        return springs * spring + (1 - springs) * neap


@lru_cache(maxsize=64)
def mean_curves(port: Port) -> MeanCurves:
    """Return a port's mean curves from its harmonic constants.

    They hold the constituents that keep step with springs and neaps: those whose argument is a
    whole number of times that of M2 and of S2 (M4, MS4, M6 ...), with node factors at their mean.
    All others come and go and leave the mean curve alone. ValueError without M2 or S2.
    """
    m2, s2 = semidiurnal(port)
    return MeanCurves(_mean_curve(port, 0), _mean_curve(port, 180), 2 * (m2 + s2), 2 * abs(m2 - s2))


def mean_heights(port: Port, hours: Floats, s2_behind: float = 0.0) -> Floats:
    """Return heights in metres at `hours` after M2's own high water at mean springs.

    With S2 `s2_behind` degrees out of step with M2: 180 is mean neaps. See `mean_curves` for which
    constituents count.
    """
    heights = np.full(np.shape(hours), port.mean_level)
    m2_lag, s2_lag = port.constituents["M2"][1], port.constituents["S2"][1] + s2_behind
    for name, (amplitude, lag) in port.constituents.items():
        kind = CONSTITUENTS[name]
        t, s, h, *perigees = kind.turns
        m2s = -s // 2
        s2s = (t - 2 * m2s) // 2
        if s % 2 or t % 2 or h != 2 * m2s or any(perigees) or (m2s, s2s) == (0, 0):
            continue
        phase = m2s * m2_lag + s2s * s2_lag - lag
        heights += amplitude * np.cos(np.radians(kind.speed * hours + phase))
    return heights


def mean_high_water(port: Port, s2_behind: float = 0.0) -> float:
    """Return how many hours after M2's own high water the mean tide's stands, to a minute."""
    heights = mean_heights(port, _MINUTES, s2_behind)
    return float(_MINUTES[np.argmax(np.where(np.abs(_MINUTES) <= 4, heights, -np.inf))])


def _mean_curve(port: Port, s2_behind: float) -> Curve:
    """Return the curve with S2 `s2_behind` degrees out of step with M2."""
    heights = mean_heights(port, _MINUTES, s2_behind)
    top = int(np.searchsorted(_MINUTES, mean_high_water(port, s2_behind)))
    half_day = 9 * 60  # longer than any fall, shorter than fall and rise
    before = top - half_day + int(np.argmin(heights[top - half_day : top]))
    after = top + int(np.argmin(heights[top : top + half_day]))
    rise, fall = heights[before : top + 1], heights[top : after + 1]
    factors = np.concatenate(
        [(rise - rise[0]) / (rise[-1] - rise[0]), ((fall - fall[-1]) / (fall[0] - fall[-1]))[1:]]
    )
    hours = _MINUTES[before : after + 1] - _MINUTES[top]
    low = (heights[before] + heights[after]) / 2
    return Curve(tuple(hours.tolist()), tuple(factors.tolist()), float(heights[top]), float(low))
