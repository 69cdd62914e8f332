"""The lesson on tides: its exercises, and what its demonstrations are handed from the models."""

import re
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest

import navlib
from navlib import waters
from navlib.geodesy import geodesic
from navlib.questions.tides.rates import rows
from navlib.widgets.demos import tide_data

ROOT = Path(navlib.__file__).parent.parent


def test_every_term_that_the_lesson_defines_has_its_own_link():
    text = (ROOT / "lessons/tides.ipynb").read_text(encoding="utf-8")
    linked = re.findall(r"glossary\.ipynb#([^)]+)\)", text)
    assert len(linked) == len(set(linked)) > 20


@pytest.mark.parametrize("name", tide_data.DAYS)
def test_a_day_lies_between_turns_that_take_turns(name):
    day = tide_data.day_of(name)
    turns = day["turns"]
    assert turns[0][0] < 0
    assert turns[-1][0] >= 24 * 60
    for (one, low, is_high), (other, high, then) in pairwise(turns):
        assert is_high != then
        assert one < other
        assert (low < high) == bool(then)
    minutes, heights = np.array(day["curve"]).T
    assert (minutes[0], minutes[-1]) == (0, 24 * 60)
    at_turns = [(t, h) for t, h, _ in turns if 0 <= t <= 24 * 60]
    for when, height in at_turns:
        assert np.interp(when, minutes, heights) == pytest.approx(height, abs=0.06)


def test_the_chart_has_true_north_up_and_one_scale():
    water, places = waters.load("kessoray"), tide_data.chart()["diamonds"]
    for one, other in (("A", "D"), ("C", "B"), ("E", "A")):
        ends = [water.lat_lon(water.tides.diamond(letter).place) for letter in (one, other)]
        metres, bearing = geodesic(*ends[0], *ends[1])
        (x, y), (to_x, to_y) = (places[letter]["at"] for letter in (one, other))
        drawn = np.degrees(np.arctan2(to_x - x, y - to_y)) % 360
        assert drawn == pytest.approx(bearing, abs=0.7)
        assert np.hypot(to_x - x, to_y - y) / tide_data.PER_KM == pytest.approx(
            metres / 1000, rel=0.01
        )


def test_the_chart_s_rows_are_those_of_the_printed_table():
    diamonds = tide_data.chart()["diamonds"]
    for letter, diamond in diamonds.items():
        for hour in range(-6, 7):
            row = rows(letter)[hour]
            assert diamond["rows"][hour + 6] == [row.set_to % 360, row.spring_kn, row.neap_kn]
