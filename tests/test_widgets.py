"""What widgets promise Python: names that do not change, a desk that may fail, words, limits."""

import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from traitlets import TraitError

import navlib.widgets
from navlib.desk import Exercise, worked_steps
from navlib.deviation import DeviationCard
from navlib.questions import exercise
from navlib.record import Record
from navlib.widgets import Card, Lesson, Steps
from navlib.widgets.demos import DeviationByHeading, ThereAndBack, ThreeNorths

FRONT = sorted(Path(navlib.widgets.__file__).parent.rglob("*.[jc]s*"))
SWINGING = {0: -3, 90: 4, 180: 3, 270: -5}


@pytest.fixture
def desk(tmp_path):
    return Exercise("bearings", 2, Record(tmp_path / "record.sqlite"))


class BrokenDesk(Exercise):
    """A desk whose record cannot be written: the disk is full."""

    def do_check(self):
        raise OSError("the disk is full.")


def press(card, action, **answers):
    """Send what the browser sends when a button is pressed."""
    card._handle_custom_msg({"do": action, "answers": answers, "turn": "1"}, [])


# The card -----------------------------------------------------------------------------------------


def test_a_right_answer_comes_back_as_right(desk):
    card = Card(desk)
    press(card, "check", **desk.question.answers)
    (part,) = card.face["feedback"]["parts"].values()
    assert part["outcome"] == "right"
    assert card.trouble == ""


def test_the_sheet_travels_apart_from_the_face(tmp_path):
    card = Card(Exercise("bearings", 1, Record(tmp_path / "record.sqlite")))
    assert card.picture["svg"].rstrip().endswith("</svg>")
    assert "picture" not in card.face
    seen = []
    card.observe(lambda change: seen.append(change["name"]))
    press(card, "hint")
    assert "face" in seen
    assert "picture" not in seen


def test_a_failing_desk_is_said_in_a_sentence_and_the_answer_kept(tmp_path):
    card = Card(BrokenDesk("bearings", 2, Record(tmp_path / "record.sqlite")))
    before = card.face
    press(card, "check", **dict.fromkeys(card.desk.question.asks, "099°M"))
    assert card.trouble.startswith("That did not work: the disk is full. What you wrote still")
    assert card.face == before
    press(card, "hint")
    assert card.trouble == ""
    assert len(card.face["hints"]) == 1


@pytest.mark.parametrize("message", [{}, {"do": "check", "answers": 5}, [], None])
def test_a_message_that_makes_no_sense_does_not_stop_the_card(desk, message):
    card = Card(desk)
    card._handle_custom_msg(message, [])
    press(card, "check", **desk.question.answers)
    assert card.trouble == ""
    assert card.face["feedback"]


class ListeningDesk(Exercise):
    """A desk that remembers what it was asked to do."""

    heard: tuple[str, ...] = ()

    def do(self, action, content):
        self.heard += (action,)
        super().do(action, content)


def test_only_actions_on_the_face_reach_the_desk(tmp_path):
    desk = ListeningDesk("bearings", 2, Record(tmp_path / "record.sqlite"))
    for action in ("next", "hint", "lay"):
        press(Card(desk), action)
    assert desk.heard == ("hint",)


def test_a_card_says_that_nothing_can_be_kept_and_judges_all_the_same(tmp_path):
    (tmp_path / "in-the-way").write_text("a file where the record's folder should be")
    card = Card(Exercise("bearings", 2, Record(tmp_path / "in-the-way" / "record.sqlite")))
    assert "cannot be saved" in card.face["note"]
    press(card, "check", **card.desk.question.answers)
    assert card.trouble == ""
    assert card.face["feedback"]["parts"]["magnetic"]["outcome"] == "right"


def test_what_is_typed_is_cut_not_refused(desk):
    card = Card(desk)
    press(card, "check", **dict.fromkeys(desk.question.asks, "9" * 100_000))
    assert max(len(part["value"]) for part in card.face["parts"]) < 1000


# All widgets --------------------------------------------------------------------------------------


def every_widget(desk):
    example = worked_steps(exercise("bearings", 2))
    return [Card(desk), Steps(example), ThreeNorths(), ThereAndBack(), DeviationByHeading(SWINGING)]


def test_a_widget_is_written_the_same_each_time(desk):
    for widget, again in zip(every_widget(desk), every_widget(desk), strict=True):
        assert repr(widget) == repr(again)
        data, _ = widget._repr_mimebundle_()
        assert data["text/plain"] == repr(widget)
        assert ("text/markdown" in data) != widget.pictured


def test_a_question_is_read_without_a_kernel():
    card = Lesson("variation").exercise(10)
    data, _ = card._repr_mimebundle_()
    for part in (card.face["text"], *card.face["table"]["rows"][2], "\n- 0: none"):
        assert part in data["text/markdown"]


@pytest.mark.parametrize("file", FRONT, ids=lambda file: file.name)
def test_the_front_end_needs_no_network_and_is_short(file):
    text = file.read_text(encoding="utf-8").replace("http://www.w3.org/2000/svg", "")
    assert not re.search(r"https?:|^import |import\(|fetch\(|XMLHttp|@import|url\(", text, re.M)
    assert text.count("\n") < 300
    assert "innerHTML" not in text
    assert file.suffix == ".css" or text.startswith("// @ts-check\n")


# Steps and demonstrations -------------------------------------------------------------------------


def test_steps_show_no_more_than_there_are():
    steps = Steps(worked_steps(exercise("bearings", 2)), shown=99)
    assert steps.shown == len(steps.example["steps"])
    steps.shown = -3
    assert steps.shown == 0


@given(st.floats(-720, 720))
def test_bearings_set_from_python_go_round_the_circle(degrees):
    demo = ThereAndBack(bearing=degrees)
    assert 0 <= demo.bearing < 360
    assert abs((demo.bearing - degrees + 180) % 360 - 180) < 1e-9


def test_a_demonstration_refuses_what_it_cannot_draw():
    with pytest.raises(TraitError):
        ThreeNorths(variation=95)
    with pytest.raises(ValueError, match="two or more"):
        DeviationByHeading({0: 3})


def test_a_deviation_card_keeps_the_way_it_counts():
    card = DeviationCard((0, 90, 180, 270), (-3, 4, 3, -5), "invented for this test", by="M")
    demo = DeviationByHeading(card, heading=-60)
    assert (demo.by, demo.heading) == ("M", 300)
    assert demo.card == [[0, -3], [90, 4], [180, 3], [270, -5]]
    assert DeviationByHeading(SWINGING).card == demo.card
