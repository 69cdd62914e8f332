"""What a question looks like on the projector: from the instructor's board, with less in it.

A learner's own words never come here, since anybody may write a name into a box: an answer is
written anew from what was read in it, and one that could not be read is empty.
"""

from collections import Counter
from collections.abc import Mapping, Sequence
from statistics import median
from typing import Any

Face = dict[str, Any]


def question_face(
    asked: Mapping[str, Any],
    board: Mapping[str, Any],
    shown: Mapping[str, Any],
    seat: int | None,
    *,
    spread: bool,
) -> Face:
    """Return the question as `Running.face` describes it, with nothing that is told at the reveal.

    `asked` is its entry on the session's list, `shown` the question of that seat, or of all.
    """
    own, revealed = bool(asked["own"]), asked["state"] == "revealed"
    chosen = [part for part in board["parts"] if part["options"]]
    written = [part for part in board["parts"] if not part["options"]]
    return {
        **{name: asked[name] for name in ("id", "state")},
        "own": own,
        "seat": seat,
        **{name: shown[name] for name in ("title", "text", "table", "parts", "picture")},
        **{name: board[name] for name in ("in", "joined")},
        "spread": [_spread(part, revealed) for part in written] if spread else None,
        "choices": [_chosen(part, revealed) for part in chosen] if spread and chosen else None,
        **dict.fromkeys(("slips", "pair", "working", "people")),
    }


def revealed_face(board: Mapping[str, Any], working: Mapping[str, Any], *, pair: bool) -> Face:
    """Return what is told of a question at the reveal, and not before."""
    return {
        "slips": board["slips"],
        "pair": [_one_of_pair(one) for one in board["pair"]] if pair and board["pair"] else None,
        "working": {name: working[name] for name in ("working", "parts")},
    }


def named(people: Sequence[Mapping[str, Any]], *, revealed: bool) -> list[Face]:
    """Return everybody by name. Before the reveal it is not told who has answered."""
    return [
        {"shown": one["shown"], "outcome": one["outcome"] if revealed else None} for one in people
    ]


def _spread(part: Mapping[str, Any], revealed: bool) -> Face:
    answers = [_dot(one, revealed) for one in part["answers"]]
    if not revealed:
        answers = _about_their_middle(answers) if part["signed"] else _without_distance(answers)
    return {
        **{name: part[name] for name in ("name", "prompt", "unit", "band")},
        "answers": answers,
        "key": part["key"] if revealed else None,
    }


def _dot(answer: Mapping[str, Any], revealed: bool) -> Face:
    outcome = answer["outcome"] if revealed else None
    return {"off": answer["off"], "text": answer["plain"], "outcome": outcome}


def _about_their_middle(answers: Sequence[Face]) -> list[Face]:
    read = [one["off"] for one in answers if one["off"] is not None]
    middle = median(read) if read else 0.0
    return [
        one if one["off"] is None else {**one, "off": round(one["off"] - middle, 6)}
        for one in answers
    ]


def _without_distance(answers: Sequence[Face]) -> list[Face]:
    """Return answers whose order tells nothing of how good they are."""
    return sorted(({**one, "off": None} for one in answers), key=lambda one: str(one["text"]))


def _chosen(part: Mapping[str, Any], revealed: bool) -> Face:
    counts = Counter(one["option"] for one in part["answers"])
    told = revealed and part["right_option"] is not None
    return {
        **{name: part[name] for name in ("name", "prompt")},
        "options": [
            {
                "value": value,
                "words": words,
                "count": counts[value],
                "right": value == part["right_option"] if told else None,
            }
            for value, words in part["options"]
        ],
    }


def _one_of_pair(one: Mapping[str, Any]) -> Face:
    return {**{name: one[name] for name in ("text", "outcome", "says")}, "answers": one["plain"]}
