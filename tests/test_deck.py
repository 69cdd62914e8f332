"""On deck: what is at hand errs more and says so, and the record tells it from the table."""

import math
import os
import subprocess
import sys

import pytest

from navlib import questions
from navlib.desk import Exercise, Practice
from navlib.desk.by_hand import by_hand
from navlib.marking import Outcome, mark
from navlib.pictures.deck import CASES, on_deck
from navlib.pictures.drawn import window
from navlib.pictures.pencilled import drawn_answers, key_lies
from navlib.questions import deck
from navlib.record import Record

TOPIC, NUMBER = "bearings", 1


@pytest.fixture
def record(tmp_path):
    return Record(tmp_path / "r.sqlite")


@pytest.fixture
def exercise(record, monkeypatch):
    """The set exercise that measures a bearing; its sheet is not looked at and not drawn."""
    drawn = {"svg": "<svg/>", "alt": "", "width_mm": 170.0, "height_mm": 180.0, "tools": []}
    monkeypatch.setattr("navlib.desk.sitting.draw", lambda picture: picture and dict(drawn))
    return Exercise(TOPIC, NUMBER, record)


def taken(desk, way):
    desk.do(way, {})
    return desk.face()


def test_errors_are_those_of_the_soft_protractor_and_nothing_else_changes():
    table = questions.exercise(TOPIC, NUMBER)
    aboard = deck.on_deck(table)
    assert aboard is not None
    assert aboard.values == table.values
    length = table.givens["length_mm"]
    # Flexible instruments: 1.5 to 2 degrees; a line's ends a millimetre each; common practice.
    reading = math.hypot(1.75, math.degrees(math.atan2(math.sqrt(2), length)))
    assert aboard.chain.sigma(table.givens, "grid") == pytest.approx(reading, rel=0.001)
    assert aboard.band("grid").full == math.floor(math.hypot(2 * reading, 0.5) + 0.5)
    assert table.band("grid").full == 2


def test_a_reading_good_enough_on_deck_is_not_at_the_table():
    table = questions.exercise(TOPIC, NUMBER)
    aboard = deck.on_deck(table)
    assert aboard is not None
    off = (table.values["grid"] + 4) % 360
    answers = {"grid": f"{off:03.0f} G", "back": f"{(off + 180) % 360:03.0f} G"}
    assert mark(aboard, answers).parts[0].outcome is Outcome.RIGHT
    assert mark(table, answers).parts[0].outcome is Outcome.NEAR


def test_where_a_slip_would_hide_in_the_wider_band_there_is_no_deck():
    made = [questions.make("bearings.map-to-compass", seed) for seed in range(12)]
    forms = [deck.on_deck(question) for question in made]
    assert any(form is None for form in forms)
    assert all(form.fair for form in forms if form)
    assert deck.on_deck(questions.make("bearings.compass-to-map", 1)) is None
    assert deck.on_deck(questions.make("position.eight-figures", 1)) is None  # ten metres, afloat


@pytest.mark.parametrize(
    ("kind", "pencil"),
    [("bearings.plot-course", "pencil line"), ("position.plot-reference", "pencil mark")],
)
def test_what_is_plotted_on_deck_has_its_pencil_its_place_in_sight_and_a_wider_band(
    exercise, kind, pencil
):
    seed = next(s for s in range(40) if deck.on_deck(questions.make(kind, s)))
    exercise.lay(questions.make(kind, seed))
    band = exercise.question.band(exercise.question.asks[0]).full
    face, asked = taken(exercise, "deck"), exercise.question
    assert face["picture"]["tools"] == [*deck.DECK_TOOLS, pencil]
    assert "(on deck: within" in face["parts"][0]["prompt"]
    assert band < asked.band(asked.asks[0]).full
    key = key_lies(asked)[pencil][0]
    spot = key.get("x", key.get("x1")), key.get("y", key.get("y1"))
    folds = face["picture"]["deck"]
    for at, first, panels, size in zip(
        spot,
        folds["at"],
        (folds["columns"], folds["rows"]),
        (face["picture"]["width_mm"], face["picture"]["height_mm"]),
        strict=True,
    ):
        assert first <= at / size * panels <= first + 2
    assert mark(asked, drawn_answers(asked, key_lies(asked))).right


def test_the_learner_goes_on_deck_and_is_there_again_the_next_day(exercise, record):
    assert ["deck", "On deck"] in exercise.face()["actions"]
    face = taken(exercise, "deck")
    assert ["table", "At the table"] in face["actions"]
    assert face["picture"]["tools"] == ["soft protractor", "knotted cord", "thumb"]
    assert "on deck: within" in face["parts"][0]["prompt"]
    again = Exercise(TOPIC, NUMBER, Record(record.path))
    assert again.face()["picture"]["deck"] == face["picture"]["deck"]
    assert "deck" not in taken(again, "table")["picture"]


def test_attempts_on_deck_stand_apart_in_the_record(exercise, record):
    right = exercise.question.answers
    taken(exercise, "deck")
    exercise.do("check", {"answers": right})
    place = f"{TOPIC}/exercise/{NUMBER}"
    assert [attempt.place for attempt in record.attempts(place)] == [f"{place}/deck"]
    assert taken(exercise, "table")["feedback"] is None
    assert exercise.face()["parts"][0]["value"] == ""
    assert taken(exercise, "deck")["feedback"] is not None


def test_practice_on_deck_counts_as_practice(record, monkeypatch):
    monkeypatch.setattr("navlib.desk.sitting.draw", lambda picture: None)
    practice = Practice(TOPIC, record)
    record.remember(f"{TOPIC}/practice/deck", "yes")
    practice.lay(questions.exercise(TOPIC, NUMBER))
    practice.do("check", {"answers": practice.question.answers})
    assert practice.standing().startswith("1 of 1 right")


@pytest.mark.parametrize("spot", [(5.0, 5.0), (85.0, 90.0), (168.0, 178.0)])
def test_the_fold_is_the_seeds_and_leaves_the_spot_in_sight(spot):
    drawn = {"svg": "<svg/>", "width_mm": 170.0, "height_mm": 180.0}
    for seed in range(20):
        lies = on_deck(drawn, seed, shown=spot)["deck"]
        assert lies == on_deck(drawn, seed, shown=spot)["deck"]
        assert 5 <= abs(lies["turn"]) <= 14
        for side, folds, first, at in zip(
            (170.0, 180.0), (lies["columns"], lies["rows"]), lies["at"], spot, strict=True
        ):
            panel = side / folds
            assert first * panel <= at <= (first + 2) * panel
            assert 2 * panel <= max(CASES["A6"])
    with pytest.raises(ValueError, match="A deck case is A3, A4, A5, A6"):
        on_deck(drawn, 1, "A7")


@pytest.mark.parametrize(
    ("kind", "seed"),
    [
        ("bearings.measure", 3),
        ("variation.chart-to-compass", 3),
        ("distance.by-bar", 3),
        ("distance.by-latitude", 3),
        ("position.six-figures", 4),
        ("position.at-the-border", 2),
    ],
)
def test_a_worked_example_lays_the_instruments_where_the_answer_is_read(kind, seed):
    question = questions.make(kind, seed)
    name, movements = by_hand(question)
    lies, sheet = movements[-1].lies, window(question.picture)
    value, kind_ = question.values[name], question.chain.by_name[name].kind
    if "protractor" in lies:
        read = lies["protractor"]["turn"] + lies["protractor"]["arm"]
        assert abs((read - value + 180) % 360 - 180) < 1
    elif "dividers" in lies:
        ends = lies["dividers"]
        one, two = (sheet.grid_at(ends[f"x{n}"], ends[f"y{n}"]) for n in "12")
        metres = math.dist(one, two)
        # A figure is rounded; a minute of latitude is a mile to a part in 400.
        assert abs(kind_.apart(metres, value)) < kind_.rounding / 2 + 0.004 * metres / 1852
    elif "romer" in lies:
        corner = sheet.grid_at(lies["romer"]["x"], lies["romer"]["y"])
        assert corner == pytest.approx(tuple(question.givens["place"]), abs=1)
    else:
        side, top = lies["pencil line"]
        assert side["y2"] == side["y1"]
        assert top["x2"] == top["x1"]
        assert side["x2"] == sheet.frame.left
        assert top["y2"] == sheet.frame.top


SHOW = """
import sys
from navlib.pictures import kept
from navlib.widgets import Lesson, chart_table
kept._edition = lambda: "now"  # whoever edits the library meanwhile does not matter
Lesson("bearings").exercise(1)
chart_table("kessoray", size_mm=(112, 50))
print("matplotlib" in sys.modules)"""


def test_what_is_kept_is_shown_without_the_drawing_library(tmp_path):
    own = {"NAVLIB_KEPT": str(tmp_path), "NAVLIB_RECORD": str(tmp_path / "r.sqlite")}
    said = [
        subprocess.run(
            [sys.executable, "-c", SHOW],
            env=os.environ | own,
            capture_output=True,
            text=True,
            check=True,
        ).stdout.strip()
        for _ in range(2)
    ]
    assert said == ["True", "False"]
