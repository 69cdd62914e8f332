import contextlib
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from published import cases

from navlib import gridref
from navlib.notation import Impossible, Misread, Unclear

# Ordnance Survey guides and developer packs, IOGP, GEOTRANS, GeographicLib; each item of the file
# names its source.


@pytest.mark.parametrize("item", cases("national_grid.json", "gridref_to_EN_sw_corner"))
def test_reference_is_read_as_published(item):
    expected = item["expected"]
    square = gridref.read(item["inputs"]["ref"])
    assert square == (expected["E"], expected["N"])
    assert square.size_m == expected["square_m"]


@pytest.mark.parametrize("item", cases("national_grid.json", "EN_to_gridref_10fig"))
def test_reference_is_written_as_published(item):
    i, expected = item["inputs"], item["expected"]
    assert gridref.format(i["E"], i["N"], 10).replace(" ", "") == expected["ref"]
    assert gridref.format(i["E"], i["N"]).replace(" ", "") == expected["ref6"]


@pytest.mark.parametrize(
    ("figures", "text"),
    [
        (0, "HV"),
        (2, "HV 9 0"),
        (4, "HV 96 02"),
        (6, "HV 965 023"),
        (8, "HV 9658 0234"),
        (10, "HV 96580 02347"),
    ],
)
def test_a_reference_is_cut_off_not_rounded(figures, text):
    assert gridref.format(96_580, 1_002_347, figures) == text
    east, north = gridref.parse(text)
    size = gridref.square_size(figures)
    assert east <= 96_580 < east + size
    assert north <= 1_002_347 < north + size


@pytest.mark.parametrize(
    ("east", "north", "text"),
    [
        (99_999, 1_000_000, "HV 999 000"),
        (100_000, 1_000_000, "HW 000 000"),
        (99_999.999, 999_999.999, "NA 999 999"),
        (100_000, 999_999, "NB 000 999"),
        (0, 0, "SV 000 000"),
        (-1e-9, 0, "RZ 999 000"),
        (-1_000_000, 1_999_999, "AA 000 999"),
        (1_499_999, -500_000, "ZZ 999 000"),
    ],
)
def test_letters_change_at_their_lines(east, north, text):
    assert gridref.format(east, north) == text


@pytest.mark.parametrize(
    "text",
    [
        "HV 965 023", "HV965023", "hv 965-023", "Hv-965-023", "H V 965 023", "HV 965,023",
        "  hv  965 \u2013 023 ", "HV 9 6 5 0 2 3",
    ],
)  # fmt: skip
def test_reference_is_read_as_people_write_it(text):
    assert gridref.parse(text) == (96_500, 1_002_300)


@pytest.mark.parametrize(
    "text",
    [
        "96580 1002347", "96580,1002347", "96580, 1002347", "096580 1002347", "E 96580 N 1002347",
        "96580 m E, 1002347 m N", "96 580, 1 002 347", "E96580/N1002347",
    ],
)  # fmt: skip
def test_whole_metres_are_read_as_people_write_them(text):
    assert gridref.parse(text) == (96_580, 1_002_347)
    assert gridref.read(text).size_m == 1


@pytest.mark.parametrize(
    ("text", "error", "words"),
    [
        ("965 023", Unclear, "letters of the 100 km square are missing"),
        ("965023", Unclear, "letters of the 100 km square are missing"),
        ("HV 9650 235", Unclear, "7 figures cannot be halved"),
        ("HV 965 02", Unclear, "5 figures cannot be halved"),
        ("HV 9650 23", Unclear, "same number of figures"),
        ("965 1002347", Unclear, "same number of figures"),
        ("HV 965 O23", Unclear, "O may be meant for 0"),
        ("HV O65 023", Unclear, "O may be meant for 0"),
        ("HV 965 I23", Unclear, "I or L for 1"),
        ("HV 96580 002347 1", Unclear, "ten figures at most"),
        ("H 965 023", Unclear, "by 2 letters"),
        ("29V PF 007 188", Unclear, "begins like a UTM zone"),
        ("HV 96.5 02.3", Unclear, "not letters and then figures"),
        ("HI 965 023", Impossible, "HI is no square"),
        ("the church", Impossible, "no figures"),
        ("", Impossible, "no figures"),
    ],
)
def test_what_cannot_be_read_is_told_in_words(text, error, words):
    with pytest.raises(error, match=words):
        gridref.parse(text)


def test_missing_letters_are_taken_from_nearby_across_the_four_squares():
    near = (99_000, 1_001_000)
    for text, letters in [
        ("965 023", "HV"), ("012 018", "HW"), ("985 991", "NA"), ("012 985", "NB"),
    ]:  # fmt: skip
        assert gridref.parse(text, near=near) == gridref.parse(f"{letters} {text}")


def test_irish_references_have_one_letter():
    assert gridref.format(223_657, 340_618, letters=gridref.IRISH) == "H 236 406"
    with pytest.raises(Unclear, match="not letters"):
        gridref.parse("HV 965 023", letters=gridref.IRISH)
    with pytest.raises(ValueError, match="off the letters of the Irish Grid"):
        gridref.format(-1, 0, letters=gridref.IRISH)


@pytest.mark.parametrize("wrong", [3, 12, -2])
def test_no_other_count_of_figures_is_written(wrong):
    with pytest.raises(ValueError, match="0, 2, 4, 6, 8 or 10"):
        gridref.format(96_580, 1_002_347, wrong)


figures = st.sampled_from(gridref.FIGURES)


@given(st.floats(-1e6, 1.4999e6), st.floats(-5e5, 1.9999e6), figures)
def test_the_square_written_holds_the_place(east, north, figures):
    square = gridref.read(gridref.format(east, north, figures))
    assert square.easting <= east < square.easting + square.size_m
    assert square.northing <= north < square.northing + square.size_m
    assert square.size_m == gridref.square_size(figures)


@given(
    east=st.integers(84_000, 109_000),
    north=st.integers(992_000, 1_012_000),
    figures=figures.filter(bool),
    between=st.tuples(*[st.sampled_from(["", " ", "-", "  ", " - "])] * 2),
    lower=st.booleans(),
)
def test_every_accepted_way_of_writing_reads_the_same(east, north, figures, between, lower):
    letters, e, n = gridref.format(east, north, figures).split()
    text = letters + between[0] + e + between[1] + n
    assert gridref.parse(text.lower() if lower else text) == gridref.parse(f"{letters} {e} {n}")
    assert gridref.parse(f"{east},{north}") == (east, north)
    assert gridref.parse(f"{e} {n}", near=(96_500, 1_002_000)) == gridref.parse(text)


@given(st.text() | st.text("0123456789 HVNAB-,.OIl", max_size=20))
def test_any_text_is_a_reference_or_a_misreading(text):
    for read in (
        gridref.parse,
        lambda t: gridref.parse(t, near=(96_500, 1_002_000)),
        lambda t: gridref.parse(t, letters=gridref.IRISH),
        gridref.parse_metres,
    ):
        with contextlib.suppress(Misread):
            east, north = read(text)
            assert math.isfinite(east + north)
