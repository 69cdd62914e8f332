"""Which question a seat has, and what came of an answer to it: worked out by the class alone."""

import re
from collections.abc import Mapping
from contextlib import suppress
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from navlib import questions
from navlib.chain.question import Question
from navlib.classroom import seeds
from navlib.marking import Marked, Outcome, mark

if TYPE_CHECKING:
    from navlib.classroom.store import Store, Written

MOST_PARTS, LONGEST_ANSWER = 12, 200


def is_key(text: str) -> bool:
    """Return whether a text may be the key under which an answer is handed in."""
    return re.fullmatch(r"[A-Za-z0-9-]{8,64}", text) is not None


def are_answers(given: Mapping[str, Any]) -> bool:
    """Return whether something may be the answers to a question's parts: a few short texts."""
    return len(given) <= MOST_PARTS and all(
        isinstance(text, str) and len(text) <= LONGEST_ANSWER and len(name) <= LONGEST_ANSWER
        for name, text in given.items()
    )


def question_of(asked: Mapping[str, Any], number: int, seat: int | None) -> Question:
    """Return the question that a seat has: `asked` is its row, `number` that of the session."""
    return questions.make(asked["kind"], seed_of(asked, number, seat))


def seed_of(asked: Mapping[str, Any], number: int, seat: int | None) -> int:
    """Return the seed of a seat's question; the seat does not matter where all share the values."""
    chosen = number if asked["number"] is None else asked["number"]
    return seeds.seed(chosen, asked["position"], seat if asked["own"] else None)


def marked(question: Question, written: Mapping[str, str]) -> Marked:
    """Return what an answer comes to; asked again, as boards and faces do, it costs nothing."""
    return _marked(question.kind, question.seed, tuple(sorted(written.items())))


@lru_cache(maxsize=4096)
def _marked(kind: str, seed: int, written: tuple[tuple[str, str], ...]) -> Marked:
    return mark(questions.make(kind, seed), dict(written))


def judge(store: "Store", kept: "Written", written: Mapping[str, str]) -> Marked:
    """Mark an answer that is written down already, and keep what came of it."""
    question = question_of(kept.asked, kept.number, kept.seat)
    found = marked(question, written)
    store.judged(kept.id, judgement(question, found))
    return found


def catch_up(store: "Store") -> int:
    """Judge what was written down before by who did not live to judge it; return how many."""
    judged = 0
    for row in store.unjudged():
        same = row["question"], row["learner"], row["key"], row["answers"]
        with suppress(LookupError, ValueError):  # of a kind that there is no more
            judge(store, store.hand_in(*same), row["answers"])
            judged += 1
    return judged


def judgement(question: Question, marked: Marked) -> dict[str, Any]:
    """Return what the tables keep of a judged answer."""
    return {
        "outcomes": {part.name: part.outcome.value for part in marked.parts},
        "marks": marked.marks,
        "out_of": float(len(marked.parts)),
        "slips": list(marked.slips),
        "off": {part.name: _off(question, part.name, part.reading.value) for part in marked.parts},
    }


def told(marked: Marked, outcome: bool) -> dict[str, Any]:
    """Return what the learner is told of an answer, part by part.

    Without `outcome` only whether it could be read, and how to write it if not.
    """
    return {
        part.name: {
            "read": part.outcome is not Outcome.UNREAD,
            "says": list(part.says) if outcome or part.outcome is Outcome.UNREAD else [],
            **({"outcome": part.outcome.value} if outcome else {}),
        }
        for part in marked.parts
    }


def worst(outcomes: Mapping[str, str] | None) -> str:
    """Return what an answer as a whole came to: the worst of its parts."""
    order = [outcome.value for outcome in Outcome]
    return max((outcomes or {"": "unread"}).values(), key=order.index)


def says(marked: Marked) -> list[str]:
    """Return everything that is said about an answer."""
    return [sentence for part in marked.parts for sentence in part.says]


def _off(question: Question, name: str, value: Any) -> float | None:
    """Return how far a value lies from the key, signed, in the measure of its kind."""
    if value is None:
        return None
    kind = question.chain.by_name[name].kind
    key = question.values[name]
    return float(kind.apart(kind.nearest(value, key), key))
