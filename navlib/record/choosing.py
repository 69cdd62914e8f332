"""What to ask next, and why.

Three reasons to ask something again come before what is new, two questions out of three: a slip that
came back, a slip that stayed away until it was due again, a kind that is due again. What is new
comes easiest level first, and within a level where most slips have not had their chance yet.
"""

import random
from dataclasses import dataclass
from datetime import date, datetime
from enum import Enum
from functools import cached_property

from navlib.record.progress import Progress, SlipStanding, Syllabus, Tried

NEW_EVERY = 3
"""One question in so many is new while there is something new, whatever waits to come back."""


class Reason(Enum):
    """Why a question is asked now."""

    SLIP = "slip"  # a slip was told and not been right since, or is due again
    DUE = "due"  # a kind that was known is due again
    AGAIN = "again"  # a kind was not right at the first try last time
    NEW = "new"  # a kind not met yet
    ONCE_MORE = "once-more"  # a kind was right once
    KEEP = "keep"  # everything is sure


@dataclass(frozen=True)
class Next:
    """What to ask next: a kind, why, and for `Reason.SLIP` the slip that should have its chance."""

    kind: str
    reason: Reason
    slip: str = ""


def next_kind(syllabus: Syllabus, stand: Progress, source: random.Random, last: str = "") -> Next:
    """Return what to ask next out of `syllabus`.

    Never the kind of the `last` question, answered or passed over, if there is another; where
    several topics have something as good, the one that waited longest. `source` chooses among kinds
    that are equally good. Raises ValueError if there is nothing to ask.
    """
    if not syllabus:
        raise ValueError("there is no kind of question to choose from; give at least one")
    choice = _Choice(syllabus, stand, source, last)
    ways = [choice.slip, choice.due, choice.new, choice.once_more]
    if len(choice.here) % NEW_EVERY == NEW_EVERY - 1:
        ways.insert(0, choice.new)
    for way in ways:
        if (chosen := way()) is not None:
            return chosen
    return choice.keep()


def due_slips(syllabus: Syllabus, stand: Progress) -> list[SlipStanding]:
    """Return the slips to come back now that some kind of `syllabus` allows, longest ago first."""
    allowed = frozenset[str]().union(*(entry.slips for entry in syllabus.values()))
    due = [
        slip
        for slip in stand.slips.values()
        if slip.name in allowed and slip.spacing.is_due(stand.today)
    ]
    return sorted(due, key=lambda slip: (slip.right_since or slip.last_told, slip.name))


def due_kinds(syllabus: Syllabus, stand: Progress) -> list[str]:
    """Return the kinds of `syllabus` that were known once and are due again, longest due first."""
    due = [kind for kind in syllabus if stand.kind(kind).is_due(stand.today)]
    return sorted(due, key=lambda kind: stand.kind(kind).spacing.due)


@dataclass(frozen=True)
class _Choice:
    """One choice to be made: each method is a way to make it, None if there is nothing for it."""

    syllabus: Syllabus
    stand: Progress
    source: random.Random
    last: str

    @cached_property
    def here(self) -> list[Tried]:
        """Return the questions answered so far that the syllabus asks."""
        return [question for question in self.stand.questions if question.kind in self.syllabus]

    @cached_property
    def others(self) -> list[str]:
        """Return the kinds to choose from."""
        return [kind for kind in self.syllabus if kind != self.last] or list(self.syllabus)

    @cached_property
    def turns(self) -> dict[str, int]:
        """Return the number of the last question of each topic, answered or passed over."""
        asked = [*(question.kind for question in self.here), self.last]
        return {self.syllabus[k].topic: n for n, k in enumerate(asked) if k in self.syllabus}

    def slip(self) -> Next | None:
        """Give a slip its chance: not one told in the last question, which needs a little time."""
        just_told = self.here[-1].told if self.here else frozenset()
        for slip in due_slips(self.syllabus, self.stand):
            kinds = [kind for kind in self.others if slip.name in self.syllabus[kind].slips]
            if kinds and slip.name not in just_told:
                met = [self.level(kind) for kind in slip.kinds if kind in self.syllabus]
                pool = [kind for kind in kinds if self.level(kind) <= max(met, default=1)] or kinds
                fewest = min(slip.kinds.get(kind, 0) for kind in pool)
                pool = [kind for kind in pool if slip.kinds.get(kind, 0) == fewest]
                return Next(self.source.choice(self.in_turn(pool)), Reason.SLIP, slip.name)
        return None

    def due(self) -> Next | None:
        """Return a kind that is due again, one of those longest due in the topic whose turn it is."""
        due = [kind for kind in due_kinds(self.syllabus, self.stand) if kind in self.others]
        due = self.in_turn(due)
        pool = [kind for kind in due if self.since(kind) == self.since(due[0])]
        return Next(self.source.choice(pool), Reason.DUE) if pool else None

    def new(self) -> Next | None:
        """Return a kind of the lowest level that has one not met, or not right at the last try."""
        unsure = [kind for kind in self.others if not self.stand.kind(kind).running]
        pool = self.easiest(self.in_turn(unsure))
        if not pool:
            return None
        unseen = {kind: len(self.syllabus[kind].slips - self.stand.probed) for kind in pool}
        most = max(unseen.values())
        kind = self.source.choice([kind for kind in pool if unseen[kind] == most])
        if not self.stand.kind(kind).tried:
            return Next(kind, Reason.NEW)
        behind = due_slips({kind: self.syllabus[kind]}, self.stand)
        return Next(kind, Reason.SLIP, behind[0].name) if behind else Next(kind, Reason.AGAIN)

    def once_more(self) -> Next | None:
        """Return a kind of the lowest level that has one not yet sure."""
        unsure = [kind for kind in self.others if not self.stand.kind(kind).sure]
        pool = self.easiest(self.in_turn(unsure))
        return Next(self.source.choice(pool), Reason.ONCE_MORE) if pool else None

    def keep(self) -> Next:
        """Return the kind of the highest level that was asked longest ago."""
        hardest = max(self.level(kind) for kind in self.others)
        top = [kind for kind in self.others if self.level(kind) == hardest]
        return Next(min(top, key=self.asked), Reason.KEEP)

    def level(self, kind: str) -> int:
        return self.syllabus[kind].level

    def since(self, kind: str) -> date:
        return self.stand.kind(kind).spacing.due

    def asked(self, kind: str) -> tuple[datetime, str]:
        return self.stand.kind(kind).last or self.stand.now, kind

    def easiest(self, kinds: list[str]) -> list[str]:
        """Return those of the lowest level among `kinds`."""
        level = min((self.level(kind) for kind in kinds), default=0)
        return [kind for kind in kinds if self.level(kind) == level]

    def in_turn(self, kinds: list[str]) -> list[str]:
        """Return those of the topic that was asked longest ago among `kinds`."""
        waited = [self.turns.get(self.syllabus[kind].topic, -1) for kind in kinds]
        return [kind for kind, turn in zip(kinds, waited, strict=True) if turn == min(waited)]
