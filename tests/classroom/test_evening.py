"""A whole evening on a real class server: eight learners with browsers of their own, an instructor
with desk and projector in JupyterLab, from joining to the debrief.
"""

import json
import re
from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from contextlib import ExitStack
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import pytest
from conftest import Class
from hall import PIN, WORD, Caller
from playwright.sync_api import Browser, Locator, Page, expect
from rig import PATIENCE_MS, wait_until

from navlib.chain.question import Question
from navlib.classroom.judging import question_of, seed_of
from navlib.marking import mark

NUMBER = 481516234
"""Of a session held before: all values are known."""
NAMES = (
    *("Ina Skarp", "Oskar Lund", "Mira Holt", "Jory Vane", "Liv Aune", "Per Strand"),
    *("Nils Berg", "Eva Lie"),
)
PLAN = "Bearings: which way is it?"
SLIPS = {"Mira Holt": "opposite", "Jory Vane": "opposite", "Liv Aune": "opposite"}
SLIPS |= {"Per Strand": "mirror"}
UNREAD = "Nils Berg"


@dataclass
class Evening:
    """Everybody's page by name, and all that the projector's page was ever told."""

    room: Class
    browser: Browser
    pages: dict[str, Page] = field(default_factory=dict)
    heard: list[str] = field(default_factory=list)
    mishaps: list[str] = field(default_factory=list)
    open: ExitStack = field(default_factory=ExitStack)

    def come_in(self, name: str, word: str = WORD, size: tuple[int, int] = (768, 1024)) -> Page:
        """Log somebody in at the door, as a person does."""
        viewport = {"width": size[0], "height": size[1]}
        context = self.open.enter_context(self.browser.new_context(viewport=viewport))
        context.set_default_timeout(PATIENCE_MS)
        page = self.pages[name] = self._page(context.new_page())
        page.goto(self.room.hall.root)
        page.get_by_label("Your name").fill(name)
        page.get_by_label("Your PIN").fill(PIN)
        page.get_by_label("Class word").fill(word)
        page.get_by_role("button", name="Come in").click()
        return page

    def lesson(self, page: Page, name: str) -> Page:
        page.goto(f"{self.room.hall.root}/user/instructor/doc/tree/{name}.ipynb")
        wait_until(page, "alive")
        return page

    def projector(self) -> Page:
        """Open the projector's page in a second window, and listen to all that it gets."""
        page = self._page(self.pages["instructor"].context.new_page())
        page.set_viewport_size({"width": 1920, "height": 1080})
        page.on("websocket", lambda socket: socket.on("framereceived", self._hear))
        return self.lesson(page, "projector")

    def _hear(self, frame: str | bytes) -> None:
        self.heard.append(frame if isinstance(frame, str) else frame.decode("utf-8", "replace"))

    def _page(self, page: Page) -> Page:
        page.on("pageerror", lambda error: self.mishaps.append(str(error)))
        return page


@pytest.fixture
def evening(room: Class, browser: Browser) -> Iterator[Evening]:
    found = Evening(room, browser)
    with found.open:
        yield found
    mishaps = [mishap for mishap in found.mishaps if "Canceled future" not in mishap]
    assert not mishaps, "\n".join(mishaps)


def slipped(question: Question, slip: str) -> dict[str, str]:
    """Return the answers of who makes this slip first and works on rightly from there."""
    first = question.chain.by_name[question.asks[0]]
    made = question.chain.run(
        question.givens,
        {first.name: next(one for one in first.slips if one.name == slip)},
    )
    steps = question.chain.by_name
    return {name: steps[name].kind.write(made[name]) for name in question.asks}


def answer(page: Page, answers: Mapping[str, str]) -> None:
    """Type answers as a learner does, and send them."""
    boxes = page.locator(".nav-box input")
    expect(boxes).to_have_count(len(answers))
    for box, text in zip(boxes.all(), answers.values(), strict=True):
        box.fill(text)
    page.get_by_role("button", name="Send", exact=True).click()
    expect(page.locator(".nav-summary")).to_contain_text("Sent at")


def view(projector: Page, name: str) -> Locator:
    """Return the projector's screen once it shows this."""
    screen = projector.locator(f".nav-projector[data-view={name}]")
    expect(screen).to_have_count(1)
    return screen


def asked_now(teach: Caller) -> dict[str, Any]:
    session = teach.get("sessions")["sessions"][0]
    entries = teach.get(f"sessions/{session['id']}")["questions"]
    return dict(next(one for one in entries if one["state"] == "open"))


def own(teach: Caller, asked: Mapping[str, Any]) -> dict[str, Question]:
    """Return the question as each learner has it."""
    session = teach.get("sessions")["sessions"][0]
    people = teach.get(f"sessions/{session['id']}/record")["people"]
    return {one["shown"]: question_of(asked, session["number"], one["seat"]) for one in people}


def test_an_evening_from_joining_to_the_debrief(
    evening: Evening, room: Class, screenshot: Callable[[Page, str], Path]
):
    instructor = evening.come_in("instructor", room.hall.staff_word, (1366, 768))
    for name in NAMES:
        evening.come_in(name)
    desk = evening.lesson(instructor, "instructor").locator(".nav-session-desk")
    projector = evening.projector()
    view(projector, "waiting")
    learners = {name: evening.pages[name] for name in NAMES}

    # Joining.
    desk.get_by_label("Plan", exact=True).select_option(label=f"{PLAN} (120 min)")
    desk.get_by_label("Title").fill("Tern Reef evening")
    desk.get_by_label("Number, to have").fill(str(NUMBER))
    desk.get_by_role("button", name="Begin the session").click()
    screen = view(projector, "joining")
    expect(screen).to_contain_text("8 learners have joined")
    expect(screen).to_contain_text(f"The class word: {WORD}")
    screenshot(projector, "evening-joining")
    for name, page in learners.items():
        expect(page.locator(".nav-class-who")).to_contain_text(f"{name}, seat")
    expect(desk.locator(".nav-who-is-here li")).to_have_count(8)
    teach = room.caller("instructor")

    # A demonstration, which a hand-held presenter opens; then a question with own values.
    projector.keyboard.press("PageDown")
    expect(view(projector, "demonstration").locator(".nav-demo svg").first).to_be_visible()
    projector.keyboard.press("PageDown")
    view(projector, "question")
    expect(projector.get_by_role("timer")).to_contain_text(re.compile(r"0\d:\d\d"))
    projector.keyboard.press("o")
    expect(projector.locator(".nav-board footer")).to_contain_text("Open for answers")
    text = projector.locator(".nav-text p").first
    assert text.evaluate("(node) => parseFloat(getComputedStyle(node).fontSize)") >= 36
    asked = asked_now(teach)
    mine = own(teach, asked)
    assert len({question.text for question in mine.values()}) == 8, "each has own values"
    for name, page in learners.items():
        expect(page.locator(".nav-text")).to_contain_text(mine[name].text.split("\n")[0])

    # Answers come in, with slips that are known.
    given = {name: dict(mine[name].answers) for name in NAMES}
    given |= {name: slipped(mine[name], slip) for name, slip in SLIPS.items()}
    given[UNREAD] = dict.fromkeys(mine[UNREAD].asks, "over there")
    marked = {name: mark(mine[name], given[name]) for name in NAMES}
    slips = Counter(slip for name in SLIPS for slip in marked[name].slips)
    assert slips == Counter(SLIPS.values()), "the marker finds what was put in"
    for name in NAMES[:5]:
        answer(learners[name], given[name])
    expect(projector.locator(".nav-board footer")).to_contain_text("5 of 8 answers are in")
    expect(projector.locator(".nav-in-marks .nav-in")).to_have_count(5)
    stuck = desk.locator(".nav-stuck li")
    expect(stuck).to_have_count(3)
    expect(stuck.first).to_contain_text("no answer yet")
    for name in NAMES[5:]:
        answer(learners[name], given[name])
    expect(stuck).to_have_count(1)
    expect(stuck).to_contain_text(f"{UNREAD}the answer cannot be read")
    expect(desk.locator(".nav-outcomes")).to_have_text(
        re.compile(r"3 right.*4 not right.*1 cannot be read")
    )
    found = desk.locator(".nav-slips-so-far li")
    expect(found).to_have_text([re.compile("^3 ×"), re.compile("^1 ×")])
    desk.evaluate("(node) => node.scrollIntoView({block: 'start'})")
    screenshot(instructor, "evening-desk")

    # Before the reveal the spread tells nothing of the key.
    desk.get_by_role("button", name="Spread").click()
    dots = view(projector, "spread").locator(".nav-answer-dot")
    expect(dots).to_have_count(14)  # two parts of seven answers that can be read
    assert projector.locator(".nav-true, .nav-band-full, .nav-answer-dot-right").count() == 0
    for page in learners.values():
        assert page.locator("[data-outcome=right], [data-outcome=wrong]").count() == 0

    # Reveal, with the working, the slips, and a pair to argue about.
    projector.keyboard.press("r")
    screen = view(projector, "revealed")
    expect(screen.locator(".nav-worked-lines li").first).to_be_visible()
    expect(screen.locator(".nav-times")).to_have_text(["3 ×", "1 ×"])
    expect(screen.locator(".nav-spread .nav-answer-dot-wrong")).to_have_count(4)
    screenshot(projector, "evening-revealed")
    for name, page in learners.items():
        outcome = marked[name].parts[0].outcome.value
        expect(page.locator(".nav-part").first).to_have_attribute("data-outcome", outcome)
        if name in SLIPS:
            expect(page.locator(".nav-said").first).to_contain_text(marked[name].parts[0].says[0])
    projector.keyboard.press("a")
    pair = view(projector, "pair").locator(".nav-of-pair")
    expect(pair).to_have_count(2)
    expect(pair.locator(".nav-what-became")).to_have_count(0)
    projector.keyboard.press("r")
    became = ["right", "not right"]
    expect(pair.locator(".nav-what-became")).to_have_count(2)
    assert {words[2:] for words in pair.locator(".nav-what-became").all_inner_texts()} == {*became}

    # Nobody is named, in nothing that this page ever got, until it is asked for.
    told = "".join(evening.heard)
    assert "Tern Reef evening" in told, "what it got was listened to"
    assert not [name for name in NAMES if name in told or name.lower().replace(" ", "-") in told]
    assert "nothing yet" not in told
    projector.keyboard.press("a")
    view(projector, "revealed")
    desk.get_by_role("button", name="Names on the projector").click()
    expect(projector.locator(".nav-names")).to_contain_text("Ina Skarp")

    # The instructor has seen who set a PIN.
    desk.get_by_role("button", name="PINs").click()
    desk.get_by_role("button", name="Ina Skarp: Confirm").click()
    screenshot(instructor, "evening-pins")
    expect(desk.locator(".nav-who-is-here")).to_contain_text("confirmed")

    # A vote on one question for all, the break, the end.
    desk.locator(".nav-step-row").nth(5).click()
    view(projector, "question")
    expect(projector.locator(".nav-names")).to_have_count(0)
    projector.keyboard.press("o")
    expect(projector.locator(".nav-board footer")).to_contain_text("Open for answers")
    texts = {page.locator(".nav-text").inner_text() for page in voting(learners, teach)}
    assert len(texts) == 1, "the same for all"
    desk.locator(".nav-step-row").nth(8).click()
    view(projector, "break")
    desk.get_by_role("button", name="End the session…").click()
    desk.get_by_role("button", name="Yes, end it").click()
    view(projector, "ended")
    for page in learners.values():
        expect(page.locator("main")).to_contain_text("This session has ended")
    record = teach.get(f"sessions/{teach.get('sessions')['sessions'][0]['id']}/record")
    assert len(record["people"]) == len(record["answers"]) == 8
    assert json.dumps(record).count('"wrong"') == 4


def voting(learners: Mapping[str, Page], teach: Caller) -> Iterator[Page]:
    """Yield the learners' pages once they show the question that is open now."""
    asked = asked_now(teach)
    session = teach.get("sessions")["sessions"][0]
    assert seed_of(asked, session["number"], 1) == seed_of(asked, session["number"], 2)
    question = question_of(asked, session["number"], None)
    for page in learners.values():
        expect(page.locator(".nav-text")).to_contain_text(question.text.split("\n")[0])
        yield page
