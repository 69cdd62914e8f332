"""What is written, or drawn, by somebody who makes a usual slip and goes on rightly from there."""

from collections.abc import Iterator
from typing import Any

from navlib.chain.question import Question
from navlib.chain.step import Slip


def usual_slips(question: Question) -> Iterator[tuple[Slip, dict[str, str]]]:
    """Yield each slip that shows in an answer, and what is written then: likeliest first."""
    for slip, values in slip_values(question):
        kinds = question.chain.by_name
        yield slip, {name: kinds[name].kind.write(value) for name, value in values.items()}


def slip_values(question: Question) -> Iterator[tuple[Slip, dict[str, Any]]]:
    """Yield each slip that shows in an answer, and what each part comes to: likeliest first.

    One that ends where it ended already from another step is not told twice.
    """
    made = [(step.name, slip) for step in question.steps for slip in step.slips]
    kinds, seen = question.chain.by_name, set[Any]()
    for step, slip in sorted(made, key=lambda one: -one[1].weight):
        values = _values(question, step, slip)
        if values is None:
            continue
        answers = {name: kinds[name].kind.write(value) for name, value in values.items()}
        known = (slip.name, tuple(answers.values()))
        if answers != question.answers and known not in seen:
            seen.add(known)
            yield slip, values


def _values(question: Question, step: str, slip: Slip) -> dict[str, Any] | None:
    """Return what somebody finds who makes a slip at a step and goes on rightly from there.

    Each part is worked from those before, as they were written down. None where the slip cannot be
    made with these numbers.
    """
    chain, own, found = question.chain, dict[str, Any](), dict[str, Any]()
    for asked in question.asks:
        value = chain.run(question.givens, {step: slip}, fixed=own)[asked]
        if value is None:
            return None
        found[asked] = value
        own[asked] = chain.by_name[asked].kind.rounded(value)
    return found
