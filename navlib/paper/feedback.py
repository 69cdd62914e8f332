"""A candidate's feedback: marks by topic, what went wrong in kind words, and what to do next.

It holds the candidate's own figures and never a key, so that it gives away no variant.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from navlib.marking import Outcome
from navlib.paper.lessons import Back, back_to, question_title
from navlib.paper.practising import PracticeSet, practice_sets
from navlib.paper.scripts import ItemAward, PartAward, Script, write_marks
from navlib.paper.topics import Topic, topics_of

STRENGTHS = 2
"""How many strengths are named."""
STRONG = 0.7
"""Share of a topic's marks from which it is called a strength."""


@dataclass(frozen=True)
class Lost:
    """A question in which marks were lost: what each part of the answer shows, and where to go back.

    `says` are pairs of a label, such as 3b, and a sentence.
    """

    number: int
    title: str
    marks: float
    out_of: float
    says: tuple[tuple[str, str], ...]
    back: Back


@dataclass(frozen=True)
class Feedback:
    """All that a feedback sheet says.

    `notes` are what holds for the whole paper, a title and a sentence each; `open` tells what is not
    decided yet, "" if nothing.
    """

    candidate: str
    name: str
    code: str
    total: float
    out_of: float
    pass_mark: float
    passed: bool | None
    topics: tuple[Topic, ...]
    strengths: tuple[str, ...]
    lost: tuple[Lost, ...]
    notes: tuple[tuple[str, str], ...]
    sets: tuple[PracticeSet, ...]
    open: str

    @property
    def verdict(self) -> str:
        """The result as a sentence."""
        match self.passed:
            case True:
                return f"Passed: {self.pass_mark:g} marks are a pass."
            case None:
                return f"Not decided yet: {self.pass_mark:g} marks are a pass."
        return f"Not passed this time: {self.pass_mark:g} marks are a pass."


def feedback(script: Script) -> Feedback:
    """Return what to tell a candidate."""
    waiting = sum(len(item.decide) for item in script.items)
    return Feedback(
        script.candidate,
        script.name,
        script.code,
        script.total,
        script.out_of,
        script.pass_mark,
        script.passed,
        topics_of(script),
        tuple(_strengths(script))[:STRENGTHS],
        tuple(lost for item in script.items if (lost := _lost(item)) is not None),
        tuple(_notes(script)),
        tuple(practice_sets(script)),
        _waiting(waiting),
    )


def _waiting(count: int) -> str:
    if not count:
        return ""
    if count == 1:
        return "One of your answers is still to be decided: the marks may rise."
    return f"{count} of your answers are still to be decided: the marks may rise."


def _notes(script: Script) -> Iterator[tuple[str, str]]:
    unclear = [item for item in script.items if _unclear(item)]
    if unclear:
        numbers = [str(item.number) for item in unclear]
        lost = sum(item.working_out_of - item.working for item in unclear)
        which = f"question {numbers[0]}"
        if len(numbers) > 1:
            which = f"questions {', '.join(numbers[:-1])} and {numbers[-1]}"
        yield (
            "Working",
            f"In {which} not all of the working can be followed: {write_marks(lost)} "
            f"{'mark' if lost <= 1 else 'marks'} in all. Write a line for each step: then a slip costs "
            "its own mark and no more.",
        )
    if script.notation:
        yield (
            "Units, norths and zones",
            f"Where one is missing, {write_marks(script.notation)} "
            f"{'mark is' if script.notation <= 1 else 'marks are'} lost, once for the whole paper. On "
            "the water others must know what your figure means: write it behind every one.",
        )


def _unclear(item: ItemAward) -> bool:
    return item.working < item.working_out_of and not item.suggested and not item.overruled


def _lost(item: ItemAward) -> Lost | None:
    """Return what to say of a question; None if nothing, or only the working, is amiss."""
    said = [
        (part.label, "What is meant here is still to be decided." if part.decide else _told(part))
        for part in item.parts
        if part.marks < part.out_of and (part.says or part.decide)
    ]
    if item.marks >= item.out_of:
        return None
    if item.overruled and not said:
        said.append((str(item.number), "Your coach looked at this one and will tell you more."))
    if not said:
        return None
    if len({words for _, words in said}) == 1 and len(said) == len(item.parts):
        said = [(str(item.number), said[0][1])]
    return Lost(
        item.number,
        question_title(item.kind),
        item.marks,
        item.out_of,
        tuple(said),
        back_to(item.kind),
    )


def _told(part: PartAward) -> str:
    return " ".join(part.says)


def _strengths(script: Script) -> Iterator[str]:
    """Yield what went well, best first; there are always two."""
    whole = [i for i in script.items if i.marks >= i.out_of and not i.suggested]
    whole = whole or [i for i in script.items if i.marks >= i.out_of]
    for item in sorted(whole, key=lambda i: (-i.level, -i.out_of, i.number))[:1]:
        yield (
            f"Question {item.number}, “{question_title(item.kind)}”: all of its "
            f"{write_marks(item.out_of)} marks"
            + (". It has several steps, and each of yours held." if item.level > 1 else ".")
        )
    topics = topics_of(script)
    for topic in sorted(topics, key=lambda t: (-t.share, -t.out_of))[:1]:
        if topic.share >= STRONG and len(topics) > 1:
            yield (
                f"{topic.title} is a strength of yours: {write_marks(topic.marks)} of "
                f"{write_marks(topic.out_of)} marks."
            )
    for item in script.items:
        if any(_carried(part) for part in item.parts):
            yield (
                f"In question {item.number} you went on rightly from your own earlier figure, and that "
                "has its marks."
            )
            break
    ticked = [i for i in script.items if i.working_out_of and not i.suggested and not i.overruled]
    if ticked and all(item.working == item.working_out_of for item in ticked):
        yield "All of your working can be followed: so a slip cost you little."
    if not script.notation and any(part.marks for item in script.items for part in item.parts):
        yield "You wrote behind each figure what it is: unit, north and zone."
    best = max(script.items, key=lambda item: item.marks / item.out_of, default=None)
    if best is not None and 0 < best.marks < best.out_of:
        yield (
            f"Question {best.number}, “{question_title(best.kind)}”, went best: "
            f"{write_marks(best.marks)} of {write_marks(best.out_of)} marks. Build on that."
        )
    if all(part.text for item in script.items for part in item.parts):
        yield "You left nothing blank."
    yield "You sat it to the end, and now you know where to begin."
    yield "Every question below has its place in a lesson: you need not start from nothing."


def _carried(part: PartAward) -> bool:
    return part.outcome == Outcome.CARRIED.value and part.marks >= part.out_of > 0
