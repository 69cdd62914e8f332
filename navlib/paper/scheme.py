"""The mark scheme of a paper: answers, how far off they may be and why, slips and what they earn.

Every mark printed for a slip comes from the marker itself: the chain is run with the slip, each part
worked from the one before as it was written down, and what comes out is handed in to `awards`. So
scheme and marker cannot disagree.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any

from navlib.chain.question import Question
from navlib.chain.step import Slip
from navlib.kinds.choices import Choice
from navlib.kinds.marks import OnSheet
from navlib.marking import Outcome
from navlib.paper.awards import award, labels, split
from navlib.paper.by_eye import LETTERS, plotted
from navlib.paper.lessons import question_title
from navlib.paper.practising import plain_words
from navlib.paper.printed import SHORT, where
from navlib.paper.reasons import Tolerance, follows, ladder, own_lines, tolerance
from navlib.paper.rules import rules
from navlib.paper.scripts import write_marks
from navlib.paper.slips import usual_slips
from navlib.paper.solutions import solved
from navlib.paper.typeset import plain, typeset
from navlib.paper.variants import Item, Paper

LETTER = {
    Outcome.CARRIED.value: "C",
    Outcome.NEAR.value: "N",
    Outcome.UNREAD.value: "?",
}
"""Behind a slip's marks: carried, near enough for half, to be decided by a person."""


@dataclass(frozen=True)
class PartScheme:
    """One part: its label on the paper, the answer as written, and how it is marked.

    `follows` says how it is worked from own earlier answers, empty if it rests on none.
    """

    label: str
    name: str
    prompt: str
    key: str
    marks: float
    tolerance: Tolerance
    follows: str


@dataclass(frozen=True)
class SlipAnswer:
    """What a candidate with a slip writes for one part, and what the marker gives for it."""

    label: str
    text: str
    marks: float
    outcome: str


@dataclass(frozen=True)
class SlipScheme:
    """A usual slip: what it is, what it leads to in each part, and the marks for working with it.

    `told` is whether the marker is sure of it from the answers alone.
    """

    slip: str
    says: str
    answers: tuple[SlipAnswer, ...]
    working: float
    told: bool

    @property
    def marks(self) -> float:
        """Marks of the whole question."""
        return sum(answer.marks for answer in self.answers) + self.working


@dataclass(frozen=True)
class ItemScheme:
    """How one question is marked. `lines` are those of the working, `ladder` what they earn."""

    item: Item
    parts: tuple[PartScheme, ...]
    working: float
    lines: tuple[str, ...]
    ladder: tuple[tuple[int, float], ...]
    slips: tuple[SlipScheme, ...]


def scheme(paper: Paper) -> tuple[ItemScheme, ...]:
    """Return how each question of a paper is marked, in order."""
    return tuple(map(item_scheme, paper.items))


def item_scheme(item: Item) -> ItemScheme:
    """Return how a question is marked."""
    question, lie = item.question, split(item)
    parts = (
        PartScheme(
            label,
            name,
            question.prompts[name],
            question.written[name],
            lie.parts[name],
            tolerance(question, name),
            follows(item, name),
        )
        for label, name in labels(item).items()
    )
    lines = tuple(line for _, line in own_lines(question))
    rungs = ladder(len(lines), lie.working) if lie.working else ()
    return ItemScheme(item, tuple(parts), lie.working, lines, rungs, tuple(_slips(item)))


def _slips(item: Item) -> Iterator[SlipScheme]:
    """Yield each slip that can be made with these numbers and shows in an answer, likeliest first."""
    question, drawn = item.question, plotted(item.question)
    for number, (slip, answers) in enumerate(usual_slips(question)):
        if drawn:
            answers = {drawn: LETTERS[number]}
        earned = award(item, answers)
        yield SlipScheme(
            slip.name,
            _says(question, slip, answers),
            tuple(SlipAnswer(p.label, p.text, p.marks, p.outcome) for p in earned.parts),
            earned.working,
            slip.name in earned.slips,
        )


def _says(question: Question, slip: Slip, answers: dict[str, str]) -> str:
    """Return what a slip is, in a sentence: the evidence that a candidate is told, without theirs."""
    first = slip.says.format_map({**question.written, "yours": "\N{WORD JOINER}"})
    sentence = first.partition(". ")[0].rstrip(".")
    return sentence.removeprefix("Yours, \N{WORD JOINER}, ").replace("\N{WORD JOINER}", "it") + "."


# On paper ---------------------------------------------------------------------------------------


def scheme_pdf(paper: Paper, *, large: bool = False) -> bytes:
    """Return the mark scheme of a paper as PDF, for the coach alone: the same bytes each time.

    Behind the pages of words stand the sheets with the solutions drawn, at their true scale.
    """
    blueprint = paper.blueprint
    return typeset(
        "scheme",
        {
            "title": plain(f"Mark scheme: {blueprint.title}", SHORT + 20),
            "code": plain(paper.code, 24),
            "note": "Scheme – coach only",
            "large": large,
            "over": plain(blueprint.title, SHORT),
            "facts": [
                ["Paper", plain(paper.code, 24)],
                ["Candidate", f"{paper.variant:02}"],
                ["Marks", f"{blueprint.marks}, to pass {blueprint.pass_mark}"],
                ["Time", f"{blueprint.minutes} minutes"],
            ],
            "rules": [list(rule) for rule in rules(paper)],
            "items": [_printed(one) for one in scheme(paper)],
            "number": f"{paper.variant:02}",
            "extracts": solved(paper),
        },
    )


def _printed(one: ItemScheme) -> dict[str, Any]:
    item, question = one.item, one.item.question
    return {
        "number": str(item.number),
        "title": question_title(question.kind),
        "marks": item.row.marks,
        "asks": [part for part in question.text.split("\n\n") if part.strip()],
        "where": where(item),
        "parts": [
            {
                "label": part.label,
                **_key(question, part),
                "full": part.tolerance.full,
                "half": part.tolerance.half if part.marks > 0 else "",
                "why": part.tolerance.why,
                "marks": write_marks(part.marks),
                "follows": part.follows,
            }
            for part in one.parts
        ],
        "working": write_marks(one.working) if one.working else "",
        "lines": list(one.lines),
        "ladder": [[str(count), write_marks(marks)] for count, marks in one.ladder],
        "slips": _joined(_slip(slip, question, one) for slip in one.slips),
    }


def _key(question: Question, part: PartScheme) -> dict[str, str]:
    """Return the answer and what was asked; of a drawing its places stand with the latter."""
    if isinstance(question.chain.by_name[part.name].kind, OnSheet):
        return {"key": "as drawn on the solved sheet", "prompt": f"{part.prompt}: {part.key}"}
    return {"key": part.key, "prompt": part.prompt}


def short_answer(question: Question, name: str, text: str) -> str:
    """Return an answer as it stands in a narrow table: of a choice its letter alone.

    What is drawn is too long for one, and is looked at on the sheet.
    """
    kind = question.chain.by_name[name].kind
    if isinstance(kind, OnSheet) and text == question.written[name]:
        return "see sheet"
    return text.partition(") ")[0] if isinstance(kind, Choice) else text


def _joined(slips: Iterable[dict[str, Any]]) -> list[dict[str, Any]]:
    """Return slips as printed: one that goes either way, for the same marks, stands in one row."""
    found: list[dict[str, Any]] = []
    for slip in slips:
        if found and _but_texts(found[-1]) == _but_texts(slip):
            for one, other in zip(found[-1]["answers"], slip["answers"], strict=True):
                if one["text"] != other["text"]:
                    one["text"] += f" or\n{other['text']}"
        else:
            found.append(slip)
    return found


def _but_texts(slip: dict[str, Any]) -> dict[str, Any]:
    return {**slip, "answers": [{**answer, "text": ""} for answer in slip["answers"]]}


def _slip(slip: SlipScheme, question: Question, one: ItemScheme) -> dict[str, Any]:
    keys = {part.label: part.key for part in one.parts}
    return {
        "name": plain_words(slip.slip),
        "says": slip.says,
        "told": slip.told,
        "answers": [
            {
                "text": short_answer(question, part.name, answer.text),
                "same": answer.text == keys[answer.label],
                "marks": write_marks(answer.marks),
                "how": LETTER.get(answer.outcome, ""),
            }
            for answer, part in zip(slip.answers, one.parts, strict=True)
        ],
        "working": write_marks(slip.working) if one.working else "",
        "total": write_marks(slip.marks),
    }
