"""Clock times and durations as people write them, midnight, zones and the days clocks change."""

from contextlib import suppress
from datetime import UTC, date, datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from navlib import clock
from navlib.notation import Impossible, Misread, Unclear

LONDON = "Europe/London"

# Forms in common use, and what they mean in minutes from midnight.
CLOCKS = {
    "1445": 885, "14:45": 885, "14.45": 885, "14·45": 885, "14h45": 885, "14 45": 885,
    "1445 hrs": 885, "1445h": 885, "0015": 15, "00:15": 15, "0000": 0, "1200": 720,
    "0033 next day": 33, "0033 (next day)": 33,
}  # fmt: skip
NOTED_CLOCKS = {
    "2.45 pm": 885, "2:45PM": 885, "2.45 p.m.": 885, "2 pm": 840, "12.15 am": 15, "12.15 pm": 735,
    "noon": 720, "12 noon": 720, "0:15": 15, "2400": 1440, "14:45:30": 885.5, "2.45 am": 165,
}  # fmt: skip
DURATIONS = {
    "1h45": 105, "1:45": 105, "1 h 45 min": 105, "105 min": 105, "1.75 h": 105, "1¾ h": 105,
    "1 3/4 hours": 105, "1,75 h": 105, "1 hour and 45 minutes": 105, "1 HR 45 MINS": 105,
    "1.45 h": 87, "½ h": 30, "45'": 45, "90 s": 1.5, "1 h": 60, "1 h 08": 68, "26 h 10": 1570,
    "about 20 min": 20,
}  # fmt: skip


@pytest.mark.parametrize("text", CLOCKS)
def test_clock_times_read(text):
    written = clock.read_clock(text)
    assert (written.minute, written.zone, written.notes) == (CLOCKS[text], None, ())


@pytest.mark.parametrize("text", NOTED_CLOCKS)
def test_clock_times_read_with_a_note(text):
    written = clock.read_clock(text)
    assert written.minute == NOTED_CLOCKS[text]
    assert len(written.notes) == 1


@pytest.mark.parametrize(
    ("text", "minute", "offset_hours"),
    [
        ("1445 UT", 885, 0), ("1445Z", 885, 0), ("1445 gmt", 885, 0), ("1445 (UTC)", 885, 0),
        ("1545 BST", 945, 1), ("1545bst", 945, 1), ("3.45 pm BST", 945, 1), ("1445 UT+1", 885, 1),
        ("0915 UTC-03:30", 555, -3.5),
    ],
)  # fmt: skip
def test_zones_behind_a_time(text, minute, offset_hours):
    written = clock.read_clock(text)
    zone = clock.zone_called(written.zone, LONDON)
    assert written.minute == minute
    assert zone.utcoffset(None).total_seconds() / 3600 == offset_hours


def test_zone_names_come_from_where_the_clocks_are():
    assert clock.zone_called("NZDT", "Pacific/Auckland").utcoffset(None).total_seconds() == 46800
    assert clock.zone_called("LT", LONDON) is clock.zone_info(LONDON)
    with pytest.raises(Unclear, match=r"not one used here \(UT, GMT, LT, BST\)"):
        clock.zone_called("CEST", LONDON)
    with pytest.raises(Unclear):
        clock.zone_called("LT", "UT")
    with pytest.raises(ValueError, match="give UT or a name such as"):
        clock.zone_info("Europe/Atlantis")


@pytest.mark.parametrize(
    ("text", "kind", "says"),
    [
        ("2:45", Unclear, "0245 or 1445"), ("945", Unclear, "0945 or 2145"),
        ("midnight", Unclear, "0000"), ("14", Unclear, "1445"), ("13:45 am", Unclear, "1.45 am"),
        ("", Unclear, ""), ("noonish", Unclear, ""), ("14:5", Unclear, ""),
        ("0860", Impossible, "00 to 59"), ("2433", Impossible, "take off 24 h"),
        ("2401", Impossible, "take off 24 h"), ("14:45:60", Impossible, "00 to 59"),
    ],
)  # fmt: skip
def test_clock_times_asked_about_or_refused(text, kind, says):
    with pytest.raises(kind) as caught:
        clock.read_clock(text)
    assert says in str(caught.value)


@pytest.mark.parametrize("text", DURATIONS)
def test_durations_read(text):
    assert clock.read_duration(text) == (pytest.approx(DURATIONS[text]), ())


@pytest.mark.parametrize(
    ("text", "unit", "minutes"),
    [("68", "", 68), ("20", "min", 20), ("22.5", "min", 22.5), ("1 h 8", "", 68)],
)
def test_durations_read_with_a_note(text, unit, minutes):
    read, notes = clock.read_duration(text, unit)
    assert read == minutes
    assert len(notes) == 1


@pytest.mark.parametrize(
    ("text", "kind", "says"),
    [
        ("1.45", Unclear, "1 h 45 or 1 h 27"), ("20", Unclear, "20 min or 20 h"),
        ("1.75", Unclear, "1.75 min or 1.75 h"), ("0145", Unclear, "time of day or a duration"),
        ("1.5 h 20 min", Unclear, ""), ("two hours", Unclear, ""), ("", Unclear, ""),
        ("1h75", Impossible, "carry at 60"), ("1:75", Impossible, ""), ("-5 min", Impossible, ""),
    ],
)  # fmt: skip
def test_durations_asked_about_or_refused(text, kind, says):
    with pytest.raises(kind) as caught:
        clock.read_duration(text)
    assert says in str(caught.value)


def test_durations_written():
    written = [clock.write_duration(m) for m in (68, 45, 59.5, 119.7, 0, -68, 1570)]
    assert written == ["1 h 08", "45 min", "1 h 00", "2 h 00", "0 min", "-1 h 08", "26 h 10"]


# Worked by hand: 2325 and 1 h 08 make 0033 the next day.
def test_midnight_carries_the_date():
    assert clock.clock_sum(23 * 60 + 25, 68) == (33, 1)
    assert clock.clock_sum(10, -20) == (1430, -1)
    start = clock.instant(date(2026, 12, 31), 23 * 60 + 25)
    assert clock.later(start, 68) == datetime(2027, 1, 1, 0, 33, tzinfo=UTC)
    assert clock.later(clock.later(start, 68), -68) == start


# The clocks change at 0100 UT on the last Sunday of March and of October: Directive 2000/84/EC,
# articles 2 and 3; for the United Kingdom the Summer Time Order 2002.
def test_days_on_which_the_clocks_change():
    spring, autumn = date(2026, 3, 29), date(2026, 10, 25)
    assert clock.write_clock(datetime(2026, 3, 29, 0, 59, tzinfo=UTC), LONDON) == "0059 GMT"
    assert clock.write_clock(datetime(2026, 3, 29, 1, 0, tzinfo=UTC), LONDON) == "0200 BST"
    for day, hours in ((spring, 23), (autumn, 25), (date(2026, 6, 1), 24)):
        length = clock.minutes_between(
            clock.instant(day, 0, LONDON), clock.instant(day, clock.DAY, LONDON)
        )
        assert length == hours * 60
    with pytest.raises(Impossible, match="0230 BST"):
        clock.instant(spring, 90, LONDON)
    with pytest.raises(Unclear, match="0130 BST or 0130 GMT"):
        clock.instant(autumn, 90, LONDON)
    assert clock.instant(spring, 150, LONDON) == datetime(2026, 3, 29, 1, 30, tzinfo=UTC)


def test_zones_are_named_where_shown():
    when = datetime(2026, 6, 1, 14, 45, tzinfo=UTC)
    zones = ["UT", LONDON, "Pacific/Auckland", "America/Sao_Paulo", "Pacific/Marquesas"]
    assert [clock.write_clock(when, zone) for zone in zones] == [
        "1445 UT", "1545 BST", "0245 NZST", "1145 UT-3", "0515 UT-9:30",
    ]  # fmt: skip
    assert clock.write_clock(when, LONDON, named=False) == "1545"
    with pytest.raises(ValueError, match="no zone"):
        clock.write_clock(datetime(2026, 6, 1, 14, 45))


def test_rounding_to_the_safe_side():
    when = datetime(2026, 6, 1, 12, 22, 34, tzinfo=UTC)
    minutes = [clock.whole_minutes(when, side).minute for side in ("near", "earlier", "later")]
    assert minutes == [23, 22, 23]
    assert clock.whole_minutes(when, "earlier", 5).minute == 20
    exact = datetime(2026, 6, 1, 12, 22, tzinfo=UTC)
    assert {clock.whole_minutes(exact, side) for side in ("near", "earlier", "later")} == {exact}


MINUTE = st.integers(0, clock.DAY - 1)


@given(MINUTE, st.sampled_from(["", " UT", "Z", " hrs", " BST"]))
def test_every_way_of_writing_a_time_reads_the_same(minute, tail):
    hour, left = divmod(minute, 60)
    for between in ("", ":", ".", "h", " ", " : ", "·", ","):
        assert clock.read_clock(f" {hour:02d}{between}{left:02d}{tail} ").minute == minute
    half, twelve = "am" if hour < 12 else "pm", (hour - 1) % 12 + 1
    for between in (":", ".", ""):
        assert clock.read_clock(f"{twelve}{between}{left:02d} {half}{tail}").minute == minute


@given(st.integers(0, 4000))
def test_every_way_of_writing_a_duration_reads_the_same(minutes):
    hours, left = divmod(minutes, 60)
    forms = [
        f"{hours}h{left:02d}", f"{hours}:{left:02d}", f"{hours} H {left:02d} MIN", f"{minutes}min",
        f"{hours} hours {left:02d} minutes", f"{minutes} m", clock.write_duration(minutes),
        f"{minutes * 60} s",
    ]  # fmt: skip
    for form in forms:
        assert clock.read_duration(form) == (pytest.approx(minutes), ())
    assert clock.read_duration(f"{minutes / 60!r} h")[0] == pytest.approx(minutes)


@given(st.datetimes(datetime(2000, 1, 1), datetime(2036, 1, 1), timezones=st.just(UTC)), MINUTE)
def test_instants_survive_writing_in_a_named_zone(when, minutes):
    when = clock.whole_minutes(when)
    assert clock.minutes_between(when, clock.later(when, minutes)) == minutes
    for zone in ("UT", LONDON, "Pacific/Auckland"):
        written = clock.read_clock(clock.write_clock(when, zone))
        where = clock.zone_called(written.zone, zone)
        day = when.astimezone(where).date()
        assert clock.instant(day, written.minute, where) == when


@given(st.text() | st.text("0123456789 :.hmapUTBS½'-+()min", max_size=12))
def test_any_text_is_read_or_misread(text):
    for read in (clock.read_clock, clock.read_duration):
        with suppress(Misread):
            read(text)
