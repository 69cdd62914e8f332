"""What a learner is shown of a question: the words, the boxes, and what became of the answer."""

from collections.abc import Mapping, Sequence
from typing import Any

from navlib.chain.question import Question
from navlib.classroom.judging import marked, told
from navlib.pictures.drawn import tabulate
from navlib.pictures.pencilled import key_lies
from navlib.questions.asked import asked_part
from navlib.questions.picture import SheetWindow, TidePage

Face = dict[str, Any]


def face(asked: Mapping[str, Any], question: Question, mine: Sequence[Mapping[str, Any]]) -> Face:
    """Return a question as its learner may see it now.

    `asked` is its row, `mine` are the learner's answers to it in order. The key and the working are
    in it once it is revealed, not before.
    """
    revealed = asked["state"] == "revealed"
    last = mine[-1] if mine else None
    return {
        "id": asked["id"],
        "position": asked["position"],
        "state": asked["state"],
        "tell": bool(asked["tell"]),
        **words(question),
        "level": question.level,
        "has_picture": has_picture(question),
        "mine": last
        and {
            "answers": last["answers"],
            "at": last["at"],
            "tries": len(mine),
            "counted": last["counted"],
            "parts": told(marked(question, last["answers"]), may_tell(asked)),
        },
        "reveal": {**working(question), "key": key_lies(question)} if revealed else None,
    }


def words(question: Question) -> Face:
    """Return what a question says and asks: title, text, table and parts."""
    return {
        "title": question.title,
        "text": question.text,
        "table": tabulate(question.picture),
        "parts": [asked_part(question, name) for name in question.asks],
    }


def working(question: Question) -> Face:
    """Return the worked solution, and each part's answer with how far one may lie from it."""
    return {
        "working": list(question.working()),
        "parts": {
            name: {"answer": answer, "band": question.band_written(name)}
            for name, answer in question.answers.items()
        },
    }


def may_tell(asked: Mapping[str, Any]) -> bool:
    """Return whether a learner may know by now whether an answer was right."""
    return bool(asked["tell"]) or asked["state"] == "revealed"


def has_picture(question: Question) -> bool:
    """Return whether there is a sheet or a page to be shown beside the words."""
    return isinstance(question.picture, SheetWindow | TidePage)
