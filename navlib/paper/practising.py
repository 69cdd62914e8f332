"""What a candidate should practise next, chosen by the slips that were told."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cache

from navlib import questions
from navlib.paper.lessons import exercise_of, practice, question_title
from navlib.paper.scripts import ItemAward, Script
from navlib.paper.topics import topics_of
from navlib.record.words import slip_words

SETS, KINDS_IN_SET = 3, 3
"""How many sets are given, and kinds of question in one at most."""

SlipWords = Callable[[str], str]
"""Says a slip in a few words, by its name."""


@dataclass(frozen=True)
class PracticeSet:
    """Kinds of question to practise, by their titles, why these, and how to open them."""

    why: str
    kinds: tuple[str, ...]
    how: str


def plain_words(slip: str) -> str:
    """Return a slip's name as words."""
    return slip.replace("-", " ")


def practice_sets(script: Script) -> list[PracticeSet]:
    """Return what to practise: first by slips, the dearest first, then by questions, then further."""
    sets: dict[tuple[str, ...], PracticeSet] = {}
    told: set[int] = set()
    missed = sorted(
        (item for item in script.items if _value_lost(item)),
        key=lambda item: (-_value_lost(item), item.number),
    )
    for item in missed:
        for slip in dict.fromkeys(item.slips):
            kinds = _kinds_with(slip, item.kind)
            why = f"Question {item.number}: you {slip_words(slip)}."
            sets.setdefault(kinds, _set(why, kinds))
            told.add(item.number)
    for item in (item for item in missed if item.number not in told):
        why = f"Question {item.number} did not go well yet."
        sets.setdefault((item.kind,), _set(why, (item.kind,)))
    for topic in (t.topic for t in sorted(topics_of(script), key=lambda t: t.share)):
        hardest = tuple(k for k in reversed(questions.kinds(topic)) if k not in _seen(script))
        if hardest:
            why = "To go further, with kinds that were not on this paper."
            sets.setdefault(hardest[:KINDS_IN_SET], _set(why, hardest[:KINDS_IN_SET]))
    return list(sets.values())[:SETS]


def _value_lost(item: ItemAward) -> float:
    """Return the marks that answers lost for sure; those for working are another matter."""
    return sum(part.out_of - part.marks for part in item.parts if not part.decide)


def _seen(script: Script) -> set[str]:
    return {item.kind for item in script.items}


def _set(why: str, kinds: Sequence[str]) -> PracticeSet:
    topic = kinds[0].partition(".")[0]
    place = practice(topic)
    how = f"Open the lesson “{place.lesson}” and go to “{place.section}”."
    numbers = sorted(n for kind in kinds if (n := exercise_of(kind)) is not None)
    if len(numbers) == 1:
        how += f" Exercise {numbers[0]} there is of this sort too."
    elif numbers:
        shown = ", ".join(map(str, numbers[:-1]))
        how += f" Exercises {shown} and {numbers[-1]} there are of this sort too."
    return PracticeSet(why, tuple(map(question_title, kinds)), how)


def _kinds_with(slip: str, kind: str) -> tuple[str, ...]:
    """Return kinds of the same topic in which this slip can be made, this one first, easiest next."""
    topic = kind.partition(".")[0]
    others = [one for one in questions.kinds(topic) if one != kind and slip in _slips_of(one)]
    return (kind, *others)[:KINDS_IN_SET]


@cache
def _slips_of(kind: str) -> frozenset[str]:
    steps = questions.question_type(kind).chain.steps
    return frozenset(slip.name for step in steps for slip in step.slips)
