"""The magnetic model against its published values; the rose and grid convergence by hand."""

import json
from contextlib import suppress
from datetime import UTC, date, datetime, timedelta, timezone
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from pyproj import Proj

from navlib import magnetism
from navlib.magnetism import Rose, parse_rose
from navlib.notation import Misread, Unclear

# World Magnetic Model 2025 test values (NOAA NCEI and BGS); each case names its table.
PUBLISHED = json.loads((Path(__file__).parent / "data" / "wmm2025.json").read_text("utf-8"))


@pytest.mark.parametrize("case", PUBLISHED, ids=lambda case: case["id"])
def test_model_as_published(case):
    place, expected = case["inputs"], case["expected"]
    where = (place["lat_deg"], place["lon_deg"], place["decimal_year"])
    height_m = place["height_km_wgs84"] * 1000
    found = magnetism.variation(*where, height_m)
    assert found == pytest.approx(expected["declination_deg"], abs=0.005)
    change = magnetism.annual_change(*where, height_m) / 60
    assert change == pytest.approx(expected["dD_deg_per_yr"], abs=0.005)
    # The report's formula on the published horizontal field, which is printed to 1 nT or better.
    stated = np.hypot(0.26, 5417 / expected["H_nT"])
    assert magnetism.uncertainty(*where, height_m) == pytest.approx(stated, rel=1e-3)


def test_all_published_values_are_here():
    assert len(PUBLISHED) == 75


def test_off_north_west_scotland():
    # Computed from the model when the training waters were laid out, at 58°48' N 7°15' W.
    here = (58.8, -7.25)
    years = {2025.0: -2.86, 2026.9: -2.43, 2027.5: -2.29, 2030.0: -1.72}
    for year, expected in years.items():
        assert magnetism.variation(*here, year) == pytest.approx(expected, abs=0.005)
    assert magnetism.annual_change(*here, 2026.9) == pytest.approx(13.7, abs=0.05)
    assert magnetism.uncertainty(*here, 2026.9) == pytest.approx(0.43, abs=0.005)


def test_arrays_of_places_keep_their_shape():
    lat, lon = np.meshgrid([50.0, 58.8], [-7.25, 0.0, 10.0])
    many = magnetism.variation(lat, lon, 2026.5)
    assert many.shape == (3, 2)
    assert many[0, 1] == magnetism.variation(58.8, -7.25, 2026.5)
    assert magnetism.annual_change(lat, lon, 2026.5).shape == (3, 2)
    assert type(magnetism.variation(58.8, -7.25, 2026.5)) is float


@pytest.mark.parametrize("when", [2024.99, 2030.01, date(2024, 12, 31), date(2030, 1, 2)])
def test_outside_its_life_the_model_says_which_dates_it_covers(when):
    with pytest.raises(magnetism.OutsideModel, match=r"covers 2025\.0 to 2030\.0"):
        magnetism.variation(58.8, -7.25, when)


@pytest.mark.parametrize("place", [(91, 0, 0), (0, 361, 0), (float("nan"), 0, 0), (0, 0, 9e8)])
def test_no_such_place(place):
    lat, lon, height_m = place
    with pytest.raises(magnetism.OutsideModel):
        magnetism.variation(lat, lon, 2026, height_m)


def test_dates_are_decimal_years():
    assert magnetism.decimal_year(date(2026, 1, 1)) == 2026
    assert magnetism.decimal_year(date(2026, 7, 1)) == 2026 + 181 / 365
    assert magnetism.decimal_year(datetime(2028, 7, 2, 0, tzinfo=UTC)) == 2028.5  # leap year
    east = timezone(timedelta(hours=12))
    assert magnetism.decimal_year(datetime(2026, 1, 1, 12, tzinfo=east)) == 2026
    assert magnetism.decimal_year(2026) == magnetism.decimal_year(datetime(2026, 1, 1)) == 2026
    with pytest.raises(ValueError, match=r"such as 2026\.5"):
        magnetism.decimal_year("next year")


def test_a_rose_is_brought_to_date():
    # 7 years at 14' is 1°38' east, off 4°00' west: 2°22' west (by hand).
    rose = parse_rose("4°00'W 2020 (14'E)")
    when = magnetism.nearest_half_year(date(2026, 11, 15))
    assert when == 2027
    assert rose.variation(when) == pytest.approx(-(2 + 22 / 60))
    # It passes through zero after 240/14 years and goes on to the east.
    assert rose.variation(2020 + 240 / 14) == pytest.approx(0)
    assert rose.variation(2040) == pytest.approx(40 / 60)


@pytest.mark.parametrize(
    "text",
    [
        "4°00'W 2020 (14'E)", "var 4 W 2020 (14'E)", "4W 2020 (14E)", "4° W (2020) 14’ east",
        "Variation 4°00'W (2020), decreasing 14' annually", "4.0°W 2020 (0°14'E)",
        "4°W 2020, decreasing about 14' annually.", "-4 2020 (+14)",
    ],
)  # fmt: skip
def test_roses_as_written(text):
    rose = parse_rose(text, "north sheet")
    assert (rose.printed, rose.year, rose.source) == (-4, 2020, "north sheet")
    assert rose.annual_change == pytest.approx(14)


def test_old_wording_of_the_annual_change():
    assert parse_rose("4°E 1985 increasing 6' annually").annual_change == pytest.approx(6)
    assert parse_rose("4°W 1985 increasing 6' annually").annual_change == pytest.approx(-6)
    assert parse_rose("4°W 1985, annual change nil").annual_change == 0


@pytest.mark.parametrize(
    "text",
    [
        "4 2020 (14'E)",
        "4°W (14'E)",
        "4°W 2020",
        "4°W 2020 (14')",
        "4.30W 2020 (14'E)",
        "0 2020 decreasing 3'",
    ],
)
def test_a_rose_is_not_guessed(text):
    with pytest.raises(Unclear):
        parse_rose(text)


@given(st.integers(-10799, 10800), st.integers(1600, 2100), st.integers(-40, 40))
def test_a_rose_reads_back_as_written(minutes, year, change):
    rose = Rose(minutes / 60, year, change)
    again = parse_rose(rose.write())
    assert (again.printed, again.year) == (pytest.approx(rose.printed), year)
    assert again.annual_change == pytest.approx(change)


@given(st.text() | st.text("0123456789 °'EW()crdeasing.-"))
def test_no_text_breaks_the_rose_reader(text):
    with suppress(Misread):
        parse_rose(text)


@pytest.mark.parametrize("figures", [(181, 2020, 1), (4, 20, 1), (4, 2020, float("inf"))])
def test_a_wrong_rose_is_refused(figures):
    with pytest.raises(ValueError, match="rose"):
        Rose(*figures)


def test_grid_magnetic_angle():
    # One rock, one day: 2.1° east on the National Grid, 3.9° west on UTM zone 29 (by hand).
    assert magnetism.grid_magnetic_angle(-2.4, -4.5) == pytest.approx(2.1)
    assert magnetism.grid_magnetic_angle(-2.4, 1.5) == pytest.approx(-3.9)


@pytest.mark.parametrize(("grid", "meridian"), [("EPSG:27700", -2), ("EPSG:32629", -9)])
@given(st.floats(-70, 70), st.floats(-5, 5))
def test_convergence_shortcut_is_within_a_hundredth_of_pyproj(grid, meridian, lat, off):
    exact = Proj(grid).get_factors(meridian + off, lat).meridian_convergence
    assert magnetism.convergence_shortcut(lat, meridian + off, meridian) == pytest.approx(
        exact, abs=0.01
    )


def test_convergence_shortcut_against_a_published_value():
    # pyproj README, example of get_factors on NZTM2000 (40° S 178° E, 5° from its meridian).
    shortcut = magnetism.convergence_shortcut(-40, 178, 173)
    assert shortcut == pytest.approx(-3.2187882335062867, abs=0.01)
