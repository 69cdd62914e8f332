"""What a learner can do already, and what to practise next."""

import random
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from navlib.record.store import Attempt

SURE_AFTER = 2
"""Right answers running, each at the first try and without a hint, from which a kind is sure."""


@dataclass(frozen=True)
class Standing:
    """How one kind of question stands: questions tried, right in the end, right first time running."""

    tried: int = 0
    right: int = 0
    running: int = 0

    @property
    def sure(self) -> bool:
        """Whether it has become sure."""
        return self.running >= SURE_AFTER


def standings(attempts: Iterable[Attempt]) -> dict[str, Standing]:
    """Return how each kind of question stands by a learner's attempts in order.

    Several attempts at one question count as one; attempts that could not be read count as none.
    """
    by_question: dict[tuple[str, str, int], list[Attempt]] = {}
    for attempt in attempts:
        if attempt.outcomes and "unread" not in attempt.outcomes.values():
            key = (attempt.place, attempt.kind, attempt.seed)
            by_question.setdefault(key, []).append(attempt)
    found: dict[str, Standing] = {}
    for (_, kind, _), tries in by_question.items():
        was = found.get(kind, Standing())
        clean = tries[0].right and not tries[0].hints
        found[kind] = Standing(
            was.tried + 1,
            was.right + any(attempt.right for attempt in tries),
            was.running + 1 if clean else 0,
        )
    return found


def next_kind(
    levels: Mapping[str, int],
    attempts: Iterable[Attempt],
    source: random.Random,
    last: str | None = None,
) -> str:
    """Return the kind of question to ask next, out of `levels` (kind to level, 1 the easiest).

    Mostly one of the lowest level that has a kind not yet sure, so that it gets harder as it goes
    well; one time in four any kind met already, so that nothing is forgotten; never the kind of
    the `last` question, answered or passed over, if there is another.
    """
    stand = standings(attempts)
    others = [kind for kind in levels if kind != last] or list(levels)
    unsure = [kind for kind in others if not stand.get(kind, Standing()).sure]
    met = [kind for kind in others if kind in stand]
    lowest = min((levels[kind] for kind in unsure), default=0)
    pool = [kind for kind in unsure if levels[kind] == lowest] or others
    if met and source.random() < 0.25:
        pool = met
    return source.choice(pool)
