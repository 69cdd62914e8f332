import itertools
import json
import shutil
from collections import Counter

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image
from published import cases

import navlib.waters as waters
from navlib.waters.make.__main__ import make
from navlib.waters.sight import clear_view

WATER = waters.load()
FIELD = WATER.height_field
LEVELS = WATER.settings.levels
MARKS = WATER.marks()
PAIRS = list(itertools.combinations(MARKS, 2))


def away(a, b):
    return float(np.hypot(a.easting - b.easting, a.northing - b.northing))


def along(line, step=5.0):
    """Places every `step` metres along a feature's line."""
    points = np.array(line.parts[0])
    side = np.hypot(*np.diff(points, axis=0).T)
    run = np.concatenate([[0], np.cumsum(side)])
    at = np.arange(0, run[-1], step)
    return np.interp(at, run, points[:, 0]), np.interp(at, run, points[:, 1])


def around(place, metres=30.0):
    turn = np.radians(np.arange(0, 360, 15))
    return FIELD.at(place[0] + metres * np.sin(turn), place[1] + metres * np.cos(turn))


# Published cases --------------------------------------------------------------------------------


@pytest.mark.parametrize("case", cases("horizon.json", "distance_of_horizon"))
def test_the_sea_horizon_hides_marks_where_the_handbook_says(case):
    eye, horizon = case["inputs"]["height_ft"] * 0.3048, case["expected"]["nautical_miles"]
    sea = waters.HeightField(np.full((3, 3000), -50.0), 0.0, 0.0, 25.0)

    def shows(miles):
        ends = (0.0, 25.0), (miles * 1852, 25.0)
        return clear_view(sea, *ends, eye_height=eye, top=0.0, sea=0.0)

    assert shows(horizon - case["tolerance"]["nm"])
    assert not shows(horizon + case["tolerance"]["nm"] + 0.07)  # 0.07: the target's own 60 m


# One height field -------------------------------------------------------------------------------


def test_the_maker_makes_the_data_that_is_kept():
    height, collection = make()
    assert np.array_equal(np.round(height, 1), np.round(FIELD.values, 1))
    kept = (waters.reader._SHIPPED / "kessoray" / "features.geojson").read_text("utf-8")
    assert json.loads(kept) == json.loads(json.dumps(collection))


def test_the_field_covers_the_frame_of_the_training_waters():
    assert FIELD.bounds == (84_000, 992_000, 109_000, 1_012_000)
    assert FIELD.values.max() == pytest.approx(284 + LEVELS.msl, abs=0.06)


@given(st.floats(84_000, 109_000), st.floats(992_000, 1_012_000))
def test_a_height_lies_between_those_of_the_nodes_around_it(e, n):
    _, _, nodes = FIELD.window(e, n, e, n)
    assert nodes.min() - 1e-9 <= FIELD.at(e, n) <= nodes.max() + 1e-9


@given(st.integers(0, 800), st.integers(0, 1000))
def test_the_height_at_a_node_is_the_nodes_own(j, i):
    assert FIELD.at(84_000 + 25 * i, 992_000 + 25 * j) == pytest.approx(FIELD.values[j, i])


def test_numbers_give_a_number_and_arrays_an_array():
    assert type(FIELD.at(90_000, 1_000_000)) is float
    assert FIELD.at(np.full((2, 3), 90_000.0), np.full((2, 3), 1e6)).shape == (2, 3)


@pytest.mark.parametrize("place", [(83_999, 1e6), (109_001, 1e6), (9e4, 991_999), (np.nan, 1e6)])
def test_places_off_the_water_are_refused_in_words(place):
    with pytest.raises(waters.OutsideWaters, match="runs from easting 84000 to 109000"):
        FIELD.at(*place)


# The layout that exercises need -----------------------------------------------------------------


def test_no_two_root_names_share_their_first_three_letters():
    roots = {
        f.name.removeprefix("The ").removeprefix("Ben ").split()[0]
        for f in WATER.features
        if f.name
    }
    shared = {k: v for k, v in itertools.groupby(sorted(roots), lambda r: r[:3].lower())}
    assert len(shared) == len(roots)
    assert len(roots) > 60


def test_marks_are_many_and_spread():
    assert len(MARKS) >= 35
    assert sum(1000 <= away(a, b) <= 5000 for a, b in PAIRS) >= 200
    by_square = Counter(WATER.settings.letters.of(*m.place) for m in MARKS)
    assert set(by_square) == {"HV", "HW", "NA", "NB"}
    assert min(by_square.values()) >= 5


@pytest.mark.parametrize("scale", [25_000, 50_000])
def test_many_legs_are_long_enough_on_paper_and_not_too_long(scale):
    legs = [away(a, b) * 1000 / scale for a, b in PAIRS]
    assert sum(25 <= leg <= 150 for leg in legs) >= 200


def test_some_marks_lie_near_a_grid_line():
    off = [[(x + 500) % 1000 - 500 for x in m.place] for m in MARKS]
    assert sum(min(abs(e), abs(n)) <= 30 for e, n in off) >= 3


@pytest.mark.parametrize("eye_height", [0.8, 2.0])
def test_from_places_at_sea_several_marks_show_and_several_do_not(eye_height):
    for place in [
        (97_000, 994_500),
        (102_000, 1_002_500),
        (86_500, 1_001_500),
        (97_500, 1_009_500),
    ]:
        assert WATER.height(place) < 0
        seen = [WATER.sees(place, m, eye_height=eye_height) for m in MARKS]
        assert 4 <= sum(seen) < len(MARKS)


def test_a_hill_hides_what_lies_behind_it():
    west, top = (86_000, 1_004_300), WATER.feature("ben-kessoray")
    assert WATER.sees(west, top)
    assert not WATER.sees(west, WATER.feature("narrows-light"))
    assert WATER.land_crossed(west, WATER.feature("narrows-light").place) > 5000


def test_land_crossed_counts_land_only():
    assert WATER.land_crossed((97_000, 994_000), (99_000, 994_000)) == 0
    inland = (90_000, 998_000), (91_000, 998_000)
    assert WATER.land_crossed(*inland) == pytest.approx(1000)
    assert WATER.land_crossed(*inland, level=1000) == 0


def test_headlands_and_beaches_lie_on_the_coast():
    for f in WATER.of_kind("headland", "beach"):
        assert WATER.height(f.place) >= LEVELS.mhws - 0.05
        assert around(f.place).min() < LEVELS.mhws


def test_summits_are_tops_and_carry_the_height_of_the_field():
    for f in WATER.of_kind("summit"):
        assert WATER.height(f.place) >= around(f.place, 60).max()
        assert WATER.height(f.place) - LEVELS.msl == pytest.approx(f.map_height, abs=0.51)
    printed = {i: WATER.feature(i).map_height for i in ("ben-kessoray", "low-top", "wether-knap")}
    assert printed == {"ben-kessoray": 284, "low-top": 131, "wether-knap": 46}


def test_buildings_stand_on_land_and_buoys_float():
    for f in WATER.of_kind("church", "mast", "chimney", "cottage", "ruin", "daymark", "light"):
        assert WATER.height(f.place) > LEVELS.hat
    for f in WATER.of_kind("buoy"):
        assert WATER.height(f.place) < -3
    for f in WATER.of_kind("buildings"):
        assert all(WATER.height(corner) > LEVELS.hat for ring in f.parts for corner in ring)


def test_lights_burn_at_the_height_that_they_print():
    for f in WATER.of_kind("light"):
        assert WATER.top(f) - LEVELS.mhws == pytest.approx(f.elevation, abs=0.06)
        assert f"{f.elevation}m" in f.light


def test_skerries_stay_dry_and_rocks_do_not():
    for f in WATER.of_kind("skerry"):
        assert WATER.height(f.place) > LEVELS.mhws
    assert WATER.height(WATER.feature("tusk-rock").place) == pytest.approx(0.6, abs=0.05)


def test_the_ferry_never_crosses_land_or_less_than_four_metres():
    e, n = along(WATER.feature("ferry-route"))
    assert FIELD.at(e, n).max() < -4


def test_bank_causeway_and_sill_dry_as_they_should():
    _, _, bank = FIELD.window(97_100, 999_300, 99_000, 1_000_400)
    assert bank.max() == pytest.approx(1.6, abs=0.05)
    assert FIELD.at(*along(WATER.feature("causeway-way"))).min() == pytest.approx(3.4, abs=0.05)
    assert WATER.height(WATER.feature("span-bridge").place) == pytest.approx(0.9, abs=0.05)


def test_the_narrows_are_two_hundred_and_fifty_metres_wide():
    east = np.arange(95_000, 96_100, 5.0)
    widths = [
        5 * np.count_nonzero(FIELD.at(east, np.full_like(east, n)) < LEVELS.mhws)
        for n in range(1_003_000, 1_005_000, 25)
    ]
    assert min(widths) == pytest.approx(250, abs=40)


def test_black_wall_is_a_cliff_without_a_landing():
    tops = []
    for n in range(1_006_000, 1_008_000, 50):
        east = np.arange(105_500, 106_400, 5.0)
        height = FIELD.at(east, np.full_like(east, float(n)))
        coast = np.flatnonzero(height > LEVELS.mhws)[-1]
        tops.append(height[coast - 12])  # 60 m inland
    assert np.median(tops) > 90
    assert min(tops) > 30


def test_burns_run_downhill_to_the_sea_or_to_another_burn():
    burns = WATER.of_kind("burn")
    for f in burns:
        start, end = (WATER.height(f.parts[0][k]) for k in (0, -1))
        assert start > end
        if end > LEVELS.mhws + 1:
            others = np.hstack([along(other) for other in burns if other is not f])
            assert np.hypot(*(others - np.array(f.parts[0][-1])[:, None])).min() < 8


# Reading a coach's own files --------------------------------------------------------------------


@pytest.fixture
def own(tmp_path):
    """A small piece of water of a coach's own, right as it stands."""
    folder = tmp_path / "own"
    folder.mkdir()
    shipped = waters.reader._SHIPPED / "kessoray"
    shutil.copy(shipped / "settings.json", folder)
    Image.fromarray(np.full((801, 1001), 1500, np.uint16)).save(folder / "heights.png")
    rock = {
        "type": "Feature",
        "properties": {"id": "rock", "name": "Rock", "kind": "rock"},
        "geometry": {"type": "Point", "coordinates": [90_000, 1_000_000]},
    }
    collection = {"type": "FeatureCollection", "features": [rock]}
    (folder / "features.geojson").write_text(json.dumps(collection))
    return folder


def change(path, *where, to):
    data = json.loads(path.read_text())
    inner = data
    for step in where[:-1]:
        inner = inner[step]
    if to is None:
        del inner[where[-1]]
    else:
        inner[where[-1]] = to
    path.write_text(json.dumps(data))


def test_a_coachs_own_water_opens(own):
    water = waters.load(own)
    assert water.height((90_000, 1_000_000)) == pytest.approx(-50)
    assert water.feature("rock").place == (90_000, 1_000_000)


FEATURE = ("features", 0)
FAULTS = [
    ("settings.json", ("title",), None, "“title” is missing"),
    ("settings.json", ("title",), 7, "“title” should be text, but is 7"),
    ("settings.json", ("levels", "mhwn"), 9.0, "should rise in the order"),
    ("settings.json", ("grid",), "Mars Grid", "should be National Grid.*or such as UTM zone 29N"),
    ("settings.json", ("clock",), "Summer", "time zone such as Europe/London"),
    ("settings.json", ("sheet_date",), "1.11.26", "a date such as 2026-11-01"),
    ("settings.json", ("scales", "land_map"), [0], "list such as"),
    ("settings.json", ("heights", "spacing"), 0, "above zero"),
    ("settings.json", ("heights", "file"), "none.png", "has no none.png"),
    ("features.geojson", ("features",), {}, "expected a GeoJSON FeatureCollection"),
    ("features.geojson", (*FEATURE, "properties", "id"), "", "it has no id"),
    ("features.geojson", (*FEATURE, "properties", "name"), None, "it has no name"),
    ("features.geojson", (*FEATURE, "properties", "kind"), "castle", "unknown kind “castle”"),
    ("features.geojson", (*FEATURE, "properties", "hight"), 3, "unknown property “hight”"),
    ("features.geojson", (*FEATURE, "properties", "structure"), "3 m", "should be a number"),
    ("features.geojson", (*FEATURE, "properties", "structure"), True, "should be a number"),
    ("features.geojson", (*FEATURE, "geometry", "type"), "LineString", "needs a Point"),
    ("features.geojson", (*FEATURE, "geometry", "coordinates"), [-7.2, 58.8], "not longitude"),
    ("features.geojson", (*FEATURE, "geometry", "coordinates"), "here", "easting, northing"),
]


@pytest.mark.parametrize(("file", "where", "to", "says"), FAULTS, ids=[f[3][:30] for f in FAULTS])
def test_faults_in_a_coachs_files_are_named(own, file, where, to, says):
    change(own / file, *where, to=to)
    with pytest.raises(waters.WatersError, match=says):
        waters.load(own)


def test_an_id_given_twice_is_named(own):
    path = own / "features.geojson"
    collection = json.loads(path.read_text())
    collection["features"] *= 2
    path.write_text(json.dumps(collection))
    with pytest.raises(waters.WatersError, match="feature 2: the id “rock” is taken already"):
        waters.load(own)


def test_a_picture_of_another_kind_is_refused(own):
    Image.new("RGB", (8, 8)).save(own / "heights.png")
    with pytest.raises(waters.WatersError, match="16-bit grey"):
        waters.load(own)
    (own / "heights.png").write_text("no picture")
    with pytest.raises(waters.WatersError, match="cannot be read as a picture"):
        waters.load(own)


@pytest.mark.parametrize("file", ["settings.json", "features.geojson"])
def test_a_file_that_is_missing_or_no_json_is_named(own, file):
    (own / file).write_text("{")
    with pytest.raises(waters.WatersError, match=f"{file} is not JSON"):
        waters.load(own)
    (own / file).unlink()
    with pytest.raises(waters.WatersError, match=f"has no {file}"):
        waters.load(own)


def test_an_unknown_water_or_feature_is_answered_with_what_there_is():
    with pytest.raises(waters.WatersError, match="Shipped are: kessoray"):
        waters.load("atlantis")
    with pytest.raises(KeyError, match="ben-kessoray"):
        WATER.feature("ben-kesoray")
