"""Depth, keel, mast, and the windows of time in which a boat can pass."""

from datetime import UTC, datetime, timedelta

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from tide_ports import INVENTED

from navlib.tides import (
    COSINE,
    Offsets,
    Port,
    SecondaryPort,
    Window,
    depth_over_drying,
    greatest_height,
    least_height,
    over_mast,
    overhead,
    through,
    tidal_windows,
    under_keel,
    water_depth,
)

DAY = datetime(2026, 10, 27, tzinfo=UTC), datetime(2026, 10, 28, tzinfo=UTC)
# A six-hour S2 tide between 1 and 3 m, high water at 0000, 1200: worked by hand.
HALF_DAILY = Port(2.0, {"S2": (1.0, 0.0)})


@pytest.mark.parametrize(
    ("found", "expected"),
    [
        # Worked by hand from the definitions.
        (overhead(7.0, 5.4, 2.9), 9.5),  # clearance 7.0 above HAT 5.4
        (overhead(7.0, 5.4, 5.4), 7.0),
        (water_depth(2.3, 1.9), 4.2),
        (water_depth(-1.6, 1.9), 0.3),
        (depth_over_drying(1.6, 1.9), 0.3),
        (depth_over_drying(3.4, 2.0), -1.4),
        (under_keel(0.3, 1.1), -0.8),
        (over_mast(9.5, 9.0), 0.5),
        (least_height(-1.6, 0.2, 0.3), 2.1),
        (least_height(3.0, 1.5, 1.0), -0.5),
        (greatest_height(7.0, 5.4, 9.0, 1.0), 2.4),
    ],
)
def test_clearances(found, expected):
    assert found == pytest.approx(expected)


@given(*[st.floats(-5, 30)] * 3, st.floats(0, 20), st.floats(0, 3))
def test_at_the_limiting_height_just_the_margin_is_left(charted, datum, height, boat, margin):
    keel = least_height(charted, boat, margin)
    assert under_keel(water_depth(charted, keel), boat) == pytest.approx(margin, abs=1e-9)
    mast = greatest_height(charted, datum, boat, margin)
    assert over_mast(overhead(charted, datum, mast), boat) == pytest.approx(margin, abs=1e-9)
    assert depth_over_drying(-charted, height) == water_depth(charted, height)


def test_heights_may_be_many():
    heights = np.array([1.0, 2.9])
    assert overhead(7.0, 5.4, heights) == pytest.approx([11.4, 9.5])
    assert under_keel(water_depth(-0.9, heights), 0.5) == pytest.approx([-0.4, 1.5])


def test_windows_of_a_tide_worked_by_hand():
    # 2 + cos(30 t) is above 2.5 for two hours either side of 0000, 1200 and 2400.
    found = tidal_windows(HALF_DAILY.heights, *DAY, above=2.5)
    hours = [
        ((w.start - DAY[0]) / timedelta(hours=1), (w.end - DAY[0]) / timedelta(hours=1))
        for w in found
    ]
    assert hours == [
        pytest.approx((0, 2), abs=0.001),
        pytest.approx((10, 14), abs=0.001),
        pytest.approx((22, 24), abs=0.001),
    ]
    assert [(w.opens, w.closes) for w in found] == [(False, True), (True, True), (True, False)]
    assert found[1].duration == pytest.approx(timedelta(hours=4), abs=timedelta(seconds=3))


def test_keel_and_mast_on_the_same_tide():
    # Above 1.5 and below 2.5: from acos(0.5) to acos(-0.5), 2 to 4 h after high water and back.
    found = tidal_windows(HALF_DAILY.heights, *DAY, above=1.5, below=2.5)
    middles = [(w.start + w.duration / 2 - DAY[0]) / timedelta(hours=1) for w in found]
    assert middles == pytest.approx([3, 9, 15, 21], abs=0.001)
    assert all(w.opens and w.closes for w in found)


def test_never_and_always():
    assert tidal_windows(INVENTED.heights, *DAY, above=6.0) == ()
    assert tidal_windows(INVENTED.heights, *DAY, below=6.0) == (Window(*DAY, False, False),)
    with pytest.raises(ValueError, match="give a level"):
        tidal_windows(INVENTED.heights, *DAY)
    with pytest.raises(ValueError, match="before it begins"):
        tidal_windows(INVENTED.heights, *reversed(DAY), above=1)


def test_a_drying_bank_is_missed_at_neaps_and_bared_at_springs():
    # Neap low water stands above a bank that dries 1.6 m: it does not show at all that day.
    neaps = datetime(2026, 10, 20, tzinfo=UTC), datetime(2026, 10, 21, tzinfo=UTC)
    assert tidal_windows(INVENTED.heights, *neaps, below=1.6) == ()
    assert len(tidal_windows(INVENTED.heights, *DAY, below=1.6)) >= 2


@given(st.floats(0.2, 5.2), st.integers(0, 365))
def test_inside_a_window_the_height_holds_and_outside_it_does_not(level, day):
    start = DAY[0] + timedelta(days=day)
    end = start + timedelta(days=1)
    found = tidal_windows(INVENTED.heights, start, end, above=level)
    times = [start + timedelta(minutes=n) for n in range(1440)]
    high = INVENTED.heights(times) >= level
    inside = np.array([any(w.start <= t <= w.end for w in found) for t in times])
    near = np.array(
        [
            any(abs(t - edge) <= timedelta(seconds=2) for w in found for edge in (w.start, w.end))
            for t in times
        ]
    )
    assert (inside == high)[~near].all()
    for window in found:
        whole = window.to_minutes()
        assert window.start <= whole.start <= whole.end <= max(window.end, whole.start)
        assert whole.start.second == whole.start.microsecond == 0


def test_a_brief_dip_below_a_level_is_not_missed():
    turn = next(t for t in INVENTED.extremes(*DAY) if t.kind == "low")
    [bared] = tidal_windows(INVENTED.heights, *DAY, below=turn.height + 0.0005)
    assert bared.start < turn.time < bared.end
    assert bared.duration < timedelta(minutes=10)


def test_windows_at_a_secondary_port_by_a_shortcut():
    port = SecondaryPort(INVENTED, Offsets(-28, metres=-0.5), Offsets(-10, metres=0.1))
    reach = timedelta(hours=13)
    height_at = through(port.extremes(DAY[0] - reach, DAY[1] + reach), COSINE)
    found = tidal_windows(height_at, *DAY, above=2.0)
    assert len(found) == 2 or not (found[0].opens and found[-1].closes)
    for window in found:
        edges = [
            t for t, real in ((window.start, window.opens), (window.end, window.closes)) if real
        ]
        assert height_at(edges) == pytest.approx([2.0] * len(edges), abs=0.002)
    with pytest.raises(ValueError, match="is not between"):
        height_at(DAY[1] + 3 * reach)
