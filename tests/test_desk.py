"""The desk: what a learner does, what is shown next, and what is still there tomorrow."""

import pytest

from navlib import questions
from navlib.desk import Checkpoint, Exercise, Practice, solution, worked_steps
from navlib.record import Record

TOPIC = "bearings"
SUM = next(n for n in questions.exercises(TOPIC) if questions.exercise(TOPIC, n).picture is None)
"""A set exercise without a sheet, which is quicker to show."""


@pytest.fixture
def record(tmp_path):
    return Record(tmp_path / "r.sqlite")


def offered(desk):
    return [name for name, _ in desk.face()["actions"]]


def outcome(desk):
    parts = desk.face()["feedback"]["parts"]
    return [parts[name]["outcome"] for name in desk.question.asks]


def slip_answer(question):
    """Return the answers of someone who makes the first slip of the first step asked."""
    step = question.chain.by_name[question.asks[0]]
    values = question.chain.run(question.givens, {step.name: step.slips[0]})
    return {name: question.chain.by_name[name].kind.write(values[name]) for name in question.asks}


def test_slip_is_told_then_right_answer_and_both_are_kept(record):
    desk = Exercise(TOPIC, SUM, record)
    assert offered(desk) == ["check", "hint", "again"]
    desk.do("check", {"answers": slip_answer(desk.question)})
    assert outcome(desk)[0] == "wrong"
    assert "Yours, " in desk.face()["feedback"]["parts"][desk.question.asks[0]]["says"][1]
    desk.do("check", {"answers": desk.question.answers})
    assert set(outcome(desk)) == {"right"}
    assert "check" not in offered(desk)
    assert [attempt.right for attempt in record.attempts(TOPIC)] == [False, True]


def test_exercise_comes_back_as_it_was_left(record):
    Exercise(TOPIC, SUM, record).do("check", {"answers": {"magnetic": "007 M"}})
    again = Exercise(TOPIC, SUM, Record(record.path))
    assert again.face()["parts"][0]["value"] == "007 M"
    assert outcome(again) == ["wrong"]


def test_answer_written_down_but_not_judged_is_judged_when_the_lesson_comes_back(record):
    question = questions.exercise(TOPIC, SUM)
    place = f"{TOPIC}/exercise/{SUM}"
    record.attempt(place, question.kind, question.seed, question.answers)
    desk = Exercise(TOPIC, SUM, record)
    assert set(outcome(desk)) == {"right"}
    assert record.unjudged() == []


def test_three_hints_then_the_working_ends_the_question(record):
    desk = Exercise(TOPIC, SUM, record)
    for left in (2, 1, 0):
        desk.do("hint", {})
        assert desk.face()["hints_left"] == left
    assert len(set(desk.face()["hints"])) == 3
    desk.do("working", {})
    assert desk.face()["working"] == list(desk.question.working())
    assert "check" not in offered(desk)
    desk.do("check", {"answers": desk.question.answers})
    assert record.attempts() == []  # what was read off the working does not count as an answer


def test_unreadable_answer_keeps_what_was_typed_and_says_what_was_expected(record):
    desk = Exercise(TOPIC, SUM, record)
    desk.do("check", {"answers": {"magnetic": "north-ish"}})
    assert outcome(desk) == ["unread"]
    assert desk.face()["parts"][0]["value"] == "north-ish"
    assert "check" in offered(desk)


def test_practice_keeps_its_open_question_and_counts_what_was_right(record):
    desk = Practice(TOPIC, record)
    opened = desk.question
    assert Practice(TOPIC, Record(record.path)).question is opened
    desk.do("check", {"answers": opened.answers})
    assert desk.face()["standing"].startswith("1 of 1 right")
    desk.do("next", {})
    assert desk.question is not opened


def test_a_question_passed_over_gives_way_to_one_of_another_kind(record):
    desk = Practice(TOPIC, record)
    for _ in range(20):
        before = desk.question
        desk.do("next", {})
        assert desk.question.kind != before.kind
        assert desk.question.title != before.title


def test_practice_gets_harder_as_it_goes_well(record):
    desk, levels = Practice(TOPIC, record), []
    for _ in range(60):
        levels.append(desk.question.level)
        desk.do("check", {"answers": desk.question.answers})
        desk.do("next", {})
    assert levels[:4] == [1, 1, 1, 1]
    assert 3 in levels
    assert levels.index(2) < levels.index(3)


def test_checkpoint_tells_nothing_until_all_ten_are_answered(record):
    desk = Checkpoint(TOPIC, record)
    for number in range(10):
        assert desk.face()["feedback"] is None
        assert offered(desk) == ["check"]
        right = number % 2 == 0
        answers = desk.question.answers if right else slip_answer(desk.question)
        desk.do("check", {"answers": answers})
        desk = Checkpoint(TOPIC, Record(record.path))  # stop and come back after each one
        assert desk.face()["progress"]["done"] == number + 1
    assert desk.face()["text"].startswith("5 of 10 right.")
    assert desk.face()["text"].count("Yours, ") >= 4
    rows = desk.face()["table"]["rows"]
    assert [row[0].split(".")[0] for row in rows if row[0]] == [str(n) for n in range(1, 11)]
    assert {row[3] for row in rows} >= {"Right", "Not\N{NO-BREAK SPACE}yet"}
    desk.do("again", {})
    assert desk.face()["progress"]["done"] == 0


def test_unreadable_answer_in_a_checkpoint_is_asked_for_again_and_nothing_else_is_told(record):
    desk = Checkpoint(TOPIC, record)
    while len(desk.question.asks) == 1:
        desk.do("check", {"answers": desk.question.answers})
    done, (first, second) = desk.face()["progress"]["done"], desk.question.asks
    desk.do("check", {"answers": {**desk.question.answers, second: "?"}})
    assert desk.face()["progress"]["done"] == done
    assert list(desk.face()["feedback"]["parts"]) == [second]
    assert desk.face()["parts"][0]["value"] == desk.question.answers[first]


def test_worked_example_has_a_way_and_a_line_for_each_step():
    question = questions.make("bearings.back-bearing", 1)
    face = worked_steps(question)
    assert [step["line"] for step in face["steps"]] == list(question.working())
    assert all(step["how"] for step in face["steps"])


def test_a_solution_gives_a_tolerance_where_something_is_measured_and_none_to_a_choice():
    said = solution(questions.make("speed.eta", 1), 5)
    times, day = said.rsplit("\n\n", 1)[1].split("On which day?")
    assert "±" in times
    assert "±" not in day
