"""Which question a seat has, and what came of an answer to it: worked out on the server alone."""

from collections.abc import Mapping
from typing import Any

from navlib import questions
from navlib.chain.question import Question
from navlib.classroom import seeds
from navlib.marking import Marked, Outcome


def question_of(asked: Mapping[str, Any], number: int, seat: int | None) -> Question:
    """Return the question that a seat has: `asked` is its row, `number` that of the session."""
    return questions.make(asked["kind"], seed_of(asked, number, seat))


def seed_of(asked: Mapping[str, Any], number: int, seat: int | None) -> int:
    """Return the seed of a seat's question; the seat does not matter where all share the values."""
    chosen = number if asked["number"] is None else asked["number"]
    return seeds.seed(chosen, asked["position"], seat if asked["own"] else None)


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
