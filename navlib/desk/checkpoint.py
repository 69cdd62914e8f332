"""The checkpoint: ten questions without help, told of at the end."""

import random
from typing import Any

from navlib import questions
from navlib.chain.question import Question
from navlib.desk.sitting import Face, Sitting, judge, new_seed
from navlib.language import say
from navlib.marking import Marked, Outcome
from navlib.record import Record

Result = tuple[Question, Marked]

UNREAD = Outcome.UNREAD.value
NO_BREAK = "\N{NO-BREAK SPACE}"
LENGTH = 10
PASS = 8
"""Questions right, of ten, from which a topic counts as ready for the water's edge."""


class Checkpoint(Sitting):
    """Ten questions of a topic in rising level, each answered once; the result comes at the end."""

    def __init__(self, topic: str, record: Record) -> None:
        super().__init__(record)
        self.topic = topic
        self._begin(int(record.recall(f"{topic}/checkpoint") or new_seed()))

    @property
    def title(self) -> str:
        """Return the heading of the card."""
        if self.finished:
            return say("Checkpoint: your result")
        put = {"number": self.done + 1, "length": LENGTH, "title": self.question.title}
        return say("Checkpoint {number} of {length}: {title}", put)

    @property
    def finished(self) -> bool:
        """Whether all ten are answered."""
        return self.done >= LENGTH

    def do_check(self) -> None:
        """Write the answer down and go on; one that cannot be read is asked for once more."""
        super().do_check()
        if self.marked is not None and self.marked.read:
            self.done += 1
            self.lay(self.paper[min(self.done, LENGTH - 1)])

    def do_again(self) -> None:
        """Begin a new checkpoint with other questions."""
        self._begin(new_seed())

    def actions(self) -> list[tuple[str, str]]:
        """Return the buttons to show."""
        if self.finished:
            return [("again", say("A new checkpoint"))]
        return [("check", say("Hand in"))]

    def face(self) -> Face:
        """Return what is to be shown now: a question without help, or the result."""
        if not self.finished:
            shown = super().face()
            return {
                **shown,
                "feedback": _unread_only(shown["feedback"]),
                "hints_left": 0,
                "progress": {"done": self.done, "of": LENGTH},
            }
        results = [(question, self._last_marked(question)) for question in self.paper]
        return {
            **super().face(),
            "level": 0,
            "text": _verdict(results),
            "picture": None,
            "table": _table(results),
            "parts": [],
            "feedback": None,
            "key": {},
            "hints_left": 0,
            "progress": {"done": LENGTH, "of": LENGTH},
        }

    def drawn(self, source: random.Random) -> list[Question]:
        """Return ten questions in rising level; every kind of the topic before any comes twice."""
        kinds = list(questions.kinds(self.topic))
        chosen: list[str] = []
        while len(chosen) < LENGTH:
            chosen += source.sample(kinds, min(len(kinds), LENGTH - len(chosen)))
        return in_rising_level(chosen, source)

    def _begin(self, run: int) -> None:
        """Begin the checkpoint numbered `run`, or go on with it where it was left."""
        self.record.remember(f"{self.topic}/checkpoint", str(run))
        self.place = f"{self.topic}/checkpoint/{run}"
        self.paper = self.drawn(random.Random(f"{self.topic}/checkpoint/{run}"))
        attempts = self.record.attempts(self.place)
        answered = {(a.kind, a.seed) for a in attempts if _was_read(a.outcomes)}
        self.done = sum((q.kind, q.seed) in answered for q in self.paper)
        self.lay(self.paper[min(self.done, LENGTH - 1)])

    def _last_marked(self, question: Question) -> Marked:
        attempts = [
            a
            for a in self.record.attempts(self.place)
            if (a.kind, a.seed) == (question.kind, question.seed)
        ]
        return judge(question, attempts[-1].answers, attempts[-1].lies or {})


def _unread_only(feedback: Face | None) -> Face | None:
    """Return what is to be written once more; nothing on whether the rest is right."""
    parts = feedback["parts"] if feedback else {}
    unread = {name: part for name, part in parts.items() if part["outcome"] == UNREAD}
    return {"parts": unread, "summary": ""} if unread else None


def in_rising_level(kinds: list[str], source: random.Random) -> list[Question]:
    """Return a question of each of these kinds, the easiest first."""
    ordered = sorted(kinds, key=lambda kind: questions.question_type(kind).level)
    return [questions.make(kind, source.randrange(2**31)) for kind in ordered]


_IN_SHORT = {
    Outcome.RIGHT: "Right",
    Outcome.CARRIED: "Right",
    Outcome.NEAR: "Close",
    Outcome.WRONG: "Not yet",
    Outcome.UNREAD: "I could not read this",
}


def _verdict(results: list[Result]) -> str:
    """Return how many were right, and for each slip that was recognised what to look at."""
    right = sum(marked.right for _, marked in results)
    verdict = (
        say("That is sure enough to go on.")
        if right >= PASS
        else say(
            "From {enough} of {length} on it is sure enough. Practise a little more first.",
            {"enough": PASS, "length": LENGTH},
        )
    )
    slips = [
        f"{number}. {part.says[0]}"
        for number, (_, marked) in enumerate(results, 1)
        for part in marked.parts
        if part.diagnosis.ways
    ]
    return "\n\n".join(
        [
            say(
                "{right} of {length} right. {verdict}",
                {"right": right, "length": LENGTH, "verdict": verdict},
            ),
            *slips,
        ]
    )


def _table(results: list[Result]) -> Face:
    """Return what was written and what it is, a row for each part."""
    rows = [
        [
            f"{number}. {question.title}" if part is marked.parts[0] else "",
            part.text.strip(),
            part.key,
            say(_IN_SHORT[part.outcome]).replace(" ", NO_BREAK),
        ]
        for number, (question, marked) in enumerate(results, 1)
        for part in marked.parts
    ]
    return {
        "caption": say("Your ten"),
        "heads": [say("Question"), say("You wrote").replace(" ", NO_BREAK), say("It is"), ""],
        "rows": rows,
    }


def _was_read(outcomes: Any) -> bool:
    return outcomes is not None and UNREAD not in outcomes.values()
