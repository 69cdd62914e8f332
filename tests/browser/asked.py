"""A notebook of cards that each ask one chosen question, opened in a browser."""

from collections.abc import Iterator, Mapping
from contextlib import contextmanager

from hands import Hands
from pages import opened
from playwright.sync_api import Browser, Page, expect
from rig import Lab

from navlib import questions
from navlib.chain.question import Question

CARD = """\
from navlib import questions
from navlib.desk import Exercise
from navlib.record import Record
from navlib.widgets import Card
class Asked(Exercise):
    def do_back(self):
        self.lay(questions.make("{kind}", {seed}))
Card(Asked("{topic}", 1, Record("{name}-{kind}.sqlite")))"""


@contextmanager
def asking(browser: Browser, lab: Lab, name: str, asked: Mapping[str, int]) -> Iterator[Page]:
    """Open a notebook with a card for each kind of question and its seed."""
    cells = [
        CARD.format(kind=kind, seed=seed, topic=kind.partition(".")[0], name=name)
        for kind, seed in asked.items()
    ]
    how = {"viewport": {"width": 1366, "height": 768}, "reduced_motion": "reduce"}
    with opened(browser, lab, name, [f"# {name.capitalize()}", *cells], **how) as page:
        expect(page.locator(".nav-card")).to_have_count(len(asked))
        yield page


def found(page: Page, kind: str, seed: int) -> tuple[Hands, Question]:
    """Return hands on the card that asks this question, and the question."""
    question = questions.make(kind, seed)
    place = page.locator(".nav-card", has_text=question.title)
    place.scroll_into_view_if_needed()
    place.locator(".nav-stage").wait_for()
    return Hands(page, place), question


def judged(hands: Hands, outcome: str) -> str:
    """Hand in what is on the card, and return what is said to it once it is judged so."""
    hands.press("Check")
    expect(hands.table.locator(".nav-part").first).to_have_attribute("data-outcome", outcome)
    return hands.table.locator(".nav-said").first.inner_text()
