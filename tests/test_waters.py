import json
import shutil

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image
from published import cases

import navlib.waters as waters
from navlib.waters.make.__main__ import make
from navlib.waters.make.plan import Plan, names, read_plan
from navlib.waters.sight import clear_view

WATER = waters.load()
FIELD = WATER.height_field
LEVELS = WATER.settings.levels


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


@pytest.mark.parametrize("name", names())
def test_the_maker_makes_the_data_that_is_kept(name):
    kept = waters.reader._SHIPPED / name
    numbers, collection = make(read_plan(name), kept / "settings.json")
    with Image.open(kept / "heights.png") as picture:
        assert np.array_equal(numbers, np.asarray(picture))
    assert json.loads((kept / "features.geojson").read_text("utf-8")) == json.loads(
        json.dumps(collection)
    )


def test_a_plan_needs_no_more_than_an_island(own):
    change(own / "settings.json", "area", to={"west": 0, "south": 0, "east": 3000, "north": 2000})
    change(own / "settings.json", "heights", "west", to=-500)
    change(own / "settings.json", "heights", "south", to=-500)
    island = {"outline": [[1, 0.7], [1.2, 1.4], [2.1, 1.2], [1.9, 0.6]], "rough": 0.2}
    numbers, collection = make(Plan("an island", 1, [island]), own / "settings.json")
    assert numbers.shape == (121, 161)
    assert numbers.min() < 2000 < numbers.max()
    kinds = {f["properties"]["kind"] for f in collection["features"]}
    assert kinds <= {"burn", "spot height", "bottom"}


def test_an_unknown_plan_is_answered_with_what_there_is():
    with pytest.raises(waters.WatersError, match="There are: kessoray"):
        read_plan("atlantis")


def test_the_field_covers_the_frame_of_the_training_waters():
    assert WATER.bounds == (84_000, 992_000, 109_000, 1_012_000)
    assert FIELD.bounds == (82_000, 990_000, 111_000, 1_014_000)
    assert FIELD.values.max() == pytest.approx(284 + LEVELS.msl, abs=0.06)


@given(st.floats(84_000, 109_000), st.floats(992_000, 1_012_000))
def test_a_height_lies_between_those_of_the_nodes_around_it(e, n):
    _, _, nodes = FIELD.window(e, n, e, n)
    assert nodes.min() - 1e-9 <= FIELD.at(e, n) <= nodes.max() + 1e-9


@given(st.integers(0, 960), st.integers(0, 1160))
def test_the_height_at_a_node_is_the_nodes_own(j, i):
    assert FIELD.at(82_000 + 25 * i, 990_000 + 25 * j) == pytest.approx(FIELD.values[j, i])


def test_numbers_give_a_number_and_arrays_an_array():
    assert type(FIELD.at(90_000, 1_000_000)) is float
    assert FIELD.at(np.full((2, 3), 90_000.0), np.full((2, 3), 1e6)).shape == (2, 3)


@pytest.mark.parametrize("place", [(81_999, 1e6), (111_001, 1e6), (9e4, 989_999), (np.nan, 1e6)])
def test_places_off_the_water_are_refused_in_words(place):
    with pytest.raises(waters.OutsideWaters, match="runs from easting 82000 to 111000"):
        FIELD.at(*place)


# What lies on a line ----------------------------------------------------------------------------


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


# Reading a coach's own files --------------------------------------------------------------------


@pytest.fixture
def own(tmp_path):
    """A small piece of water of a coach's own, right as it stands."""
    folder = tmp_path / "own"
    folder.mkdir()
    shipped = waters.reader._SHIPPED / "kessoray"
    shutil.copy(shipped / "settings.json", folder)
    Image.fromarray(np.full((961, 1161), 1500, np.uint16)).save(folder / "heights.png")
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
    ("settings.json", ("area", "east"), 70_000, "from west to east"),
    ("settings.json", ("area", "east"), 170_000, "“area” should lie within the height picture"),
    ("settings.json", ("heights", "spacing"), 0, "above zero"),
    ("settings.json", ("heights", "file"), "none.png", "has no none.png"),
    ("features.geojson", ("features",), {}, "expected a GeoJSON FeatureCollection"),
    ("features.geojson", (*FEATURE, "properties", "id"), "", "it has no id"),
    ("features.geojson", (*FEATURE, "properties", "name"), None, "it has no name"),
    ("features.geojson", (*FEATURE, "properties", "kind"), "castle", "unknown kind “castle”"),
    ("features.geojson", (*FEATURE, "properties", "hight"), 3, "unknown property “hight”"),
    ("features.geojson", (*FEATURE, "properties", "structure"), "3 m", "should be a number"),
    ("features.geojson", (*FEATURE, "properties", "structure"), True, "should be a number"),
    (
        "features.geojson",
        (*FEATURE, "properties", "sectors"),
        [[1, 2]],
        "“sectors” should be a list",
    ),
    ("features.geojson", (*FEATURE, "properties", "sectors"), [[1, 2, "B"]], "true, from the sea"),
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
