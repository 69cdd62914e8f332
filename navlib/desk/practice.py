"""Endless practice: own numbers each time, harder as it goes well."""

import random

from navlib import questions
from navlib.chain.question import Question
from navlib.desk.sitting import Sitting, new_seed
from navlib.record import Record
from navlib.record.progress import next_kind, standings


class Practice(Sitting):
    """Practice on one topic; the question on the desk stays until it is answered or passed over."""

    def __init__(self, topic: str, record: Record) -> None:
        self.levels = {k: questions.question_type(k).level for k in questions.kinds(topic)}
        place = f"{topic}/practice"
        super().__init__(place, self._standing_open(place, record) or self._draw(record), record)
        self._note_open()

    @property
    def title(self) -> str:
        """Return the heading of the card."""
        return f"Practice: {self.question.title}"

    def onward(self) -> tuple[str, str]:
        """Return the button for the next question."""
        return ("next", "Next question" if self.over else "Another question")

    def do_next(self) -> None:
        """Lay the next question."""
        self.lay(self._draw(self.record))
        self._note_open()

    def standing(self) -> str:
        """Return how many questions were right, and how many kinds are sure."""
        stand = standings(self.record.attempts(self.place))
        tried, right = sum(s.tried for s in stand.values()), sum(s.right for s in stand.values())
        sure = sum(s.sure for s in stand.values())
        if not tried:
            return ""
        return f"{right} of {tried} right; {sure} of {len(self.levels)} kinds sure"

    def _draw(self, record: Record) -> Question:
        attempts = record.attempts(f"{next(iter(self.levels)).split('.')[0]}/practice")
        kind = next_kind(self.levels, attempts, random.Random(new_seed()))
        return questions.make(kind, new_seed())

    def _note_open(self) -> None:
        self.record.remember(self.place, f"{self.question.kind} {self.question.seed}")

    def _standing_open(self, place: str, record: Record) -> Question | None:
        """Return the question that stood open when the learner stopped, if it still exists."""
        kind, _, seed = (record.recall(place) or "").partition(" ")
        return questions.make(kind, int(seed)) if kind in self.levels else None
