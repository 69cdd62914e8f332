import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from published import cases, ends, item

from navlib import geodesy
from navlib.geodesy import geodesic, geodesic_destination, rhumb, rhumb_destination
from navlib.latlon import LatLon

# Karney's GeodTest set, the GeographicLib tests and manual pages, NGA Pub. 9 (American Practical
# Navigator); each item of the files names its source.
GEODESIC, HANDBOOK = "geodesic.json", "handbook_distance.json"


def off(one, other):
    """How far two directions are from each other."""
    return abs((one - other + 180) % 360 - 180)


# Published lines ---------------------------------------------------------------------------------


@pytest.mark.parametrize("item", cases(GEODESIC, "geodesic"))
def test_geodesic_is_as_published(item):
    expected, tolerance = item["expected"], item["tolerance"]
    leg = geodesic(*ends(item["inputs"]), ellipsoid=item["inputs"]["ellipsoid"])
    assert leg.distance_m == pytest.approx(expected["s12_m"], abs=tolerance["s12_m"])
    if "azi1_deg" in expected and "flag" not in tolerance:
        assert off(leg.bearing, expected["azi1_deg"]) <= tolerance["azi_deg"]


FINE = [c for c in cases(GEODESIC, "geodesic") if c.values[0]["tolerance"]["s12_m"] <= 1e-5]
"""The lines printed finely enough to be run forward."""


@pytest.mark.parametrize("item", FINE)
def test_geodesic_destination_is_the_published_end(item):
    lat1, lon1, lat2, lon2 = ends(item["inputs"])
    expected = item["expected"]
    there = geodesic_destination(lat1, lon1, expected["azi1_deg"], expected["s12_m"])
    # The bearing is printed to 1e-12 degrees or so, the worst line is half the Earth long.
    assert geodesic(*there, lat2, lon2).distance_m < 1e-4


@pytest.mark.parametrize("item", cases(GEODESIC, "geodesic_direct"))
def test_geodesic_destination_is_as_published(item):
    i, expected = item["inputs"], item["expected"]
    there = geodesic_destination(i["lat1"], i["lon1"], i["azi1_deg"], i["s12_m"])
    assert there == pytest.approx((expected["lat2"], expected["lon2"]), abs=5e-6)


@pytest.mark.parametrize("item", cases(GEODESIC, "geodesic_waypoint"))
def test_points_along_a_geodesic_are_as_published(item):
    expected = item["expected"]
    there = geodesy.geodesic_along(*ends(item["inputs"]), item["inputs"]["fraction"])
    assert there == pytest.approx((expected["lat"], expected["lon"]), abs=0.06 / 3600)


@pytest.mark.parametrize("item", cases(GEODESIC, "rhumb"))
def test_rhumb_is_as_published(item):
    expected, tolerance = item["expected"], item["tolerance"]
    leg = rhumb(*ends(item["inputs"]))
    assert leg.distance_m == pytest.approx(expected["s12_m"], abs=tolerance["s12_m"])
    assert off(leg.bearing, expected["azi_deg"]) <= tolerance["azi_deg"]


@pytest.mark.parametrize("item", cases(GEODESIC, "rhumb_direct"))
def test_rhumb_destination_is_as_published(item):
    i, expected = item["inputs"], item["expected"]
    there = rhumb_destination(i["lat1"], i["lon1"], i["azi_deg"], i["s12_m"])
    assert there == pytest.approx((expected["lat2"], expected["lon2"]), abs=0.06 / 3600)


@pytest.mark.parametrize("item", cases(HANDBOOK, "length_of_one_degree"))
def test_length_of_a_degree_is_as_published(item):
    lat, expected = item["inputs"]["lat_deg"], item["expected"]
    assert geodesy.degree_of_latitude(lat) == pytest.approx(expected["lat_m"], abs=0.5)
    assert geodesy.degree_of_longitude(lat) == pytest.approx(expected["lon_m"], abs=0.5)


@pytest.mark.parametrize(
    ("id", "ellipsoid"), [("merparts-45-clarke1866", "clrk66"), ("merparts-45-sphere", "sphere")]
)
def test_meridional_parts_are_as_published(id, ellipsoid):
    case = item(HANDBOOK, id)
    parts = geodesy.meridional_parts(45, ellipsoid=ellipsoid)
    expected = case["expected"]["minutes_of_equator"]
    assert parts == pytest.approx(expected, abs=case["tolerance"]["minutes"])


def test_meridional_parts_in_nautical_miles_are_as_published():
    case = item(HANDBOOK, "merparts-45-wgs84-nm")
    nm = math.radians(geodesy.meridional_parts(45) / 60) * case["inputs"]["a_nm"]
    assert nm == pytest.approx(case["expected"]["nautical_miles"], abs=1e-6)


# Edges: poles, date line, parallels ---------------------------------------------------------------


def test_rhumb_to_and_from_the_poles_follows_a_meridian():
    quarter = 10_001_965.729  # GeographicLib, RhumbSolve tests
    assert rhumb(0, 0, 90, 77) == pytest.approx((quarter, 0.0), abs=1e-3)
    assert rhumb(90, 0, -90, 50) == pytest.approx((2 * quarter, 180.0), abs=2e-3)
    assert rhumb(90, 0, 90, 50).distance_m < 1e-6
    assert rhumb_destination(90, 20, 180, quarter) == pytest.approx((0, 20), abs=1e-8)


def test_rhumb_crosses_the_date_line_the_short_way():
    leg = rhumb(-17, 179.5, -17, -179.5)
    assert leg.bearing == 90
    assert leg.distance_m == pytest.approx(geodesy.degree_of_longitude(-17))
    assert rhumb_destination(-17, 179.5, 90, leg.distance_m).lon == pytest.approx(-179.5)


def test_rhumb_stops_at_the_pole():
    with pytest.raises(ValueError, match="runs into the pole"):
        rhumb_destination(89.9, 0, 10, 20_000)


def test_latitude_beyond_the_pole_is_told():
    for swapped in (geodesic, rhumb):
        with pytest.raises(ValueError, match="latitude comes before longitude"):
            swapped(58.8, -7.2, 107.1, 58.8)


def exact_rhumb(lat1, lon1, lat2, lon2):
    """A rhumb line by closed forms that keep their figures for any two latitudes.

    Isometric latitude differences by the addition theorems of atanh (Snyder 1987, eq. 7-7).
    """
    a, e = 6_378_137.0, math.sqrt(0.0066943799901413165)
    middle, half = math.radians(lat1 + lat2) / 2, math.radians(lat2 - lat1) / 2
    rise = 2 * math.cos(middle) * math.sin(half)
    s1, s2 = math.sin(middle - half), math.sin(middle + half)
    charted = math.atanh(rise / (math.cos(middle) ** 2 + math.sin(half) ** 2))
    charted -= e * math.atanh(e * rise / (1 - e * e * s1 * s2))
    east = math.radians(lon2 - lon1)
    nodes, weights = np.polynomial.legendre.leggauss(24)
    lats = middle + half * nodes
    arc = half * np.sum(weights * a * (1 - e * e) / (1 - (e * np.sin(lats)) ** 2) ** 1.5)
    return abs(arc) * math.hypot(1, east / charted), math.degrees(math.atan2(east, charted)) % 360


@given(
    lat=st.floats(-89.9, 89.9),
    rise=st.floats(-12, 0).map(lambda power: 10**power),
    lon=st.floats(0.01, 170),
)
def test_rhumb_near_a_parallel_keeps_its_figures(lat, rise, lon):
    lat2 = lat + (rise if lat < 0 else -rise)
    if lat2 == lat:
        return
    distance, bearing = exact_rhumb(lat, 0, lat2, lon)
    leg = rhumb(lat, 0, lat2, lon)
    assert leg.distance_m == pytest.approx(distance, abs=2e-3)  # of up to 19 000 km
    assert off(leg.bearing, bearing) < 1e-8


# There and back -----------------------------------------------------------------------------------

place = st.tuples(st.floats(-85, 85), st.floats(-179.9, 180))
bearing = st.floats(0, 359.99)


@given(start=place, bearing=bearing, distance=st.floats(1, 400_000))
def test_destination_undoes_distance_and_bearing(start, bearing, distance):
    for there, back in (
        (geodesic_destination, geodesic),
        (rhumb_destination, rhumb),
    ):
        leg = back(*start, *there(*start, bearing, distance))
        assert leg.distance_m == pytest.approx(distance, abs=1e-5)
        assert off(leg.bearing, bearing) * math.radians(distance) < 1e-4


@given(start=place, end=place)
def test_rhumb_there_and_back_are_opposite_and_never_shorter_than_the_geodesic(start, end):
    out, back = rhumb(*start, *end), rhumb(*end, *start)
    assert out.distance_m == pytest.approx(back.distance_m, abs=1e-6)
    if out.distance_m > 1 and abs(abs(start[1] - end[1]) - 180) > 1e-9:
        assert off(out.bearing, back.bearing + 180) < 1e-6
    assert out.distance_m >= geodesic(*start, *end).distance_m - 1e-5


def test_arrays_broadcast_and_a_float_gives_a_float():
    legs = rhumb(58.8, -7.2, np.array([58.9, 58.9, 58.8]), np.array([[-7.2], [-7.0]]))
    assert legs.distance_m.shape == legs.bearing.shape == (2, 3)
    assert legs.distance_m[1, 2] == rhumb(58.8, -7.2, 58.8, -7.0).distance_m
    along = geodesy.rhumb_along(58.8, -7.2, 58.9, -7.0, np.linspace(0, 1, 5))
    assert along.lat == pytest.approx(np.linspace(58.8, 58.9, 5), abs=1e-5)
    assert (along.lat[-1], along.lon[-1]) == pytest.approx((58.9, -7.0))
    for one in (*geodesic(58.8, -7.2, 58.9, -7), *rhumb_destination(58.8, -7.2, 42, 500)):
        assert type(one) is float


def test_destination_is_a_latitude_and_longitude():
    assert isinstance(rhumb_destination(58.8, -7.2, 90, 100), LatLon)
