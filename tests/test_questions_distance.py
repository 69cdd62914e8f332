"""Questions on scale and distance: published cases marked right, their usual slips named."""

import json
import math
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from navlib import questions, waters
from navlib.chain.kind import Verdict
from navlib.coastline import walk
from navlib.kinds.scales import Scale
from navlib.marking import Outcome, mark
from navlib.questions.distance.draws import open_legs, ways_round
from navlib.questions.distance.on_the_sheet import on_latitude, on_longitude
from navlib.questions.distance.shore import stretches
from navlib.units import LENGTHS, NM

# Each item names its source: Ordnance Survey and USGS on the scales of their maps; the series that
# Bowditch prints with its table of the length of a degree.
PUBLISHED = json.loads(
    (Path(__file__).parent / "data/handbook_distance.json").read_text(encoding="utf-8")
)
CENTIMETRES = [item for item in PUBLISHED if item["id"].startswith("scale-cm")]
DEGREES = [item for item in PUBLISHED if item["id"].startswith("degree-series")]


def of_kind(kind, **givens):
    return questions.question_type(kind).with_givens(givens)


@pytest.mark.parametrize("item", CENTIMETRES, ids=lambda item: item["id"])
def test_published_map_lengths_are_marked_right_and_a_lost_zero_is_not(item):
    given, expected = item["inputs"], item["expected"]
    km = expected.get("ground_km") or expected["ground_m"] / 1000
    question = of_kind(
        "distance.fraction",
        length=given["map_cm"] / 100,
        scale=float(given["scale_denominator"]),
        other=float(2 * given["scale_denominator"]),
    )
    miles = f"{km / 1.852:.1f} NM"
    assert mark(question, {"ground": f"{km} km", "miles": miles}).right
    assert not mark(question, {"ground": f"{km * 10} km", "miles": miles}).right


# Worked by hand from 1 NM = 1852 m (Monaco 1929) and 1 land mile = 1609.344 m.
@pytest.mark.parametrize(
    ("text", "slip"),
    [
        ("5.4 NM", None),
        ("5,4M", None),
        ("54 cables", None),
        ("10 NM", "kilometres-for-miles"),
        ("6.2 NM", "land-miles"),
        ("18.5 NM", "miles-wrong-way"),
        ("5.0 NM", "half-only"),
    ],
)
def test_ten_kilometres_in_nautical_miles(text, slip):
    marked = mark(of_kind("distance.to-miles", run=10_000.0), text)
    assert marked.right is (slip is None)
    assert marked.slips == ((slip,) if slip else ())


def test_miles_without_a_word_are_asked_about():
    question = of_kind("distance.cables", off=4 * LENGTHS["cable"])
    marked = mark(question, {"metres": "740 m", "miles": "0.4 mi"})
    assert marked.parts[1].outcome is Outcome.UNREAD


@pytest.mark.parametrize("item", DEGREES, ids=lambda item: item["id"])
def test_a_published_minute_at_the_side_is_a_mile_and_at_the_top_is_called_one(item):
    lat, printed = float(item["inputs"]["lat_deg"]), item["expected"]
    near = item["tolerance"]["m"] / 60
    assert on_latitude(printed["lat_m"] / 60, lat) == pytest.approx(NM, abs=2 * near)
    assert on_longitude(printed["lon_m"] / 60, lat) == pytest.approx(NM, abs=4 * near)


@given(st.floats(300, 20_000), st.floats(-65, 65))
def test_a_leg_covers_more_minutes_of_longitude_than_of_latitude(metres, level):
    more = on_longitude(metres, level) / on_latitude(metres, level)
    assert more == pytest.approx(1 / math.cos(math.radians(level)), rel=0.01)


@pytest.mark.parametrize(
    ("text", "value", "verdict"),
    [
        ("1:50 000", 50_000, Verdict.ACCEPT),
        ("1 : 50000", 50_000, Verdict.ACCEPT),
        ("1/50 000", 50_000, Verdict.ACCEPT),
        ("one to 50 000", 50_000, Verdict.ACCEPT),
        ("50 000", 50_000, Verdict.NOTE),
        ("1:50", None, Verdict.REJECT),
        ("1:50,000", None, Verdict.QUERY),
        ("fifty thousand", None, Verdict.QUERY),
    ],
)
def test_a_scale_as_people_write_it(text, value, verdict):
    reading = Scale().read(text)
    assert (reading.value, reading.verdict) == (value, verdict)


@given(st.floats(100, 5e6))
def test_a_scale_reads_back_as_written_to_one_per_cent(value):
    kind = Scale()
    assert abs(kind.apart(kind.rounded(value), value)) <= 1 + 1e-9
    assert kind.apart(kind.shift(value, 3.0), value) == pytest.approx(3.0)


@pytest.mark.parametrize("name", waters.shipped())
def test_open_legs_are_open_and_ways_round_go_round(name):
    water = waters.load(name)
    for scale in water.settings.scales.sea_chart:
        for leg in open_legs(name, scale):
            assert water.land_crossed(*leg.places) <= 150
    for _, way in ways_round(name):
        assert water.land_crossed(way.places[0], way.places[-1]) >= 400
        assert all(water.land_crossed(a, b) <= 150 for a, b in pairwise(way.places))
        assert len(way.names) == len(way.places) in (3, 4)


@pytest.mark.parametrize("name", waters.shipped())
def test_stretches_lie_on_the_coast_and_grow_with_smaller_steps(name):
    water = waters.load(name)
    shore = water.settings.levels.mhws
    found = stretches(name)
    assert len(found) > 5
    for stretch in found:
        heights = water.height_field.at(*stretch.points.T)
        assert abs(heights - shore).max() < 1e-6 * max(1.0, shore)
        assert stretch.straight <= stretch.coarse <= 1.01 * stretch.cord
        assert stretch.fine <= stretch.cord
        assert stretch.straight == pytest.approx(walk(stretch.points, 1e6).length)


def test_a_question_on_a_chart_shows_the_places_it_names():
    for seed in range(10):
        question = questions.make("distance.round-the-head", seed)
        for spot, name in zip(question.picture.spots, question.givens["names"], strict=True):
            assert f"{spot.label}, {name}" in question.text
        assert question.picture.sheet == "sea chart"
