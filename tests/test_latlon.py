import contextlib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from navlib import latlon
from navlib.notation import Impossible, Misread, Unclear

# Common practice: 58.78276 N is 58°46.97' N is 58°46'58" N.
LAT, LON = 58 + 46.97 / 60, -(7 + 11.64 / 60)

LATITUDES = [
    "58°46'.97N", "58°46.97'N", "58 46.97 N", "58-46.97N", "N58 46.97", "5846.97N",
    "58° 46,97′ N", "n 58°46·97’", "58 deg 46.97 min north", "LAT 58°46.97'N", "+58°46.97'",
]  # fmt: skip

POSITIONS = [
    "58°46.97'N 007°11.64'W", "58°46.97'N, 7°11.64'W", "58°46'.97N 7°11'.64W",
    "58 46.97 N 7 11.64 W", "58 46.97N / 7 11.64W", "58-46.97N 007-11.64W", "N58 46.97 W7 11.64",
    "5846.97N 00711.64W", "Lat 58° 46,97' N, Long 7° 11,64' W", "58:46.97 n 7:11.64 w",
    "+58 46.97 -7 11.64", "58°46.97'N  7°11.64' west",
]  # fmt: skip


@pytest.mark.parametrize("text", LATITUDES)
def test_latitude_is_read_as_people_write_it(text):
    assert latlon.parse_latitude(text) == pytest.approx(LAT, abs=1e-9)


@pytest.mark.parametrize("text", POSITIONS)
def test_position_is_read_as_people_write_it(text):
    assert latlon.parse(text) == pytest.approx((LAT, LON), abs=1e-9)
    assert latlon.read(text).form == "minutes"


@pytest.mark.parametrize(
    ("text", "form"),
    [
        ("58 46 58 N 7 11 38 W", "seconds"),
        ("58°46'58\"N 7°11'38''W", "seconds"),
        ("584658N 0071138W", "seconds"),
        ("58.78276N 7.19400W", "degrees"),
        ("+58.78276 -7.19400", "degrees"),
        ("58.78276°, -7.194°", "degrees"),
        ("58.78276 -7.19400", "degrees"),
    ],
)
def test_seconds_and_decimal_degrees_are_told_from_minutes(text, form):
    read = latlon.read(text)
    assert read.form == form
    assert read.place == pytest.approx((LAT, LON), abs=0.6 / 3600)


@pytest.mark.parametrize(
    ("text", "error", "words"),
    [
        ("58.4697", Unclear, "58 degrees and 46 minutes"),
        ("58.46 N 7.11 W", Unclear, "may be decimal degrees"),
        ("58 46.97, 7 11.64", Unclear, "N or S is missing"),
        ("58°46.97'N", Unclear, "only one"),
        ("58 46.97 N 11.64", Unclear, "E or W is missing"),
        ("58 N 46.97 N", Unclear, "does not go with"),
        ("5846.97N 711.64W", Unclear, "run together"),
        ("58.5 46.97 N 7 11 W", Unclear, "only the last number"),
        ("58'46.97°N 7 11 W", Unclear, "out of order"),
        ("-58 46.97 S 7 11 W", Unclear, "says twice"),
        ("58 46 97 N 7 11 38 W", Impossible, "97 seconds"),
        ("58 64.97 N 7 11.64 W", Impossible, "64.97 minutes"),
        ("90 00.01 N 7 11.64 W", Impossible, "never more than 90"),
        ("58 46 N 180 01 W", Impossible, "never more than 180"),
        ("north of the head", Impossible, "no figures"),
        ("", Impossible, "no figures"),
    ],
)
def test_what_cannot_be_read_is_told_in_words(text, error, words):
    with pytest.raises(error, match=words):
        latlon.parse(text) if text != "58.4697" else latlon.parse_latitude(text)


def test_missing_letters_are_taken_from_nearby_and_said():
    read = latlon.read("58 46.97, 7 11.64", near=(58.7, -7.2))
    assert read.place == pytest.approx((LAT, LON))
    assert len(read.assumed) == 2
    south = latlon.parse("58 46.97, 7 11.64", near=(-58, 7))
    assert south == pytest.approx((-LAT, -LON))


def test_exchanged_halves_with_letters_are_put_right_and_said():
    read = latlon.read("7°11.64'W 58°46.97'N")
    assert read.place == pytest.approx((LAT, LON))
    assert read.assumed == ("Latitude comes first, then longitude.",)


@pytest.mark.parametrize(
    ("lat", "lon", "form", "places", "text"),
    [
        (LAT, LON, "minutes", None, "58°46.97'N 007°11.64'W"),
        (58.78276, -7.194, "minutes", 1, "58°47.0'N 007°11.6'W"),
        (58.78276, -7.194, "seconds", None, "58°46'58\"N 007°11'38\"W"),
        (58.78276, -7.194, "degrees", None, "58.78276°N 7.19400°W"),
        (-0.05, 179.99999, "minutes", 1, "00°03.0'S 180°00.0'E"),
        (58.99999, 9.9999, "minutes", 2, "59°00.00'N 009°59.99'E"),
        (58.99999, 9.9999, "seconds", 0, "59°00'00\"N 010°00'00\"E"),
        (0, 0, "minutes", 0, "00°00'N 000°00'E"),
    ],
)
def test_positions_are_written_as_the_trade_does(lat, lon, form, places, text):
    assert latlon.format(lat, lon, form, places) == text


def test_no_position_off_the_earth_is_written():
    for lat, lon in [(90.1, 0), (0, 181), (float("nan"), 0)]:
        with pytest.raises(ValueError, match="not on the Earth"):
            latlon.format(lat, lon)


@given(
    lat=st.floats(-90, 90),
    lon=st.floats(-180, 180),
    form=st.sampled_from(["minutes", "seconds", "degrees"]),
    places=st.integers(0, 6),
)
def test_what_is_written_is_read_back(lat, lon, form, places):
    unit = {"minutes": 1 / 60, "seconds": 1 / 3600, "degrees": 1}[form]
    back = latlon.read(latlon.format(lat, lon, form, places))
    assert back.form == form
    assert not back.assumed
    assert back.place == pytest.approx((lat, lon), abs=unit * 10**-places * 0.5 + 1e-9)


@given(st.text() | st.text("0123456789.,°'\" NSEW+-", max_size=25))
def test_any_text_is_a_position_or_a_misreading(text):
    with contextlib.suppress(Misread):
        lat, lon = latlon.parse(text, near=(58, -7))
        assert abs(lat) <= 90
        assert abs(lon) <= 180
