import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from navlib import gridref, mgrs
from navlib.chain.kind import Verdict
from navlib.kinds.places import GridReference, Mark, Position

ACCEPT, NOTE, QUERY, REJECT = Verdict.ACCEPT, Verdict.NOTE, Verdict.QUERY, Verdict.REJECT

# How people write places and what is made of it: common practice.
CASES = [
    (GridReference(), "HV 965 023", ACCEPT),
    (GridReference(), "hv965-023", ACCEPT),
    (GridReference(), "96580,1002347", ACCEPT),
    (GridReference(), "965023", QUERY),
    (GridReference(square="HV"), "965023", NOTE),
    (GridReference(), "HV 9658 0234", NOTE),
    (GridReference(), "HV 96 02", QUERY),
    (GridReference(), "HV 965 02", QUERY),
    (GridReference(), "HV 965 O23", QUERY),
    (GridReference(), "HI 965 023", REJECT),
    (GridReference(), "by the church", REJECT),
    (GridReference(), "", QUERY),
    (GridReference(figures=4), "HV 96 02", ACCEPT),
    (GridReference(lettering=gridref.IRISH), "C 123 456", ACCEPT),
    (GridReference(lettering=mgrs.named("29V")), "29V PF 007 188", ACCEPT),
    (GridReference(lettering=mgrs.named("29V")), "PF007188", ACCEPT),
    (GridReference(lettering=mgrs.named("29V")), "007 188", QUERY),
    (GridReference(lettering=mgrs.named("29V"), square="PF"), "007 188", NOTE),
    (GridReference(lettering=mgrs.named("29V")), "35V PF 007 188", QUERY),
    (Position(), "58°46.97'N 007°11.64'W", ACCEPT),
    (Position(), "58 46 58 N 7 11 38 W", ACCEPT),
    (Position(), "+58.78276 -7.19400", QUERY),
    (Position(form="degrees", places=5), "+58.78276 -7.19400", ACCEPT),
    (Position(), "58.4697 N 7.1164 W", QUERY),
    (Position(), "58 46.97, 7 11.64", QUERY),
    (Position(near=(58.7, -7.2)), "58 46.97, 7 11.64", NOTE),
    (Position(), "58 64.97 N 7 11.64 W", REJECT),
    (Mark(), "96580,1002347", ACCEPT),
    (Mark(), "96580.4 1002346.9", ACCEPT),
    (Mark(), "here", QUERY),
]


@pytest.mark.parametrize(("kind", "text", "verdict"), CASES)
def test_verdict_on_what_people_write(kind, text, verdict):
    reading = kind.read(text)
    assert reading.verdict is verdict
    assert (reading.value is None) is (verdict in (QUERY, REJECT))
    assert bool(reading.says) is (verdict is not ACCEPT)


KINDS = sorted({kind for kind, _, _ in CASES}, key=repr)


@pytest.mark.parametrize("kind", KINDS)
def test_the_example_shown_is_accepted(kind):
    assert kind.read(kind.example).verdict is ACCEPT


@given(
    kind=st.sampled_from(KINDS),
    text=st.text() | st.text("0123456789 ,.-°'\"NSEWHVPF", max_size=30),
)
def test_reading_never_raises(kind, text):
    reading = kind.read(text)
    assert (reading.value is None) is (reading.verdict in (QUERY, REJECT))


def test_missing_letters_are_those_of_the_one_square():
    value = GridReference(square="NB").parse("005 995")[0]
    assert value == (100_500, 999_500)


def test_the_example_stands_in_the_square_and_has_the_figures_asked():
    assert GridReference(square="NB", figures=4).example == "NB 96 02"
    assert GridReference(lettering=mgrs.named("29V"), square="PF").example == "29V PF 007 188"


# Compared as squares ------------------------------------------------------------------------------

PLACE = (96_580.0, 1_002_347.0)


def ref(text, kind=GridReference()):  # noqa: B008
    return kind.parse(text)[0]


@pytest.mark.parametrize(
    ("one", "other", "metres"),
    [
        ("HV 965 023", PLACE, 0),  # the place lies in the square
        ("HV 966 023", PLACE, 20),  # 20 m west of it
        ("HV 964 023", PLACE, 80),  # 80 m east of it
        ("HV 964 020", PLACE, 247),  # the axis that is further out: 247 m north of it
        ("HV 966 023", "HV 965 023", 100),  # one in the last figure
        ("HV 968 022", "HV 965 023", 300),
        ("HV 9658 0234", "HV 965 023", 0),  # finer, in the same square
        ("HV 9660 0234", "HV 965 023", 100),  # finer, in the next
        ("96580,1002347", "HV 965 023", 0),
    ],
)
def test_grid_references_are_compared_as_squares(one, other, metres):
    kind = GridReference()
    ends = [ref(end) if isinstance(end, str) else end for end in (one, other)]
    assert kind.apart(*ends) == pytest.approx(metres)
    assert kind.apart(*reversed(ends)) == pytest.approx(metres)


def test_a_reference_taken_from_figures_allows_no_next_square():
    kind = GridReference(exact=True)
    assert kind.rounding == 1
    assert kind.apart(ref("HV 966 023"), kind.rounded(PLACE)) > 2 * kind.rounding
    assert kind.apart(ref("HV 965 023"), kind.rounded(PLACE)) == 0


def test_a_square_unpacks_into_its_corner():
    east, north = ref("HV 965 023")
    assert (east, north) == (96_500, 1_002_300)


@given(east=st.floats(84_000, 109_000), north=st.floats(992_000, 1_012_000))
def test_a_place_lies_in_the_square_written_for_it(east, north):
    for figures in (4, 6, 8, 10):
        kind = GridReference(figures=figures)
        assert kind.apart(kind.rounded((east, north)), (east, north)) == 0


@given(by=st.floats(-500, 500), east=st.floats(84_000, 109_000))
def test_shift_and_apart_go_together(by, east):
    place, position = gridref.GridPlace(east, 1_002_347.0), (58.8, -7.2)
    for kind, value in (
        (GridReference(), place),
        (GridReference(), ref("HV 965 023")),
        (Mark(), place),
        (Position(), position),
    ):
        moved = kind.shift(value, by)
        assert type(moved) is type(value) or kind == Position()
        assert abs(kind.apart(moved, value)) == pytest.approx(abs(by), abs=1e-6)


# Positions and marks ------------------------------------------------------------------------------


@given(lat=st.floats(-89, 89), lon=st.floats(-180, 180), places=st.integers(0, 3))
def test_a_position_written_is_read_back_within_its_last_figure(lat, lon, places):
    kind = Position(places=places)
    # Half a unit in latitude and half in longitude.
    allowed = kind.rounding * math.hypot(0.5, 0.5)
    assert kind.apart(kind.rounded((lat, lon)), (lat, lon)) <= allowed


def test_rounding_of_a_position_is_its_last_figure_in_metres():
    tenth = Position(places=1)
    assert tenth.apart((58.0, -7.0), (58 + 0.1 / 60, -7.0)) < tenth.rounding < 186.5
    assert Position(form="degrees", places=5).rounding == pytest.approx(1.11, abs=0.01)
    assert Position(places=1).write((58.78276, -7.194)) == "58°47.0'N 007°11.6'W"


@given(
    east=st.floats(-1e6, 1e6),
    north=st.floats(-1e6, 1e7),
    rounding=st.sampled_from([0.1, 1.0, 10.0, 50.0]),
)
def test_a_mark_written_is_read_back(east, north, rounding):
    kind = Mark(rounding)
    back = kind.rounded((east, north))
    assert kind.apart(back, (east, north)) <= rounding * math.hypot(0.5, 0.5) + 1e-6


def test_marks_are_apart_in_a_straight_line():
    assert Mark().apart((0, 0), (300, 400)) == 500
