"""What every sitting shares: one question on the desk, answers in, a face out."""

import secrets
from collections.abc import Mapping
from typing import Any

from navlib import questions
from navlib.chain.question import Question
from navlib.desk.handling import told
from navlib.desk.syllabus import chances
from navlib.language import say
from navlib.marking import Marked, Outcome, mark
from navlib.pictures.drawn import draw, tabulate
from navlib.pictures.pencilled import drawn_answers, drawn_kind, key_lies, tidied, with_drawn
from navlib.questions.asked import asked_part
from navlib.record import Attempt, Record

Face = dict[str, Any]

WORDS = {
    Outcome.RIGHT: "Right.",
    Outcome.CARRIED: "Right, from your own earlier answer.",
    Outcome.NEAR: "Close.",
    Outcome.WRONG: "Not yet.",
    Outcome.UNREAD: "I could not read this.",
}


BESIDE = {
    "mark": "The right place is ringed on the sheet.",
    "line": "The right line is dashed on the sheet.",
    "circle": "The right circle is dashed on the sheet.",
}


def new_seed() -> int:
    """Return a seed that nobody else at the table is likely to have."""
    return secrets.randbelow(2**31)


class Sitting:
    """One question at a time, at one place in a lesson, for the learner of `record`.

    Subclasses name the `place` and lay the first question; an action is a method named `do_...`,
    carried out when it is among the actions offered.
    """

    place: str

    def __init__(self, record: Record) -> None:
        self.record = record

    @property
    def where(self) -> str:
        """Return the place in the record of attempts at the question on the desk."""
        return self.place

    def lay(self, question: Question) -> None:
        """Put a question on the desk, with what this learner last answered to it here."""
        self.question = question
        self.typed: dict[str, str] = {}
        self.lies: dict[str, Any] = {}
        self.marked: Marked | None = None
        self.hints: list[str] = []
        self.working: tuple[str, ...] | None = None
        if last := self._last_attempt():
            self.lies = dict(last.lies or {})
            drawn = drawn_answers(question, self.lies)
            self.typed = {n: t for n, t in last.answers.items() if t != drawn.get(n)}
            self.marked = judge(question, last.answers, self.lies)
            if last.outcomes is None:  # written down, but the program ended before it was judged
                self.record.judged(last.id, self.marked)

    def do(self, action: str, content: Mapping[str, Any]) -> None:
        """Keep what was typed, and where the instruments lie on the sheet, and carry out one of the
        actions offered; others are ignored.
        """
        typed = content.get("answers") or {}
        self.lies = dict(content.get("lies") or {})
        self.typed |= {name: str(typed[name]) for name in self.question.asks if name in typed}
        if action in dict(self.actions()):
            getattr(self, f"do_{action}")()

    def do_check(self) -> None:
        """Write the answers down, then judge them."""
        hinted = self._first_not_right()
        asked = self.question
        lies, answers = tidied(asked, self.lies), self.answers()
        number = self.record.attempt(
            self.where, asked.kind, asked.seed, answers, len(self.hints), chances(asked), lies
        )
        self.marked = judge(asked, answers, lies)
        self.record.judged(number, self.marked)
        if self._first_not_right() != hinted:
            self.hints = []

    def answers(self) -> dict[str, str]:
        """Return what is answered to each part: what is written, else what is drawn on the sheet."""
        return with_drawn(self.question, self.typed, self.lies)

    def do_hint(self) -> None:
        """Give one more hint on the first part that is not right yet."""
        hints = self._hints()
        self.hints = hints[: len(self.hints) + 1]

    def do_working(self) -> None:
        """Show the worked solution; the question is then over, other numbers are to be had."""
        self.working = self.question.working()

    @property
    def right(self) -> bool:
        """Whether the question on the desk was answered rightly."""
        return self.marked is not None and self.marked.right

    @property
    def over(self) -> bool:
        """Whether nothing more is to be answered."""
        return self.right or self.working is not None

    def actions(self) -> list[tuple[str, str]]:
        """Return the buttons to show, the first being what Enter does."""
        if self.over:
            shown = [] if self.working else [("working", say("Show the working"))]
            return [self.onward(), *shown]
        offered = [("check", say("Check"))]
        if len(self.hints) < len(self._hints()):
            offered.append(("hint", say("Give me a hint")))
        if self.marked is not None or len(self.hints) == len(self._hints()):
            offered.append(("working", say("Show the working")))
        return [*offered, self.onward()]

    def onward(self) -> tuple[str, str]:
        """Return the button that goes on to another question."""
        raise NotImplementedError

    def face(self) -> Face:
        """Return what is to be shown now."""
        question = self.question
        return {
            "title": self.title,
            "place": self.place,
            "level": question.level,
            "text": question.text,
            "picture": draw(question.picture),
            "table": tabulate(question.picture),
            "parts": [self._part(name) for name in question.asks],
            "feedback": self._feedback(),
            "lies": self.lies,
            "key": key_lies(question) if self.over else {},
            "hints": self.hints,
            "hints_left": len(self._hints()) - len(self.hints),
            "working": list(self.working) if self.working else None,
            "actions": [list(action) for action in self.actions()],
            "standing": self.standing(),
            "progress": None,
            "note": self.record.note,
        }

    @property
    def title(self) -> str:
        """Return the heading of the card."""
        return self.question.title

    def standing(self) -> str:
        """Return a short line on how it goes here."""
        return ""

    def _part(self, name: str) -> Face:
        return {**asked_part(self.question, name), "value": self.typed.get(name, "")}

    def _feedback(self) -> Face | None:
        if self.marked is None:
            return None
        parts = {
            part.name: {
                "outcome": part.outcome.value,
                "says": [say(WORDS[part.outcome]), *part.says, *self._beside(part.name)],
            }
            for part in self.marked.parts
        }
        return {"parts": parts, "summary": self._summary(self.marked)}

    def _beside(self, name: str) -> list[str]:
        """Return where to see the right place of something drawn, once it may be seen."""
        drawn = drawn_kind(self.question, name) if self.over else None
        return [say(BESIDE[drawn.sort])] if drawn else []

    def _summary(self, marked: Marked) -> str:
        """Return how the parts went together; nothing where there is only one."""
        if len(marked.parts) == 1:
            return ""
        if not marked.read:
            return say("Write it once more; nothing is lost.")
        good = sum(part.marks == 1 for part in marked.parts)
        if marked.right:
            return say("All right.")
        return say("{good} of {all} right.", {"good": good, "all": len(marked.parts)})

    def _hints(self) -> list[str]:
        return list(self.question.hints(self._first_not_right()))

    def _first_not_right(self) -> str:
        parts = self.marked.parts if self.marked else ()
        wanting = [part.name for part in parts if part.outcome is not Outcome.RIGHT]
        return (wanting or self.question.asks)[0]

    def _last_attempt(self) -> Attempt | None:
        here = (self.question.kind, self.question.seed)
        attempts = self.record.attempts(self.where)
        tried = [a for a in attempts if a.place == self.where and (a.kind, a.seed) == here]
        return tried[-1] if tried else None


def judge(question: Question, answers: Mapping[str, str], lies: Mapping[str, Any]) -> Marked:
    """Return answers judged, with what the instruments on the sheet tell of how they came about."""
    return told(question, mark(question, answers), lies)


def another(question: Question) -> Question:
    """Return a question of the same kind with other numbers."""
    return questions.make(question.kind, new_seed())
