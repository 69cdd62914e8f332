"""A session is run through its plan: what the class sees, what the instructor sees, and the clock."""

import json
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from evening import KIND, NAMES, PLAN, VOTE, Learner, learners, own_question, slipped

from navlib.classroom.driving import Driving
from navlib.classroom.filed import Filed
from navlib.classroom.refusals import Refused
from navlib.classroom.running import Running
from navlib.classroom.standing import Standing

SIX = datetime(2026, 11, 5, 18, tzinfo=UTC)


class Watch:
    """A watch that is set by hand."""

    def __init__(self) -> None:
        self.now = SIX

    def __call__(self) -> datetime:
        return self.now

    def later(self, **ago: float) -> None:
        self.now += timedelta(**ago)


@pytest.fixture
def watch() -> Watch:
    return Watch()


@pytest.fixture
def classes(tmp_path: Path) -> Filed:
    return Filed(tmp_path / "classes")


@pytest.fixture
def running(classes: Filed, watch: Watch) -> Running:
    return Running(classes, classes.begin("An evening", 271_828, PLAN.to_plain())["id"], watch)


@pytest.fixture
def present(classes: Filed, running: Running, tmp_path: Path) -> list[Learner]:
    """Eight learners, who got the session file when the class began to work on its own."""
    running.do("go", n=1)
    return learners(classes, running.session, tmp_path / "homes")


def number_of(running: Running) -> int:
    return int(running.desk()["session"]["number"])


def answered(running: Running, present: list[Learner]) -> None:
    """Two are right, three turned the variation round, one forgot it, one wrote a name, one nothing."""
    running.do("open")
    number = number_of(running)
    made = {2: "variation-sign", 3: "variation-sign", 4: "variation-sign", 5: "variation-forgotten"}
    for seat, learner in enumerate(present[:7], 1):
        question = own_question(number, 1, seat)
        answers = slipped(question, made[seat]) if seat in made else question.answers
        learner.hand_in(1, {"magnetic": learner.seat.name} if seat == 7 else answers)


def test_known_slips_stand_on_the_board_and_on_the_projector_only_once_revealed(
    running: Running, present: list[Learner]
):
    answered(running, present)
    desk = running.desk()
    assert [(s["name"], s["count"]) for s in desk["slips"]] == [
        ("variation-sign", 3),
        ("variation-forgotten", 1),
    ]
    assert desk["outcomes"] == {"right": 2, "carried": 0, "near": 0, "wrong": 4, "unread": 1}
    assert [(s["shown"], s["why"]) for s in desk["stuck"]] == [("Runa Fell", "not read")]

    running.do("spread")
    before = running.face()["question"]
    assert (before["in"], before["joined"], before["state"]) == (7, 7, "open")
    told = ("slips", "pair", "working", "people", "choices")
    assert all(before[name] is None for name in told)
    (spread,) = before["spread"]
    assert spread["key"] is None
    assert {one["outcome"] for one in spread["answers"]} == {None}

    running.do("reveal")
    running.do("pair")
    after = running.face()["question"]
    assert [(s["name"], s["count"]) for s in after["slips"]] == [
        ("variation-sign", 3),
        ("variation-forgotten", 1),
    ]
    assert [one["outcome"] for one in after["pair"]] == ["right", "wrong"]
    assert after["working"]["working"]
    (spread,) = after["spread"]
    assert [one["off"] for one in spread["answers"] if one["outcome"] == "right"] == [0.0, 0.0]
    assert spread["key"] is None, "each has a key of their own"


def test_what_desk_and_projector_do_at_the_same_moment_is_both_done(
    classes: Filed, running: Running, present: list[Learner], watch: Watch
):
    desk = Driving(classes, Standing(classes, running.session), watch())
    running.do("spread")
    desk.do("pause", {})
    stage = running.desk()["session"]["stage"]
    assert stage["spread"]
    assert stage["clock"]["ends"] is None


@pytest.mark.parametrize("moment", ["open", "spread", "closed", "revealed", "pair"])
def test_no_face_names_anybody_and_none_tells_what_is_right_too_early(
    running: Running, present: list[Learner], moment: str
):
    answered(running, present)
    deeds = {"spread": ("spread",), "closed": ("spread", "close"), "revealed": ("reveal",)}
    for deed in (*deeds.get(moment, ()), *(("reveal", "pair") if moment == "pair" else ())):
        running.do(deed)
    face = json.dumps(running.face(), ensure_ascii=False)
    assert not [name for name in NAMES for part in name.split() if part in face]
    assert "stuck" not in face
    assert "not read" not in face
    if moment not in ("revealed", "pair"):
        example = own_question(number_of(running), 1, None)
        told = ("right", "wrong", "unread", "variation-", *example.answers.values())
        assert [word for word in told if f'"{word}' in face] == []
        assert not any(line in face for line in example.working())


def test_the_spread_before_the_reveal_does_not_tell_where_the_key_lies(
    running: Running, present: list[Learner]
):
    answered(running, present)
    running.do("spread")
    before = running.face()["question"]["spread"][0]["answers"]
    running.do("reveal")
    after = running.face()["question"]["spread"][0]["answers"]
    read = [
        (a["off"], b["off"]) for a, b in zip(before, after, strict=True) if b["off"] is not None
    ]
    moved = {round(b - a, 3) for a, b in read}
    assert len(moved) == 1, "the picture is the same, and the key stands somewhere in it"
    assert moved != {0.0}
    assert sorted(a for a, _ in read)[len(read) // 2 - 1] <= 0 <= sorted(a for a, _ in read)[-1]


def test_names_are_shown_when_they_are_asked_for(running: Running, present: list[Learner]):
    answered(running, present)
    running.do("names")
    shown = running.face()["question"]["people"]
    assert [one["shown"] for one in shown] == list(NAMES[:7])
    assert {one["outcome"] for one in shown} == {None}, "who has not answered is not told"
    running.do("reveal")
    assert [one["outcome"] for one in running.face()["question"]["people"]][:2] == [
        "right",
        "wrong",
    ]
    running.do("next")
    assert running.face()["question"]["people"] is None, "the next part begins without"


def test_a_vote_is_counted_and_the_right_one_told_at_the_reveal(
    running: Running, present: list[Learner]
):
    running.do("go", n=3)
    running.do("open")
    (name,) = own_question(number_of(running), 2, None, VOTE).asks
    right = own_question(number_of(running), 2, None, VOTE).values[name]
    for learner, choice in zip(present, ["as printed", right, right, "what?"], strict=False):
        learner.hand_in(2, {name: choice})
    assert running.face()["question"]["choices"] is None, "nobody follows the others"
    running.do("spread")
    (before,) = running.face()["question"]["choices"]
    votes = {"as printed": 1, right: 2}
    counts = {option["value"]: option["count"] for option in before["options"]}
    assert {value: count for value, count in counts.items() if count} == votes
    assert {option["right"] for option in before["options"]} == {None}
    running.do("next")
    running.do("reveal")
    (after,) = running.face()["question"]["choices"]
    assert [option["value"] for option in after["options"] if option["right"]] == [right]


def test_the_clock_is_paused_and_goes_on(running: Running, watch: Watch):
    running.do("go", n=1)
    assert running.face()["clock"] == {"ends": "2026-11-05T18:15:00+00:00", "left_s": 900}
    watch.later(minutes=5)
    running.do("pause")
    assert running.face()["clock"] == {"ends": None, "left_s": 600}
    watch.later(hours=1)
    running.do("more", minutes=2)
    assert running.face()["clock"] == {"ends": None, "left_s": 720}
    running.do("run")
    assert running.face()["clock"]["ends"] == "2026-11-05T19:17:00+00:00"
    running.do("more", minutes=-60)
    with pytest.raises(Refused, match="no time left"):
        running.do("run")


def test_whoever_begins_anew_sees_the_same(
    classes: Filed, running: Running, watch: Watch, present: list[Learner]
):
    answered(running, present)
    running.do("pause")
    running.do("reveal")
    again = Running(Filed(classes.folder), running.session, watch)
    assert again.face() == running.face()
    assert again.desk() == running.desk()
    again.do("next")
    assert running.face()["segment"]["title"] == "With your neighbour"


def test_parts_are_gone_through_and_find_their_questions_again(running: Running):
    face = running.face()
    assert (face["segment"], face["next"]["title"]) == (None, "The three norths")
    running.do("next")
    assert running.face()["segment"]["demonstration"] == "three_norths"
    assert running.face()["question"] is None
    assert running.desk()["notes"] == "Let them guess first."
    running.do("next")
    own = running.face()["question"]["id"]
    running.do("next")
    assert running.face()["question"]["id"] == own, "it is compared"
    running.do("go", n=4)
    vote = running.face()["question"]["id"]
    running.do("back")
    assert running.face()["question"]["id"] == vote != own
    running.do("go", n=5)
    assert (running.face()["question"], running.face()["next"]) == (None, None)
    with pytest.raises(Refused, match="last part"):
        running.do("next")
    rows = running.desk()["segments"]
    assert [row["question"] and row["question"]["id"] for row in rows] == [
        *(None, own, None, vote, None, None)
    ]


def test_questions_have_the_places_of_the_plan_whatever_is_left_out_or_asked_besides(
    running: Running,
):
    running.do("go", n=3)
    running.do("ask", kind="bearings.back-bearing")
    asked = running.desk()["session"]["questions"]
    assert [(one["position"], one["kind"]) for one in asked] == [
        (1, KIND),
        (2, VOTE),
        (3, "bearings.back-bearing"),
    ]


def test_the_session_file_has_all_questions_of_the_plan_from_the_beginning(
    classes: Filed, running: Running, tmp_path: Path
):
    ina = learners(classes, running.session, tmp_path / "homes", 1)[0]
    faces = ina.seat.now()["questions"]
    number = number_of(running)
    assert [face["text"] for face in faces] == [
        own_question(number, 1, 1).text,
        own_question(number, 2, None, VOTE).text,
    ]
    running.do("go", n=1)
    assert len(running.desk()["session"]["questions"]) == 2


def test_one_question_is_open_and_one_asked_again_has_fresh_values(running: Running):
    running.do("go", n=1)
    running.do("open")
    before = running.face()["question"]
    running.do("again")
    after = running.face()["question"]
    assert after["state"] == "open"
    assert after["text"] != before["text"]
    states = {one["id"]: one["state"] for one in running.desk()["session"]["questions"]}
    assert states[before["id"]] == "closed"


@pytest.mark.parametrize(
    ("deed", "given", "says"),
    [
        ("open", {}, "No question"),
        ("again", {}, "No question"),
        ("back", {}, "no part of the plan before"),
        ("go", {"n": 99}, "from 0 to 5"),
        ("go", {"n": "1; DROP"}, "from 0 to 5"),
        ("go", {"x": 1}, "no use for x"),
        ("more", {"minutes": float("nan")}, "such as 5"),
        ("ask", {"kind": "none"}, "no kind of question"),
        ("seat", {"n": -1}, "number of a seat"),
        ("dance", {}, "nothing called “dance”"),
    ],
)
def test_what_cannot_be_done_is_refused_with_a_sentence(
    running: Running, deed: str, given: dict[str, object], says: str
):
    with pytest.raises(Refused, match=says):
        running.do(deed, **given)


def test_an_ended_session_stays_to_be_looked_at(running: Running, present: list[Learner]):
    answered(running, present)
    running.do("reveal")
    running.do("end")
    face = running.face()
    assert face["ended"]
    assert face["clock"]["ends"] is None
    assert face["question"]["slips"]
    with pytest.raises(Refused, match="has ended"):
        running.do("next")
