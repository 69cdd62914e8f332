"""The two small files of a class without a server: what is asked, and what one learner answered.

Both are JSON, and neither holds a key. Nothing in a file is trusted: what is not as it should be is
refused as a whole, with a sentence.
"""

import json
import re
import unicodedata
from collections.abc import Mapping
from dataclasses import asdict, dataclass
from datetime import datetime
from typing import Any

from navlib import questions
from navlib.classroom.judging import are_answers, is_key
from navlib.language import say
from navlib.record.places import tidy

LARGEST = 2**20
"""Bytes of the largest file that is read."""
ASKED_END, ANSWERS_END = ".class.json", ".answers.json"
"""How the names of the two files end."""
MOST_SEATS = 9999
_FORM = 1


@dataclass(frozen=True)
class AskedHere:
    """A question as it stands in the session file; `state` as on the class server."""

    position: int
    kind: str
    own: bool
    tell: bool
    number: int | None
    state: str


@dataclass(frozen=True)
class SessionFile:
    """What learners get: `number` gives all values, `begun` tells one session from another."""

    number: int
    begun: str
    title: str
    ended: bool
    questions: tuple[AskedHere, ...]


@dataclass(frozen=True)
class Answered:
    """An answer as a learner wrote it: `key` is its own alone, `lies` what is drawn on the sheet."""

    key: str
    position: int
    answers: Mapping[str, str]
    lies: Mapping[str, Any]
    given: str


@dataclass(frozen=True)
class AnswersFile:
    """What a learner hands in: all answers of one session, in the order they were written."""

    number: int
    begun: str
    seat: int
    name: str
    answers: tuple[Answered, ...]


def session_text(session: SessionFile) -> str:
    """Return a session file's text."""
    return json.dumps({"navlib-class": _FORM, **asdict(session)}, indent=1, ensure_ascii=False)


def answers_text(handed: AnswersFile) -> str:
    """Return a hand-in file's text."""
    return json.dumps({"navlib-answers": _FORM, **asdict(handed)}, indent=1)


def read_session(text: str) -> SessionFile:
    """Return what stands in a session file. Raises ValueError with a sentence."""
    whole = _whole(text, "navlib-class", _no_session_file())
    try:
        return SessionFile(
            _whole_number(whole["number"], 2**31 - 1),
            _moment(whole["begun"]),
            _line(whole["title"], 200),
            _exactly(whole["ended"], bool),
            tuple(_asked(one) for one in whole["questions"]),
        )
    except _WRONG:
        raise ValueError(_no_session_file()) from None


def read_answers(text: str) -> AnswersFile:
    """Return what stands in a hand-in file. Raises ValueError with a sentence."""
    whole = _whole(text, "navlib-answers", _no_answers_file())
    try:
        return AnswersFile(
            _whole_number(whole["number"], 2**31 - 1),
            _moment(whole["begun"]),
            _whole_number(whole["seat"], MOST_SEATS, least=1),
            tidy(_line(whole["name"], 200)),
            tuple(_answered(one) for one in whole["answers"]),
        )
    except _WRONG:
        raise ValueError(_no_answers_file()) from None


def plain_name(text: str) -> str:
    """Return a title or a name as part of a file's name on any system; "" if nothing is left."""
    letters = unicodedata.normalize("NFKD", text).encode("ascii", "ignore").decode()
    return "-".join(re.findall("[A-Za-z0-9]+", letters))[:40].strip("-")


_WRONG = (KeyError, TypeError, ValueError, AttributeError)


def _whole(text: str, mark: str, otherwise: str) -> dict[str, Any]:
    try:
        whole = json.loads(text)
    except (ValueError, RecursionError):
        raise ValueError(
            say(
                "It is damaged, or only half of it is there yet: save it again, or copy it once more."
            )
        ) from None
    form = whole.get(mark) if isinstance(whole, dict) else None
    if type(form) is not int:
        raise ValueError(otherwise)
    if form > _FORM:
        raise ValueError(
            say("A newer version of this workbook wrote that file: update this one first.")
        )
    return dict(whole)


def _asked(one: Any) -> AskedHere:
    kind = _line(one["kind"], 80)
    if kind not in questions.kinds():
        raise ValueError(kind)
    state = _line(one["state"], 20)
    if state not in ("planned", "open", "closed", "revealed"):
        raise ValueError(state)
    number = one["number"]
    return AskedHere(
        _whole_number(one["position"], 9999, least=1),
        kind,
        _exactly(one["own"], bool),
        _exactly(one["tell"], bool),
        None if number is None else _whole_number(number, 2**31 - 1),
        state,
    )


def _answered(one: Any) -> Answered:
    key, answers, lies = _line(one["key"], 64), one["answers"], one.get("lies", {})
    if not (is_key(key) and isinstance(answers, dict) and are_answers(answers)):
        raise ValueError(key)
    position = _whole_number(one["position"], 9999, least=1)
    return Answered(key, position, answers, _exactly(lies, dict), _moment(one["given"]))


def _exactly(value: Any, kind: type) -> Any:
    if type(value) is not kind:
        raise TypeError(kind)
    return value


def _whole_number(value: Any, most: int, least: int = 0) -> int:
    if type(value) is not int or not least <= value <= most:
        raise ValueError(value)
    return value


def _line(value: Any, longest: int) -> str:
    if not isinstance(value, str) or len(value) > longest or "\x00" in value:
        raise ValueError(value)
    value.encode()  # a lone surrogate, which no file and no database takes, is a ValueError
    return value


def _moment(value: Any) -> str:
    datetime.fromisoformat(_line(value, 40))
    return str(value)


def _no_session_file() -> str:
    return say(
        "This is no session file. Expected is the file that your instructor gives out, such as "
        "evening.class.json."
    )


def _no_answers_file() -> str:
    return say(
        "This is no hand-in file as the workbook writes it. Expected is one such as "
        "Ina-07.answers.json, saved from the class page and not changed."
    )
