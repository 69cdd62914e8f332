"""Questions on position: published cases marked right, their usual slips named."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from published import cases, item

from navlib import geodesy, gridref, questions, waters
from navlib.gridref import GridPlace, Square
from navlib.latlon import LatLon
from navlib.marking import Outcome, mark
from navlib.questions.position import TYPES, border
from navlib.questions.position.sides import NORTHWARD, Side

KINDS = {kind.kind.removeprefix("position."): kind for kind in TYPES}


def of_kind(name, **givens):
    """Return a question with these givens; words that are only shown are left empty."""
    kind = KINDS[name]
    return kind.with_givens({**dict.fromkeys(kind.chain.givens, ""), **givens})


def angle(text):
    """Return the degrees in a published angle such as 52 39 27.2531 N."""
    degrees, minutes, seconds, side = text.split()
    size = int(degrees) + int(minutes) / 60 + float(seconds) / 3600
    return -size if side in "SW" else size


# Ordnance Survey, OSTN15 developer pack: test points in metres, and their references by the same
# office's guide; each item names its source.
@pytest.mark.parametrize("case", cases("national_grid.json", "EN_to_gridref_10fig"))
def test_published_reference_is_right_and_the_rounded_one_is_named(case):
    place = GridPlace(case["inputs"]["E"], case["inputs"]["N"])
    question = of_kind("from-metres", place=place)
    published = case["expected"]["ref6"]
    assert mark(question, published).right
    assert mark(question, case["expected"]["ref"]).right  # ten figures, with a note
    rounded = gridref.format(place.easting + 50, place.northing + 50)
    if rounded.replace(" ", "") != published:
        assert mark(question, rounded).slips == ("rounded",)


# Ordnance Survey, A Guide to Coordinate Systems in Great Britain (v3.6), annex C: 52°39'27.2531" N
# 1°43'04.5177" E, there printed in decimal degrees as well.
ANNEX_C = item("national_grid.json", "os-annexC-inv")["expected"]
AT_C = LatLon(angle(ANNEX_C["lat_dms"]), angle(ANNEX_C["lon_dms"]))


def test_published_position_in_three_forms():
    printed = f"{ANNEX_C['lat_deg']:.5f}°N {ANNEX_C['lon_deg']:.5f}°E"
    assert mark(of_kind("to-decimal-degrees", spot=AT_C), printed).right
    for name in ("seconds", "decimal-degrees"):  # 27.2531 s is 0.454 of a minute, 4.5177 s 0.075
        assert mark(of_kind(name, spot=AT_C), "52°39.45'N 001°43.08'E").right


@pytest.mark.parametrize(
    ("name", "text", "slip"),
    [
        ("seconds", "52 39.27 N 1 43.05 E", "seconds-for-decimals"),
        ("seconds", "52 39.00 N 1 43.00 E", "seconds-dropped"),
        ("to-decimal-degrees", "52.39454°N 1.43075°E", "minutes-for-decimals"),
    ],
)
def test_usual_slips_between_forms(name, text, slip):
    assert mark(of_kind(name, spot=AT_C), text).slips == (slip,)


# Worked by hand: 58.46970 and 7.19400 are 28.18' and 11.64'; the figures as they stand are neither.
def test_decimals_are_no_minutes_and_a_minus_is_west():
    question = of_kind("decimal-degrees", spot=LatLon(58.4697, -7.194))
    assert mark(question, "58°28.18'N 007°11.64'W").right
    assert mark(question, "58°46.97'N 007°19.40'W").slips == ("decimals-for-minutes",)
    assert mark(question, "58°28.18'N 007°11.64'E").slips == ("minus-lost",)


# Worked by hand from the definition: 4.7 km east and 0.5 km south, 4.73 km on 096.
def test_leg_across_the_letters():
    places = [GridPlace(96_500, 1_002_300), GridPlace(101_200, 1_001_800)]
    a, b = (Square(*place, 100.0) for place in places)
    question = of_kind("across-the-letters", a=a, b=b)
    assert question.text.startswith("From HV 965 023 you want to paddle to HW 012 018")
    assert mark(question, {"distance": "4.7 km", "bearing": "096 G"}).right
    within = mark(question, {"distance": "95.3 km", "bearing": "096 G"})
    assert within.slips == ("letters-forgotten",)
    assert within.marks == 1  # the bearing does not rest on the distance
    turned = mark(question, {"distance": "4.7 km", "bearing": "276 G"})
    assert turned.slips == ("opposite",)


def test_romer_slips_on_a_map_at_1_to_50_000():
    # HV 963 022: the place is 3 tenths and a bit east, 2 tenths and a bit north of its lines.
    question = of_kind("six-figures", place=GridPlace(96_330, 1_002_240), scale=50_000)
    for right in ("HV 963 022", "HV963022", "hv 963-022", "HV 964 023"):  # one out: the romer's due
        assert mark(question, right).right
    told = {
        "HV 022 963": "northing-first",
        "HV 973 022": "far-line",
        "HV 966 027": "tenths-backwards",
        "HW 963 022": "other-letters",
    }
    for text, slip in told.items():
        assert mark(question, text).slips == (slip,)
    assert mark(question, "HV 96 02").parts[0].outcome is Outcome.UNREAD
    assert mark(question, "963 022").parts[0].outcome is Outcome.UNREAD  # which letters?


def test_a_degree_has_sixty_minutes():
    # 58°58.2' to 59°03.4' N is 5.2'; along a meridian the leg is due north.
    question = of_kind(
        "between-positions",
        start=LatLon(58 + 58.2 / 60, -8.0),
        end=LatLon(59 + 3.4 / 60, -8.0),
    )
    assert mark(question, {"distance": "5.2 NM", "bearing": "000 T"}).right
    slip = mark(question, {"distance": "45.2 NM", "bearing": "000 T"})
    assert "hundred-minute-degree" in slip.slips


@given(st.integers(0, 5000))
@settings(max_examples=60, deadline=None)
def test_legs_by_middle_latitude_agree_with_the_ellipsoid(seed):
    """Within the half per cent that a minute of latitude may differ from a mile (PROJ)."""
    between = KINDS["between-positions"].make(seed)
    exact = geodesy.rhumb(*between.values["start"], *between.values["end"])
    assert between.values["distance"] == pytest.approx(exact.distance_m, rel=0.005)
    off = (between.values["bearing"] - exact.bearing + 180) % 360 - 180
    assert abs(off) < 0.5
    run = KINDS["after-a-run"].make(seed).values
    reached = geodesy.rhumb_destination(*run["start"], run["course"], run["run"])
    apart = geodesy.geodesic(*run["end"], *reached).distance_m
    assert apart < 0.005 * run["run"]


@given(st.integers(0, 5000))
@settings(max_examples=40, deadline=None)
def test_pots_lie_in_the_sea_and_crosses_on_the_sheet(seed):
    for name in ("find-the-position", "find-the-reference"):
        question = KINDS[name].make(seed)
        shown, key = question.picture, question.values["cross"]
        for spot in shown.spots:
            for at, middle, size in zip(
                (spot.easting, spot.northing), shown.centre, shown.size_mm, strict=True
            ):
                assert abs(at - middle) < size / 2000 * shown.scale
        spot = next(s for s in shown.spots if s.label.lower() == key)
        if name == "find-the-position":
            water = waters.load(shown.water)
            assert water.height((spot.easting, spot.northing)) < 0
            at = water.lat_lon((spot.easting, spot.northing))
            assert math.dist(at, question.givens["position"]) < 1e-6
        else:
            assert gridref.format(spot.easting, spot.northing) == question.written["reference"]


def test_a_division_taken_for_another_is_read_and_plotted_the_opposite_ways():
    # 46.4' at divisions of 0.2': two of them; read as 0.1' each that is 46.2', plotted it is 46.8'.
    place = LatLon(58 + 46.4 / 60, -7 - 12.4 / 60)
    read, put = (border.other_division(place, 75_000, plotted) for plotted in (False, True))
    assert read == pytest.approx((58 + 46.2 / 60, -7 - 12.2 / 60))
    assert put == pytest.approx((58 + 46.8 / 60, -7 - 12.8 / 60))


def test_old_datum_here_is_76_metres_off():
    """On the older datum the same figures are 76 m away, on 049 to the place shown (by PROJ)."""
    home = next(
        q
        for q in (KINDS["old-datum"].make(seed) for seed in range(80))
        if q.givens["spot"].lat > 58
    )
    assert home.written["dlat"] == "0.03′ north"
    assert home.written["dlong"] == "0.06′ east"
    assert home.values["distance"] == pytest.approx(76, abs=8)  # shifts are to 0.01'
    way = {"plotted": home.answers["plotted"], "distance": home.answers["distance"]}
    assert mark(home, way).right
    unmoved = mark(home, {**way, "plotted": home.written["spot"]})
    assert unmoved.slips == ("not-moved",)


@given(st.sampled_from(sorted(KINDS)), st.integers(0, 30), st.data())
@settings(max_examples=80, deadline=None)
def test_nothing_that_can_be_read_breaks_a_later_part(name, seed, data):
    question = questions.make(f"position.{name}", seed)
    odd = st.sampled_from(
        ("0 km", "0 NM", "99999 NM", "0 m", "0°N 0°E", "90 00.00 N 180 00.00 E", "HV 00 00", "000")
    )
    answers = {asked: data.draw(odd | st.just(right)) for asked, right in question.answers.items()}
    assert len(mark(question, answers).parts) == len(question.asks)


@given(st.floats(-500, 500).map(lambda m: round(m, 1)))
def test_a_side_is_read_back_as_it_is_written(value):
    for side in (Side("km"), Side("NM", ways=NORTHWARD)):
        assert side.rounded(value) == pytest.approx(value)
    assert Side("NM").write(-2.75) == "2.8 NM west"
