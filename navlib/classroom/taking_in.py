"""From a hand-in file that was read to answers in the class's database: each one once, and judged."""

from contextlib import suppress
from dataclasses import dataclass, field
from typing import Any

from navlib.classroom.class_files import Answered, AnswersFile
from navlib.classroom.judging import are_answers, judge, question_of
from navlib.classroom.people import People, name_of
from navlib.classroom.refusals import Refused
from navlib.classroom.store import Row, Store
from navlib.language import say
from navlib.pictures.pencilled import with_drawn


@dataclass
class Taken:
    """What became of a file: `why` some of it could not be taken, and whether some of it `waits`.

    What waits are answers to questions that have not been opened yet.
    """

    why: list[str] = field(default_factory=list)
    waits: bool = False


def take_in(store: Store, people: People, handed: AnswersFile) -> Taken:
    """Take in what is new in a hand-in file; what is there already is left as it is."""
    session = next((one for one in store.sessions() if belongs_to(handed, one)), None)
    if session is None:
        return _not_taken(
            say(
                "It belongs to session {number}, which is not in this folder: was it begun elsewhere, "
                "or deleted?",
                {"number": handed.number},
            )
        )
    learner, shown = learner_of(handed)
    if clash := _clash(store, people, session["id"], learner, shown, handed.seat):
        return _not_taken(clash)
    if (people.get(learner) or {}).get("shown") != shown:
        people.put([(shown, "learner")])
    try:
        store.sit(learner, session["id"], handed.seat)
    except Refused as refused:  # another notebook was quicker
        return _not_taken(str(refused))
    return _take_answers(store, session, learner, handed)


def learner_of(handed: AnswersFile) -> tuple[str, str]:
    """Return the name that whoever handed this in is kept under, and the name as it is shown.

    Who gave no name, or one without letters, is called by the seat.
    """
    with suppress(ValueError):
        return name_of(handed.name), handed.name
    shown = say("Seat {seat}", {"seat": handed.seat})
    return name_of(shown), shown


def belongs_to(handed: AnswersFile, session: Row) -> bool:
    """Return whether a file was handed in for a session; its number alone may come again."""
    return (handed.number, handed.begun) == (session["number"], session["begun"])


def _clash(
    store: Store, people: People, session: int, learner: str, shown: str, seat: int
) -> str | None:
    """Return a sentence on a seat that two have, or a learner who has two; None if all is well."""
    seats = store.seats(session)
    other = next((row["learner"] for row in seats if row["seat"] == seat), learner)
    if other != learner:
        return say(
            "{name} and {other} have written the same seat, {seat}. If they are one person, write the "
            "same name in both files; if not, give {name} another seat.",
            {"name": shown, "seat": seat, "other": (people.get(other) or {}).get("shown", other)},
        )
    mine = next((row["seat"] for row in seats if row["learner"] == learner), seat)
    if mine != seat and any(
        a["seat"] == mine for a in store.answers(learner=learner, session=session)
    ):
        return say(
            "{name} has answered at seat {mine} already, and here it is seat {seat}. Numbers go with "
            "the seat: if these are two people, let each write a name of their own.",
            {"name": shown, "mine": mine, "seat": seat},
        )
    return None


def _take_answers(store: Store, session: Row, learner: str, handed: AnswersFile) -> Taken:
    taken = Taken()
    there = {row["key"] for row in store.answers(learner=learner)}
    asked = {row["position"]: row for row in store.questions(session["id"])}
    for answer in handed.answers:
        if answer.key in there:
            continue
        row = asked.get(answer.position)
        if row is None:
            taken.why.append(
                say("It answers question {n}, which is not asked.", {"n": answer.position})
            )
        elif row["opened"] is None:
            taken.waits = True
        else:
            try:
                _take(store, session, row, learner, answer, handed.seat)
            except (ValueError, LookupError) as error:
                taken.why.append(str(error))
    return taken


def _take(
    store: Store, session: Row, asked: Row, learner: str, answer: Answered, seat: int
) -> None:
    question = question_of(asked, session["number"], seat)
    try:
        written: dict[str, Any] = with_drawn(question, answer.answers, answer.lies)
    except (ValueError, OverflowError, TypeError, LookupError):
        written = dict(answer.answers)  # what is drawn makes no sense; what is written stands
    if not are_answers(written):
        written = dict(answer.answers)
    kept = store.hand_in(asked["id"], learner, answer.key, written, answer.given)
    judge(store, kept, written)


def _not_taken(why: str) -> Taken:
    return Taken([why])
