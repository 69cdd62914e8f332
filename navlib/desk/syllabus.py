"""What can be asked, as the record's progress wants to know it: levels, and the slips allowed."""

from functools import cache

from navlib import questions
from navlib.chain.question import Question
from navlib.chain.step import Slip
from navlib.record.progress import Entry, Syllabus


@cache
def syllabus(topic: str = "") -> Syllabus:
    """Return every kind of question, or those of one topic, easiest first."""
    return {kind: _entry(kind) for kind in questions.kinds(topic)}


def chances(question: Question) -> tuple[str, ...]:
    """Return the slips that can be made with the numbers of this question."""
    found = [
        slip.name
        for step in question.steps
        for slip in step.slips
        if any(_shows(question, step.name, slip, asked) for asked in question.asks)
    ]
    return tuple(dict.fromkeys(found))


def _shows(question: Question, step: str, slip: Slip, asked: str) -> bool:
    value = question.chain.run(question.givens, {step: slip})[asked]
    kind = question.chain.by_name[asked].kind
    return value is not None and abs(kind.apart(value, question.values[asked])) > kind.rounding / 2


def _entry(kind: str) -> Entry:
    made = questions.question_type(kind)
    steps = {s.name: s for asked in made.prompts for s in made.chain.upstream(asked)}
    names = (slip.name for step in steps.values() for slip in step.slips)
    return Entry(made.topic, made.level, frozenset(names))
