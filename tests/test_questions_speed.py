"""Questions on time, distance and speed: published cases marked right, their usual slips named."""

import json
import re
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from navlib import questions
from navlib.marking import Outcome, mark
from navlib.questions.picture import Table
from navlib.questions.speed import TYPES
from navlib.units import NM

# NGA Pub. 9, American Practical Navigator (2024), Table 11; each item names it. One value there is a
# misprint, kept out here.
TABLE_11 = [
    item
    for item in json.loads(
        (Path(__file__).parent / "data/speed_time_distance.json").read_text(encoding="utf-8")
    )
    if "misprint" not in item["id"]
]


def of_kind(kind, **givens):
    return questions.question_type(kind).with_givens(givens)


def at(clock, day=1):
    return datetime(2026, 1, day, int(clock[:2]), int(clock[2:]), tzinfo=UTC)


@pytest.mark.parametrize("item", TABLE_11, ids=lambda item: item["id"])
def test_table_11_is_marked_right_and_minutes_behind_the_point_are_not(item):
    minutes, knots = float(item["inputs"]["minutes"]), item["inputs"]["knots"]
    question = of_kind("speed.distance", speed=knots, minutes=minutes)
    assert mark(question, f"{item['expected']['nautical_miles']} NM").right
    slip = mark(question, f"{knots * minutes / 100:.1f} NM")
    assert not slip.right or minutes == 60
    if question.fair:
        assert slip.slips == ("decimal-hours",)


# Worked by hand from t = 60 d / v: 3.4 NM at 3.0 kn is 68 min; 2325 and 68 min is 0033.
LEG = {"distance": 3.4 * NM, "speed": 3.0}


@pytest.mark.parametrize(
    ("text", "slip"),
    [
        ("1 h 13", "decimal-hours"),
        ("53 min", "upside-down"),
        ("1 h 24", "miles-left-for-hours"),
    ],
)
def test_leg_of_68_minutes_and_its_usual_slips(text, slip):
    question = of_kind("speed.time", **LEG)
    for right in ("1 h 08", "68 min", "1:08", "1h08", "1.13 h"):
        assert mark(question, right).right
    assert mark(question, text).slips == (slip,)


def test_arrival_past_midnight_and_the_day_it_falls_on():
    question = of_kind("speed.eta", departure=at("2325"), **LEG)
    right = {"moving": "1 h 08", "eta": "0033", "day": "the next day"}
    assert mark(question, right).right
    assert mark(question, {**right, "day": "same"}).slips == ("midnight-lost",)
    question = of_kind("speed.eta", departure=at("2255"), **LEG)
    assert mark(question, {**right, "eta": "0003"}).right
    early = mark(question, {**right, "eta": "2303", "day": "same"})
    assert early.slips == ("hour-not-carried",)
    assert early.parts[2].outcome is Outcome.CARRIED  # at 2303 it is the same day still


@pytest.mark.parametrize(
    ("first", "second", "right", "slips"),
    [
        (
            "0947",
            "1025",
            "38 min",
            {"78 min": "hundred-minute-hour", "1 h 38": "hour-not-borrowed"},
        ),
        ("0947", "1025", "38 min", {"1 h 22": "smaller-from-larger"}),
        ("2240", "0125", "2 h 45", {"21 h 15": "midnight-lost", "3 h 25": "hundred-minute-hour"}),
    ],
)
def test_time_between_two_clock_times(first, second, right, slips):
    question = of_kind("speed.elapsed", first=at(first), second=at(second, 1 + (second < first)))
    assert mark(question, right).right
    for text, slip in slips.items():
        assert mark(question, text).slips == (slip,)


def test_mean_speed_of_two_miles_at_four_and_two_at_two_knots_is_not_three():
    # 30 min and 60 min: 4 NM in an hour and a half, 2.7 kn (definition of mean speed).
    question = of_kind(
        "speed.there-and-back", one_way=2 * NM, out=4.0, back=2.0, out_words="", back_words=""
    )
    assert mark(question, {"total": "90 min", "mean": "2.7 kn"}).right
    assert mark(question, {"total": "80 min", "mean": "3.0 kn"}).slips[0] == "mean-of-speeds"
    assert mark(question, {"total": "90 min", "mean": "3.0 kn"}).slips == ("mean-of-speeds",)


@pytest.mark.parametrize(
    ("moving", "right", "slip"),
    # Two hours hold one rest, not two (common practice: nobody rests where the trip ends).
    [(2.0, "2 h 10", "2 h 20"), (2.5, "2 h 50", "3 h 00")],
)
def test_rests_lie_between_the_hours(moving, right, slip):
    question = of_kind("speed.rests", distance=moving * 3 * NM, speed=3.0, rest=10.0)
    under_way = f"{moving * 60:.0f} min"
    assert mark(question, {"moving": under_way, "total": right}).right
    assert mark(question, {"moving": under_way, "total": slip}).slips == ("one-rest-too-many",)


def test_tidal_gate_by_the_watch():
    # 6 NM at 3 kn: 2 h, one rest of 10 min, a quarter of 2 h in reserve: 2 h 40. 1320 UT is 1420 BST.
    gate = datetime(2026, 7, 11, 13, 20, tzinfo=UTC)
    givens = {"distance": 6 * NM, "speed": 3.0, "rest": 10.0, "gate": gate}
    question = of_kind("speed.tidal-gate", **givens, part=4, share="a quarter")
    assert mark(question, {"needed": "2 h 40", "leave": "1140 BST"}).right
    # Two zones are in use, and the watch is asked for: name yours, and turn it.
    for text, told in (("1140", "name yours"), ("1040 UT", "BST"), ("1140 UT", "BST")):
        leave = mark(question, {"needed": "2 h 40", "leave": text}).parts[1]
        assert leave.outcome is Outcome.UNREAD
        assert told in leave.says[0]
    assert mark(question, {"needed": "2 h 40", "leave": "1040 BST"}).slips == ("zone-forgotten",)


@given(st.sampled_from([kind.kind for kind in TYPES]), st.integers(0, 30), st.data())
@settings(max_examples=60, deadline=None)
def test_nothing_that_can_be_read_breaks_a_later_part(kind, seed, data):
    """A learner's own speed of 0, a day of paddling or a distance past the end are only wrong."""
    question = questions.make(kind, seed)
    odd = st.sampled_from(
        ("0 kn", "0 NM", "0 min", "9999 NM", "99999 kn", "999999999 h", "0000 UT")
    )
    answers = {name: data.draw(odd | st.just(right)) for name, right in question.answers.items()}
    assert len(mark(question, answers).parts) == len(question.asks)


@pytest.mark.parametrize("seed", range(25))
def test_faulty_working_goes_wrong_in_one_line_and_follows_from_there(seed):
    question = questions.make("speed.find-the-fault", seed)
    base = questions.question_type("speed.round-the-point")
    givens = {name: question.givens[name] for name in base.chain.givens}
    right, shown = base.with_givens(givens).working(), question.givens["fault"].lines
    assert isinstance(question.picture, Table)
    assert [row[1] for row in question.picture.rows] == list(shown)
    first = next(
        (str(i) for i, (r, s) in enumerate(zip(right, shown, strict=True), 1) if r != s), "0"
    )
    assert question.givens["fault"].line == first
    assert shown[-1] != right[-1] or first == "0"
    clocks = [re.findall(r"\d{4}(?= UT)", line[-1]) for line in (right, shown)]
    assert len(clocks[0]) == len(clocks[1]) == 2


def test_naming_a_line_that_only_carries_the_fault_on_is_told_so():
    for seed in range(40):
        question = questions.make("speed.find-the-fault", seed)
        line = question.givens["fault"].line
        told = {
            option: mark(question, {**question.answers, "which": option}).slips
            for option in "0123456"
            if option != line
        }
        for option, slips in told.items():
            before = line == "0" or "0" < option < line
            expected = "fault-missed" if option == "0" else "fault-carried-on"
            assert slips == ("sound-line-doubted" if before and option != "0" else expected,)


def test_arrivals_in_order():
    def boat(letter, start, miles, knots):
        return letter, at("0900") + timedelta(minutes=start), miles * NM, knots

    # There at 1020, 1030, 1022, 0950 and 1135, by 60 divided by the knots for each mile.
    boats = (
        boat("a", 60, 2, 6.0),
        boat("b", 10, 4, 3.0),
        boat("c", 10, 6, 5.0),
        boat("d", 20, 2, 4.0),
        boat("e", 5, 5, 2.0),
    )
    question = of_kind("speed.first-there", boats=boats, arrivals="")
    assert mark(question, "d a c b e").right
    assert mark(question, "a c d b e").slips == ("by-speed",)
    assert mark(question, "e b a c d").slips == ()
