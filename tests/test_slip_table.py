"""How well slips are told: every question type, 200 seeds, each single slip with instrument errors."""

import random
from collections import Counter

import pytest

from navlib import questions
from navlib.marking import Outcome, mark

SEEDS = 200


def answer(question, source, slips=None):
    """Return what someone would write who makes `slips`, with errors as the budget says.

    Each part is worked from the one before, as it was written down.
    """
    chain, errors = question.chain, [(s.name, e) for s in question.chain.steps for e in s.errors]
    pushes = {name: (error, source.gauss(0, 1)) for name, error in errors}
    written: dict[str, str] = {}
    fixed: dict[str, object] = {}
    for asked in question.asks:
        value = chain.run(question.givens, slips or {}, pushes, fixed)[asked]
        if value is None:
            return None
        written[asked] = chain.by_name[asked].kind.write(value)
        fixed[asked] = chain.by_name[asked].kind.rounded(value)
    return written


@pytest.mark.parametrize("kind", questions.kinds())
def test_slips_are_told_rightly(kind):
    """Goals: 90 % told right, at most 1 % told wrong; under 5 % of right answers refused."""
    source = random.Random(kind)
    told: Counter[str] = Counter()
    right: Counter[str] = Counter()
    for seed in range(SEEDS):
        question = questions.make(kind, seed)
        outcomes = [part.outcome for part in mark(question, answer(question, source)).parts]
        right["refused" if Outcome.WRONG in outcomes else "accepted"] += 1
        right["not full"] += outcomes.count(Outcome.RIGHT) < len(outcomes)
        for step in question.steps:
            for slip in step.slips:
                answers = answer(question, source, {step.name: slip})
                if answers is None:
                    continue
                slips = set(mark(question, answers).slips)
                told["right" if slips == {slip.name} else "wrong" if slips else "undecided"] += 1
    total = sum(told.values())
    shares = {what: told[what] / total for what in ("right", "undecided", "wrong")}
    print(
        f"\n{kind:30} {total:5} slips: "
        + ", ".join(f"{what} {share:.1%}" for what, share in shares.items())
        + f"; right answers: refused {right['refused'] / SEEDS:.1%}"
        + f", not full marks {right['not full'] / SEEDS:.1%}"
    )
    assert shares["right"] >= 0.90
    assert shares["wrong"] <= 0.01
    assert right["refused"] / SEEDS < 0.05
    assert right["not full"] / SEEDS < 0.05
