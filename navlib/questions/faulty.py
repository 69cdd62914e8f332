"""Find the fault: the working of another type of question, with one slip made in it on purpose.

`find_fault` makes such a type from any other; its lines, its fault and what to say about it all come
from the other's chain.
"""

import random
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType, write
from navlib.chain.step import Slip, Step
from navlib.kinds.choices import Choice
from navlib.language import say
from navlib.questions.picture import Table

SOUND = "0"
"""Key of the option that every line is right,"""
SOUND_SHARE = 0.15
"""and how often that is so: often enough to be worth a look."""


@dataclass(frozen=True)
class Fault:
    """A working as somebody wrote it: its lines, and the number of the first wrong one or 0."""

    lines: tuple[str, ...]
    line: str


def find_fault(kind: str, title: str, level: int, base: QuestionType) -> QuestionType:
    """Return the type that shows a working of `base` and asks for its first wrong line.

    What `base` asks last is asked again, to be worked rightly. Raises ValueError if `base` shows a
    picture, whose place the lines take.
    """
    if base.picture is not None:
        raise ValueError(f"{base.kind} shows a picture; give a type whose words say everything")
    asked, prompt = list(base.prompts.items())[-1]
    steps = base.chain.upstream(asked)
    return QuestionType(
        kind,
        title,
        base.topic,
        level,
        Chain(
            {**base.chain.givens, "task": None, "fault": None, "verdict": None, "narrowed": None},
            (*base.chain.steps, _which(len(steps))),
        ),
        lambda source: _draw(source, base, steps),
        "The task: {task}\n\nBelow is how somebody worked it. Which line is the first that is wrong? "
        "Then give the right answer.",
        {"which": "First wrong line", asked: prompt},
        lambda givens: Table(
            say("Somebody’s working"),
            (say("Line"), say("Working")),
            tuple((str(i), line) for i, line in enumerate(givens["fault"].lines, 1)),
        ),
    )


def _which(count: int) -> Step:
    """Return the step that names the first wrong one of so many lines."""
    numbers = [str(i) for i in range(1, count + 1)]
    options = {i: say("line {number}", {"number": i}) for i in numbers}
    options[SOUND] = say("none: every line is right")
    return Step(
        "which",
        Choice(options),
        lambda fault: fault.line,
        how="Work each line again from what stands above it, and stop at the first that differs.",
        line="{verdict}",
        nearly="{narrowed}",
        check="Cover the answers and do line 1 yourself before you look at it.",
        slips=(
            *(Slip("sound-line-doubted", _if_before(i), _SOUND_LINE) for i in numbers),
            *(Slip("fault-carried-on", _if_after(i), _CARRIED_ON) for i in numbers),
            Slip(
                "fault-missed",
                lambda fault: SOUND if fault.line != SOUND else None,
                "Yours, {yours}, lets a wrong line pass: one does not follow from what stands above "
                "it. Check: estimate the answer first, then work each line with your own pencil.",
            ),
        ),
    )


_SOUND_LINE = (
    "Yours, {yours}, holds: work that line again from what stands above it, and the same comes out. "
    "Check: do each line with your own pencil before you read what it says."
)
_CARRIED_ON = (
    "Yours, {yours}, has a wrong figure, but follows rightly from a figure that was wrong already. "
    "The fault was made further up. Check: go up until the line above is sound."
)


def _if_before(line: str) -> Any:
    return lambda fault: line if fault.line == SOUND or line < fault.line else None


def _if_after(line: str) -> Any:
    return lambda fault: line if SOUND != fault.line < line else None


def _draw(source: random.Random, base: QuestionType, steps: list[Step]) -> Mapping[str, Any] | None:
    givens = base.draw(source)
    if givens is None:
        return None
    task = say(base.text, write(base.chain, givens)).replace("\n\n", " ")
    if source.random() < SOUND_SHARE:
        if not _adds_up(base.chain, steps, givens, base.chain.run(givens)):
            return None
        fault, verdict = Fault(_lines(base, steps, givens), SOUND), say("Every line holds.")
    else:
        made = _make_slip(source, base, steps, givens)
        if made is None:
            return None
        fault, says = made
        verdict = say(
            "Line {line} is the first that is wrong. Its writer might be told: {says}",
            {"line": fault.line, "says": says},
        )
    shown = {"task": task, "fault": fault, "verdict": verdict, "narrowed": _narrowed(fault)}
    return {**givens, **shown}


def _narrowed(fault: Fault) -> str:
    """Return where to look, leaving it open whether there is anything to find."""
    begin = len(fault.lines) if fault.line == SOUND else int(fault.line) - 1
    if begin <= 1:
        return say("Look closely at lines 1 and 2.")
    return say("Begin at line {line}: what stands above it holds.", {"line": begin})


def _lines(
    base: QuestionType, steps: list[Step], givens: Mapping[str, Any], slips: Any = None
) -> tuple[str, ...]:
    written = write(base.chain, base.chain.run(givens, slips or {}))
    return tuple(say(step.line, written) for step in steps)


def _adds_up(
    chain: Chain,
    steps: list[Step],
    givens: Mapping[str, Any],
    values: Mapping[str, Any],
    but: int | None = None,
) -> bool:
    """Return whether each line, but one, follows from the figures as they stand above it."""
    stand: dict[str, Any] = {}
    for number, step in enumerate(steps):
        shown = step.kind.write(values[step.name])
        if number != but:
            follows = chain.run(givens, fixed=stand)[step.name]
            if follows is None or step.kind.write(follows) != shown:
                return False
        stand[step.name] = step.kind.rounded(values[step.name])
    return True


def _make_slip(
    source: random.Random, base: QuestionType, steps: list[Step], givens: Mapping[str, Any]
) -> tuple[Fault, str] | None:
    """Return a working with one slip in it and what to say of it; None if it would not show."""
    chain, asked = base.chain, steps[-1].name
    number = source.randrange(len(steps))
    step = steps[number]
    if not step.slips:
        return None
    (slip,) = source.choices(step.slips, [slip.weight for slip in step.slips])
    right, wrong = chain.run(givens), chain.run(givens, {step.name: slip})
    if wrong[asked] is None:
        return None
    if (
        abs(step.kind.apart(wrong[step.name], right[step.name]))
        <= chain.band(givens, step.name).part
    ):
        return None
    if not _adds_up(chain, steps, givens, wrong, number):
        return None
    fault = Fault(_lines(base, steps, givens, {step.name: slip}), str(number + 1))
    written = {**write(chain, right), "yours": write(chain, wrong)[step.name]}
    return fault, say(slip.says, written)
