"""Plans of a session: read, written and told what is wrong; printed; work cards as on the screen."""

from dataclasses import replace
from pathlib import Path

import pypdfium2
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from navlib import questions
from navlib.__main__ import main
from navlib.chain.question import Question
from navlib.classroom.filed import Filed
from navlib.classroom.plan import cards, demonstrations, drafting, printed, reading, shelf
from navlib.classroom.plan.form import PlanForm
from navlib.classroom.plan.plan import AFTER, ASKING, WHATS, Plan, Segment
from navlib.classroom.plan.reading import PlanError
from navlib.classroom.plan.times import begins
from navlib.classroom.running import Running
from navlib.widgets import demos

GOOD = """\
title: An evening
topic: bearings
minutes: 45
goals: [point at 240]
segments:
  - what: Demonstrate
    minutes: 10
    title: Three norths
    demonstration: three_norths
  - what: work alone
    minutes: 20
    title: A line
    kind: measure
    tell: yes
  - what: vote
    minutes: 5
    title: Which way?
    kind: variation.which-way
  - what: reveal
    minutes: 10
    title: So it is
"""
MISTAKES = [
    ("what: Demonstrate", "what: demonstration", 6, "did you mean “demonstrate”? There are: demon"),
    ("what: Demonstrate", "what: reveal", 6, "“reveal” comes after a question; none was asked yet"),
    ("what: Demonstrate", "what: break", 9, "“break” shows no demonstration"),
    ("three_norths", "three_nords", 9, "did you mean “three_norths”"),
    ("kind: measure", "kind: mesure", 13, "no kind of question “mesure”; did you mean “measure”"),
    ("    kind: measure\n", "", 10, "“work alone” needs “kind:”"),
    ("tell: yes", "tell: perhaps", 14, "“tell” is yes or no, not “perhaps”"),
    (
        "kind: variation.which-way",
        "kind: variation.which-way\n    own: yes",
        19,
        "one question for",
    ),
    ("title: So it is", "title: So it is\n    kind: measure", 22, "asks nothing of its own"),
    ("minutes: 20", "minutes: many", 11, "a whole number from 1 to 240, not “many”"),
    ("topic: bearings", "topic: bearing", 2, "did you mean “bearings”"),
    ("goals:", "gaols:", 4, "has no “gaols”; did you mean “goals”"),
    ("title: An evening\n", "", 1, "needs “title:”"),
]
PLANS = [reading.read(name) for name in reading.ready_made()]
EVENINGS = [plan for plan in PLANS if plan.topic]
NUMBER = 4711


@pytest.mark.parametrize(("right", "wrong", "line", "says"), MISTAKES, ids=[m[3] for m in MISTAKES])
def test_a_mistake_is_told_with_its_line(right: str, wrong: str, line: int, says: str):
    assert right in GOOD
    with pytest.raises(PlanError) as told:
        reading.parse(GOOD.replace(right, wrong, 1), "mine")
    assert (line, True) in [(p.line, says in p.sentence) for p in told.value.problems], told.value


@pytest.mark.parametrize(
    "text", ["", "- a", "words", "a: &a [*a]", "\0", "title: [" * 500, "x" * 200_000]
)
def test_no_file_does_more_than_be_refused(text: str):
    with pytest.raises(PlanError):
        reading.parse(text, "mine")


def test_a_plan_that_a_class_server_would_not_take_is_refused():
    part = f"  - what: break\n    minutes: 1\n    title: Tea\n    notes: {900 * 'a'}\n"
    assert reading.parse(GOOD + 10 * part, "mine").minutes == 55
    long = GOOD + 15 * part
    with pytest.raises(PlanError, match="15000 are the most"):
        reading.parse(long, "mine")


def test_what_a_person_writes_is_read():
    made = reading.parse(GOOD, "mine")
    assert (made.minutes, made.length) == (45, 45)
    assert made.segments[1] == Segment(
        "work alone", 20, "A line", kind="bearings.measure", tell=True
    )
    assert made.segments[2].own is False
    assert [(one.segment, one.position) for one in made.questions] == [(1, 1), (2, 2)]


WORDS = st.text(min_size=1, max_size=40).map(str.strip).filter(bool)


@st.composite
def segments(draw: st.DrawFn) -> tuple[Segment, ...]:
    made: list[Segment] = []
    for _ in range(draw(st.integers(1, 5))):
        asked = any(one.kind for one in made)
        what = draw(st.sampled_from([w for w in WHATS if asked or w not in AFTER]))
        alone = what == "work alone"
        made.append(
            Segment(
                what,
                draw(st.integers(1, 240)),
                draw(WORDS),
                draw(WORDS | st.just("")),
                draw(st.sampled_from([None, *demonstrations.NAMES]))
                if what == "demonstrate"
                else None,
                draw(st.sampled_from(questions.kinds())) if what in ASKING else None,
                draw(st.booleans()) if alone else what != "vote",
                draw(st.booleans()) if alone else False,
            )
        )
    return tuple(made)


@settings(max_examples=60, deadline=None)
@given(
    st.builds(
        Plan,
        name=st.just("mine"),
        title=WORDS,
        topic=st.sampled_from(["", *questions.topics()]),
        goals=st.lists(WORDS, max_size=3).map(tuple),
        bring=st.lists(WORDS, max_size=3).map(tuple),
        segments=segments(),
        length=st.just(0) | st.integers(5, 720),
        caution=WORDS | st.just(""),
    )
)
def test_a_plan_is_read_back_as_it_was_written(plan: Plan):
    assert reading.parse(reading.write(plan), "mine") == plan
    assert Plan.from_plain(plan.to_plain()) == plan


@pytest.mark.parametrize("plain", [{}, {"title": "x"}, {"segments": [{"what": "break"}]}])
def test_what_is_no_plan_is_refused(plain: dict):
    with pytest.raises(ValueError, match="not the plan"):
        Plan.from_plain(plain)


@pytest.mark.parametrize("plan", PLANS, ids=lambda plan: plan.name)
def test_a_ready_made_plan_is_a_whole_evening_or_day(plan: Plan):
    assert plan.minutes == plan.length == (120 if plan.topic else 360)
    assert {one.what for one in plan.segments} == set(WHATS)
    assert any(one.title.startswith("On deck: ") for one in plan.segments)
    assert all(one.notes for one in plan.segments)
    assert plan.goals
    assert plan.bring
    assert plan.caution
    levels = [questions.question_type(one.kind).level for one in plan.questions if one.own]
    assert not plan.topic or levels == sorted(levels), "own work rises from level to level"
    pages = pypdfium2.PdfDocument(printed.plan_pdf(plan))
    assert len(pages) <= (1 if plan.topic else 2)
    assert "not for navigation" in pages[0].get_textpage().get_text_bounded()


def test_there_is_a_plan_for_each_topic_and_one_for_a_day():
    assert [plan.topic for plan in PLANS] == [*questions.topics(), ""]


def test_the_demonstrations_are_those_that_can_be_shown():
    shown = {name for name in demos.__all__ if name.islower()}
    assert set(demonstrations.NAMES) == shown
    for topic, lines in demonstrations.by_topic().items():
        for name in lines:
            said = getattr(demos, name)
            assert said.__module__ == f"navlib.widgets.demos.{topic}"


def test_a_plan_begins_when_it_is_told_to():
    assert begins(PLANS[0], "23.55")[:2] == ("23:55", "00:03")
    with pytest.raises(ValueError, match=r"such as 19:00, not “noon”"):
        printed.plan_pdf(PLANS[0], "noon")


# The form ---------------------------------------------------------------------------------------


@pytest.fixture
def form(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> PlanForm:
    monkeypatch.setenv("NAVLIB_CLASSES", str(tmp_path / "classes"))
    return PlanForm()


def done(form: PlanForm, action: str, **message: object) -> dict:
    return form.do(action, message, lambda _words, _share: None)


@pytest.mark.parametrize("plan", PLANS, ids=lambda plan: plan.name)
def test_a_plan_goes_through_the_form_unchanged(plan: Plan):
    draft = drafting.draft_of(plan)
    assert drafting.plan_of(draft) == (plan, [])
    summed = drafting.reckoned(draft)
    assert (summed["fits"], summed["problems"], summed["findings"]) == (True, [], [])
    assert tuple(summed["times"]) == begins(plan)


@pytest.mark.parametrize(
    ("box", "value", "place"),
    [
        ("title", " ", "title"),
        ("minutes", "long", "minutes"),
        ("goals", "x" * 300, "goals"),
        ("segments", [], "segments"),
        (1, {"minutes": "1e9"}, "segment 2"),
        (1, {"kind": ""}, "segment 2"),
        (0, {"title": '"}]\n- x: y\x00'}, None),
        (0, {"kind": "left from before", "own": False}, None),
        (4, {"what": "reveal", "demonstration": "three_norths"}, None),
    ],
)
def test_what_is_wrong_is_told_at_its_box(box: str | int, value: object, place: str | None):
    draft = drafting.draft_of(EVENINGS[0])
    if isinstance(box, int):
        assert isinstance(value, dict)
        draft["segments"][box] |= value
    else:
        draft[box] = value
    made, problems = drafting.plan_of(draft)
    assert (made is None) == (place is not None)
    assert {problem["place"] for problem in problems} == ({place} if place else set())


def test_the_minutes_are_told_while_something_else_is_wrong():
    draft = drafting.draft_of(EVENINGS[0])
    draft["segments"][0] |= {"minutes": "18", "title": ""}
    summed = drafting.reckoned(draft, "noon")
    assert (summed["minutes"], summed["balance"], summed["fits"]) == (
        130,
        "10 min too long.",
        False,
    )
    assert summed["times"][1] == "19:18"
    assert {one["place"] for one in summed["problems"]} == {"segment 1", "start"}


def test_a_colleague_says_what_a_plan_lacks():
    first = Segment("vote", 100, "Which way?", kind="variation.which-way", own=False)
    shown = Segment("demonstrate", 101, "So it is")
    plan = replace(EVENINGS[0], segments=(first, shown))
    never, pause, idle = drafting.findings(plan)
    assert "Part 1, “Which way?”, is never revealed" in never
    assert "201 min without a break" in pause
    assert "More than half" in idle


def test_a_plan_is_kept_among_ones_own_and_not_over_another(form: PlanForm):
    draft = done(form, "take", source="tides")["draft"]
    kept = done(form, "save", draft=draft)
    assert [one["source"] for one in form.face()["own"]] == [kept["source"]]
    changed = {**draft, "title": "Ours"}
    with pytest.raises(FileExistsError, match="“tides” among yours already"):
        done(form, "save", draft=changed)
    done(form, "save", draft=changed, over=kept["source"])
    assert [plan.title for _, plan in shelf.own()] == ["Ours"]
    assert reading.read(kept["source"]).title == "Ours"
    Path(kept["source"]).write_text("title: [", encoding="utf-8")
    assert form.face()["own"] == []


def test_the_form_prints_what_it_holds(form: PlanForm):
    draft = drafting.draft_of(reading.read("speed"))
    draft["segments"] = draft["segments"][:2]
    assert done(form, "page", draft=draft, start="9:00")["data"].startswith(b"%PDF")
    first = done(form, "cards", draft=draft, seats="1", number="")
    again = done(form, "cards", draft=draft, seats="1", number=first["number"])
    assert first["data"] == again["data"]
    assert done(form, "key", draft=draft, seats="1", number="7")["number"] == "7"
    with pytest.raises(ValueError, match="such as 123456, not “seven”"):
        done(form, "cards", draft=draft, seats="1", number="seven")
    with pytest.raises(ValueError, match="First mend this: “title” needs some words"):
        done(form, "page", draft={**draft, "title": ""})


# Work cards -------------------------------------------------------------------------------------


def test_a_card_has_the_values_that_its_seat_has_on_a_screen(tmp_path: Path):
    plan = reading.read("bearings")
    classes = Filed(tmp_path)
    session = classes.begin("An evening", NUMBER, plan.to_plain())["id"]
    running = Running(classes, session)
    running.do("go", n=len(plan.segments) - 2)
    running.do("go", n=plan.questions[0].segment)
    asked = classes.session(session)["questions"]
    assert [one["position"] for one in asked] == [one.position for one in plan.questions]
    for row, mine in zip(asked, plan.questions, strict=True):
        for seat in (1, 7):
            question = cards.question_at(mine, NUMBER, seat)
            shown = classes.shown(row["id"], seat=seat)
            assert shown["text"] == question.text
            assert [part["prompt"] for part in shown["parts"]] == list(question.prompts.values())


def test_what_is_printed_of_a_card_never_asks_for_the_key(monkeypatch: pytest.MonkeyPatch):
    plan = replace(EVENINGS[0], segments=EVENINGS[0].segments[:2])
    data = cards.cards_data(plan, NUMBER, [3])
    for secret in ("values", "written", "answers", "working", "band", "hints"):
        monkeypatch.setattr(Question, secret, property(lambda _: pytest.fail("the key")))
    assert cards.cards_data(plan, NUMBER, [3]) == data


def test_cards_and_key_of_a_class(tmp_path: Path, capsys: pytest.CaptureFixture[str]):
    plan = replace(
        PLANS[0],
        segments=(
            Segment("work alone", 5, "On the sheet", kind="bearings.measure"),
            Segment("vote", 5, "All the same", kind="distance.print-check", own=False),
            Segment("work alone", 5, "Drawn", kind="bearings.plot-fix"),
        ),
    )
    file, to = tmp_path / "mine.yaml", tmp_path / "cards"
    file.write_text(reading.write(plan), encoding="utf-8")
    given = ("--seats", "2-3", "--number", str(NUMBER), "--to", str(to))
    assert main(["class", "cards", str(file), *given]) == 0
    assert str(NUMBER) in capsys.readouterr().out
    pages = pypdfium2.PdfDocument(to / "cards.pdf")
    texts = [page.get_textpage().get_text_bounded() for page in pages]
    assert sum("Seat 3, question 1" in text for text in texts) == 2, (
        "named on the card and the sheet"
    )
    with_cards = [text for text in texts if "Working" in text]
    assert with_cards
    assert all("not for navigation" in text for text in with_cards)
    assert not any("commonest slip" in text.lower() for text in texts)
    assert any("drawn on the sheet" in text for text in texts)
    key = pypdfium2.PdfDocument(to / "key.pdf")[0].get_textpage().get_text_bounded()
    for seat in (2, 3):
        question = cards.question_at(plan.questions[0], NUMBER, seat)
        assert all(answer in key for answer in question.answers.values())
    sheet = next(
        page for page in pages if "Seat 2, question 1" in page.get_textpage().get_text_bounded()
    )
    assert [round(side * 25.4 / 72) for side in sheet.get_size()] == [210, 297]


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["plan", "tide"], "did you mean “tides”"),
        (["plan", "tides", "--to", "tides.doc"], "a file such as plan.pdf"),
        (["cards", "tides", "--seats", "none", "--to", "x"], "such as 12"),
        (["cards", "tides", "--seats", "1-99", "--to", "x"], "1 to 60 seats"),
        (["cards", "tides", "--seats", "2", "--number", "-1", "--to", "x"], "0 or more, not -1"),
    ],
)
def test_a_command_that_cannot_be_obeyed_says_why(
    words: list[str], says: str, capsys: pytest.CaptureFixture[str]
):
    assert main(["class", *words]) == 2
    assert says in capsys.readouterr().err


def test_a_terminal_shows_plans(capsys: pytest.CaptureFixture[str], tmp_path: Path):
    page = tmp_path / "plans" / "tides.pdf"
    assert main(["class", "plans"]) == main(["class", "plan", "tides", "--start", "9:30"]) == 0
    assert main(["class", "plan", "tides", "--to", str(page)]) == 0
    said = capsys.readouterr().out
    assert all(f"  {plan.name} " in said for plan in PLANS)
    assert "09:30   8 min  demonstrate" in said
    assert page.read_bytes().startswith(b"%PDF")
