"""The class record to take away: a table for a spreadsheet, and pages to print."""

from collections.abc import Sequence
from datetime import date
from typing import Any

from navlib import questions
from navlib.classroom.keeping import ClassRecord, Learner, Tally
from navlib.classroom.opening import proposals
from navlib.language.days import full
from navlib.paper.cells import table
from navlib.paper.lessons import title as topic_title
from navlib.paper.typeset import plain, typeset
from navlib.record.words import slip_words

NAME, LINE = 80, 300
"""Characters of a name and of a sentence that are printed."""
ABREAST = 12
"""Evenings that stand side by side on a printed page, the latest ones."""
THERE, AWAY = "there", "away"


def topics_of(record: ClassRecord) -> list[str]:
    """Return the topics that were asked about, in the order in which they are taught."""
    taught = [topic for topic in questions.topics() if topic in record.topics]
    return [*taught, *sorted(set(record.topics) - set(taught))]


def csv_text(record: ClassRecord) -> str:
    """Return a row a learner: attendance, then asked, first right and last right a topic, then slips.

    Nothing in a cell is run by a spreadsheet.
    """
    topics = topics_of(record)
    heads = [
        "name",
        *(f"{one.begun:%Y-%m-%d %H:%M} {one.title}" for one in record.evenings),
        *(f"{topic} {what}" for topic in topics for what in ("asked", "right first", "right last")),
        "slips",
        "slips alive",
    ]
    return table(heads, (_row(one, record, topics) for one in record.learners))


def _row(one: Learner, record: ClassRecord, topics: Sequence[str]) -> list[Any]:
    return [
        one.shown,
        *(THERE if evening.id in one.sessions else AWAY for evening in record.evenings),
        *(n for topic in topics for n in _figures(one.topics.get(topic, Tally()))),
        "; ".join(sorted(one.slips)),
        "; ".join(sorted(one.alive)),
    ]


def _figures(tally: Tally) -> tuple[int, int, int]:
    return tally.asked, tally.first, tally.last


def record_pdf(record: ClassRecord, today: date, names: bool = True) -> bytes:
    """Return the class record as pages to print: the same bytes each time on the same day.

    Without `names` learners are numbered, and who was away is not told.
    """
    topics = topics_of(record)
    evenings = record.evenings[-ABREAST:]
    told = [one["says"] for one in proposals(record, today) if names or not one["named"]]
    return typeset(
        "class_record",
        {
            "title": "Class record",
            "code": "Class record",
            "note": "for the instructor",
            "over": full(today),
            "evenings": [
                [one.begun.strftime("%d.%m.\n%H:%M"), plain(one.title, NAME), str(one.there)]
                for one in evenings
            ],
            "left_out": len(record.evenings) - len(evenings),
            "topics": [topic_title(topic) for topic in topics],
            "rows": [
                {
                    "name": plain(one.shown, NAME) if names else f"Learner {number}",
                    "there": [evening.id in one.sessions for evening in evenings],
                    "topics": [_printed(one.topics.get(topic, Tally())) for topic in topics],
                }
                for number, one in enumerate(record.learners, 1)
            ],
            "whole": [_printed(record.topics[topic]) for topic in topics],
            "slips": [
                [
                    plain(slip_words(one.name), LINE),
                    str(one.learners),
                    str(one.told),
                    str(one.alive),
                ]
                for one in record.slips[:20]
            ],
            "open": [plain(says, LINE) for says in told],
        },
    )


def _printed(tally: Tally) -> list[Any]:
    """Return what is printed of a tally: words and the share for a bar."""
    return [f"{tally.last} of {tally.asked}" if tally.asked else "", tally.share]
