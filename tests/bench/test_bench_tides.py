"""A year of predictions against the plain numpy sum of the same waves, in the same run."""

from datetime import UTC, datetime

import numpy as np
import pytest

from navlib.tides import CONSTITUENTS, Port, tidal_levels

SIX_MINUTES = np.arange("2026-01-01", "2027-01-01", np.timedelta64(6, "m"), "M8[m]")
HOURS = np.arange(SIX_MINUTES.size) / 10
AMPLITUDES = np.array([{"M2": 1.5, "S2": 0.6}.get(name, 0.02) for name in CONSTITUENTS])
PHASES = np.linspace(0, 350, len(CONSTITUENTS))
PORT = Port(2.8, dict(zip(CONSTITUENTS, zip(AMPLITUDES, PHASES, strict=True), strict=True)))


@pytest.mark.benchmark(group="a year of tide, every six minutes, 37 constituents")
def test_plain_numpy_sum(benchmark):
    speeds = np.radians([constituent.speed for constituent in CONSTITUENTS.values()])

    def plain():
        return 2.8 + (AMPLITUDES * np.cos(speeds * HOURS[:, None] - np.radians(PHASES))).sum(axis=1)

    assert benchmark(plain).shape == HOURS.shape


@pytest.mark.benchmark(group="a year of tide, every six minutes, 37 constituents")
def test_heights(benchmark):
    assert benchmark(PORT.heights, SIX_MINUTES).shape == HOURS.shape


@pytest.mark.benchmark(group="a year of tide, every six minutes, 37 constituents")
def test_extremes(benchmark):
    year = datetime(2026, 1, 1, tzinfo=UTC), datetime(2027, 1, 1, tzinfo=UTC)
    assert len(benchmark(PORT.extremes, *year)) > 1300


@pytest.mark.benchmark(group="a year of tide, every six minutes, 37 constituents")
def test_levels_over_19_years(benchmark):
    assert benchmark(tidal_levels.__wrapped__, PORT).hat > 2.8
