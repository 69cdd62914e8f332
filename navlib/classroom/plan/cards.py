"""Work cards for a class without a single computer: own values for each seat, and the key to them.

A card shows what the same seat sees on a screen in a session of the same number. Nothing on it leads
to an answer.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from datetime import date
from itertools import pairwise
from typing import Any

from navlib.chain.question import Question
from navlib.classroom.judging import question_of
from navlib.classroom.plan.plan import Asked, Plan
from navlib.paper.fields import fields
from navlib.paper.overlay import laid
from navlib.paper.reasons import tolerance
from navlib.paper.scheme import short_answer
from navlib.paper.slips import usual_slips
from navlib.paper.typeset import plain, typeset
from navlib.paper.variants import Extract, Mark
from navlib.pictures.drawn import tabulate
from navlib.questions.picture import SheetWindow, TidePage
from navlib.record.words import slip_words

MOST_SEATS = 60
TITLE = 80
ROOM_MM = 9
"""Millimetres to work in for each level of a question."""
_LETTERS = "abcdefghijklmnopqrstuvwxyz"

Told = Callable[[str, float], None]
"""What is being done, and the share of the whole that is done."""


def nothing_told(_words: str, _share: float) -> None:
    """Tell nobody."""


def question_at(asked: Asked, number: int, seat: int) -> Question:
    """Return the question of a seat in the session of this number: the same as on its screen."""
    row = {"kind": asked.kind, "own": asked.own, "number": None, "position": asked.position}
    return question_of(row, number, seat)


def cards_pdf(plan: Plan, number: int, seats: Sequence[int], told: Told = nothing_told) -> bytes:
    """Return the work cards of these seats, sheets at true scale: the same bytes each time.

    `number` is that of the session. Raises ValueError if there is nothing to ask or no seat.
    """
    checked(plan, seats)
    return typeset("cards", cards_data(plan, number, seats, told))


def key_pdf(plan: Plan, number: int, seats: Sequence[int]) -> bytes:
    """Return the key to the work cards, for the instructor alone: the same bytes each time."""
    checked(plan, seats)
    data = {
        "title": plain(f"Key: {plan.title}", TITLE + 5),
        "code": f"Session {number}",
        "note": "Key – instructor only",
        "over": plain(plan.title, TITLE),
        "questions": [_key(asked, number, seats) for asked in plan.questions],
    }
    return typeset("key", data)


def checked(plan: Plan, seats: Sequence[int]) -> None:
    """Raise ValueError if no cards can be made."""
    if not plan.questions:
        raise ValueError(
            f"“{plan.title}” asks nothing, so there are no cards. Give it a segment “work alone” or "
            "“vote” with a kind of question."
        )
    if not seats or min(seats) < 1 or len(seats) > MOST_SEATS:
        raise ValueError(f"Cards are made for 1 to {MOST_SEATS} seats, counted from 1.")


# Cards ------------------------------------------------------------------------------------------


def cards_data(
    plan: Plan, number: int, seats: Sequence[int], told: Told = nothing_told
) -> dict[str, Any]:
    """Return what is printed of the cards as plain data: nothing in it leads to an answer."""
    made = []
    for count, seat in enumerate(seats):
        told(f"Drawing the cards of seat {seat}", count / len(seats))
        made.append(_seat(plan, number, seat))
    told("Setting the pages", 1.0)
    return {
        "title": plain(f"Work cards: {plan.title}", TITLE + 12),
        "code": f"Session {number}",
        "over": plain(plan.title, TITLE),
        "seats": made,
    }


def _seat(plan: Plan, number: int, seat: int) -> dict[str, Any]:
    mine = [(asked, question_at(asked, number, seat)) for asked in plan.questions]
    return {
        "seat": str(seat),
        "cards": [_card(asked, question, seat) for asked, question in mine],
        "sheets": [
            {**laid(extract), "called": _called(seat, asked)}
            for asked, question in mine
            if (extract := extract_of(question, asked.position)) is not None
        ],
    }


def _card(asked: Asked, question: Question, seat: int) -> dict[str, Any]:
    has_sheet = isinstance(question.picture, SheetWindow | TidePage)
    parts = fields(question)
    return {
        "number": str(asked.position),
        "title": question.title,
        "text": [part for part in question.text.split("\n\n") if part.strip()],
        "table": tabulate(question.picture),
        "where": f"Use the sheet “{_called(seat, asked)}”." if has_sheet else "",
        "shared": not asked.own,
        "room": ROOM_MM * question.level,
        "fields": [
            {**part, "prompt": f"{label}  {part['prompt']}" if len(parts) > 1 else part["prompt"]}
            for label, part in zip(_LETTERS, parts, strict=False)
        ],
    }


def _called(seat: int, asked: Asked) -> str:
    return f"Seat {seat}, question {asked.position}"


def extract_of(question: Question, number: int) -> Extract | None:
    """Return the sheet or page of a question as it is printed; None if it has none.

    What is not drawn is left out, so that equal sheets are drawn once.
    """
    picture = question.picture
    if isinstance(picture, TidePage):
        day = picture.day
        month = date(day.year, day.month, 1) if day and picture.page == "table" else day
        return Extract(number, replace(picture, day=month, alt=""))
    if not isinstance(picture, SheetWindow):
        return None
    marks = tuple(Mark(spot.easting, spot.northing, spot.label) for spot in picture.spots)
    lines = tuple(pairwise(mark.label for mark in marks)) if picture.line else ()
    bare = replace(picture, spots=(), alt="", line=False, instruments=None, way=None)
    return Extract(number, bare, marks, lines)


# Key --------------------------------------------------------------------------------------------


def _key(asked: Asked, number: int, seats: Sequence[int]) -> dict[str, Any]:
    whose = [(str(seat), seat) for seat in seats] if asked.own else [("all", seats[0])]
    shown = question_at(asked, number, seats[0])
    prompts = list(shown.prompts.values())
    many = len(prompts) > 1
    return {
        "number": str(asked.position),
        "title": shown.title,
        "segment": plain(asked.title, TITLE),
        "heads": [
            f"{label}  {text}" if many else text
            for label, text in zip(_LETTERS, prompts, strict=False)
        ],
        "rows": [[who, *_row(question_at(asked, number, seat))] for who, seat in whose],
    }


def _row(question: Question) -> Iterator[Any]:
    """Yield the answer to each part, what the usual slip makes of them, and what slip it is."""
    for name in question.asks:
        full = tolerance(question, name).full
        answer = short_answer(question, name, question.written[name])
        yield f"{answer} ± {full}" if full else answer
    slip, answers = next(usual_slips(question), (None, {}))
    yield "; ".join(short_answer(question, name, text) for name, text in answers.items())
    yield slip_words(slip.name) if slip else ""
