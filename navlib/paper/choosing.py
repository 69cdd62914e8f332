"""Which kinds of question a paper can ask on its sheets, and what each of them is worked on."""

from collections import Counter
from dataclasses import dataclass
from datetime import date
from functools import cache
from typing import Any

from navlib.chain.question import Question, QuestionType
from navlib.kinds.marks import OnSheet
from navlib.paper.blueprint import Blueprint, SheetWanted
from navlib.paper.features import Bands, bands, features
from navlib.questions import held, kinds, question_type
from navlib.questions.held import Days, NothingHeld
from navlib.questions.picture import SheetWindow, Sort, Table
from navlib.questions.tides.draws import KESSORAY

LOOKS = 60
"""Draws from which is seen what a kind of question is worked on."""
DRAWS = 240
"""Draws that set the bands of a kind of question."""

ALIKE = 0.15
"""Share of a draw with one and the same answer, from which there are but few answers."""
PLENTY = 0.99
"""Share of a draw that must be different questions, for them not to run out."""

Sheets = frozenset[tuple[str, Sort, int]]


@cache
def sheets_of(kind: str) -> Sheets:
    """Return the sheets that a kind of question is asked on: water, sort and scale."""
    pictures = _pictures(kind)
    return frozenset((p.water, p.sheet, p.scale) for p in pictures if isinstance(p, SheetWindow))


@cache
def spots_of(kind: str) -> int:
    """Return how many places are marked on the sheet of a kind of question, at most."""
    return max((len(p.spots) for p in _pictures(kind) if isinstance(p, SheetWindow)), default=0)


@cache
def drawn_on(kind: str) -> bool:
    """Return whether this kind of question is answered by drawing on the sheet."""
    asked = question_type(kind)
    return any(isinstance(asked.chain.by_name[name].kind, OnSheet) for name in asked.prompts)


def on_its_sheet(kind: str) -> bool:
    """Return whether something is marked on the paper's sheet for this kind, or drawn there."""
    return spots_of(kind) > 0 or drawn_on(kind)


@cache
def tools_of(kind: str) -> frozenset[str]:
    """Return the instruments of which a kind of question needs one at least; empty if none."""
    named: set[str] = set()
    for p in _pictures(kind):
        if isinstance(p, SheetWindow) and p.instruments:
            named |= {tool for tool in p.instruments if not tool.startswith("pencil")}
    return frozenset(named)


@cache
def dated(kind: str) -> bool:
    """Return whether a kind of question has a date in its words."""
    return any("day" in question.givens or "date" in question.givens for question in looks(kind))


@cache
def looks(kind: str) -> tuple[Question, ...]:
    """Return some questions of a kind, fair or not, to see what it is like."""
    asked = question_type(kind)
    found = (asked.draw(held.held(f"look {n}", _A_MONTH)) for n in range(LOOKS))
    return tuple(asked.with_givens(givens) for givens in found if givens)


_A_MONTH = (date(2027, 6, 1), date(2027, 6, 30))  # one month's tides are soon worked out


def _pictures(kind: str) -> list[Any]:
    return [question.picture for question in looks(kind)]


def kinds_at(topic: str, levels: tuple[int, ...]) -> tuple[str, ...]:
    """Return the kinds of question of a topic, at these levels, that a paper can ask."""
    return tuple(kind for kind in kinds(topic) if question_type(kind).level in levels)


def suiting(kind: str, blueprint: Blueprint) -> tuple[SheetWanted, ...]:
    """Return the sheets wanted that a kind of question can be worked on."""
    able = sheets_of(kind)
    return tuple(s for s in blueprint.sheets if (s.water, s.sheet, s.scale) in able)


def askable(kind: str, blueprint: Blueprint) -> bool:
    """Return whether a kind of question can be asked in a paper with its sheets."""
    return not on_its_sheet(kind) or bool(suiting(kind, blueprint))


def waters_of(blueprint: Blueprint) -> tuple[str, ...]:
    """Return the waters of a paper: those of its sheets, or the home waters if it has none."""
    return tuple(dict.fromkeys(sheet.water for sheet in blueprint.sheets)) or (KESSORAY,)


@dataclass(frozen=True)
class Measured:
    """What a large draw of a kind of question tells: its bands, and which answers are often alike.

    `few` names the parts of which so many questions share an answer that neighbours must now and
    then: choices, and what a sheet prints once. `scarce` says that the same question comes up again
    soon, so that each sitting must have its own share of them.
    """

    bands: Bands
    few: frozenset[str]
    scarce: bool


def measured(kind: str, blueprint: Blueprint) -> Measured:
    """Return the bands that hold all variants of a kind of question to one difficulty.

    They rest on the kind, the days and the sheets alone: the same for every secret and sitting.
    Raises NothingHeld if the kind cannot be drawn so.
    """
    days = (blueprint.first, blueprint.last) if dated(kind) else None
    wanted = frozenset((s.water, s.sheet, s.scale) for s in suiting(kind, blueprint))
    return _measured(kind, days, waters_of(blueprint), wanted)


@cache
def _measured(kind: str, days: Days | None, waters: tuple[str, ...], wanted: Sheets) -> Measured:
    asked = question_type(kind)
    drawn = (_drawn(asked, f"bands {n}", days, waters) for n in range(DRAWS))
    found = [question for question in drawn if question and _fits(question, wanted)]
    if not found:
        raise NothingHeld(f"{kind} cannot be drawn within these days and waters")
    few = (
        name
        for name in asked.prompts
        if max(Counter(question.written[name] for question in found).values()) > ALIKE * len(found)
    )
    different = len({numbers(question) for question in found})
    scarce = on_its_sheet(kind) or dated(kind) or different < PLENTY * len(found)
    return Measured(bands([features(question) for question in found]), frozenset(few), scarce)


def numbers(question: Question) -> str:
    """Return a mark of the places of a question, either way round, or of its numbers if none.

    What is drawn from one place goes many ways, so its numbers count.
    """
    picture = question.picture
    if isinstance(picture, SheetWindow) and picture.spots and not drawn_on(question.kind):
        return repr(sorted((round(s.easting), round(s.northing)) for s in picture.spots))
    return f"{question.text} {picture.rows}" if isinstance(picture, Table) else question.text


def _drawn(
    asked: QuestionType, seed: str, days: Days | None, waters: tuple[str, ...]
) -> Question | None:
    try:
        givens = asked.draw(held.held(f"{asked.kind} {seed}", days, waters))
    except NothingHeld:
        return None
    return asked.with_givens(givens) if givens else None


def _fits(question: Question, wanted: Sheets) -> bool:
    picture = question.picture
    if not wanted or not isinstance(picture, SheetWindow):
        return True
    return (picture.water, picture.sheet, picture.scale) in wanted
