"""Instruments on paper and on the ground: there and back on either sheet, and nonsense left out."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from navlib.grids import NATIONAL
from navlib.instruments import (
    Cord,
    Dividers,
    ParallelRule,
    Protractor,
    Romer,
    Ruler,
    on_ground,
    on_paper,
)
from navlib.sheets import Cross, PencilLine
from navlib.sheets.window import Box, GridWindow, MercatorWindow
from navlib.widgets import ChartTable, chart_table

FRAME = Box(10, 20, 210, 170)
MAP = GridWindow(90_000, 1_000_000, 95_000, 1_003_750, 25_000, FRAME)
CHART = MercatorWindow(NATIONAL, 58.8, -7.25, 58.8, 75_000, FRAME)
SPOTS = st.tuples(st.floats(10, 210), st.floats(20, 170))
ANGLES = st.floats(0, 359.99)


@given(SPOTS, SPOTS, ANGLES, ANGLES, st.sampled_from([MAP, CHART]))
def test_there_and_back(a, b, turn, arm, window):
    p, q = (tuple(map(float, window.grid_at(*spot))) for spot in (a, b))
    laid = (
        Protractor(p, turn, arm),
        ParallelRule(p, turn, 20.0),
        Dividers((p, q), 3),
        Cord((p, q, p)),
        Ruler(q, turn),
        Romer(p, 50_000, turn),
        PencilLine(p, q, "course"),
        PencilLine(q, p),
        Cross(q, "A"),
    )
    found = on_ground(on_paper(laid, window), window)
    assert [type(one) for one in found] == [type(one) for one in laid]
    off = 0.011 * window.scale / 1000  # lies are kept to 0.01 mm
    for place, again in ((p, found[0].centre), (q, found[2].points[1]), (q, found[-1].place)):
        assert math.dist(place, again) < off
    assert found[0].along == pytest.approx((turn + arm) % 360)
    assert (found[2].steps, found[5].scale, found[6].label) == (3, 50_000, "course")


def test_a_straight_cord_keeps_its_beginning_and_direction():
    cord = Cord(((91_000.0, 1_001_000.0), (92_000.0, 1_001_000.0)), (91_500.0, 1_002_000.0), 85.0)
    assert on_ground(on_paper([cord], MAP), MAP) == (cord,)


@pytest.mark.parametrize(
    "lies",
    [
        {"protractor": {"x": "far", "y": 1, "turn": 0, "arm": 0}},
        {"protractor": {"x": math.inf, "y": 1, "turn": 0, "arm": 0}},
        {"dividers": None},
        {"cord": {"points": 7}},
        {"pencil line": [{"x1": 3}]},
        {"sextant": {"x": 1, "y": 1}},
    ],
)
def test_nonsense_from_a_browser_is_left_out(lies):
    good = {"ruler": {"x": 50, "y": 50, "turn": 450}}
    assert on_ground({**lies, **good}, MAP) == (Ruler(MAP.grid_at(50, 50), 90.0),)


# The table in Python ------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def table() -> ChartTable:
    return chart_table("kessoray", "sea chart", size_mm=(120.0, 90.0), title="Plot it")


def test_a_table_is_laid_and_cleared_from_python(table):
    place = table.sheet.grid_at(60, 60)
    table.lay(Protractor(place, 3, 40), Cross(place, "A"))
    table.lay(Cross(place, "B"))
    assert [type(one).__name__ for one in table.handled] == ["Protractor", "Cross"]
    assert table.handled[1].label == "B"
    table.put_away("protractor")
    assert set(table.lies) == {"pencil mark"}
    table.put_away()
    assert table.handled == ()


def test_a_table_says_what_it_cannot_give(table):
    assert "not for navigation" in repr(table)
    with pytest.raises(ValueError, match=r"no instrument called “sextant”.*romer"):
        ChartTable(table.sheet, ["sextant"])
    with pytest.raises(ValueError, match="land map or sea chart"):
        chart_table("kessoray", "globe")
