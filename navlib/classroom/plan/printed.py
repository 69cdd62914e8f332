"""The plan of a session on paper, for the instructor: one page with times, notes and what to bring."""

from collections.abc import Iterator
from typing import Any

from navlib.classroom.plan.demonstrations import line
from navlib.classroom.plan.plan import Plan, Segment
from navlib.classroom.plan.times import START, begins, clock, minutes_of
from navlib.paper.lessons import question_title
from navlib.paper.lessons import title as topic_title
from navlib.paper.typeset import plain, typeset

TITLE, NOTES = 80, 600
"""Characters that are printed of a title, and of the notes of a segment."""


def plan_pdf(plan: Plan, start: str = START) -> bytes:
    """Return the printed plan of a session that begins at a clock time: the same bytes each time.

    Raises ValueError if `start` is no time of the day.
    """
    begin = minutes_of(start)
    end = begin + plan.minutes
    return typeset(
        "plan",
        {
            "title": plain(plan.title, TITLE),
            "code": "Plan",
            "note": "for the instructor",
            "over": plain(
                f"{topic_title(plan.topic) if plan.topic else 'Several topics'} · "
                f"{plan.minutes} minutes · {clock(begin)} to {clock(end)}",
                2 * TITLE,
            ),
            "goals": [plain(goal, 200) for goal in plan.goals],
            "bring": [plain(thing, 200) for thing in plan.bring],
            "caution": plain(plan.caution, NOTES),
            "rows": list(_rows(plan, start)),
            "end": clock(end),
        },
    )


def _rows(plan: Plan, start: str) -> Iterator[dict[str, Any]]:
    asked = 0
    for when, segment in zip(begins(plan, start), plan.segments, strict=True):
        asked += segment.kind is not None
        yield {
            "time": when,
            "minutes": str(segment.minutes),
            "title": plain(segment.title, TITLE),
            "what": plain(_done(segment, asked), 200),
            "notes": plain(segment.notes, NOTES),
            "rest": segment.what == "break",
        }


def _done(segment: Segment, asked: int) -> str:
    """Return what the class does and sees in a segment; empty for a break, whose title says it."""
    what = segment.what.capitalize()
    if segment.demonstration:
        return f"{what}: {line(segment.demonstration)}."
    if segment.what == "demonstrate":
        return f"{what}, by hand."
    if segment.kind:
        values = "own values" if segment.own else "the same values for all"
        told = ", told at once" if segment.tell else ""
        return f"{what}. Question {asked} ({values}{told}): {question_title(segment.kind)}"
    return "" if segment.what == "break" else f"{what}."
