"""Where a learner stands, in plain data and sentences, for whoever shows a start page."""

from datetime import date, datetime
from typing import Any

from navlib import questions
from navlib.desk.checkpoint import LENGTH, PASS
from navlib.desk.mixed import TOPIC as MIXED
from navlib.desk.syllabus import syllabus
from navlib.language import say
from navlib.record import Record, words
from navlib.record.choosing import due_kinds, due_slips
from navlib.record.progress import (
    CheckpointResult,
    Progress,
    SlipStanding,
    Syllabus,
    Tried,
    checkpoint_results,
    progress,
)
from navlib.record.spacing import RULE

RECURRENT = 2
"""Questions in which a slip was told, from which it is worth speaking of."""

DUE = 1
"""Urgency of a topic in which something is due to come back."""


def standing_words(record: Record, now: datetime | None = None) -> dict[str, Any]:
    """Return how a learner stands: plain data that any front end can show.

    `last` is where the learner worked last (None if nowhere yet); `topics` has an entry a topic,
    `slips` those slips that came back, `next` what to do now; each `next` names a topic, a place in
    it (lesson, practice, checkpoint) and a reason. Days are counted in the zone of `now`.
    """
    stand = progress(record.attempts(), now or record.clock(), syllabus())
    told = [_topic(stand, topic) for topic in questions.topics()]
    urgency = [topic.pop("urgency") for topic in told]
    first = told[min(range(len(told)), key=lambda n: (urgency[n], n))]["next"]
    if (waiting := urgency.count(DUE)) > 1:
        first = {"topic": MIXED, "place": "practice", "reason": words.due_in_topics(waiting)}
    return {
        "learner": record.name,
        "note": record.note,
        "last": _last(stand),
        "topics": told,
        "slips": _slips(stand, syllabus()),
        "next": first,
        "rule": RULE,
    }


def _last(stand: Progress) -> dict[str, Any] | None:
    if not stand.questions:
        return None
    last = max(reversed(stand.questions), key=lambda question: question.at)  # the later of two
    ago = max(0, (stand.today - last.day).days)
    return {"place": last.place, **_day(last.day, stand.today), "days_since": ago}


def _day(day: date, today: date) -> dict[str, str]:
    return {"day": day.isoformat(), "when": words.day_words(day, today)}


def _topic(stand: Progress, topic: str) -> dict[str, Any]:
    kinds = syllabus(topic)
    asked = [question for question in stand.questions if question.kind in kinds]
    results = checkpoint_results(asked, topic, LENGTH)
    last = max((question.day for question in asked), default=None)
    urgency, place, reason = _what_next(stand, kinds, asked, results)
    return {
        "topic": topic,
        "tried": len(asked),
        "right": sum(question.right for question in asked),
        "sure": sum(stand.kind(kind).sure for kind in kinds),
        "kinds": len(kinds),
        "due": len(due_kinds(kinds, stand)),
        "last": None if last is None else _day(last, stand.today),
        "days_since": None if last is None else max(0, (stand.today - last).days),
        "checkpoint": _checkpoint(results, stand.today),
        "slips": _slips(stand, kinds),
        "next": {"topic": topic, "place": place, "reason": reason},
        "urgency": urgency,
    }


def _checkpoint(results: list[CheckpointResult], today: date) -> dict[str, Any] | None:
    if not results:
        return None
    best, last = max(result.right for result in results), results[-1]
    return {
        "best": best,
        "last": last.right,
        "of": LENGTH,
        "passed": best >= PASS,
        **_day(last.day, today),
        "says": words.checkpoint_sentence(results, LENGTH, today),
    }


def _slips(stand: Progress, kinds: Syllabus) -> list[dict[str, Any]]:
    """Return the slips that came back and are not settled, most often told first."""
    found = [slip for slip in stand.slips.values() if slip.told >= RECURRENT and not slip.settled]
    found = [slip for slip in found if any(kind in kinds for kind in slip.kinds)]
    return [_slip(slip, stand) for slip in sorted(found, key=lambda s: (-s.told, s.name))]


def _slip(slip: SlipStanding, stand: Progress) -> dict[str, Any]:
    return {
        "slip": slip.name,
        "told": slip.told,
        "kinds": dict(slip.kinds),
        "due": slip.spacing.is_due(stand.today),
        "says": words.slip_sentence(slip, stand.today),
    }


def _what_next(
    stand: Progress, kinds: Syllabus, asked: list[Tried], results: list[CheckpointResult]
) -> tuple[int, str, str]:
    """Return how urgent what to do next in a topic is (0 the most), the place, and the reason."""
    if not asked:
        return 4, "lesson", say(words.NOT_BEGUN)
    if slips := due_slips(kinds, stand):
        return DUE, "practice", words.slip_sentence(slips[0], stand.today)
    if due := due_kinds(kinds, stand):
        oldest = min(stand.last_day(kind) for kind in due)
        return DUE, "practice", words.due_sentence(len(due), oldest, stand.today)
    if unsure := sum(not stand.kind(kind).sure for kind in kinds):
        return 2, "practice", words.unsure_sentence(unsure, len(kinds))
    if not any(result.right >= PASS for result in results):
        return 3, "checkpoint", say(words.READY)
    back = min(stand.kind(kind).spacing.due for kind in kinds)
    return 5, "practice", words.nothing_due((back - stand.today).days)
