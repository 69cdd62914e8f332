"""Rates by range and by rule, and the vector triangle, against worked examples and itself."""

import json
from pathlib import Path

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from numpy.testing import assert_allclose

from navlib import streams
from navlib.angles import signed_difference
from navlib.units import NM

# NGA Pub. 9 (American Practical Navigator), 2002, chapter 7, current sailing, examples 1 to 3,
# solved there by drawing: to about half a degree and a tenth of a knot. From memory.
CURRENT_SAILING = json.loads((Path(__file__).parent / "data/current_sailing.json").read_text())

SOLVE = {
    "course_made_good": lambda q: streams.made_good(
        q["course_deg"], q["speed_kn"], q["set_deg"], q["drift_kn"]
    ),
    "course_to_steer": lambda q: streams.course_to_steer(
        q["track_deg"], q["speed_kn"], q["set_deg"], q["drift_kn"]
    ),
    "course_and_speed_to_make_good": lambda q: streams.course_and_speed(
        q["track_deg"], q["smg_kn"], q["set_deg"], q["drift_kn"]
    ),
}


@pytest.mark.parametrize("example", CURRENT_SAILING, ids=lambda example: example["id"])
def test_current_sailing_examples(example):
    direction, knots = SOLVE[example["inputs"]["op"]](example["inputs"])
    printed, tolerance = list(example["expected"].values()), example["tolerance"]
    assert direction == pytest.approx(printed[0], abs=tolerance["deg"])
    assert knots == pytest.approx(printed[1], abs=tolerance["kn"])


# Worked by hand to whole degrees and tenths of a knot, common practice.
@pytest.mark.parametrize(
    ("track", "boat", "set_to", "rate", "course", "smg"),
    [(50, 4.0, 130, 1.5, 28, 4.0), (350, 3.0, 75, 2.0, 308, 2.4)],
)
def test_worked_course_to_steer(track, boat, set_to, rate, course, smg):
    cts, made = streams.course_to_steer(track, boat, set_to, rate)
    assert (cts, made) == (pytest.approx(course, abs=0.5), pytest.approx(smg, abs=0.05))
    # Slip: the stream's arrow turned round gives a course down-stream, and a slower boat.
    wrong, slower = streams.course_to_steer(track, boat, set_to + 180, rate)
    assert signed_difference(wrong, track) == pytest.approx(-signed_difference(cts, track))
    assert slower < made


def test_worked_course_made_good():
    cmg, smg = streams.made_good(50, 4.0, 130, 1.5)
    assert (cmg, smg) == (pytest.approx(69, abs=0.5), pytest.approx(4.5, abs=0.05))


def test_worked_rate_today():
    assert streams.rate_today(2.6, 1.1, 3.7, 4.2, 1.7) == pytest.approx(2.3, abs=0.05)
    assert streams.rate_today(2.6, 1.1, 4.2, 4.2, 1.7) == pytest.approx(2.6)
    assert streams.rate_today(2.0, 0.2, 1.0, 4.0, 2.0) == 0
    assert_allclose(
        streams.rate_today(np.array([2.6, 1.4]), np.array([1.1, 0.6]), 1.7, 4.2, 1.7), [1.1, 0.6]
    )
    with pytest.raises(ValueError, match="same range"):
        streams.rate_today(2.6, 1.1, 3.7, 4.2, 4.2)


# Thirds and 50/90, common practice; the half sine they stand for, integrated hour by hour.
def test_rules_between_slacks():
    assert_allclose(streams.thirds(3.0), [1, 2, 3, 3, 2, 1])
    assert streams.thirds(3.0).sum() == pytest.approx(12)
    assert_allclose(streams.sine_hours(3.0)[:3], [0.77, 2.10, 2.86], atol=0.005)
    assert streams.sine_hours(3.0).sum() == pytest.approx(11.5, abs=0.05)
    assert_allclose(streams.fifty_ninety(3.0), 3 * np.sin(np.arange(7) * np.pi / 6), atol=0.15)


def test_impossible_crossings_say_why():
    with pytest.raises(streams.ImpossibleCrossing, match=r"3\.0 kn across"):
        streams.course_to_steer(0, 2.0, 90, 3.0)
    with pytest.raises(streams.ImpossibleCrossing, match=r"2\.5 kn .* 2\.0 kn"):
        streams.course_to_steer(0, 2.0, 180, 2.5)
    with pytest.raises(streams.ImpossibleCrossing):
        streams.course_to_steer(np.array([0, 0]), 2.0, np.array([90, 90]), np.array([1.0, 3.0]))


def test_drift_adds_arrows_not_angles():
    east, north = streams.drift([355, 5], [2.0, 2.0])
    assert east == pytest.approx(0, abs=1e-6)
    assert north == pytest.approx(4 * np.cos(np.radians(5)) * NM)
    assert streams.drift(90, 2.0, 0.5) == (pytest.approx(NM), pytest.approx(0, abs=1e-6))


def test_stream_found_from_dr_and_fix():
    assert streams.stream_found(0.5 * NM, 0.0, 30) == (pytest.approx(90), pytest.approx(1.0))
    with pytest.raises(ValueError, match="above 0"):
        streams.stream_found(1.0, 1.0, 0)


def test_deck_rule_near_the_exact_angle():
    cts, _ = streams.course_to_steer(0, 4.0, 90, 1.5)
    assert streams.steer_off_by_rule(4.0, 1.5) == pytest.approx(22, abs=0.5)
    assert signed_difference(0.0, cts) == pytest.approx(22, abs=0.5)


ANGLE, SPEED, RATE = st.floats(0, 359.99), st.floats(0.5, 20), st.floats(0, 6)


@given(ANGLE, SPEED, ANGLE, RATE)
def test_the_triangle_closes(track, boat, set_to, rate):
    try:
        course, smg = streams.course_to_steer(track, boat, set_to, rate)
    except streams.ImpossibleCrossing:
        assume(False)
    assume(smg > 1e-6)
    assert 0 <= course < 360
    cmg, made = streams.made_good(course, boat, set_to, rate)
    assert signed_difference(cmg, track) == pytest.approx(0, abs=1e-3)
    assert made == pytest.approx(smg)
    again, through_water = streams.course_and_speed(track, smg, set_to, rate)
    assert signed_difference(again, course) == pytest.approx(0, abs=1e-3)
    assert through_water == pytest.approx(boat)


@given(ANGLE, st.floats(0.1, 6), st.floats(10, 300))
def test_stream_found_undoes_drift(set_to, rate, minutes):
    found, knots = streams.stream_found(*streams.drift(set_to, rate, minutes / 60), minutes)
    assert signed_difference(found, set_to) == pytest.approx(0, abs=1e-6)
    assert knots == pytest.approx(rate)
