"""What a candidate's answers earn: marks split over parts and working, follow-through, a script."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from datetime import datetime
from typing import Any

from navlib.chain.question import Question
from navlib.chain.step import Slip, Step
from navlib.kinds.places import Position
from navlib.marking import Diagnosis, Marked, Outcome, PartMarked, mark
from navlib.notation import tidy
from navlib.paper.by_eye import none_drawn, plotted, seen_by_eye, slip_named
from navlib.paper.fields import NOTATION
from navlib.paper.scripts import HALF, ItemAward, Overrule, PartAward, Script, Split, to_halves
from navlib.paper.variants import Item, Paper

BLANK = frozenset({"", "-", "--", "...", "…"})
"""How a marker writes that nothing stands there (in its tidied form): no marks, nothing to ask."""


def labels(item: Item) -> dict[str, str]:
    """Return the label of each part on the paper, such as 3a, 3b (3 if one is asked), to its name."""
    asks = item.question.asks
    if len(asks) == 1:
        return {str(item.number): asks[0]}
    return {f"{item.number}{letter}": name for letter, name in zip(_LETTERS, asks, strict=False)}


_LETTERS = "abcdefghijklmnopqrstuvwxyz"


def split(item: Item) -> Split:
    """Return how the marks of a question lie over its parts and its working.

    Value marks go evenly to the parts in whole marks; what is left over goes to the parts with most
    steps of their own, of these to the later ones. Halves are dealt only if there are fewer value
    marks than parts.
    """
    question, value = item.question, item.row.marks - item.row.working
    asks = question.asks
    unit = 1.0 if value >= len(asks) else HALF
    each, left = divmod(round(value / unit), len(asks))
    own = _own_steps(question)
    longest = sorted(range(len(asks)), key=lambda i: (-len(own[asks[i]]), -i))[:left]
    parts = {name: (each + (i in longest)) * unit for i, name in enumerate(asks)}
    return Split(parts, float(item.row.working))


def _own_steps(question: Question) -> dict[str, list[Step]]:
    """Return for each part the steps that lead to it from the part before."""
    asks, own, seen = question.asks, {}, set[str]()
    for asked in asks:
        steps = question.chain.upstream(asked, dict.fromkeys(seen & set(asks)))
        own[asked] = [step for step in steps if step.name not in seen]
        seen |= {step.name for step in steps}
    return own


def award(
    item: Item,
    answers: Mapping[str, str],
    working: float | None = None,
    overruled: Overrule | None = None,
) -> ItemAward:
    """Return what `answers`, by name of part and as written, earn on this question.

    The same marker as that of the lessons judges them, so later parts follow the candidate's own
    earlier ones. `working` are the marks that a person gave for it; without them they are suggested:
    for each step that is known to be right its share, cut down to halves. Never raises for what was
    written.
    """
    question, lie = seen_by_eye(item.question), split(item)
    seen = {name: tidy(answers.get(name, "")) for name in question.asks}
    blank = {name for name, text in seen.items() if text in BLANK}
    blank |= {plotted(question)} if none_drawn(question, seen) else set()
    written = {name: "" if name in blank else answers[name] for name in question.asks}
    marked = _told(question, _carried(question, mark(question, written)))
    held = _held(question, marked, unshown=working == 0 and lie.working > 0)
    parts = tuple(
        _part(question, part, label, lie.parts[part.name], held.get(part.name, ""))
        for part, label in zip(marked.parts, labels(item), strict=True)
    )
    share = lie.working * _known(question, marked) if working is None else working
    return ItemAward(
        item.number,
        question.kind,
        question.topic,
        question.level,
        float(item.row.marks),
        parts,
        to_halves(share, lie.working),
        lie.working,
        suggested=working is None and lie.working > 0,
        overruled=overruled,
    )


def _told(question: Question, marked: Marked) -> Marked:
    """Return the parts, the slip behind what is drawn being the one that a marker named."""
    name = plotted(question)
    parts = []
    for part in marked.parts:
        slip = slip_named(question, part.text) if part.name == name else None
        if slip and part.outcome is Outcome.WRONG:
            kind = question.chain.by_name[name].kind
            yours = {**question.written, "yours": kind.quoted(part.text, part.reading.value)}
            found = Diagnosis(((slip,),), 1.0)
            part = replace(part, diagnosis=found, says=(found.says(yours), *part.reading.says))
        parts.append(part)
    return Marked(tuple(parts))


def _part(question: Question, part: PartMarked, label: str, out_of: float, held: str) -> PartAward:
    unread, blank = part.outcome is Outcome.UNREAD, not part.text
    earned = 0.0 if held else to_halves(part.marks * out_of, out_of)
    says = part.says
    if part.outcome is Outcome.WRONG and not part.diagnosis.ways:
        what = "what is drawn" if plotted(question) == part.name else "this figure"
        says = (f"The way to {what} cannot be seen from it: show someone your lines.", *says[1:])
    if blank:
        drawn = plotted(question) == part.name
        says = ("Nothing is drawn on the sheet." if drawn else "Nothing is written here.",)
    return PartAward(
        label,
        part.name,
        part.text,
        part.outcome.value,
        earned,
        out_of,
        part.key,
        part.diagnosis.slips,
        (held, *says) if held else says,
        decide=unread and not blank,
        notation=earned > 0 and _bare(question, part),
        held=held,
    )


def _bare(question: Question, part: PartMarked) -> bool:
    """Return whether a figure stands without its unit, north or zone."""
    kind = question.chain.by_name[part.name].kind
    if not isinstance(kind, (*NOTATION, Position)) or any(c.isalpha() for c in part.text):
        return False
    zone = any(words == "zone" and isinstance(kind, sort) for sort, words in NOTATION.items())
    return zone or (part.noted and not getattr(kind, "bare_is_plain", False))


def _known(question: Question, marked: Marked) -> float:
    """Return the share of the steps that were surely gone rightly, judged by the answers alone."""
    own = _own_steps(question)
    right = 0
    for part in marked.parts:
        steps = len(own[part.name])
        if part.outcome in (Outcome.RIGHT, Outcome.CARRIED, Outcome.NEAR):
            right += steps
        elif part.diagnosis.ways:
            right += max(0, steps - max(len(way) for way in part.diagnosis.ways))
    return right / max(1, sum(len(steps) for steps in own.values()))


def _with_earlier(
    question: Question, marked: Marked
) -> Iterator[tuple[PartMarked, dict[str, Any]]]:
    """Yield each part with the candidate's own answers to the parts before it."""
    own: dict[str, Any] = {}
    for part in marked.parts:
        yield part, dict(own)
        if part.reading.value is not None:
            kind = question.chain.by_name[part.name].kind
            own[part.name] = kind.nearest(part.reading.value, question.values[part.name])


def _carried(question: Question, marked: Marked) -> Marked:
    """Return the parts with those carried that follow from an earlier slip in a step they share.

    The marker follows what is asked; a step between, such as a difference of longitude from which
    both distance and bearing are worked, is not. The slip there costs its marks once.
    """
    chain, own_steps = question.chain, _own_steps(question)
    made: list[tuple[Slip, ...]] = []
    parts = []
    for part, own in _with_earlier(question, marked):
        kind, value = chain.by_name[part.name].kind, part.reading.value
        shared = [s for s in chain.upstream(part.name, own) if s not in own_steps[part.name]]
        for way in made if part.outcome in (Outcome.WRONG, Outcome.NEAR) else ():
            slips = {step.name: slip for slip in way for step in shared if slip in step.slips}
            key = chain.run(question.givens, slips, fixed=own)[part.name] if slips else None
            if key is None or abs(kind.apart(value, kind.rounded(key))) > part.band.full:
                continue
            says = part.reading.says
            part = replace(part, outcome=Outcome.CARRIED, diagnosis=Diagnosis(), says=says)
            break
        made += part.diagnosis.ways
        parts.append(part)
    return Marked(tuple(parts))


def _held(question: Question, marked: Marked, unshown: bool) -> dict[str, str]:
    """Return, for each carried part that earns nothing, why.

    Nothing is carried from a slip that took the difficulty away, nor, where a person saw no working
    (`unshown`), from a value that nothing explains. Common practice.
    """
    held, strange = {}, False
    for part, own in _with_earlier(question, marked):
        if part.outcome is Outcome.CARRIED:
            if _emptied(question, part.name, own):
                held[part.name] = (
                    "It follows from your earlier answer, but with that there was nothing left to do "
                    "here: no marks are carried."
                )
            elif unshown and strange:
                held[part.name] = (
                    "It follows from your earlier answer, but no working shows where that came from: "
                    "no marks are carried."
                )
        strange = strange or (part.outcome is Outcome.WRONG and not part.diagnosis.ways)
    return held


def _emptied(question: Question, asked: str, own: Mapping[str, Any]) -> bool:
    """Return whether the candidate's own earlier answers leave a part as it began.

    Such as a variation of 0, with which true and magnetic are the same: what the step begins with
    comes out again, wherever it begins, and in the key it does not.
    """
    chain, kind = question.chain, question.chain.by_name[asked].kind
    theirs = chain.run(question.givens, fixed=own)
    for name in {name for step in chain.upstream(asked, own) for name in step.needs}:
        begun = theirs[name]
        if type(chain.kind(name)) is not type(kind) or not isinstance(begun, float | datetime):
            continue
        if abs(kind.apart(question.values[asked], question.values[name])) < kind.rounding / 2:
            continue
        starts = (begun, kind.shift(begun, 7 * kind.rounding))
        ends = (chain.run({**question.givens, name: s}, fixed={**own, name: s}) for s in starts)
        if all(
            end[asked] is not None and abs(kind.apart(end[asked], start)) < kind.rounding / 2
            for start, end in zip(starts, ends, strict=True)
        ):
            return True
    return False


def script(
    paper: Paper,
    candidate: str,
    answers: Mapping[str, str],
    working: Mapping[int, float] | None = None,
    overruled: Mapping[int, Overrule] | None = None,
    name: str = "",
) -> Script:
    """Return a candidate's whole paper marked.

    `answers` are as written, by the labels of the paper (see `labels`); `working` and `overruled` by
    number of question. What is missing counts as not written.
    """
    items = tuple(
        award(
            item,
            {part: answers.get(label, "") for label, part in labels(item).items()},
            (working or {}).get(item.number),
            (overruled or {}).get(item.number),
        )
        for item in paper.items
    )
    plan = paper.blueprint
    return Script(
        candidate,
        name,
        paper.code,
        paper.variant,
        items,
        _lost(items, plan.notation),
        float(plan.marks),
        float(plan.pass_mark),
    )


def _lost(items: Iterable[ItemAward], notation: float) -> float:
    """Return what missing units, norths and zones cost: once a paper, however many there are."""
    return float(notation) if any(item.notation for item in items) else 0.0
