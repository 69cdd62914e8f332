"""What is peculiar to the second training water: the other side of the world, and a volcano."""

import math
from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo

import numpy as np
import pytest
from pyproj import Geod, Proj

import navlib.waters as waters
from navlib import gridref, mgrs
from navlib.grids import convergence
from navlib.magnetism import grid_magnetic_angle, variation
from navlib.tides import tidal_levels, under_keel

WATER = waters.load("orrimer")
FIELD = WATER.height_field
LEVELS = WATER.settings.levels
GRID = WATER.settings.grid
WEST, SOUTH, EAST, NORTH = WATER.bounds
CORNER = (400_000.0, 5_600_000.0)
CORNERS = [(e, n) for e in (WEST, EAST) for n in (SOUTH, NORTH)]


def between(start, end, step=5.0):
    """Heights every `step` metres along a straight grid line."""
    count = int(math.dist(start, end) / step) + 2
    return FIELD.at(np.linspace(start[0], end[0], count), np.linspace(start[1], end[1], count))


def joined(free, start, end, shut=(0.0, 0.0, 0.0)):
    """Whether one can go from node to node that is `free`; `shut` (e, n, radius) is closed to all."""
    rows, columns = free.shape
    east = FIELD.west + np.arange(columns) * FIELD.spacing
    north = FIELD.south + np.arange(rows)[:, None] * FIELD.spacing
    free = free & (np.hypot(east - shut[0], north - shut[1]) > shut[2])
    reached = np.zeros_like(free)
    reached[node(start)] = True
    count = 0
    while reached.sum() != count:
        count = reached.sum()
        for axis in (0, 1):
            for step in (-1, 1):
                reached |= np.roll(reached, step, axis=axis) & free
    return reached[node(end)]


def node(place):
    return (
        round((place[1] - FIELD.south) / FIELD.spacing),
        round((place[0] - FIELD.west) / FIELD.spacing),
    )


# The other side of the world --------------------------------------------------------------------


def test_grid_north_lies_east_of_true_west_of_the_central_meridian_in_the_south():
    for place in [CORNER, *CORNERS]:
        lat, lon = WATER.lat_lon(place)
        assert lat < 0
        assert lon < -171  # the middle of zone 2
        factors = Proj("+proj=utm +zone=2 +south +ellps=WGS84").get_factors(lon, lat)
        meridians = (lon + 171) * math.sin(math.radians(lat))
        up = WATER.lat_lon((place[0], place[1] + 100))
        by_geodesic = Geod(ellps="WGS84").inv(lon, lat, up[1], up[0])[0]
        for other in (factors.meridian_convergence, meridians, by_geodesic):
            assert convergence(lat, lon, GRID) == pytest.approx(other, abs=0.003)
        assert 0.6 < convergence(lat, lon, GRID) < 0.9


def test_variation_is_large_and_east_so_that_a_wrong_sign_shows():
    for place in CORNERS:
        lat, lon = WATER.lat_lon(place)
        today = variation(lat, lon, WATER.settings.sheet_date)
        assert 22 < today < 25
        # grid to magnetic is smaller than true to magnetic: grid north lies between the two
        assert 0 < grid_magnetic_angle(today, convergence(lat, lon, GRID)) < today


def test_the_clock_shows_another_date_than_universal_time_and_summer_in_january():
    zone = ZoneInfo(WATER.settings.clock)
    evening = datetime(2026, 11, 1, 20, 0, tzinfo=UTC).astimezone(zone)
    assert (evening.date(), evening.hour) == (date(2026, 11, 2), 9)
    hours = [
        datetime(2026, month, 15, tzinfo=UTC).astimezone(zone).utcoffset().seconds / 3600
        for month in (1, 7)
    ]
    assert hours == [13, 12]


# The grid ---------------------------------------------------------------------------------------


def test_four_squares_meet_in_the_crater_and_marks_lie_in_each():
    letters = WATER.settings.letters
    assert FIELD.at(*CORNER) < -40
    assert [letters.of(*place) for place in CORNERS] == ["LA", "LB", "MA", "MB"]
    counts = [letters.of(*m.place) for m in WATER.marks()]
    assert min(counts.count(square) for square in ("LA", "LB", "MA", "MB")) >= 5


def test_a_reference_read_back_by_latitude_names_the_same_square():
    for mark in WATER.marks():
        east, north = (round(m) + 0.5 for m in mark.place)  # off the line between two squares
        written = f"02H {gridref.format(east, north, 6, WATER.settings.letters)}"
        assert mgrs.format(*WATER.lat_lon((east, north))) == written


# The volcano ------------------------------------------------------------------------------------


def test_the_crater_is_deep_and_its_gate_deep_and_narrow():
    _, _, middle = FIELD.window(399_600, 5_599_000, 400_900, 5_600_000)
    assert 40 < -np.median(middle) < 60
    across = between((401_440, 5_600_900), (401_600, 5_600_200), step=2.0)
    assert 200 < 2 * np.count_nonzero(across < LEVELS.mhws) < 420
    assert across.min() < -15


def test_the_breach_carries_a_boat_by_the_tide_and_the_gate_always():
    inside, outside = (400_000, 5_599_600), (398_900, 5_597_400)
    gate, breach = (401_600, 5_600_650, 450), (399_100, 5_598_400, 500)
    sill = -0.9
    assert joined(FIELD.values <= sill + 0.05, inside, outside, shut=gate)
    assert not joined(FIELD.values <= sill - 0.05, inside, outside, shut=gate)
    assert joined(FIELD.values <= -10, inside, outside, shut=breach)
    draught = 1.8  # a small yacht: through at high water of neaps, not at low water of springs
    assert under_keel(LEVELS.mhwn - sill, draught) > 0.3
    assert under_keel(LEVELS.mlws - sill, draught) < 0


def test_the_bar_is_dry_at_mean_low_waters_and_covered_at_mean_high_waters():
    island, islet = WATER.feature("shanty-beacon").place, WATER.feature("ibbet-beacon").place
    assert joined(FIELD.values > LEVELS.mlwn + 0.2, island, islet)
    assert not joined(FIELD.values > LEVELS.mhwn - 0.2, island, islet)


def test_the_leading_line_is_clear_of_shoals():
    line = WATER.feature("anthem-leading-line").parts[0]
    front, rear = (WATER.feature(f"lyric-{end}-mark") for end in ("front", "rear"))
    assert line[-1] == rear.place
    ahead = np.subtract(front.place, rear.place) / math.dist(front.place, rear.place)
    for aside in (-50, 0, 50):
        off = np.array([-ahead[1], ahead[0]]) * aside
        inner = np.array(front.place) + 200 * ahead + off
        assert between(np.array(line[0]) + off, inner).max() < -4
    for eye in (line[0], np.array(line[0]) - 3000 * ahead):
        assert WATER.sees(tuple(eye), front, eye_height=0.8)
        assert WATER.sees(tuple(eye), rear, eye_height=0.8)


def test_the_sector_light_shows_white_over_the_way_in_and_colour_over_danger():
    light = WATER.feature("flute-light")
    turn = convergence(*WATER.lat_lon(light.place), GRID)
    shallowest = {}
    for start, end, colour in light.sectors:
        towards = np.radians(np.arange(start + 0.5, end, 0.5) - turn)  # grid, from the sea
        away = np.arange(450, 4000, 20)[:, None]
        east, north = (
            light.easting - away * np.sin(towards),
            light.northing - away * np.cos(towards),
        )
        within = (east < EAST) & (north < NORTH)
        shallowest[colour] = FIELD.at(east[within], north[within]).max()
    assert shallowest["W"] < -3
    assert min(shallowest["G"], shallowest["R"]) > LEVELS.lat


# The tide ---------------------------------------------------------------------------------------


def test_the_levels_are_those_of_the_ports_constants():
    worked = tidal_levels(WATER.tides.standard)
    for name in ("hat", "mhws", "mhwn", "msl", "mlwn", "mlws", "lat"):
        assert getattr(LEVELS, name) == pytest.approx(getattr(worked, name), abs=0.0501)


def test_the_tide_is_mixed_but_mainly_half_daily():
    # Form number (K1 + O1) / (M2 + S2) from 0.25 to 1.5: D. Pugh and P. Woodworth, Sea-Level
    # Science (2014), chapter 1 (from memory).
    m2, s2, k1, o1 = (WATER.tides.standard.constituents[c][0] for c in ("M2", "S2", "K1", "O1"))
    assert 0.25 < (k1 + o1) / (m2 + s2) < 1.5
