"""What to open the next session with, by the class record: a few proposals with their reasons."""

from collections.abc import Iterator
from datetime import date
from typing import Any

from navlib.classroom.keeping import ClassRecord, kinds_with
from navlib.language import say
from navlib.language.days import full
from navlib.paper.lessons import question_title
from navlib.paper.lessons import title as topic_title
from navlib.record.words import slip_words

MOST_SLIPS = 2
LONG_AGO_DAYS = 14
"""After so long a topic is worth a question again (common practice in spaced teaching)."""
FEW = 0.7
"""Below this share of right last answers a topic is not sure yet (common practice)."""


def proposals(record: ClassRecord, today: date) -> list[dict[str, Any]]:
    """Return what to open with: `says`, a `kind` of question to ask with its `title`, or None, and
    whether learners are `named`.

    First the slips that live on, then a topic that is not sure or was not seen for long, then who
    missed the last evening. Empty for a class without answers.
    """
    return [*_slips(record), *_topic(record, today), *_missing(record)]


def _ask(kind: str | None = None, named: bool = False) -> dict[str, Any]:
    return {"kind": kind, "title": say(question_title(kind)) if kind else "", "named": named}


def _slips(record: ClassRecord) -> Iterator[dict[str, Any]]:
    for slip in [one for one in record.slips if one.alive][:MOST_SLIPS]:
        did = slip_words(slip.name)
        says = (
            say("One learner {did}, and has not had it right since.", {"did": did})
            if slip.alive == 1
            else say(
                "{count} learners {did}, and have not had it right since.",
                {"count": slip.alive, "did": did},
            )
        )
        yield {"says": says, **_ask(next(iter(kinds_with(slip.name)), None))}


def _topic(record: ClassRecord, today: date) -> Iterator[dict[str, Any]]:
    if not record.topics:
        return
    topic, tally = min(record.topics.items(), key=lambda one: (one[1].share, one[0]))
    if tally.share < FEW:
        told = {
            "topic": say(topic_title(topic)),
            "right": tally.last,
            "asked": tally.asked,
        }
        yield {
            "says": say("{topic}: {right} of {asked} answers were right in the end.", told),
            **_ask(),
        }
    old, seen = min(
        ((topic, tally.seen or today) for topic, tally in record.topics.items()),
        key=lambda one: (one[1], one[0]),
    )
    if (today - seen).days >= LONG_AGO_DAYS:
        told = {"topic": say(topic_title(old)), "day": full(seen)}
        yield {"says": say("{topic} was asked last on {day}.", told), **_ask()}


def _missing(record: ClassRecord) -> Iterator[dict[str, Any]]:
    if len(record.evenings) < 2:
        return
    last = record.evenings[-1].id
    away = [one.shown for one in record.learners if last not in one.sessions]
    if away:
        names = ", ".join(away)
        yield {
            "says": say("Not there the last time: {names}.", {"names": names}),
            **_ask(named=True),
        }
