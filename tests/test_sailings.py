import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from published import cases, ends

from navlib import geodesy, sailings
from navlib.geodesy import geodesic, rhumb, rhumb_destination

# NGA Pub. 9 (American Practical Navigator); each item of the file names its source.
HANDBOOK = "handbook_distance.json"


@pytest.mark.parametrize("item", cases(HANDBOOK, "mercator_sailing_inverse"))
def test_mercator_sailing_is_as_in_the_handbook(item):
    leg = sailings.mercator_sailing(*ends(item["inputs"]))
    assert leg.bearing == pytest.approx(item["expected"]["course_deg"], abs=0.06)
    assert leg.distance_m / 1852 == pytest.approx(item["expected"]["distance_nm"], abs=1.0)
    # The handbook's note: on the ellipsoid the rhumb line is 537.3 nautical miles.
    assert rhumb(*ends(item["inputs"])).distance_m / 1852 == pytest.approx(537.3, abs=0.05)


@pytest.mark.parametrize("item", cases(HANDBOOK, "mercator_sailing_direct"))
def test_mercator_destination_is_as_in_the_handbook(item):
    i, expected = item["inputs"], item["expected"]
    there = sailings.mercator_destination(
        i["lat1"], i["lon1"], i["course_deg"], i["distance_nm"] * 1852
    )
    assert there.lat == pytest.approx(expected["lat2"], abs=0.06 / 60)
    assert there.lon == pytest.approx(expected["lon2"], abs=0.6 / 60)


def test_minutes_in_the_training_waters():
    # Computed for this place; the trade takes 1852 for the first.
    assert geodesy.minute_of_latitude(58.8) == pytest.approx(1856.5, abs=0.05)
    assert geodesy.minute_of_longitude(58.8) == pytest.approx(963, abs=0.5)


def test_shortcuts_stay_within_the_error_they_state():
    lats = np.linspace(-89, 89, 90)
    assert np.all(np.abs(geodesy.minute_of_latitude(lats) / 1852 - 1) < 0.0055)
    departure = sailings.departure_nm(60, lats) * 1855.325  # minutes of the equator
    assert np.all(departure <= geodesy.degree_of_longitude(lats) * 1.000001)
    assert np.all(departure > geodesy.degree_of_longitude(lats) * 0.9965)
    assert sailings.dlong_min(sailings.departure_nm(7, 58.8), 58.8) == pytest.approx(7)


@given(
    lat=st.floats(-65, 65),
    bearing=st.floats(0, 359.9).filter(lambda b: abs(math.cos(math.radians(b))) > 0.05),
    distance=st.floats(1000, 300_000),
)
def test_sailings_agree_with_the_rhumb_line_over_a_few_hundred_miles(lat, bearing, distance):
    exact = rhumb_destination(lat, -7, bearing, distance)
    for sailing in (sailings.middle_latitude_destination, sailings.mercator_destination):
        there = sailing(lat, -7, bearing, distance)
        assert geodesic(*exact, *there).distance_m < distance * 0.008
    for sailing in (sailings.middle_latitude_sailing, sailings.mercator_sailing):
        leg = sailing(lat, -7, *exact)
        assert leg.distance_m == pytest.approx(distance, rel=0.008)
        assert abs((leg.bearing - bearing + 180) % 360 - 180) < 0.4


def test_mercator_sailing_says_where_it_fails():
    with pytest.raises(ValueError, match="along a parallel"):
        sailings.mercator_sailing(58, -7, 58, -6)
