"""The marking form: a candidate's paper part by part, what is entered there and what it earns."""

from collections.abc import Mapping
from typing import Any

from navlib.kinds.choices import Choice, Order, letters
from navlib.kinds.marks import OnSheet
from navlib.language import say
from navlib.paper.awards import labels, script
from navlib.paper.entries import Entry
from navlib.paper.lessons import question_title
from navlib.paper.scripts import HALF, ItemAward, PartAward, Script, write_marks
from navlib.paper.sitting import Sitting
from navlib.paper.variants import Item, Paper


def form(sitting: Sitting, candidate: str, marker: str, code: str = "") -> dict[str, Any]:
    """Return a candidate's paper for the form, as this marker entered it.

    `code` is that of another paper than was meant for the candidate. Raises ValueError for a code
    that the sitting does not have.
    """
    entry = sitting.entered(marker).get(candidate) if marker else None
    paper = sitting.paper(code or (entry.code if entry else sitting.plan.codes.get(candidate, "")))
    marked = _marked(sitting, paper, candidate, marker, entry)
    answers = entry.answers if entry else {}
    awards = {award.number: award for award in marked.items}
    return {
        "candidate": candidate,
        "code": paper.code,
        "name": entry.name if entry else "",
        "items": [_item(item, awards[item.number], answers) for item in paper.items],
        **_total(marked, answers, entry),
    }


def _marked(
    sitting: Sitting, paper: Paper, candidate: str, marker: str, entry: Entry | None
) -> Script:
    if entry is not None and entry.code == paper.code:
        return sitting.script(candidate, marker)
    return script(paper, candidate, entry.answers if entry else {})


def states(sitting: Sitting, marker: str) -> list[dict[str, str]]:
    """Return the candidates with how far each is entered: “”, “5 of 9” or “all”."""
    entered = sitting.entered(marker) if marker else {}
    whole = {code: _labels(paper) for code, paper in sitting.papers.items()}
    codes = {**sitting.plan.codes, **{who: entry.code for who, entry in entered.items()}}
    return [
        {
            "candidate": who,
            "code": code,
            "name": entered[who].name if who in entered else "",
            "state": _state(entered.get(who), whole[code]),
        }
        for who, code in sorted(codes.items())
    ]


def _labels(paper: Paper) -> set[str]:
    return {label for item in paper.items for label in labels(item)}


def _state(entry: Entry | None, whole: set[str]) -> str:
    done = len(whole & set(entry.answers)) if entry else 0
    if not done:
        return ""
    if done == len(whole):
        return say("all entered")
    return say("{done} of {whole} entered", {"done": done, "whole": len(whole)})


def _total(marked: Script, answers: Mapping[str, str], entry: Entry | None) -> dict[str, Any]:
    parts = [part for item in marked.items for part in item.parts]
    left = sum(part.label not in answers for part in parts)
    return {
        "total": write_marks(marked.total) if entry else "",
        "out_of": write_marks(marked.out_of),
        "pass_mark": write_marks(marked.pass_mark),
        "passed": None if left or not entry else marked.passed,
        "left": left,
        "parts": len(parts),
        "notation": write_marks(marked.notation) if marked.notation else "",
        "undecided": write_marks(marked.undecided) if not left and marked.undecided else "",
        "suggested": write_marks(marked.suggested) if entry and marked.suggested else "",
    }


def _item(item: Item, award: ItemAward, answers: Mapping[str, str]) -> dict[str, Any]:
    question = item.question
    named = {part.name: part for part in award.parts}
    begun = any(label in answers for label in labels(item))
    return {
        "number": item.number,
        "title": question_title(question.kind),
        "text": question.text,
        "out_of": write_marks(award.out_of),
        "marks": write_marks(award.marks) if begun or award.overruled else "",
        "parts": [_part(item, named[name], label, answers) for label, name in labels(item).items()],
        "working": _working(award, begun),
        "choices": [_halves(n) for n in range(round(award.out_of / HALF) + 1)],
        "overruled": {
            "marks": write_marks(award.overruled.marks),
            "reason": award.overruled.reason,
            "marker": award.overruled.marker,
        }
        if award.overruled
        else None,
    }


def _working(award: ItemAward, begun: bool) -> dict[str, Any] | None:
    if not award.working_out_of:
        return None
    return {
        "given": "" if award.suggested else f"{award.working:g}",
        "suggested": write_marks(award.working) if award.suggested and begun else "",
        "out_of": write_marks(award.working_out_of),
        "choices": [_halves(n) for n in range(round(award.working_out_of / HALF) + 1)],
    }


def _halves(count: int) -> list[str]:
    return [f"{count * HALF:g}", write_marks(count * HALF)]


def _part(item: Item, part: PartAward, label: str, answers: Mapping[str, str]) -> dict[str, Any]:
    question = item.question
    entered = label in answers
    return {
        "label": label,
        "prompt": question.prompts[part.name],
        "hint": hint(question.chain.by_name[part.name].kind),
        "value": answers.get(label, ""),
        "out_of": write_marks(part.out_of),
        "outcome": ("blank" if not part.text else part.outcome) if entered else "",
        "marks": write_marks(part.marks) if entered else "",
        "key": part.key if entered else "",
        "says": list(part.says) if entered and part.text and part.outcome != "right" else [],
        "decide": entered and part.decide,
        "notation": entered and part.notation,
    }


def hint(kind: Any) -> str:
    """Return how an answer of this kind is entered, in a few words."""
    match kind:
        case OnSheet():
            return say(
                "right, how far off (2 mm), a slip’s letter (b), or read off: a grid reference, or "
                "latitude and longitude"
            )
        case Choice(options=options):
            return say("the option: {letters}", {"letters": _either(letters(options))})
        case Order(items=items):
            return say("the order, such as {order}", {"order": " ".join(reversed(letters(items)))})
    return say("such as {example}", {"example": kind.example})


def _either(names: Mapping[str, str]) -> str:
    *most, last = names
    return f"{', '.join(most)} or {last}" if most else last
