"""Angles as answers: what is accepted, noted, asked about and refused."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from navlib.bearings import NORTHS
from navlib.chain.kind import Verdict
from navlib.kinds.angles import Angle, Bearing, EastWest

ACCEPT, NOTE, QUERY, REJECT = Verdict

KINDS = [
    Bearing(), Bearing("M", 5), Bearing("G", 0.5), Bearing("C", points=True),
    Bearing(letter_needed=True), EastWest(), EastWest(0.5), EastWest(1 / 60),
    Angle(), Angle(from_bow=True), Angle(rounding=0.1), Angle(from_bow=True, rounding=0.5),
]  # fmt: skip

SPOKEN = ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")
KIND = st.sampled_from(KINDS)

READ = [  # kind, what was written, verdict, value
    (Bearing(), "042°T", ACCEPT, 42),
    (Bearing(), "042 (T)", ACCEPT, 42),
    (Bearing(), "360T", ACCEPT, 0),
    (Bearing(), "N42°E true", ACCEPT, 42),
    (Bearing(), "042", NOTE, 42),
    (Bearing(), "42°T", NOTE, 42),
    (Bearing(), "zero four two", NOTE, 42),
    (Bearing(), "042.0°T", NOTE, 42),
    (Bearing(), "042°M", QUERY, None),
    (Bearing(), "42.5", QUERY, None),
    (Bearing(), "0420", QUERY, None),
    (Bearing(), "NE", QUERY, None),
    (Bearing(), "  ", QUERY, None),
    (Bearing(), "412", REJECT, None),
    (Bearing(), "-42", REJECT, None),
    (Bearing(rounding=0.5), "095.5T", ACCEPT, 95.5),
    (Bearing(points=True), "WSW", ACCEPT, 247.5),
    (Bearing(points=True), "about 240", NOTE, 240),
    (Bearing(letter_needed=True), "042", QUERY, None),
    (Bearing(letter_needed=True), "042T", ACCEPT, 42),
    (EastWest(), "2°22'W", ACCEPT, -(2 + 22 / 60)),
    (EastWest(), "-2", ACCEPT, -2),
    (EastWest(), "2", QUERY, None),
    (EastWest(), "2.30W", QUERY, None),
    (EastWest(), "2°70'W", REJECT, None),
    (Angle(), "35", ACCEPT, 35),
    (Angle(), "35°30'", ACCEPT, 35.5),
    (Angle(), "35°T", QUERY, None),
    (Angle(), "-35", REJECT, None),
    (Angle(), "361", REJECT, None),
    (Angle(from_bow=True), "325° relative", ACCEPT, 325),
    (Angle(from_bow=True), "red 35", ACCEPT, 325),
    (Angle(from_bow=True), "G35", ACCEPT, 35),
    (Angle(from_bow=True), "35 degrees to port", ACCEPT, 325),
    (Angle(from_bow=True), "35° on the starboard bow", ACCEPT, 35),
    (Angle(from_bow=True), "-35", QUERY, None),
    (Angle(from_bow=True), "red 200", REJECT, None),
]


@pytest.mark.parametrize(("kind", "text", "verdict", "value"), READ)
def test_verdicts(kind, text, verdict, value):
    reading = kind.read(text)
    assert reading.verdict is verdict
    assert reading.value == (None if value is None else pytest.approx(value))
    assert bool(reading.says) == (verdict is not ACCEPT)


def test_another_north_is_named_and_never_converted():
    (says,) = Bearing("T").read("042°M").says
    assert "you wrote magnetic; the question asks for true" in says
    (says,) = Bearing("M").read("grid 042").says
    assert "you wrote grid; the question asks for magnetic" in says


@given(
    st.integers(0, 360),
    st.sampled_from(sorted(NORTHS)),
    st.sampled_from(["{d:03}°{n}", "{d:03}{n}", "{d:03} ({n})", "{n}{d:03}", "{d:03} {word}",
                     "{d:03}º {n}", " {d:03} °  {n} ", "{d:03} degrees {word}", "{spoken} {word}",
                     "{pole}{q}{side} {word}", "{pole} {q}° {side} ({n})", "{d}{n}"]),
    st.sampled_from([str.lower, str.upper, str]),
)  # fmt: skip
def test_a_bearing_reads_the_same_however_it_is_written(degrees, north, form, case):
    east = degrees <= 180
    off_north = degrees if east else 360 - degrees
    written = form.format(
        d=degrees,
        n=north,
        word=NORTHS[north],
        spoken=" ".join(SPOKEN[int(figure)] for figure in f"{degrees:03}"),
        pole="N" if off_north <= 90 else "S",
        q=off_north if off_north <= 90 else 180 - off_north,
        side="E" if east else "W",
    )
    reading = Bearing(north).read(case(written))
    assert reading.value == degrees % 360
    assert reading.verdict is (NOTE if "{d}" in form and degrees < 100 else ACCEPT)


@given(
    st.integers(-180 * 60, 180 * 60),
    st.sampled_from(["{d}°{m:02}'{s}", "{d}° {m}’ {s}", "{d} {m:02} {word}", "{s} {d}°{m:02}′",
                     "{d} deg {m} min {s}", "var {d}°{m:02}'{s}", "{minus}{d}°{m:02}'"]),
)  # fmt: skip
def test_east_and_west_read_the_same_however_they_are_written(minutes, form):
    degrees, part = divmod(abs(minutes), 60)
    side, word, minus = ("W", "west", "−") if minutes < 0 else ("E", "East", "+")
    written = form.format(d=degrees, m=part, s=side, word=word, minus=minus)
    reading = EastWest().read(written)
    assert reading.verdict is ACCEPT
    assert reading.value == pytest.approx(minutes / 60)


@given(KIND, st.floats(-400, 400))
def test_what_is_written_is_read_back_within_half_the_rounding(kind, value):
    again = kind.read(kind.write(value))
    assert again.verdict is ACCEPT
    assert abs(kind.apart(again.value, value)) <= kind.rounding / 2 + 1e-9
    assert kind.write(again.value) == kind.write(value)
    assert kind.read(kind.example).verdict is ACCEPT


@given(KIND, st.floats(-180, 180), st.floats(-179, 179))
def test_apart_measures_a_shift(kind, value, by):
    assert kind.apart(kind.shift(value, by), value) == pytest.approx(by, abs=1e-9)


@given(KIND, st.text() | st.text("0123456789.,-+°'\"EWNSTMGCredbow()½ /"))
def test_no_text_breaks_a_reader(kind, text):
    reading = kind.read(text)
    assert (reading.value is None) == (reading.verdict in (QUERY, REJECT))
    assert reading.says or reading.verdict is ACCEPT


def test_widths_carry_their_sign():
    assert Bearing().write_width(2.0) == "2°"


def test_a_whole_rose_is_read_as_the_variation_printed_on_it():
    for text in ("var 4 W 2020 (14'E)", "4°00'W 2020 (14'E)"):
        assert EastWest().read(text).value == -4
    assert EastWest().read("4 W 1985").verdict is Verdict.QUERY
