"""Bearings, angles and deviation against published examples, and the rules that always hold."""

import itertools
from contextlib import suppress

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from navlib import angles, bearings, deviation
from navlib.notation import Impossible, Misread, Unclear

DRAPER = "E. G. Draper, Lectures in Navigation, 1918, first lecture (The Compass)"
LECKY = "S. T. S. Lecky, Wrinkles in Practical Navigation, 19th edition, page 30"
OCEAN = "Ocean Navigator, Correcting from compass to true and back again, answers"
BY_HAND = "worked by hand"

CHAINS = [  # compass, deviation, magnetic, variation, true; east positive; source
    (90, -8, 82, 12, 94, f"{OCEAN} 1"),
    (225, 8, 233, -22, 211, f"{OCEAN} 3"),
    (146, 0, 146, -21, 125, f"{OCEAN} 4"),
    (118, 3, 121, -6, 115, BY_HAND),
    (12, 0, 12, -8, 4, f"{BY_HAND}: over north"),
    (4, 0, 4, -8, 356, f"{BY_HAND}: over north"),
]
GRID_CHAINS = [  # grid, convergence, true, variation, magnetic
    (100, -4.5, 95.5, -2.4, 97.9, f"{BY_HAND}: a National Grid map west of 2° W"),
    (100, 1.5, 101.5, -2.4, 103.9, f"{BY_HAND}: the UTM grid of the same place"),
]
COMPASS_ERRORS = [(-10, -5, -15, DRAPER), (-10, 5, -5, DRAPER)]
QUADRANTS = [
    ("N 45° E", 45, DRAPER),
    ("S 56° E", 124, DRAPER),
    ("S 20° E", 160, DRAPER),
    ("N 53° W", 307, DRAPER),
    ("N 70° W", 290, DRAPER),
    ("S 79 W", 259, LECKY),
]
POINTS = [("NE", 45, DRAPER), ("SE by E", 123.75, DRAPER), ("SSE", 157.5, DRAPER)]

degrees = st.floats(-1000, 1000)
small = st.floats(-40, 40)


@pytest.mark.parametrize(("c", "dev", "m", "var", "t", "source"), CHAINS)
def test_compass_magnetic_true_as_published(c, dev, m, var, t, source):
    assert bearings.magnetic_from_compass(c, dev) == m
    assert bearings.true_from_magnetic(m, var) == t
    assert bearings.magnetic_from_true(t, var) == m
    assert bearings.compass_from_magnetic(m, dev) == c
    assert bearings.convert(c, "C", "T", variation=var, deviation=dev) == t
    assert bearings.convert(t, "T", "C", variation=var, deviation=dev) == c
    assert angles.wrap(c + deviation.compass_error(var, dev)) == t
    assert deviation.deviation_from_transit(t, var, c) == dev


@pytest.mark.parametrize(("g", "conv", "t", "var", "m", "source"), GRID_CHAINS)
def test_grid_true_magnetic(g, conv, t, var, m, source):
    assert bearings.true_from_grid(g, conv) == pytest.approx(t)
    assert bearings.grid_from_true(t, conv) == pytest.approx(g)
    assert bearings.convert(g, "G", "M", variation=var, convergence=conv) == pytest.approx(m)
    assert bearings.magnetic_from_grid(g, var - conv) == pytest.approx(m)
    assert bearings.grid_from_magnetic(m, var - conv) == pytest.approx(g)


@pytest.mark.parametrize(("var", "dev", "error", "source"), COMPASS_ERRORS)
def test_compass_error_as_published(var, dev, error, source):
    assert deviation.compass_error(var, dev) == error


@pytest.mark.parametrize(("text", "value", "source"), QUADRANTS)
def test_quadrants_as_published(text, value, source):
    assert bearings.parse(text).degrees == value
    assert bearings.parse(text.replace(" ", "").lower()).degrees == value


@pytest.mark.parametrize(("text", "value", "source"), POINTS)
def test_points_as_published(text, value, source):
    read = bearings.parse(text)
    assert read.degrees == value
    assert bearings.point_name(value) == read.point


def test_points_of_the_compass():
    assert [bearings.parse(name).degrees for name in bearings.POINTS] == [*np.arange(32) * 11.25]
    assert [bearings.point_name(359, n) for n in (4, 8, 16, 32)] == ["N"] * 4
    assert [bearings.point_name(112, n) for n in (8, 16)] == ["E", "ESE"]
    words = ("north by east", "South-West by South", "W.N.W.", "due east", "north north east true")
    assert [bearings.parse(w).point for w in words] == ["NbE", "SWbS", "WNW", "E", "NNE"]


@given(degrees, small, small, small)
def test_any_north_there_and_back(bearing, var, conv, dev):
    known = {"variation": var, "convergence": conv, "deviation": dev}
    for one, other in itertools.product("TMGC", repeat=2):
        there = bearings.convert(bearing, one, other, **known)
        assert 0 <= there < 360
        back = bearings.convert(there, other, one, **known)
        assert angles.signed_difference(back, bearing) == pytest.approx(0, abs=1e-9)
        through = bearings.convert(
            bearings.convert(bearing, one, "T", **known), "T", other, **known
        )
        assert angles.signed_difference(there, through) == pytest.approx(0, abs=1e-9)


def test_conversion_asks_for_what_it_needs_and_no_more():
    assert bearings.convert(100, "C", "M", deviation=3) == 103
    with pytest.raises(ValueError, match="compass to true the variation is needed"):
        bearings.convert(100, "C", "T", deviation=3)
    with pytest.raises(ValueError, match="give one of T, M, G, C"):
        bearings.convert(100, "N", "T")


def test_arrays_go_in_and_come_out_and_a_number_stays_a_plain_number():
    three = bearings.true_from_magnetic(np.array([2.0, 180.0, 359.0]), -8)
    assert three.tolist() == [354, 172, 351]
    assert type(bearings.true_from_magnetic(np.float64(2), -8)) is float
    assert angles.signed(np.array([181.0, 180.0, -180.0])).tolist() == [-179, 180, 180]


@given(degrees, degrees)
def test_round_the_circle(one, other):
    assert 0 <= angles.wrap(one) < 360
    assert -180 < angles.signed_difference(one, other) <= 180
    turned = angles.wrap(other + angles.signed_difference(one, other))
    assert angles.signed_difference(turned, one) == pytest.approx(0, abs=1e-9)
    assert bearings.angle_between(angles.reciprocal(one), one) == pytest.approx(180)
    relative = bearings.relative_from_bearing(one, other)
    assert bearings.angle_between(bearings.bearing_from_relative(one, relative), other) < 1e-9
    assert 0 <= bearings.angle_between(one, other) <= 180


def test_circle_edges():
    assert angles.wrap(-1e-17) == 0
    assert (angles.wrap(360), angles.wrap(364), angles.wrap(-6)) == (0, 4, 354)
    assert bearings.back_bearing(315) == 135
    assert bearings.relative_from_bearing(300, 75) == 135
    assert angles.signed_difference(angles.circular_mean([358, 2, 6]), 2) == pytest.approx(0)
    with pytest.raises(ValueError, match="cancel out"):
        angles.circular_mean([0, 180])
    with pytest.raises(ValueError, match="at least one"):
        angles.circular_mean([])


def test_off_line():
    assert bearings.off_line_distance(1852, 1) == pytest.approx(32, abs=0.5)  # common practice
    assert bearings.off_line_distance(6, 5) == pytest.approx(0.52, abs=0.005)  # 6 tan 5°, by hand
    assert bearings.off_line_angle(10, 60) == pytest.approx(9.5, abs=0.05)  # 10 cm at arm's length
    assert bearings.one_in_sixty_distance(60, 1) == bearings.one_in_sixty_angle(1, 60) == 1
    assert bearings.off_line_angle(bearings.off_line_distance(7.0, 33.0), 7.0) == pytest.approx(33)


@given(st.floats(0.1, 12))
def test_one_in_sixty_is_short_by_less_than_six_per_cent_up_to_12_degrees(angle):
    exact = bearings.off_line_distance(1.0, angle)
    assert 0.94 * exact < bearings.one_in_sixty_distance(1.0, angle) < exact


def test_bearings_are_written_in_three_figures():
    written = [bearings.write(d, "T") for d in (42, 359.7, 0, 360, 42.5, -1, 4.4)]
    assert written == ["042°T", "000°T", "000°T", "000°T", "043°T", "359°T", "004°T"]
    assert bearings.write(95.5, "G", rounding=0.5) == "095.5°G"
    assert bearings.write(238, "M", rounding=5) == "240°M"
    with pytest.raises(ValueError, match="one of T, M, G, C"):
        bearings.write(42, "X")


@pytest.mark.parametrize("text", ["0420", "42.5°", "042,5", "042°30'T", "T042M", "42N", "", "moon"])
def test_what_cannot_be_told_is_asked(text):
    with pytest.raises(Unclear):
        bearings.parse(text)


@pytest.mark.parametrize("text", ["361", "412T", "-42", "−042°T", "N100E"])
def test_what_no_bearing_can_be_is_refused(text):
    with pytest.raises(Impossible):
        bearings.parse(text)


def test_parts_of_a_degree_are_read_where_asked_for():
    assert bearings.parse("095.5°T", decimals=True).degrees == 95.5
    assert bearings.parse("S 22°30' E", decimals=True).degrees == 157.5  # SSE in Draper's table


SIDES = [
    ("4°00'W", -4), ("4° W", -4), ("4W", -4), ("W4", -4), ("w 4°", -4), ("4 West", -4),
    ("4.0°W", -4), ("4,0° W", -4), ("-4", -4), ("−4°", -4), ("+4", 4), ("var 4 W", -4),
    ("4.30°W", -4.3), ("4°30'E", 4.5), ("4° 30’ east", 4.5), ("4 30 E", 4.5), ("2½°W", -2.5),
    ("4 deg 30 min W", -4.5), ("14'E", 14 / 60), ("4°30'36\"E", 4.51), ("0", 0), ("4.00W", -4),
]  # fmt: skip


@pytest.mark.parametrize(("text", "value"), SIDES)
def test_east_and_west_are_read(text, value):
    assert angles.parse_east_west(text) == pytest.approx(value)


@pytest.mark.parametrize(
    ("text", "error"),
    [
        ("4", Unclear), ("4.30W", Unclear), ("4.30", Unclear), ("-4W", Unclear), ("E4W", Unclear),
        ("", Unclear), ("4.5°30'W", Unclear), ("4°60'W", Impossible), ("200W", Impossible),
    ],
)  # fmt: skip
def test_east_and_west_are_not_guessed(text, error):
    with pytest.raises(error):
        angles.parse_east_west(text)


def test_east_and_west_are_written():
    cases = {(-142 / 60, 1 / 60): "2°22'W", (-142 / 60, 1): "2°W", (-2.5, 1): "3°W", (0.2, 1): "0°"}
    cases |= {(3.9999, 1 / 60): "4°00'E", (-2.37, 0.5): "2°30'W", (1.01, 1 / 600): "1°00.6'E"}
    cases |= {(2.1, 0.1): "2.1°E", (-4.45, 0.1): "4.5°W", (-0.04, 0.1): "0.0°"}
    assert {given: angles.write_east_west(*given) for given in cases} == cases
    assert angles.degrees_minutes(-3.999) == (4, 0)


@given(st.floats(-180, 180))
def test_east_and_west_read_back_as_written(value):
    again = angles.parse_east_west(angles.write_east_west(value))
    assert abs(angles.signed_difference(again, value)) <= 0.5 / 60 + 1e-9


@given(st.text() | st.text("0123456789.,-+°'\"EWNSTMGC()½ /degminby"))
def test_no_text_breaks_the_readers(text):
    for read in (bearings.parse, angles.parse_east_west, angles.parse_degrees):
        with suppress(Misread):
            read(text)


CARD = deviation.DeviationCard(
    headings=range(0, 360, 45),
    deviations=(-2, 1, 4, 5, 2, -1, -4, -5),
    source="invented for this test",
)


def test_deviation_is_interpolated_round_the_circle():
    assert [CARD.deviation(h) for h in (45, 22.5, 337.5, 0, 360)] == [1, -0.5, -3.5, -2, -2]
    assert CARD.deviation(np.array([90.0, 112.5])).tolist() == [4, 4.5]


def test_the_card_is_entered_with_the_magnetic_heading_and_once_more():
    # 090 magnetic: the card gives 4 E there, so try 086; there 4 E less 4/15, so steer 086.27.
    assert CARD.compass_from_magnetic(90.0) == pytest.approx(90 - (4 - 3 * 4 / 45))


@given(st.floats(0, 359.9), st.sampled_from("CM"))
def test_a_refined_card_leaves_little(heading, by):
    card = deviation.DeviationCard(CARD.headings, CARD.deviations, CARD.source, by)
    steepest, greatest = 3 / 45, 5
    back = card.compass_from_magnetic(card.magnetic_from_compass(heading))
    assert bearings.angle_between(back, heading) <= greatest * steepest**2 + 1e-9


@pytest.mark.parametrize(
    ("headings", "deviations", "by", "message"),
    [
        ((0, 90, 180), (1, 2), "C", "3 headings and 2 deviations"),
        ((0,), (1,), "C", "two or more"),
        ((0, 180, 90), (1, 2, 3), "C", "rise"),
        ((90, 180, 360), (1, 2, 3), "C", "0 to below 360"),
        ((0, 90), (1, float("nan")), "C", "number of degrees"),
        ((0, 10, 20), (0, 12, 0), "C", "after heading 000"),
        ((0, 90), (1, 2), "T", "not “T”"),
    ],
)
def test_a_wrong_card_is_refused(headings, deviations, by, message):
    with pytest.raises(ValueError, match=message):
        deviation.DeviationCard(headings, deviations, "nobody", by)
