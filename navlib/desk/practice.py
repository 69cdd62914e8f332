"""Endless practice: own numbers each time, harder as it goes well, and what slipped comes back."""

import random
import re

from navlib import questions
from navlib.chain.question import Question
from navlib.desk.aboard import Aboard
from navlib.desk.syllabus import chances, syllabus
from navlib.language import say, to_say
from navlib.questions.deck import DECK, on_deck
from navlib.record import Record
from navlib.record.choosing import Next, Reason, next_kind
from navlib.record.progress import Progress, Syllabus, progress
from navlib.record.words import why

SEEDS = 2**31

DRAWS, FEW_DRAWS = 12, 4
"""Questions drawn to find one in which a slip wanted can show: not all numbers can show it."""

_OPEN = re.compile(r"(?P<kind>\S+) (?P<seed>\d+)(?: (?P<reason>\S+)(?: (?P<slip>\S+))?)?")
"""How the question that stands open is noted; before reasons were kept it was kind and seed only."""
_REASONS = {reason.value: reason for reason in Reason}


class Practice(Aboard):
    """Practice on one topic; the question on the desk stays until it is answered or passed over.

    What to ask follows from all that the learner answered anywhere, and from `source` where several
    kinds are equally good.
    """

    heading = to_say("Practice")
    why = ""
    """Why the question on the desk is asked now, in a sentence; empty if there is nothing to say."""

    def __init__(self, topic: str, record: Record, source: random.Random | None = None) -> None:
        super().__init__(record)
        self.topic, self.place = topic, f"{topic}/practice"
        self.source = source or random.SystemRandom()
        if not self._open_left():
            self.do_next()

    def kinds(self) -> Syllabus:
        """Return the kinds of question to be asked here now."""
        return syllabus(self.topic)

    @property
    def title(self) -> str:
        """Return the heading of the card."""
        return f"{say(self.heading)}: {self.question.title}"

    def onward(self) -> tuple[str, str]:
        """Return the button for the next question."""
        return "next", say("Next question") if self.over else say("Another question")

    def do_next(self) -> None:
        """Lay the next question."""
        last = (self.record.recall(self.place) or "").partition(" ")[0]
        stand = self._progress()
        chosen = next_kind(self.kinds(), stand, self.source, last)
        question = self._drawn(chosen, stand.probed)
        asked = (question.kind, str(question.seed), chosen.reason.value, chosen.slip)
        self.record.remember(self.place, " ".join(asked).rstrip())
        self.why = why(chosen, stand)
        self.lay(question)

    def standing(self) -> str:
        """Return how many questions were right here, how many kinds are sure, and why this one."""
        stand = self._progress()
        mine = (self.place, f"{self.place}/{DECK}")
        here = [question for question in stand.questions if question.place in mine]
        if not here:
            return self.why
        right, kinds = sum(question.right for question in here), self.kinds()
        sure = sum(stand.kind(kind).sure for kind in kinds)
        counted = say(
            "{right} of {asked} right; {sure} of {kinds} kinds sure.",
            {"right": right, "asked": len(here), "sure": sure, "kinds": len(kinds)},
        )
        return f"{counted} {self.why}".rstrip()

    def _drawn(self, chosen: Next, probed: frozenset[str]) -> Question:
        """Return a question of the kind chosen with numbers in which the slip chosen can show.

        If there is none, the more slips can show that had no chance yet, the better.
        """
        allowed = self.kinds()[chosen.kind].slips
        wanted = {chosen.slip} if chosen.slip else allowed - probed
        best, most = None, -1
        for _ in range(DRAWS if chosen.slip else FEW_DRAWS):
            question = questions.make(chosen.kind, self.source.randrange(SEEDS))
            shown = len(wanted.intersection(chances(question))) if wanted else 0
            if self.wants_deck and on_deck(question):
                shown += 1
            if shown > most:
                best, most = question, shown
            if most >= len(wanted) + self.wants_deck:
                break
        assert best is not None
        return best

    def _open_left(self) -> bool:
        """Lay the question that stood open when the learner stopped, if its kind still exists."""
        left = _OPEN.fullmatch(self.record.recall(self.place) or "")
        if left is None or left["kind"] not in self.kinds():
            return False
        self.lay(questions.make(left["kind"], int(left["seed"])))
        if left["reason"] in _REASONS:
            chosen = Next(left["kind"], _REASONS[left["reason"]], left["slip"] or "")
            self.why = why(chosen, self._progress(before=self.question))
        return True

    def _progress(self, before: Question | None = None) -> Progress:
        """Return how everything stands, or how it stood before a question was answered here."""
        out = (self.where, before.kind, before.seed) if before else None
        attempts = [a for a in self.record.attempts() if (a.place, a.kind, a.seed) != out]
        return progress(attempts, self.record.clock(), syllabus())
