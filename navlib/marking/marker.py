"""The marker: from what a learner wrote to marks, and to a sentence that helps."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum
from typing import Any

from navlib.chain.chain import Band
from navlib.chain.kind import Reading, Verdict
from navlib.chain.question import Question
from navlib.language import say, to_say
from navlib.marking.diagnosis import Diagnosis, diagnose


class Outcome(Enum):
    """What became of one part of an answer."""

    RIGHT = "right"
    CARRIED = "carried"  # right from the learner's own earlier answer
    NEAR = "near"  # within the part band
    WRONG = "wrong"
    UNREAD = "unread"  # not understood, or not plain enough to judge: no marks lost yet


VALUE_MARKS = {Outcome.RIGHT: 1.0, Outcome.CARRIED: 1.0, Outcome.NEAR: 0.5}
"""Share of the value mark that an outcome earns; every other outcome earns none."""


@dataclass(frozen=True)
class PartMarked:
    """One part judged: what was written and read, the outcome, and what to say about it.

    `key` and `band_written` are for showing once the learner may see them. `noted` is true where
    the writing could be better (no suffix, two figures), which a paper may count once.
    """

    name: str
    text: str
    reading: Reading[Any]
    outcome: Outcome
    key: str
    band: Band
    diagnosis: Diagnosis
    says: tuple[str, ...]

    @property
    def marks(self) -> float:
        """Share of the value mark earned, 0 to 1."""
        return VALUE_MARKS.get(self.outcome, 0.0)

    @property
    def noted(self) -> bool:
        """Whether a habit of writing could be better."""
        return self.reading.verdict is Verdict.NOTE


@dataclass(frozen=True)
class Marked:
    """A question judged, part by part."""

    parts: tuple[PartMarked, ...]

    @property
    def right(self) -> bool:
        """Whether every part is right as it stands."""
        return all(part.outcome is Outcome.RIGHT for part in self.parts)

    @property
    def read(self) -> bool:
        """Whether every part could be read, so that the attempt counts."""
        return all(part.outcome is not Outcome.UNREAD for part in self.parts)

    @property
    def marks(self) -> float:
        """Value marks earned, one a part."""
        return sum(part.marks for part in self.parts)

    @property
    def slips(self) -> tuple[str, ...]:
        """Names of the slips that were told surely."""
        return tuple(name for part in self.parts for name in part.diagnosis.slips)


def mark(question: Question, answers: Mapping[str, str] | str) -> Marked:
    """Return `answers`, as written, judged against `question`.

    `answers` maps the name of each part asked to what was written; a single text will do where one
    part is asked. A missing part counts as not yet written. Later parts are judged from the
    learner's own earlier answers. Never raises for what a learner wrote, and runs none of it.
    """
    if isinstance(answers, str):
        answers = {question.asks[0]: answers}
    own: dict[str, Any] = {}
    good = True
    parts = []
    for asked in question.asks:
        part = _mark_part(question, asked, str(answers.get(asked, "")), own, good)
        if part.reading.value is not None:
            kind = question.chain.by_name[asked].kind
            own[asked] = kind.nearest(part.reading.value, question.values[asked])
        good = good and part.outcome is Outcome.RIGHT
        parts.append(part)
    return Marked(tuple(parts))


def _mark_part(
    question: Question, asked: str, text: str, own: Mapping[str, Any], good: bool
) -> PartMarked:
    kind = question.chain.by_name[asked].kind
    reading = kind.read(text)
    if reading.value is not None and (
        wants := kind.left_out(reading.value, question.values[asked])
    ):
        reading = Reading(Verdict.QUERY, None, (wants,))
    allowed = question.chain.band(question.givens, asked, own)
    outcome, diagnosis, says = Outcome.UNREAD, Diagnosis(), reading.says
    if reading.value is not None:
        outcome = _outcome(question, asked, reading.value, own, allowed, good)
        if outcome is Outcome.WRONG:
            diagnosis = _diagnose(question, asked, reading.value, own, good)
            yours = kind.quoted(text, reading.value)
            says = (diagnosis.says({**question.written, "yours": yours}), *says)
        else:
            says = (*(say(one) for one in _PRAISE[outcome]), *says)
    return PartMarked(
        asked, text, reading, outcome, question.written[asked], allowed, diagnosis, says
    )


_PRAISE = {
    Outcome.RIGHT: (),
    Outcome.CARRIED: (),
    Outcome.NEAR: (
        to_say("Close, but further off than good instruments leave it: measure once more."),
    ),
}


def _outcome(
    question: Question,
    asked: str,
    value: Any,
    own: Mapping[str, Any],
    allowed: Band,
    good: bool,
) -> Outcome:
    """Judge a value by what follows from the learner's own earlier answers, if there are any.

    What was measured badly earlier is paid for there: from there on it is arithmetic. A learner who
    comes back to the key itself after a wrong part is right.
    """
    kind = question.chain.by_name[asked].kind

    def within(width: float, key: Any) -> bool:
        return abs(kind.apart(value, kind.rounded(key))) <= width + kind.rounding * 1e-6

    key = question.chain.run(question.givens, fixed=own)[asked]
    if key is not None and within(allowed.full, key):
        return Outcome.RIGHT if good else Outcome.CARRIED
    if not good and within(question.band(asked).full, question.values[asked]):
        return Outcome.RIGHT
    near = key is not None and within(allowed.part, key)
    return Outcome.NEAR if near else Outcome.WRONG


def _diagnose(
    question: Question, asked: str, value: Any, own: Mapping[str, Any], good: bool
) -> Diagnosis:
    """Look for the slip behind this part; in an earlier one only if that was not right already."""
    here = diagnose(question, asked, value, own)
    return here if here.ways or good else diagnose(question, asked, value)
