"""Marks, lines and circles as answers: on paper, on the desk and in the record."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from navlib import questions
from navlib.angles import signed
from navlib.desk import Exercise
from navlib.fixes import bearings_cross, lines_cross
from navlib.geodesy import geodesic, rhumb, rhumb_destination
from navlib.instruments import (
    PencilCircle,
    on_ground,
    on_paper,
)
from navlib.kinds.marks import OnSheet, Pencilled, moved, turned
from navlib.latlon import LatLon
from navlib.marking import Outcome, mark
from navlib.pictures.drawn import window
from navlib.pictures.pencilled import drawn_answers, key_lies, pencilled
from navlib.questions.position.romer import WORLD
from navlib.record import Record

PLOTTED = [kind for kind in questions.kinds() if ".plot-" in kind]
MEASURED = questions.make("bearings.measure", 3)
ON_CHART = questions.make("distance.by-latitude", 2)


# Two bearings that cross --------------------------------------------------------------------------


def test_two_bearings_cross_where_the_sum_says():
    """Marks 3 miles apart, bearings 333.4 and 045: worked on paper by two equations, 1 E and 2 S."""
    east, south = lines_cross((0, 0), 333.4, (3, 0), 45)
    assert (east, -south) == pytest.approx((1.0, 2.0), abs=0.05)
    with pytest.raises(ValueError, match="almost one line"):
        lines_cross((0, 0), 90, (5, 1), 92)


@given(
    st.floats(-60, 60),
    st.floats(0, 359),
    st.floats(30, 150),
    st.floats(500, 9000),
    st.floats(500, 9000),
)
def test_a_fix_has_the_bearings_it_was_made_from(lat, first, cut, far, near):
    """Against pyproj's rhumb lines, from anywhere a boat goes."""
    boat = LatLon(lat, 12.0)
    a, b = (LatLon(*rhumb_destination(*boat, t, d)) for t, d in ((first, far), (first + cut, near)))
    found = bearings_cross(a, first, b, first + cut)
    assert geodesic(*found, *boat).distance_m < 0.5
    assert abs(signed(float(rhumb(*found, *a).bearing) - first)) < 0.05


# The kind of answer -------------------------------------------------------------------------------

KINDS = [
    OnSheet(sort, lettering)
    for sort in ("mark", "line", "circle")
    for lettering in (OnSheet().lettering, WORLD, None)
]
SPOTS = st.tuples(st.floats(-60, 60), st.floats(-60, 60))
HERE = {None: LatLon(58.8, -7.2), WORLD: LatLon(-39.75, -172.18)}


@given(st.sampled_from(KINDS), SPOTS, SPOTS, st.floats(100, 5000))
def test_what_is_drawn_is_written_and_read_back(kind, spot, other, radius):
    here = Pencilled((HERE.get(kind.lettering, HERE[None]),), 25_000)
    places = tuple(moved(here, *by).places[0] for by in (spot, other))
    count, radius = 2 if kind.sort == "line" else 1, radius if kind.sort == "circle" else 0.0
    drawn = Pencilled(places[:count], 25_000, radius)
    assert kind.apart(kind.parse(kind.exactly(drawn))[0], drawn) < 0.1
    assert kind.apart(kind.parse(kind.write(drawn))[0], drawn) < 1.5  # ten metres are 0.4 mm
    assert kind.read(kind.example).value is not None


@given(SPOTS, st.sampled_from([25_000, 75_000]))
def test_a_mark_is_as_far_off_as_it_was_moved_on_paper(by, scale):
    one = Pencilled((LatLon(58.8, -7.2),), scale)
    there = moved(one, *by)
    assert OnSheet().apart(there, one) == pytest.approx(math.hypot(*by), abs=0.05)
    assert geodesic(*one.places[0], *there.places[0]).distance_m * 1000 / scale == pytest.approx(
        math.hypot(*by), abs=0.05
    )


def test_a_line_may_be_longer_or_shorter_but_not_turned_or_the_other_way():
    kind, start = OnSheet("line"), LatLon(58.8, -7.2)
    key = Pencilled((start, LatLon(*rhumb_destination(*start, 67, 1500))), 25_000)
    for metres in (900, 1500, 2600):
        drawn = Pencilled((LatLon(*rhumb_destination(*start, 67, metres)), start))
        assert kind.apart(drawn, key) < 0.1
    assert kind.apart(turned(key, 5), key) == pytest.approx(60 * math.sin(math.radians(5)), abs=0.1)
    assert kind.apart(turned(key, 180), key) > 55


@settings(max_examples=60, deadline=None)
@given(st.sampled_from(PLOTTED), st.integers(0, 400))
def test_the_key_drawn_on_the_table_is_right_and_a_blank_sheet_is_asked_for(kind, seed):
    question = questions.make(kind, seed)
    drawn = drawn_answers(question, key_lies(question))
    assert mark(question, drawn).right
    (part,) = mark(question, {}).parts
    assert part.outcome is Outcome.UNREAD
    assert "on the sheet yet" in part.says[0]


@pytest.mark.parametrize("kind", PLOTTED)
def test_what_is_drawn_well_beside_the_key_is_wrong(kind):
    question = questions.make(kind, 1)
    ((pencil, (key,)),) = key_lies(question).items()
    aside = {name: at + 25 if name.startswith("x") else at for name, at in key.items()}
    (part,) = (
        p for p in mark(question, drawn_answers(question, {pencil: [aside]})).parts if p.text
    )
    assert part.outcome is Outcome.WRONG


def test_of_several_marks_the_last_one_counts():
    question = questions.make("position.plot-reference", 1)
    key = key_lies(question)["pencil mark"][0]
    wrong = {**key, "x": key["x"] + 9}
    assert mark(question, drawn_answers(question, {"pencil mark": [wrong, key]})).right
    assert not mark(question, drawn_answers(question, {"pencil mark": [key, wrong]})).right


def test_a_circle_goes_to_paper_and_back():
    for question in (ON_CHART, MEASURED):
        on_sheet = window(question.picture)
        circle = PencilCircle(on_sheet.grid_at(70, 60), 900.0)
        (back,) = on_ground(on_paper([circle], on_sheet), on_sheet)
        assert back.radius_m == pytest.approx(900, abs=1)
        assert pencilled(question, back).radius_m == back.radius_m


# On the desk and in the record ----------------------------------------------------------------------


class Plot(Exercise):
    """A sitting with a plotting question on the desk."""

    def do_back(self) -> None:
        self.lay(questions.make("position.plot-reference", 1))


def test_a_mark_is_judged_kept_with_its_lies_and_comes_back(tmp_path):
    desk = Plot("position", 1, Record(tmp_path / "r.sqlite"))
    key = key_lies(desk.question)
    (spot,) = key["pencil mark"]
    off = {"pencil mark": [{**spot, "x": spot["x"] + 20}], "romer": {"x": 1}}
    desk.do("check", {"answers": {"spot": ""}, "lies": off})
    assert desk.face()["feedback"]["parts"]["spot"]["outcome"] == "wrong"
    assert desk.face()["key"] == {}
    again = Plot("position", 1, Record(tmp_path / "r.sqlite"))
    assert set(again.face()["lies"]) == {"pencil mark"}  # what made no sense is not kept
    assert again.face()["parts"][0]["value"] == ""
    assert again.face()["feedback"]["parts"]["spot"]["outcome"] == "wrong"
    again.do("check", {"answers": {"spot": ""}, "lies": key})
    assert again.right
    assert again.face()["key"] == key
    assert again.face()["feedback"]["parts"]["spot"]["says"][-1].startswith("The right place")
    attempts = again.record.attempts()
    assert [a.lies == key for a in attempts] == [False, True]
    other = Record(tmp_path / "other.sqlite")
    assert other.take_in(again.record.export()) == 2
    assert [a.lies for a in other.attempts()] == [a.lies for a in attempts]


def test_what_is_written_counts_before_what_is_drawn(tmp_path):
    desk = Plot("position", 1, Record(tmp_path / "r.sqlite"))
    wrong = {"pencil mark": [{"x": 30, "y": 30, "label": ""}]}
    desk.do("check", {"answers": desk.question.answers, "lies": wrong})
    assert desk.right
