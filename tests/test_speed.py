"""Distance, speed and time against a published table, worked examples and each other."""

import json
from datetime import UTC, datetime
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.testing import assert_allclose

from navlib import speed
from navlib.clock import whole_minutes, write_clock
from navlib.units import NM

# NGA Pub. 9 (American Practical Navigator), vol. II, 2024, Table 11 Speed, Time, and Distance: read
# from the table to its last printed figure, ties to even. At 38 min and 10.5 kn it misprints 6.8.
TABLE_11 = json.loads((Path(__file__).parent / "data/speed_time_distance.json").read_text())


@pytest.mark.parametrize("cell", TABLE_11, ids=lambda cell: cell["id"])
def test_distance_as_table_11_prints_it(cell):
    given, printed = cell["inputs"], cell["expected"]["nautical_miles"]
    run = speed.distance_run(given["knots"], given["minutes"]) / NM
    assert run == pytest.approx(printed, abs=cell["tolerance"]["nm"])


def test_the_misprint_of_table_11_stays_out():
    assert abs(speed.distance_run(10.5, 38) / NM - 6.8) > 0.1


# Worked by hand, common practice.
def test_worked_times():
    assert speed.time_taken(3.4 * NM, 3.0) == pytest.approx(68)
    assert speed.speed_needed(3.4 * NM, 68) == pytest.approx(3.0)
    left = datetime(2026, 6, 1, 23, 25, tzinfo=UTC)
    arrival = speed.eta(left, speed.time_taken(3.4 * NM, 3.0))
    assert whole_minutes(arrival) == datetime(2026, 6, 2, 0, 33, tzinfo=UTC)
    assert write_clock(arrival, "Europe/London") == "0133 BST"


def test_the_slow_half_lasts_longer():
    legs, speeds = [2.0 * NM, 2.0 * NM], [4.0, 2.0]
    assert_allclose(speed.arrivals(legs, speeds), [30, 90])
    assert speed.mean_speed(legs, speeds) == pytest.approx(2.7, abs=0.05)


@pytest.mark.parametrize(
    ("moving", "total"), [(0, 0), (59, 59), (60, 60), (61, 66), (120, 125), (121, 131), (180, 190)]
)
def test_no_rest_after_the_last_leg(moving, total):
    assert speed.with_rests(moving, every=60, lasting=5) == total


def test_legs_that_only_sum_to_two_hours_by_rounding_hold_one_rest():
    legs = np.full(3, 7 / 3 * NM)
    moving = speed.arrivals(legs, 3.5)
    assert moving[-1] > 120  # by a rounding error
    assert_allclose(speed.arrivals(legs, 3.5, lasting=10), [40, 90, 130])


def test_latest_departure_from_a_gate_with_reserve():
    shuts = datetime(2026, 6, 1, 14, 20, tzinfo=UTC)
    leave = speed.latest_departure(shuts, round(speed.time_taken(5.1 * NM, 3.5)), reserve=30)
    assert write_clock(leave) == "1223 UT"
    exact = speed.latest_departure(shuts, speed.time_taken(5.1 * NM, 3.5), reserve=30)
    assert write_clock(whole_minutes(exact, "earlier")) == "1222 UT"


def test_speed_and_eta_revised_from_two_fixes():
    first, second = (datetime(2026, 6, 1, 10, m, tzinfo=UTC) for m in (0, 30))
    assert speed.speed_between(first, second, 1.2 * NM) == pytest.approx(2.4)
    new = speed.revised_eta(first, second, 1.2 * NM, to_go=3.6 * NM)
    assert new == datetime(2026, 6, 1, 12, 0, tzinfo=UTC)


@pytest.mark.parametrize(
    ("miles", "streams", "turns", "minutes"),
    [
        (4.0, [1.0, -1.0], [30], 90),  # 2 NM at 4 kn, then 2 NM at 2 kn
        (2.0, [1.0, -1.0], [30], 30),  # there as it turns
        (2.0, [-4.0, 1.0], [30], 67.5),  # set back half a mile, then 2.5 NM at 4 kn
        (3.0, [0.0], [], 60),
    ],
)
def test_a_stream_that_turns_on_the_way(miles, streams, turns, minutes):
    assert speed.time_with_turns(miles * NM, 3.0, streams, turns) == pytest.approx(minutes)


def test_a_journey_without_end_is_refused():
    with pytest.raises(ValueError, match="never arrives"):
        speed.time_taken(NM, 0.0)
    with pytest.raises(ValueError, match="never arrives"):
        speed.time_with_turns(4 * NM, 3.0, [1.0, -3.0], [30])
    with pytest.raises(ValueError, match="one turn fewer"):
        speed.time_with_turns(4 * NM, 3.0, [1.0, -1.0], [])
    with pytest.raises(ValueError, match="no time"):
        speed.speed_needed(NM, 0)


# Common practice: 3 kn is 20 min a mile, 4 kn 15; 2.43 root LWL.
def test_rules_of_thumb_beside_the_exact():
    assert_allclose(speed.minutes_per_mile(np.array([3.0, 4.0])), [20, 15])
    assert speed.six_minute_run_nm(4.5) == pytest.approx(speed.distance_run(4.5, 6) / NM)
    assert speed.hull_speed_kn(4.9) == pytest.approx(5.4, abs=0.05)
    assert speed.hull_speed_kn(8.0) == pytest.approx(6.9, abs=0.05)
    assert speed.metres_a_minute_by_rule(3) == pytest.approx(100)
    assert speed.distance_run(3, 1) == pytest.approx(92.6)


@given(st.floats(1, 1e5), st.floats(0.1, 40))
def test_any_one_from_the_other_two(distance, knots):
    minutes = speed.time_taken(distance, knots)
    assert isinstance(minutes, float)
    assert speed.distance_run(knots, minutes) == pytest.approx(distance)
    assert speed.speed_needed(distance, minutes) == pytest.approx(knots)


@given(st.floats(10, 1e5), st.floats(2, 10), st.lists(st.floats(-1.5, 1.5), min_size=1, max_size=5))
def test_a_turning_stream_covers_the_distance(distance, knots, streams):
    turns = [25.0 * (i + 1) for i in range(len(streams) - 1)]
    minutes = speed.time_with_turns(distance, knots, streams, turns)
    ends = np.minimum([*turns, np.inf], minutes)
    lasting = np.diff(ends, prepend=0.0)
    assert np.sum(speed.distance_run(knots + np.array(streams), lasting)) == pytest.approx(distance)
