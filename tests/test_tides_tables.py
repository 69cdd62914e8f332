"""Tide tables on a clock, today's range, and secondary ports by tabulated differences."""

from datetime import UTC, date, datetime, timedelta
from itertools import pairwise
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tide_ports import INVENTED

from navlib.tides import (
    Differences,
    Offsets,
    SecondaryPort,
    Tide,
    Turn,
    Water,
    day_range,
    day_table,
    days_table,
    month_table,
    ranges,
    tidal_levels,
    tide_at,
    tides,
    week_table,
)

LONDON = "Europe/London"


@pytest.mark.parametrize(
    ("day", "hours"), [(date(2026, 3, 29), 23), (date(2026, 10, 25), 25), (date(2026, 7, 1), 24)]
)
def test_a_day_of_a_clock_change_has_its_own_length(day, hours):
    # Clock changes of 2026 in the time zone database: 29 March and 25 October, 0100 UTC.
    clock = ZoneInfo(LONDON)
    midnight = datetime(day.year, day.month, day.day, tzinfo=clock).astimezone(UTC)
    of_the_day = day_table(INVENTED, day, LONDON)
    assert of_the_day == tuple(
        turn.at(clock) for turn in INVENTED.extremes(midnight, midnight + timedelta(hours=hours))
    )
    assert {turn.time.date() for turn in of_the_day} == {day}


def test_a_clock_change_moves_the_figures_by_an_hour_not_the_water():
    turns = day_table(INVENTED, date(2026, 10, 25), LONDON)
    names = [turn.time.tzname() for turn in turns]
    assert (names[0], names[-1]) == ("BST", "GMT")
    before, after = next((a, b) for a, b in pairwise(turns) if a.time.fold == 0)
    on_the_clock = (
        (after.time.hour - before.time.hour) * 60 + after.time.minute - before.time.minute
    )
    really = Tide(before, after).duration
    assert really.total_seconds() / 60 - on_the_clock == pytest.approx(60, abs=1)


@given(st.dates(date(2020, 1, 1), date(2040, 1, 1)), st.sampled_from([LONDON, "Pacific/Apia"]))
def test_a_week_is_its_days_and_leaves_nothing_out(first, zone):
    week = week_table(INVENTED, first, zone)
    clock = ZoneInfo(zone)
    start, end = (
        datetime(d.year, d.month, d.day, tzinfo=clock) for d in (first, first + timedelta(days=7))
    )
    assert list(week) == [first + timedelta(days=n) for n in range(7)]
    assert [t for day in week.values() for t in day] == [
        t.at(clock) for t in INVENTED.extremes(start, end)
    ]
    assert week[first] == day_table(INVENTED, first, zone)


def test_a_month_has_its_days_and_the_ports_own_clock():
    february = month_table(INVENTED, 2028, 2)
    assert (min(february), max(february)) == (date(2028, 2, 1), date(2028, 2, 29))
    assert month_table(INVENTED, 2026, 12).keys() == {date(2026, 12, n) for n in range(1, 32)}
    july, in_ut = month_table(INVENTED, 2028, 7), month_table(INVENTED, 2028, 7, "UT")
    assert july == month_table(INVENTED, 2028, 7, LONDON) != in_ut
    assert july[date(2028, 7, 8)][0].time.utcoffset() == timedelta(hours=1)


def test_high_water_comes_fifty_minutes_later_each_day():
    # Common practice: from high water to high water 12 h 25 on the average.
    highs = [
        turn.time.timestamp()
        for turn in INVENTED.extremes(
            datetime(2026, 1, 1, tzinfo=UTC), datetime(2026, 12, 22, tzinfo=UTC)
        )
        if turn.kind == Water.HIGH
    ]
    assert (highs[-1] - highs[0]) / (len(highs) - 1) / 3600 == pytest.approx(12.42, abs=0.01)


def test_an_unknown_zone_is_named():
    with pytest.raises(ValueError, match="Atlantis"):
        day_table(INVENTED, date(2026, 1, 1), "Atlantis/Harbour")


def hw(text, height):
    return Turn(datetime.fromisoformat(f"2026-07-15T{text}Z"), height, Water.HIGH)


def lw(text, height):
    return Turn(datetime.fromisoformat(f"2026-07-15T{text}Z"), height, Water.LOW)


def test_ranges_of_a_day():
    # Worked by hand from the definition.
    turns = [lw("04:10", 0.7), hw("10:23", 4.6), lw("16:38", 0.9), hw("22:50", 4.4)]
    assert ranges(turns) == pytest.approx((3.9, 3.7, 3.5))
    springs, neaps = date(2026, 10, 28), date(2026, 10, 20)
    found = tidal_levels(INVENTED)
    assert found.spring_or_neap(day_range(INVENTED, springs)) == "springs"
    assert found.spring_or_neap(day_range(INVENTED, neaps)) == "neaps"
    whole = days_table(INVENTED, springs - timedelta(days=1), 2)
    yesterday, today = whole.values()
    expected = ranges((yesterday[-1], *today))
    assert day_range(INVENTED, springs) == pytest.approx(sum(expected) / len(expected))


def test_a_tide_is_a_high_and_the_next_low():
    tide = Tide(hw("10:23", 4.6), lw("16:38", 0.9))
    assert (tide.range, tide.duration) == (pytest.approx(3.7), timedelta(hours=6, minutes=15))
    assert not tide.rising
    assert str(tide.high) == "HW 1023 UTC 4.6 m"
    for start, end in [
        (hw("10:23", 4.6), hw("22:50", 4.4)),
        (lw("16:38", 0.9), hw("10:23", 4.6)),
        (hw("10:23", 0.9), lw("16:38", 4.6)),
    ]:
        with pytest.raises(ValueError, match=r"is not one tide|exchanged"):
            Tide(start, end)


def test_the_tide_running_now_holds_now():
    for hour in range(24):
        now = datetime(2026, 10, 25, hour, tzinfo=UTC)
        tide = tide_at(INVENTED, now)
        assert tide.start.time <= now < tide.end.time


# Worked by hand from the definition, straight lines between tabulated columns: 0600 -0050,
# 1200 -0020; MHWS 4.8 -0.6, MHWN 3.6 -0.3.
ROW = Differences(hours=(6, 12), minutes=(-50, -20), levels=(4.8, 3.6), metres=(-0.6, -0.3))


@pytest.mark.parametrize(
    ("hour", "minutes"),
    [
        (6, -50),
        (12, -20),
        (10 + 23 / 60, -28),
        (9, -35),
        (15, -35),  # on the way back to 1800, which is headed as 0600 is
        (18, -50),
        (0, -20),
        (23.99, -20),
        (22 + 23 / 60, -28),
    ],
)
def test_time_difference_between_the_tabulated_hours(hour, minutes):
    assert ROW.minutes_at(hour) == pytest.approx(minutes, abs=0.5)


@pytest.mark.parametrize(
    ("height", "metres"), [(4.8, -0.6), (3.6, -0.3), (4.6, -0.55), (5.2, -0.7), (3.2, -0.2)]
)
def test_height_difference_between_and_beyond_springs_and_neaps(height, metres):
    assert ROW.metres_at(height) == pytest.approx(metres)


def test_differences_are_taken_in_table_time_whatever_clock_the_turn_is_on():
    port = SecondaryPort(INVENTED, ROW, Offsets(0))
    standard = hw("10:23", 4.6)
    assert port.shift(standard).time == datetime(2026, 7, 15, 9, 54, 55, tzinfo=UTC)
    assert port.shift(standard).height == pytest.approx(4.05)
    summer = port.shift(standard.at(LONDON))
    assert summer == port.shift(standard).at(LONDON)
    in_summer_time = SecondaryPort(INVENTED, ROW, Offsets(0), table_zone="Etc/GMT-1")
    assert in_summer_time.shift(standard).time == datetime(2026, 7, 15, 9, 59, 55, tzinfo=UTC)


def test_a_difference_across_a_clock_change_is_real_minutes():
    port = SecondaryPort(INVENTED, Offsets(-28), Offsets(0))
    after = Turn(datetime(2026, 3, 29, 2, 10, tzinfo=ZoneInfo(LONDON)), 4.0, Water.HIGH)
    assert port.shift(after).time.astimezone(UTC) == datetime(2026, 3, 29, 0, 42, tzinfo=UTC)
    assert f"{port.shift(after).time:%H%M %Z}" == "0042 GMT"


def test_a_secondary_port_has_a_table_as_any_port_has():
    low = Differences((3, 9), (-10, 15), (0.7, 2.0), (0.1, 0.2))
    port = SecondaryPort(INVENTED, ROW, low, zone=LONDON)
    week = week_table(port, date(2026, 10, 22))
    turns = [turn for day in week.values() for turn in day]
    assert [t.at(LONDON) for t in port.extremes(turns[0].time, turns[-1].time)] == turns[:-1]
    for tide in tides(turns):
        assert timedelta(hours=4) < tide.duration < timedelta(hours=8)


@pytest.mark.parametrize(
    ("columns", "words"),
    [
        (((6, 18), (1, 2), (4.8, 3.6), (0, 0)), "hours"),
        (((0, 6), (1, 2), (4, 4), (0, 0)), "levels"),
    ],
)
def test_columns_that_do_not_differ_are_refused(columns, words):
    with pytest.raises(ValueError, match=words):
        Differences(*columns)
