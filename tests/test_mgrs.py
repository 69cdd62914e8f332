import contextlib
import math
import random

import mgrs as reference_mgrs
import pytest
from hypothesis import given
from hypothesis import strategies as st
from published import at, cases

from navlib import gridref, grids, mgrs
from navlib.notation import Impossible, Misread, Unclear

# Ordnance Survey guides and developer packs, IOGP, GEOTRANS, GeographicLib; each item of the file
# names its source.


@pytest.mark.parametrize("item", cases("national_grid.json", "latlon_to_mgrs"))
def test_mgrs_is_written_as_published(item):
    i = item["inputs"]
    text = mgrs.format(*at(i), 2 * i["digits_each"])
    assert text.replace(" ", "") == item["expected"]["ref"]


@pytest.mark.parametrize("item", cases("national_grid.json", "mgrs_to_latlon_centre"))
def test_mgrs_centre_is_as_published(item):
    centre = mgrs.parse(item["inputs"]["ref"]).centre
    assert centre == pytest.approx(at(item["expected"]), abs=item["tolerance"]["arcsec"] / 3600)


@pytest.mark.parametrize(
    ("lat", "lon", "zone"),
    [
        # NGA.STND.0037: 32V reaches west to 3 E; 31X, 33X, 35X, 37X share 0 to 42 E.
        (60, 2.99, 31), (60, 3, 32), (60, 11.99, 32), (55.99, 3, 31), (64, 3, 31),
        (72, 8.99, 31), (72, 9, 33), (80, 20.99, 33), (80, 21, 35), (84, 32.99, 35), (84, 33, 37),
        (84, 42, 38), (71.99, 9, 32), (58.8, -7.25, 29), (0, 180, 1), (0, -180, 1), (0, 179.99, 60),
    ],
)  # fmt: skip
def test_utm_zone_with_its_exceptions(lat, lon, zone):
    assert grids.utm_zone(lat, lon) == zone


def test_mgrs_agrees_with_the_reference_library_everywhere():
    ours, draw = reference_mgrs.MGRS(), random.Random(58)
    for _ in range(400):
        lat = math.degrees(math.asin(draw.uniform(-1, 1)))
        lat, lon = draw.choice(
            [(lat, draw.uniform(-180, 180)), (draw.uniform(55, 84), draw.uniform(0, 45))]
        )
        theirs = ours.toMGRS(lat, lon, MGRSPrecision=5)
        square, expected = mgrs.parse(mgrs.format(lat, lon, 10)), mgrs.parse(theirs)
        assert square.letters == expected.letters
        # The two may cut off to either side where a place lies on the line itself.
        for one, other, exact in zip(
            square.square,
            expected.square,
            grids.to_grid(lat, lon, square.letters.grid),
            strict=True,
        ):
            assert one == other or abs(exact - round(exact)) < 1e-3


@pytest.mark.parametrize(
    "text",
    ["29V PF 007 188", "29VPF007188", "29v pf 007-188", "29 V PF 007188", "29V 600700 6518800"],
)
def test_mgrs_is_read_as_people_write_it(text):
    read = mgrs.parse(text)
    assert read.square == (600_700, 6_518_800)
    assert read.letters.grid == grids.utm(29)


def test_letters_of_the_training_waters_change_at_600_km():
    # NF to PF at E 600 000, near 7°16' W.
    west, east = (grids.from_grid(e, 6_518_850, grids.utm(29)) for e in (599_950, 600_050))
    assert mgrs.format(*west) == "29V NF 999 188"
    assert mgrs.format(*east) == "29V PF 000 188"
    assert east[1] == pytest.approx(-7 - 16 / 60, abs=0.01)


@pytest.mark.parametrize(
    ("text", "error", "words"),
    [
        ("PF 007 188", Unclear, "zone and band"),
        ("29V PF 007 18", Unclear, "5 figures"),
        ("29V 007 188", Unclear, "letters"),
        ("29I PF 007 188", Impossible, "29I is no zone"),
        ("61V PF 007 188", Impossible, "61V is no zone"),
        ("29V AF 007 188", Impossible, "AF is no square of 29V"),
        ("29V PA 007 188", Impossible, "PA is no square of 29V"),
    ],
)
def test_what_is_no_mgrs_is_told_in_words(text, error, words):
    with pytest.raises(error, match=words):
        mgrs.parse(text)


@given(st.floats(-90, 90), st.floats(-180, 180), st.sampled_from(gridref.FIGURES))
def test_the_mgrs_square_written_holds_the_place(lat, lon, figures):
    read = mgrs.parse(mgrs.format(lat, lon, figures))
    for corner, metres in zip(read.square, grids.to_grid(lat, lon, read.letters.grid), strict=True):
        assert corner <= metres < corner + read.square.size_m


@given(st.text() | st.text("0123456789 VPFNABYZ-,.", max_size=20))
def test_any_text_is_a_square_or_a_misreading(text):
    with contextlib.suppress(Misread):
        assert math.isfinite(sum(mgrs.parse(text).square))
