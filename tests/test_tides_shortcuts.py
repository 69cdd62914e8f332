"""Twelfths, cosine, straight line and mean curves, against worked examples and the prediction."""

import json
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from itertools import pairwise
from zoneinfo import ZoneInfo

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from tide_ports import DATA, INVENTED

from navlib.tides import (
    COSINE,
    STRAIGHT_LINE,
    TWELFTHS,
    Port,
    Tide,
    Turn,
    Water,
    heights_beside,
    mean_curves,
    tidal_levels,
    tide_at,
    tides,
    times_beside,
    without_stands,
)

PUBLISHED = [
    case
    for case in json.loads((DATA / "tides.json").read_text())  # each with its source
    if case["inputs"]["op"] == "rule_of_twelfths"
]
MIDNIGHT = datetime(2026, 7, 15, tzinfo=UTC)
CURVES = mean_curves(INVENTED)
FITTED = replace(CURVES, fitted=True)
METHODS = [TWELFTHS, COSINE, STRAIGHT_LINE, CURVES, FITTED]


def tide(start, start_height, end, end_height):
    def turn(hours, height):
        kind = Water.HIGH if height == max(start_height, end_height) else Water.LOW
        return Turn(MIDNIGHT + timedelta(hours=hours), height, kind)

    return Tide(turn(start, start_height), turn(end, end_height))


def at(clock):
    return MIDNIGHT + timedelta(hours=int(clock[:2]), minutes=int(clock[2:]))


@pytest.mark.parametrize("case", PUBLISHED, ids=lambda case: case["id"])
def test_published_twelfths(case):
    given = case["inputs"]
    flood = tide(0, given["lw_height_m"], 6, given["hw_height_m"])
    when = MIDNIGHT + timedelta(hours=given["hours_after_lw"])
    assert TWELFTHS.height(flood, when) == pytest.approx(case["expected"]["height_m"], abs=1e-9)


# Worked by hand from the definition: HW 1023 4.6, LW 1638 0.9, at 1300; 2.5 m falling at 1347.
EBB = tide(10 + 23 / 60, 4.6, 16 + 38 / 60, 0.9)


@pytest.mark.parametrize(
    ("method", "height", "rounding"),
    [(COSINE, 3.2, 0.05), (TWELFTHS, 3.2, 0.05), (STRAIGHT_LINE, 3.05, 0.005)],
)
def test_height_at_1300(method, height, rounding):
    assert method.height(EBB, at("1300")) == pytest.approx(height, abs=rounding)


def test_time_for_a_height():
    assert abs(COSINE.time(EBB, 2.5) - at("1347")) <= timedelta(seconds=30)


def test_twelfths_are_counted_in_sixths_of_the_real_duration():
    # Worked by hand: this ebb is 6 h 15, a tidal hour 62.5 minutes; three of them have half gone.
    when = at("1023") + 3 * timedelta(minutes=62.5)
    assert TWELFTHS.height(EBB, when) == pytest.approx((4.6 + 0.9) / 2)


def test_twelfths_and_cosine_differ_by_two_and_a_half_hundredths_of_the_range_at_most():
    # Worked by hand: under 2 % of the range at the sixth-marks, 2.6 % between.
    x = np.linspace(0, 1, 6001)
    apart = np.abs(TWELFTHS.share(x) - COSINE.share(x))
    assert apart[::1000].max() < 0.02
    assert apart.max() == pytest.approx(0.026, abs=0.0005)


HEIGHTS = st.floats(0, 12)


@given(HEIGHTS, HEIGHTS, st.floats(4, 9), st.floats(0.01, 0.99), st.sampled_from(METHODS))
def test_time_for_the_height_at_a_time_is_that_time(start, end, hours, share, method):
    assume(abs(start - end) > 0.5)
    water = tide(0, start, hours, end)
    when = MIDNIGHT + share * timedelta(hours=hours)
    height = method.height(water, when)
    assert min(start, end) <= height <= max(start, end)
    back = method.time(water, height)
    # Where a curve is flat the time is loose, so hold the height it leads to.
    assert method.height(water, back) == pytest.approx(height, abs=0.003 * abs(start - end))


@pytest.mark.parametrize("method", METHODS, ids=lambda method: method.name)
def test_shortcuts_take_many_times_and_the_ends(method):
    times = np.array(["2026-07-15T10:23", "2026-07-15T13:00"], "M8[m]")
    heights = method.height(EBB, times)
    assert heights[0] == pytest.approx(4.6)
    assert heights[1] == method.height(EBB, at("1300"))


def test_a_clock_change_during_the_tide_changes_nothing():
    london = ZoneInfo("Europe/London")
    water = tide_at(INVENTED, datetime(2026, 10, 25, 1, 30, tzinfo=UTC))
    local = Tide(water.start.at(london), water.end.at(london))
    middle = (water.low.height + water.high.height) / 2
    for method in METHODS:
        assert method.time(local, middle) == method.time(water, middle)
        assert method.height(local, method.time(water, middle)) == pytest.approx(middle, abs=0.01)


@pytest.mark.parametrize("method", METHODS, ids=lambda method: method.name)
def test_a_time_or_height_of_another_tide_is_refused_in_words(method):
    with pytest.raises(ValueError, match=r"1700 UTC is not between HW 1023 UTC 4.6 m and LW 1638"):
        method.height(EBB, at("1700"))
    with pytest.raises(ValueError, match=r"0\.80 m is not reached"):
        method.time(EBB, 0.8)


def test_mean_curves_are_the_ports_own():
    # M4 stands high before high water here, so the flood is shorter than the ebb; without M4
    # both curves are cosines of the mean spring and neap tide.
    assert -CURVES.spring.hours[0] < CURVES.spring.hours[-1]
    plain = Port(2.79, {name: INVENTED.constituents[name] for name in ("M2", "S2", "N2", "K1")})
    curves, found = mean_curves(plain), tidal_levels(plain)
    assert (curves.spring.high, curves.spring.low) == pytest.approx(
        (found.mhws, found.mlws), abs=0.005
    )
    assert (curves.neap.high, curves.neap.low) == pytest.approx(
        (found.mhwn, found.mlwn), abs=0.02
    )  # half a day on, S2 is no longer quite out of step
    hours = np.linspace(-6, 6, 25)
    assert curves.factor(hours, 4.1) == pytest.approx(
        (1 + np.cos(np.radians(29.4 * hours))) / 2, abs=0.01
    )


def test_between_mean_ranges_the_factor_is_between_the_curves_and_beyond_the_nearer_holds():
    # Worked by hand from the definition.
    spring, neap = CURVES.spring.factor(3.0), CURVES.neap.factor(3.0)
    assert CURVES.factor(3.0, (4.10 + 1.74) / 2) == pytest.approx((spring + neap) / 2)
    assert CURVES.factor(3.0, 5.0) == spring
    assert CURVES.factor(3.0, 1.0) == neap


def test_a_mean_curve_joins_low_water_to_high_water():
    for curve in (CURVES.spring, CURVES.neap):
        assert (curve.factors[0], max(curve.factors), curve.factors[-1]) == (0, 1, 0)
        assert curve.factor(0.0) == 1
        assert curve.factor([-9.0, 9.0]).tolist() == [0, 0]


def test_a_fitted_curve_meets_both_turns_and_the_trades_own_need_not():
    water = tide_at(INVENTED, datetime(2026, 9, 4, 8, tzinfo=UTC))
    ends = [water.start.time, water.end.time]
    heights = [water.start.height, water.end.height]
    assert FITTED.height(water, ends) == pytest.approx(heights)
    hurried = Tide(replace(water.start, time=ends[0] + timedelta(hours=1)), water.end)
    low = hurried.start
    assert FITTED.height(hurried, low.time) == pytest.approx(low.height)
    assert CURVES.height(hurried, low.time) > low.height + 0.1


def test_over_two_months_the_straight_line_is_worst_and_the_fitted_curve_best():
    turns = INVENTED.extremes(MIDNIGHT, MIDNIGHT + timedelta(days=60))
    off = {method.name: [] for method in METHODS}
    for water in tides(without_stands(turns, 0.1)):
        times = [water.start.time + water.duration * n / 36 for n in range(37)]
        truth = INVENTED.heights(times)
        for method in METHODS:
            off[method.name].append(np.sqrt(np.mean((method.height(water, times) - truth) ** 2)))
    mean = {name: np.mean(each) for name, each in off.items()}
    assert max(mean, key=mean.get) == STRAIGHT_LINE.name
    assert min(mean, key=mean.get) == FITTED.name
    assert mean[FITTED.name] < 0.05
    assert mean[CURVES.name] < 0.1  # hours as they are: about what the rules of thumb reach


def test_all_methods_side_by_side():
    when = datetime(2026, 10, 25, 9, 30, tzinfo=UTC)
    heights = heights_beside(INVENTED, when)
    truth = heights["harmonic prediction"]
    assert truth == INVENTED.heights(when)
    assert heights["rule of twelfths"] == TWELFTHS.height(tide_at(INVENTED, when), when)
    assert len(heights) == 6
    assert all(abs(height - truth) < 0.5 for height in heights.values())
    times = times_beside(INVENTED, truth, when)
    assert times.keys() == heights.keys()
    assert abs(times["harmonic prediction"] - when) <= timedelta(seconds=2)
    off = {name: abs(time - when) for name, time in times.items()}
    assert max(off.values()) < timedelta(minutes=45)
    with pytest.raises(ValueError, match="is not reached"):
        times_beside(INVENTED, 9.0, when)


def test_of_a_double_high_water_the_higher_stays():
    def turns(*heights):
        kinds = [Water.HIGH, Water.LOW] * len(heights)
        return [
            Turn(MIDNIGHT + timedelta(hours=n), height, kinds[n])
            for n, height in enumerate(heights)
        ]

    row = turns(4.0, 1.0, 3.9, 3.8, 4.1, 0.8)
    assert [turn.height for turn in without_stands(row, 0.3)] == [4.0, 1.0, 4.1, 0.8]
    assert without_stands(row, 0.05) == tuple(row)
    kept = without_stands(turns(4.0, 3.95, 4.2, 0.5, 0.6, 0.55, 4.0), 0.3)
    assert all(a.kind != b.kind for a, b in pairwise(kept))
    assert [turn.height for turn in kept] == [4.2, 0.5, 4.0]
