"""Reads what a record exported, perhaps on another machine, and trusts nothing in it."""

import json
from collections.abc import Mapping
from datetime import UTC, datetime
from typing import Any

from navlib.record.schema import SCHEMA

ASKED = ("at", "place", "kind", "seed", "answers", "hints", "chances", "lies")
"""What is known of an attempt when it is written down,"""
JUDGED = ("outcomes", "marks", "out_of", "slips")
"""and what is added once it is judged."""

Key = tuple[Any, ...]


def key(attempt: Mapping[str, Any]) -> Key:
    """Return what tells one attempt from another, on whatever machine it was made."""
    answers = tuple(sorted(attempt["answers"].items()))
    asked = (attempt[name] for name in ("at", "place", "kind", "seed", "hints"))
    return (*asked, answers)


def read(text: str) -> tuple[list[dict[str, Any]], dict[str, str]]:
    """Return the attempts and the notes in an exported text.

    Raises ValueError for anything else, so that nothing of it is taken in.
    """
    try:
        whole = json.loads(text)
    except ValueError:
        raise ValueError(_NOT_OURS) from None
    form = whole.get("navlib-record") if isinstance(whole, dict) else None
    if type(form) is not int or not isinstance(whole.get("attempts"), list):
        raise ValueError(_NOT_OURS)
    if form > SCHEMA:
        raise ValueError("A newer version of this workbook wrote that file: update this one first.")
    notes = whole.get("notes", {})
    if not _words(notes):
        raise ValueError(_NOT_OURS)
    return [_attempt(row, number) for number, row in enumerate(whole["attempts"], 1)], notes


_NOT_OURS = (
    "That file holds no answers that this workbook exported. Expected is a file as “export” writes "
    "it, such as answers.json; choose that one, or export it again on the other machine."
)


def _attempt(row: Any, number: int) -> dict[str, Any]:
    """Return one attempt with nothing in it but what it should hold; raises ValueError."""
    try:
        asked = {name: row[name] for name in ASKED[:-2]}
        # Not there in an export of the first form, or of the second.
        chances, lies = row.get("chances"), row.get("lies")
        judged = {name: row[name] for name in JUDGED}
        moment = datetime.fromisoformat(asked["at"])
        good = (
            moment.tzinfo is not None
            and all(isinstance(asked[name], str) for name in ("place", "kind"))
            and all(type(asked[name]) is int for name in ("seed", "hints"))
            and all(abs(asked[name]) < 2**63 for name in ("seed", "hints"))
            and _words(asked["answers"])
            and (chances is None or _names(chances))
            and (lies is None or isinstance(lies, dict))
            and (judged["outcomes"] is None or _words(judged["outcomes"]))
            and all(type(judged[name]) in (int, float) for name in ("marks", "out_of"))
            and _names(judged["slips"])
        )
        if good:
            at = moment.astimezone(UTC).isoformat(timespec="seconds")
            return {**asked, "at": at, "chances": chances, "lies": lies, **judged}
    except (KeyError, TypeError, AttributeError, ValueError, OverflowError):
        pass
    raise ValueError(f"Answer {number} in that file is damaged, so nothing was taken from it.")


def _words(given: Any) -> bool:
    return isinstance(given, dict) and all(isinstance(value, str) for value in given.values())


def _names(given: Any) -> bool:
    return isinstance(given, list) and all(isinstance(name, str) for name in given)
