"""The class record: who was there, how each stands on each topic, and which slips live on.

All of it follows from the sessions' records (`Classroom.record`), in whichever order they come.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime
from functools import cache
from typing import Any

from navlib import questions
from navlib.classroom.judging import worst

Found = Mapping[str, Any]
SOUND = ("right", "carried")
"""Outcomes of which nothing is to be said any more."""


@dataclass(frozen=True)
class Evening:
    """A session that was held: its id, when it began by the clock here, and how many were there."""

    id: int
    title: str
    begun: datetime
    there: int

    @property
    def day(self) -> date:
        """The day it was on."""
        return self.begun.date()


@dataclass
class Tally:
    """Questions answered: how many, how many rightly at the first answer and at the last."""

    asked: int = 0
    first: int = 0
    last: int = 0
    seen: date | None = None

    def add(self, first: bool, last: bool, day: date) -> None:
        """Count one more question, answered on that day."""
        self.asked += 1
        self.first += first
        self.last += last
        self.seen = max(day, self.seen or day)

    @property
    def share(self) -> float:
        """The share that was right in the end; 0 where nothing was asked."""
        return self.last / self.asked if self.asked else 0.0


@dataclass
class Learner:
    """One of the class: the sessions they were in, their standing by topic, their slips.

    `slips` counts the answers in which a slip was told; `alive` are those not answered rightly since.
    """

    name: str
    shown: str
    sessions: set[int] = field(default_factory=set)
    topics: dict[str, Tally] = field(default_factory=lambda: defaultdict(Tally))
    slips: dict[str, int] = field(default_factory=lambda: defaultdict(int))
    alive: set[str] = field(default_factory=set)


@dataclass(frozen=True)
class SlipKept:
    """A slip in the class: how often it was told, to how many, and with how many it lives on."""

    name: str
    told: int
    learners: int
    alive: int


@dataclass(frozen=True)
class ClassRecord:
    """What is kept of a class; evenings by day, learners by name, the commonest slip first."""

    evenings: tuple[Evening, ...]
    learners: tuple[Learner, ...]
    topics: Mapping[str, Tally]
    slips: tuple[SlipKept, ...]


def class_record(records: Iterable[Found]) -> ClassRecord:
    """Return the class record that follows from the records of sessions."""
    held = sorted(records, key=lambda one: (one["session"]["begun"], one["session"]["id"]))
    learners: dict[str, Learner] = {}
    topics: dict[str, Tally] = defaultdict(Tally)
    for record in held:
        session, day = record["session"], _here(record["session"]["begun"]).date()
        for one in record["people"]:
            known = learners.setdefault(one["name"], Learner(one["name"], one["shown"]))
            known.sessions.add(session["id"])
        for (_, name), rows in _by_question(record["answers"]).items():
            learner = learners.setdefault(name, Learner(name, name))
            _count(learner, topics[topic_of(rows[0]["kind"])], rows, day)
    return ClassRecord(
        tuple(
            Evening(
                one["session"]["id"],
                one["session"]["title"],
                _here(one["session"]["begun"]),
                len(one["people"]),
            )
            for one in held
        ),
        tuple(sorted(learners.values(), key=lambda one: (one.shown.casefold(), one.name))),
        topics,
        _slips(learners.values()),
    )


def of_learner(records: Iterable[Found], name: str) -> dict[str, Any]:
    """Return everything that the records hold about one learner, plain enough for JSON."""
    kept = []
    for record in records:
        if seat := next((one for one in record["people"] if one["name"] == name), None):
            mine = [row for row in record["answers"] if row["name"] == name]
            shown = {n: record["session"][n] for n in ("title", "number", "begun", "ended")}
            kept.append({**shown, "seat": seat["seat"], "joined": seat["at"], "answers": mine})
    return {"name": name, "sessions": kept}


def topic_of(kind: str) -> str:
    """Return the topic of a kind of question, which may be no more."""
    return kind.split(".", 1)[0]


@cache
def kinds_with(slip: str) -> tuple[str, ...]:
    """Return the kinds of question in which a slip can be made, the easiest first."""
    able = [
        questions.question_type(kind)
        for kind in questions.kinds()
        if any(
            s.name == slip for step in questions.question_type(kind).chain.steps for s in step.slips
        )
    ]
    return tuple(one.kind for one in sorted(able, key=lambda one: one.level))


def _here(moment: str) -> datetime:
    return datetime.fromisoformat(moment).astimezone()


def _by_question(rows: Sequence[Found]) -> dict[tuple[int, str], list[Found]]:
    """Return the answers that counted and were judged, in order, by question and learner."""
    found: dict[tuple[int, str], list[Found]] = defaultdict(list)
    for row in rows:
        if row["counted"] and row["outcomes"]:
            found[row["question"], row["name"]].append(row)
    return found


def _count(learner: Learner, whole: Tally, rows: Sequence[Found], day: date) -> None:
    first, last = (worst(row["outcomes"]) in SOUND for row in (rows[0], rows[-1]))
    kind = rows[0]["kind"]
    for tally in (learner.topics[topic_of(kind)], whole):
        tally.add(first, last, day)
    for row in rows:
        for slip in dict.fromkeys(row["slips"]):
            learner.slips[slip] += 1
            learner.alive.add(slip)
    if last:
        learner.alive = {slip for slip in learner.alive if kind not in kinds_with(slip)}


def _slips(learners: Iterable[Learner]) -> tuple[SlipKept, ...]:
    told: dict[str, int] = defaultdict(int)
    made: dict[str, int] = defaultdict(int)
    alive: dict[str, int] = defaultdict(int)
    for learner in learners:
        for slip, count in learner.slips.items():
            told[slip] += count
            made[slip] += 1
            alive[slip] += slip in learner.alive
    found = (SlipKept(slip, told[slip], made[slip], alive[slip]) for slip in told)
    return tuple(sorted(found, key=lambda one: (-one.alive, -one.learners, -one.told, one.name)))
