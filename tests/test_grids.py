import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from published import at, cases, items
from pyproj import Transformer

from navlib import geodesy, gridref, grids
from navlib.grids import Grid

# Ordnance Survey guides and developer packs, IOGP, GEOTRANS, GeographicLib; each item of the file
# names its source.


def degrees_m(one, other):
    """Metres between two latitudes and longitudes."""
    return geodesy.geodesic(*one, *other).distance_m


# Published projections and datum shifts -----------------------------------------------------------


@pytest.mark.parametrize(
    "item", cases("national_grid.json", "latlon_airy_to_EN", "latlon_to_EN", "latlon_to_UPS")
)
def test_projection_is_as_published(item):
    i, expected = item["inputs"], item["expected"]
    grids_by_op = {
        "latlon_airy_to_EN": lambda: grids.NATIONAL.on_own_datum,
        "latlon_to_EN": lambda: Grid("a test", i["projection"]),
        "latlon_to_UPS": lambda: grids.ups(north=True),
    }
    place = grids.to_grid(*at(i), grids_by_op[i["op"]]())
    assert place == pytest.approx((expected["E"], expected["N"]), abs=item["tolerance"]["m"])


@pytest.mark.parametrize("item", cases("national_grid.json", "latlon_to_EN"))
def test_our_utm_is_the_published_utm(item):
    ours = {"zone=31": grids.utm(31), "zone=54": grids.utm(54, north=False)}
    for name, grid in ours.items():
        if name in item["inputs"]["projection"]:
            expected = item["expected"]
            place = grids.to_grid(*at(item["inputs"]), grid)
            assert place == pytest.approx((expected["E"], expected["N"]), abs=0.03)


@pytest.mark.parametrize("item", cases("national_grid.json", "EN_to_latlon_airy"))
def test_projection_back_is_as_published(item):
    i, expected = item["inputs"], item["expected"]
    back = grids.from_grid(i["E"], i["N"], grids.NATIONAL.on_own_datum)
    arcsec = item["tolerance"]["arcsec"]
    assert back == pytest.approx(at(expected), abs=arcsec / 3600 / 2)


def with_height(steps, item):
    i = item["inputs"]
    start = "+proj=pipeline +step +proj=unitconvert +xy_in=deg +xy_out=rad "
    return Transformer.from_pipeline(start + steps).transform(i["lon_deg"], i["lat_deg"], i["h_m"])


@pytest.mark.parametrize("item", cases("national_grid.json", "WGS84_latlonh_to_OSGB36_cartesian"))
def test_seven_parameters_are_the_published_ones(item):
    place = with_height(f"+step +proj=cart +ellps=WGS84 +step {grids.NATIONAL_HELMERT}", item)
    assert place == pytest.approx([item["expected"][axis] for axis in "XYZ"], abs=0.001)


@pytest.mark.parametrize("item", cases("national_grid.json", "WGS84_to_OSGB36_latlon_helmert"))
def test_national_datum_is_as_published(item):
    lon, lat, _ = with_height(
        grids.NATIONAL.datum + " +step +proj=unitconvert +xy_in=rad +xy_out=deg", item
    )
    assert (lat, lon) == pytest.approx(at(item["expected"]), abs=0.0001 / 3600 / 2)


@pytest.mark.parametrize("item", cases("national_grid.json", "WGS84_to_EN_helmert"))
def test_national_grid_by_seven_parameters_is_as_published(item):
    i, expected = item["inputs"], item["expected"]
    whole = Transformer.from_pipeline(grids.NATIONAL.pipeline)
    place = whole.transform(i["lon_deg"], i["lat_deg"], i["h_m"])[:2]
    assert place == pytest.approx((expected["E"], expected["N"]), abs=0.002)
    # Without the height, which a position on a chart does not have, it is within a centimetre.
    assert grids.to_grid(*at(i)) == pytest.approx((expected["E"], expected["N"]), abs=0.01)


def test_national_grid_is_within_metres_of_the_official_one():
    off = []
    for item in items("national_grid.json"):
        if item["inputs"]["op"] == "ETRS89_to_OSGB36_EN_OSTN15":
            e, n = grids.to_grid(*at(item["inputs"]))
            off.append(math.hypot(e - item["expected"]["E"], n - item["expected"]["N"]))
            tolerance = item["tolerance"]
    assert len(off) == 30
    assert max(off) <= tolerance["m_helmert_max"]
    assert (
        np.mean([o <= tolerance["m_helmert_95pct"] for o in off]) > 0.85
    )  # edges weigh heavy here


@pytest.mark.parametrize("item", cases("national_grid.json", "IrishGrid_EN_to_ETRS89"))
def test_irish_grid_is_within_a_metre_of_the_official_one(item):
    i = item["inputs"]
    assert degrees_m(grids.from_grid(i["E"], i["N"], grids.IRISH), at(item["expected"])) < 1.0


def test_newer_irish_grid_where_the_old_one_is_known():
    # Spire of Dublin, O 15904 34671, and E 715 830 N 734 697 on the newer grid: encyclopaedia
    # entries Irish grid reference system, Irish Transverse Mercator (the second from memory).
    old = gridref.parse("O 15904 34671", letters=gridref.IRISH)
    assert old == (315904, 234671)
    new = grids.to_grid(*grids.from_grid(*old, grids.IRISH), grids.IRISH_TM)
    assert new == pytest.approx((715830, 734697), abs=1.5)


# Grid north ---------------------------------------------------------------------------------------


@pytest.mark.parametrize("item", cases("national_grid.json", "grid_convergence"))
def test_convergence_is_as_published(item):
    i, expected, tolerance = item["inputs"], item["expected"], item["tolerance"]
    grid = Grid("a test", i["projection"])
    gamma = grids.convergence(*at(i), grid)
    assert gamma == pytest.approx(expected["convergence_deg"], abs=tolerance["deg"])
    place = grids.to_grid(*at(i), grid)
    assert place == pytest.approx((expected["E"], expected["N"]), abs=tolerance["m"])


def test_grid_north_turns_opposite_ways_on_the_two_grids_of_the_training_waters():
    middle = grids.from_grid(96_500, 1_002_000)
    assert grids.convergence(*middle) == pytest.approx(-4.50, abs=0.005)
    assert grids.convergence(*middle, grids.utm_at(*middle)) == pytest.approx(1.49, abs=0.005)


grid_places = st.sampled_from(
    [
        (grids.NATIONAL, (49.5, 60.5), (-7.5, 2)),
        (grids.IRISH, (51.5, 55.5), (-10.5, -5.5)),
        (grids.IRISH_TM, (51.5, 55.5), (-10.5, -5.5)),
        (grids.utm(29), (0, 83), (-12, -6)),
        (grids.utm(60, north=False), (-79, 0), (174, 180)),
    ]
).flatmap(
    lambda g: st.tuples(st.just(g[0]), st.floats(*map(float, g[1])), st.floats(*map(float, g[2])))
)


@given(grid_places)
def test_convergence_and_scale_are_what_a_short_line_shows(place):
    """True north by geodesic, grid north by Pythagoras: the two definitions, not the formula."""
    grid, lat, lon = place
    ahead = geodesy.geodesic_destination(lat, lon, 0, 200)
    behind = geodesy.geodesic_destination(lat, lon, 180, 200)
    ends = [grids.to_grid(*end, grid) for end in (behind, ahead)]
    leg = grids.grid_leg(*ends[0], *ends[1])
    gamma = grids.convergence(lat, lon, grid)
    own_meridian = 0.003 if grid.datum else 2e-4
    assert (leg.bearing + gamma + 180) % 360 - 180 == pytest.approx(0, abs=own_meridian)
    # The seven parameters stretch the ground by up to 21 parts in a million.
    assert leg.distance_m / 400 == pytest.approx(grids.scale_factor(lat, lon, grid), abs=3e-5)


@given(grid_places)
def test_to_a_grid_and_back(place):
    grid, lat, lon = place
    assert degrees_m(grids.from_grid(*grids.to_grid(lat, lon, grid), grid), (lat, lon)) < 0.002


def test_wrong_datum_moves_the_training_waters_by_76_m():
    place = grids.from_grid(100_000, 1_000_000)
    assert place == pytest.approx((58 + 46.97 / 60, -7 - 11.64 / 60), abs=0.005 / 60)
    airy = grids.from_grid(100_000, 1_000_000, grids.NATIONAL.on_own_datum)
    moved = geodesy.geodesic(*place, *airy)
    assert moved.distance_m == pytest.approx(76, abs=0.5)
    # North-east by the three-parameter shift too (375, -111, 431 m; Molodensky's formula by hand).
    assert moved.bearing == pytest.approx(49, abs=0.5)


def test_grid_distance_and_bearing_from_two_references():
    start, end = gridref.parse("HV 965 023"), gridref.parse("HW 012 018")
    leg = grids.grid_leg(*start, *end)
    assert leg == pytest.approx((4700, 96), abs=50)
    assert leg.bearing == pytest.approx(96, abs=0.5)


def test_too_far_is_told_in_words():
    with pytest.raises(ValueError, match="latitude comes before longitude"):
        grids.to_grid(-7.2, 88.0)
    with pytest.raises(ValueError, match="from 1 to 60"):
        grids.utm(61)
