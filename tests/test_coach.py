"""Behind the coach's page: the form is read by the rules of the file, and nothing typed is lost."""

import base64
from pathlib import Path

import pytest

from navlib import questions
from navlib.kinds.marks import OnSheet
from navlib.paper import reading
from navlib.paper.awards import labels
from navlib.paper.coach import drafts, giving_back, making, plans, shelf
from navlib.paper.coach.desks import Marking, Results
from navlib.paper.coach.marking import hint
from navlib.paper.coach.room import Room, content
from navlib.paper.coach.setting import Setting
from navlib.paper.sitting import Sitting
from navlib.widgets.coach import Coach


@pytest.fixture(autouse=True)
def papers(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Each test has a shelf of its own."""
    monkeypatch.setenv("NAVLIB_PAPERS", str(tmp_path / "papers"))
    return tmp_path / "papers"


@pytest.fixture
def sitting(papers: Path) -> Sitting:
    """Two papers without their files."""
    return Sitting.new(papers / "warm", reading.read("warm-up"), 2, b"for tests alone")


@pytest.fixture
def marking(sitting: Sitting) -> Marking:
    desk = Marking(Room())
    desk.do("open", {"sitting": str(sitting.path), "marker": "AB"})
    return desk


def enter(desk: Marking, answers: dict[str, str], **more: object) -> None:
    form = desk.face()["form"]
    whose = {"candidate": form["candidate"], "code": form["code"], "marker": desk.marker}
    desk.do("enter", {**whose, "answers": answers, **more})


def item_of(desk: Marking, number: int) -> dict:
    return next(one for one in desk.face()["form"]["items"] if one["number"] == number)


@pytest.mark.parametrize("name", reading.ready_made())
def test_a_blueprint_goes_through_the_form_unchanged(name: str):
    blueprint = reading.read(name)
    assert drafts.blueprint_of(drafts.draft_of(blueprint)) == (blueprint, [])


@pytest.mark.parametrize(
    ("box", "value", "place"),
    [
        ("minutes", "an hour", "minutes"),
        ("pass mark", "99", "pass mark"),
        ("title", "", "title"),
        ("from", "2027-13-01", "days"),
        ("rows", [], "rows"),
    ],
)
def test_what_is_wrong_is_told_at_its_box(box: str, value: object, place: str):
    draft = {**drafts.draft_of(reading.read("warm-up")), box: value}
    made, problems = drafts.blueprint_of(draft)
    assert made is None
    assert place in {problem["place"] for problem in problems}


@pytest.mark.parametrize(
    "change", [{"marks": "two"}, {"kinds": []}, {"kinds": ["bearings.lost"]}, {"minutes": "1e999"}]
)
def test_what_is_wrong_in_a_row_is_told_there(change: dict):
    draft = drafts.draft_of(reading.read("warm-up"))
    draft["rows"][2] |= change
    assert {problem["place"] for problem in drafts.blueprint_of(draft)[1]} == {"row 3"}


@pytest.mark.parametrize(
    "text", ["a: b # c", '"}]\n- x: y', "'…' {} 🛶", "\x00\u2028title: no", "&a *a"]
)
def test_whatever_is_typed_stays_words(text: str):
    draft = {**drafts.draft_of(reading.read("warm-up")), "title": text, "words": {"centre": text}}
    made, problems = drafts.blueprint_of(draft)
    assert problems == []
    assert made is not None
    plain = "".join(c for c in " ".join(text.split()) if c.isprintable())
    assert (made.title, made.words) == (plain, {"centre": plain})


def test_the_plan_tells_what_is_missing():
    draft = drafts.draft_of(reading.read("chart-work"))
    assert plans.reckoned(draft)["plan"]["ready"]
    bare = plans.reckoned({**draft, "sheets": []})["plan"]
    assert not bare["ready"]
    with pytest.raises(ValueError, match="First mend this"):
        Setting(Room()).do("make", {"draft": {**draft, "sheets": []}, "count": "2"})


def test_the_form_offers_only_what_a_blueprint_takes():
    there = plans.what_there_is()
    row = {"level": "", "marks": "9", "working": "0", "minutes": "3"}
    rows = [
        {**row, "topic": one["topic"], "kinds": [kind["kind"]]}
        for one in there["topics"]
        for kind in one["kinds"][:6]
    ]
    sheets = [{"sheet": one["sheet"], "paper": "A3"} for one in there["sheets"]]
    draft = drafts.draft_of(reading.read("warm-up"))
    for n in range(0, len(rows), 40):
        assert drafts.blueprint_of({**draft, "sheets": sheets, "rows": rows[n : n + 40]})[1] == []


def test_a_resit_keeps_the_blueprint_and_needs_a_name_of_its_own(sitting: Sitting):
    desk = Setting(Room())
    draft = desk.do("resit", {"of": str(sitting.path)})["draft"]
    assert drafts.blueprint_of(draft) == (sitting.plan.blueprint, [])
    with pytest.raises(ValueError, match="name of its own"):
        desk.do("make", {"of": str(sitting.path), "sitting": "first", "count": "1"})
    assert [kept.path for kept in shelf.sittings()] == [sitting.path]


@pytest.mark.parametrize("count", ["", "twelve", "0", "-1", "1e3", "9999", "²"])
def test_no_number_of_papers_makes_none(count: str, papers: Path):
    draft = drafts.draft_of(reading.read("warm-up"))
    with pytest.raises(ValueError, match="papers"):
        Setting(Room()).do("make", {"draft": draft, "count": count})
    assert not papers.exists()


def test_opening_the_page_writes_nothing(papers: Path):
    page = Coach()
    for part in (page.paper(), page.marking(), page.results()):
        assert part.face["sittings"] == []
    assert not papers.exists()


def test_marks_follow_at_once_and_a_new_kernel_knows_them(sitting: Sitting, marking: Marking):
    paper = sitting.papers[sitting.plan.codes["01"]]
    (label, name), *_ = labels(paper.items[0]).items()
    assert item_of(marking, 1)["parts"][0]["key"] == ""
    enter(marking, {label: paper.items[0].question.answers[name]}, name="Ina")
    for desk in (marking, Marking(Room())):
        desk.do("open", {"sitting": str(sitting.path), "marker": "AB", "candidate": "01"})
        (part, *_) = item_of(desk, 1)["parts"]
        assert (part["outcome"], part["marks"]) == ("right", part["out_of"])
        assert desk.face()["candidates"][0]["state"] == "1 of 8 entered"
        assert desk.face()["form"]["name"] == "Ina"


def test_a_later_part_follows_the_earlier_one(sitting: Sitting, marking: Marking):
    paper = sitting.papers[sitting.plan.codes["01"]]
    item = next(one for one in paper.items if len(labels(one)) > 1)
    question = item.question
    (first, one), (second, other) = list(labels(item).items())[:2]
    kind = question.chain.by_name[one].kind
    off = kind.shift(question.values[one], 20.0)
    then = question.chain.run(question.givens, fixed={one: off})[other]
    theirs = question.chain.by_name[other].kind.write(then)
    enter(marking, {first: kind.write(off), second: theirs})
    outcomes = [part["outcome"] for part in item_of(marking, item.number)["parts"]]
    assert outcomes[1] == "carried"


def test_a_second_marker_sees_nothing_of_the_first(sitting: Sitting, marking: Marking):
    label = item_of(marking, 1)["parts"][0]["label"]
    enter(marking, {label: "042"})
    marking.do("open", {"sitting": str(sitting.path), "marker": "CD", "candidate": "01"})
    form = marking.face()["form"]
    assert [part["value"] for item in form["items"] for part in item["parts"]] == [""] * 8
    enter(marking, {label: "-"})
    results = Results(marking.room)
    (told,) = results.face()["outcome"]["differences"]
    assert told["places"][0][0] == label


def test_a_person_overrules_with_a_reason(marking: Marking):
    enter(marking, {item_of(marking, 1)["parts"][0]["label"]: "nonsense"})
    with pytest.raises(ValueError, match="reason"):
        marking.do("overrule", {"question": 1, "marks": 1, "reason": " "})
    marking.do("overrule", {"question": 1, "marks": 1, "reason": "The sketch is right."})
    assert item_of(marking, 1)["overruled"]["reason"] == "The sketch is right."
    assert item_of(marking, 1)["marks"] == "1"
    marking.do("overrule", {"question": 1, "marks": None, "reason": "Looked again."})
    assert item_of(marking, 1)["overruled"] is None


def test_another_paper_than_was_meant(sitting: Sitting, marking: Marking):
    other = sitting.plan.codes["02"]
    with pytest.raises(ValueError, match="No paper was made for candidate 31"):
        marking.do("choose", {"candidate": "31"})
    marking.do("choose", {"candidate": "31", "code": other.lower().replace("-", " ")})
    assert marking.face()["form"]["code"] == other
    enter(marking, {item_of(marking, 1)["parts"][0]["label"]: "042"})
    marking.do("choose", {"candidate": "01"})
    assert [one["candidate"] for one in marking.face()["candidates"]] == ["01", "02", "31"]
    marking.do("choose", {"candidate": "31"})
    assert marking.face()["form"]["code"] == other


def test_a_table_is_saved_and_taken_in(marking: Marking):
    text = marking.do("table", {})["data"].decode("utf-8-sig")
    head, first, *_ = text.splitlines()
    at = head.split(",").index("1")
    cells = first.split(",")
    cells[at] = "042"
    data = base64.b64encode(f"{head}\n{','.join(cells)}\n".encode()).decode()
    taken = marking.do("take_in", {"data": data})["taken"]
    assert taken["problems"] == []
    assert item_of(marking, 1)["parts"][0]["value"] == "042"


def test_only_files_of_the_sitting_are_opened(sitting: Sitting, papers: Path):
    (papers / "other.pdf").write_bytes(b"%PDF")
    for place in ("../other.pdf", "secret", "sitting.json", str(papers / "other.pdf"), "", "."):
        with pytest.raises(ValueError, match="no file"):
            content(sitting.path, place)


def test_sheets_of_strange_candidates_have_their_own_files(sitting: Sitting, marking: Marking):
    code = sitting.plan.codes["01"]
    for whose in ("a/b", "a-b", "../x"):
        sitting.enter(whose, code, {"1": "042"}, "AB")
    files = giving_back.write_feedback(sitting)
    assert len({file.name for file in files}) == 3
    assert {file.parent for file in files} == {sitting.path / "results"}


def test_the_shelf_finds_what_lies_elsewhere(tmp_path: Path, papers: Path):
    far = making.Sitting.new(tmp_path / "far", reading.read("warm-up"), 1, b"for tests alone")
    room = Room()
    room.lay(far)
    room.lay(far)
    assert [kept.path for kept in shelf.sittings()] == [far.path.resolve()]
    (far.path / "sitting.json").write_text("{")
    assert shelf.sittings() == []


def test_a_page_answers_whatever_goes_wrong(sitting: Sitting):
    page = Coach()
    part, sent = page.marking(), []
    part.send = lambda content, buffers=None: sent.append((content, buffers))
    part._heard(None, {"do": "open", "sitting": "nowhere", "marker": "AB", "turn": "1"}, [])
    assert "no sitting" in sent[-1][0]["trouble"]
    part._heard(None, {"do": "choose", "turn": "2"}, [])
    assert sent[-1][0]["trouble"]
    part._heard(None, {"do": "open", "sitting": str(sitting.path), "marker": "AB", "turn": "3"}, [])
    assert "trouble" not in sent[-1][0]
    assert part.face["form"]["candidate"] == "01"


def test_what_is_drawn_is_entered_as_a_place():
    kinds = (
        step.kind
        for name in questions.kinds()
        for step in questions.question_type(name).chain.steps
        if isinstance(step.kind, OnSheet)
    )
    assert "grid reference" in hint(next(kinds))
