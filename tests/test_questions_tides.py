"""Questions on tides: published and hand-worked cases marked right, their usual slips named."""

import json
import random
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from navlib import questions, waters
from navlib.marking import Outcome, mark
from navlib.questions.picture import TidePage
from navlib.questions.tides import TYPES, draws
from navlib.questions.tides.atlas import clear_arrows
from navlib.questions.tides.draws import draw_day, said, tide_givens, turns_of
from navlib.questions.tides.secondary import secondary_givens
from navlib.sheets.pages.atlas import ROOM, atlas_window, draw_map
from navlib.sheets.pages.leaf import Leaf
from navlib.tides import Differences, SecondaryPort, Tide, Turn, Water, printed_days

# Each item names its source.
PUBLISHED = [
    item
    for item in json.loads((Path(__file__).parent / "data/tides.json").read_text(encoding="utf-8"))
    if item["inputs"]["op"] == "rule_of_twelfths"
]


def at(clock, day=1, month=1):
    return datetime(2026, month, day, int(clock[:2]), int(clock[2:]), tzinfo=UTC)


def of_kind(kind, **givens):
    return questions.question_type(kind).with_givens(givens)


def tide(*turns):
    high_or_low = {"HW": Water.HIGH, "LW": Water.LOW}
    return Tide(*(Turn(at(clock), height, high_or_low[name]) for name, clock, height in turns))


@pytest.mark.parametrize("item", PUBLISHED, ids=lambda item: item["id"])
def test_published_twelfths_are_marked_right_and_a_straight_line_is_not(item):
    given, height = item["inputs"], item["expected"]["height_m"]
    low, high = given["lw_height_m"], given["hw_height_m"]
    hours = given["hours_after_lw"]
    rises = tide(("LW", "1200", low), ("HW", "1800", high))
    question = of_kind(
        "tides.height-at", **tide_givens(rises), watch=rises.start.time + timedelta(hours=hours)
    )
    assert mark(question, f"{height} m").right
    if hours in (1, 4):
        straight = mark(question, f"{low + (high - low) * hours / 6:.1f} m")
        assert straight.slips == ("straight-line",)


# Worked by hand from the definition, common practice: HW 1023 4.6, LW 1638 0.9; at 1300 3.2; on a
# straight line 3.05; 2.5 m falling at 1347.
EBB = tide(("HW", "1023", 4.6), ("LW", "1638", 0.9))


def test_an_ebb_of_six_hours_and_a_quarter():
    height = of_kind("tides.height-at", **tide_givens(EBB), watch=at("1300"))
    assert mark(height, "3.2 m").right
    (part,) = mark(height, "2.3").parts  # near half tide two slips end in the same place
    assert not part.diagnosis.sure
    assert part.says[0].startswith("Either: ")
    time = of_kind("tides.time-for-height", **tide_givens(EBB), wanted=2.5)
    assert mark(time, "1347 UT").right
    assert mark(time, "1347").parts[0].outcome is Outcome.UNREAD  # which zone?
    assert mark(time, "1447 GMT").slips == ("summer-hour-in-winter",)


# Straight lines between tabulated columns, worked by hand: 0600 -0050, 1200 -0020, HW 1023 -> -0028;
# MHWS 4.8 -0.6, MHWN 3.6 -0.3, HW 4.6 -> -0.55.
PIER = SecondaryPort(
    draws.model("kessoray").standard,
    Differences((6, 12), (-50, -20), (4.8, 3.6), (-0.6, -0.3)),
    Differences((6, 12), (-10, 5), (0.7, 1.9), (0.5, -0.1)),
    "a pier",
)


@pytest.mark.parametrize(
    ("answers", "slips"),
    [
        ({"shift": "-28", "ashore": "1055 BST", "height": "4.1 m"}, ()),
        ({"shift": "28 min", "ashore": "1151 BST", "height": "4.1 m"}, ("sign-lost",)),
        ({"shift": "-42", "ashore": "1041 BST", "height": "4.1 m"}, ("from-the-other-column",)),
        ({"shift": "-23", "ashore": "1100 BST", "height": "4.1 m"}, ("by-local-clock",)),
        ({"shift": "-28", "ashore": "0955 BST", "height": "4.1 m"}, ("zone-forgotten",)),
        ({"shift": "-28", "ashore": "1055 BST", "height": "5.2 m"}, ("difference-wrong-way",)),
    ],
)
def test_secondary_port_and_its_usual_slips(answers, slips):
    summer = Turn(at("1023", day=14, month=7), 4.6, Water.HIGH)
    marked = mark(of_kind("tides.secondary-port", **secondary_givens(PIER, summer)), answers)
    assert marked.slips == slips
    assert marked.right == (not slips)
    assert marked.marks == 3 - len(slips)  # what follows from a slip is not paid for twice


def test_a_time_left_in_universal_time_is_asked_about_where_turning_it_is_the_question():
    summer = Turn(at("1023", day=14, month=7), 4.6, Water.HIGH)
    question = of_kind("tides.secondary-port", **secondary_givens(PIER, summer))
    marked = mark(question, {"shift": "-28", "ashore": "0955 UT", "height": "4.1 m"})
    assert marked.parts[1].outcome is Outcome.UNREAD
    assert "BST" in marked.parts[1].says[0]


# Worked by hand: HAT 5.4, clearance 7.0, height 2.9: 9.5 m.
def test_room_under_a_bridge_grows_as_the_water_falls():
    question = of_kind(
        "tides.under-the-bridge",
        **{"span": "the bridge", "charted": 7.0, "hat": 5.4, "mhws": 4.8},
        **{"mast": 8.0, "draught": 1.0, "tide": 2.9},
    )
    assert mark(question, {"clearance": "9.5 m", "spare": "1.5 m"}).right
    assert mark(question, {"clearance": "9.9", "spare": "1.9"}).slips == ("tide-put-on",)
    assert mark(question, {"clearance": "8.9", "spare": "0.9"}).slips == ("from-mean-springs",)


# Worked by hand: Rs 2.6, Rn 1.1, ranges 4.2 and 1.7, today 3.7: 2.3 kn.
@pytest.mark.parametrize(
    ("answer", "slip"),
    [("2.3 kn", ()), ("2.6", ("spring-rate",)), ("1.4 kn", ("columns-exchanged",))],
)
def test_rate_between_springs_and_neaps(answer, slip):
    words = dict.fromkeys(("date", "day", "letter", "hour_words"), "")
    question = of_kind(
        "tides.rate-today",
        **{"springs": 2.6, "neaps": 1.1, "range": 3.7, "springs_range": 4.2, "neaps_range": 1.7},
        **words,
    )
    assert mark(question, answer).slips == slip
    assert mark(question, answer).right == (not slip)


def test_turns_are_what_the_tide_table_prints():
    source = random.Random(5)
    for water in ("kessoray", "orrimer"):
        for _ in range(20):
            day = draw_day(source)
            table = printed_days(draws.model(water).standard, day, 1, "UT")[day]
            printed = [f"{turn.time:%H%M} UT {turn.height:.1f} m" for turn in table]
            assert [said(turn)[3:] for turn in turns_of(water, day)] == printed


@pytest.mark.parametrize("hour", range(-6, 7))
def test_every_arrow_asked_about_found_room_on_its_page(hour):
    water = waters.load("kessoray")
    drawn = draw_map(Leaf(), water, atlas_window(water, ROOM), hour)
    assert {a.place for a in clear_arrows(hour)} <= {d.arrow.place for d in drawn if not d.slack}


def test_dates_are_drawn_over_the_model_s_years():
    years = {draw_day(random.Random(seed)).year for seed in range(200)}
    assert years == {2025, 2026, 2027, 2028, 2029}


def test_topic_has_types_for_every_level_and_pages_for_reading():
    levels = [kind.level for kind in TYPES]
    assert min(levels.count(1) - 2, levels.count(2) - 3, levels.count(3) - 2) >= 0
    shown = {questions.make(kind.kind, 1).picture for kind in TYPES if kind.picture}
    read = {picture.page for picture in shown if isinstance(picture, TidePage)}
    assert read == {"table", "curve", "differences", "diamonds", "streams"}
