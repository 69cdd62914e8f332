"""A plan as a form holds it: plain texts in boxes, read by the rules of the file, and reckoned up."""

from collections.abc import Iterator, Mapping
from typing import Any

from navlib.classroom.plan import reading
from navlib.classroom.plan.plan import ASKING, WHATS, Plan, Segment
from navlib.classroom.plan.reading import PlanError
from navlib.classroom.plan.times import START, clock, minutes_of
from navlib.language import say
from navlib.paper.typed import Line, item, listed, one_line, places, quoted

Draft = Mapping[str, Any]
"""What stands in the form: see `draft_of`."""

LONGEST_SITTING = 90
"""Minutes without a break after which a class listens no more; common practice."""


def draft_of(plan: Plan) -> dict[str, Any]:
    """Return a plan as the form shows it; every value that is typed is a text."""
    return {
        "name": plan.name,
        "title": plan.title,
        "topic": plan.topic,
        "minutes": str(plan.length or ""),
        "goals": "\n".join(plan.goals),
        "bring": "\n".join(plan.bring),
        "caution": plan.caution,
        "segments": [_segment(one) for one in plan.segments],
    }


def _segment(one: Segment) -> dict[str, Any]:
    return {
        "what": one.what,
        "minutes": str(one.minutes),
        "title": one.title,
        "notes": one.notes,
        "demonstration": one.demonstration or "",
        "kind": one.kind or "",
        "own": one.own,
        "tell": one.tell,
    }


def plan_of(draft: Draft) -> tuple[Plan | None, list[dict[str, str]]]:
    """Return the plan that a form holds, or None, and what is wrong with which box.

    Each mistake has the `place` where it stands, such as “minutes” or “segment 2”, and a sentence.
    """
    lines = list(_lines(draft))
    try:
        text = "\n".join(line for _, line in lines)
        return reading.parse(text, one_line(draft.get("name"))), []
    except PlanError as wrong:
        return None, places(wrong.problems, lines)


def _lines(draft: Draft) -> Iterator[Line]:
    """Yield the lines of a plan's file with the place in the form that each comes from."""
    yield "title", f"title: {quoted(draft.get('title'))}"
    for name in ("topic", "minutes", "caution"):
        if one_line(draft.get(name)):
            yield name, f"{name}: {quoted(draft.get(name))}"
    for name in ("goals", "bring"):
        things = [line for line in str(draft.get(name) or "").splitlines() if one_line(line)]
        yield name, f"{name}: {listed(things)}"
    segments = draft.get("segments") or []
    yield "segments", "segments:" if segments else "segments: []"
    for number, segment in enumerate(segments, 1):
        yield f"segment {number}", item(_parts(segment))


def _parts(segment: Mapping[str, Any]) -> Iterator[tuple[str, Any]]:
    """Yield what is written of a segment: what its sort does not have stays in the form alone."""
    what = segment.get("what")
    for name in ("what", "minutes", "title"):
        yield name, segment.get(name)
    if what in ASKING:
        yield "kind", segment.get("kind")
    if what == "work alone":
        for name in ("own", "tell"):
            yield name, "yes" if segment.get(name) else "no"
    shown = {"notes", "demonstration"} if what == "demonstrate" else {"notes"}
    for name in sorted(shown):
        if one_line(segment.get(name)):
            yield name, segment[name]


# What it comes to -------------------------------------------------------------------------------


def reckoned(draft: Draft, start: str = START) -> dict[str, Any]:
    """Return what the form's plan comes to, as far as it can be told while it is being typed.

    `problems` by place; `minutes` of all segments against `length`, as words in `balance`; `times`
    at which the segments begin and `end`; `sorts` with the minutes of each; and `findings`, what a
    colleague would say.
    """
    plan, problems = plan_of(draft)
    each = [_whole(segment.get("minutes")) for segment in draft.get("segments") or []]
    length, total = _whole(draft.get("minutes")), sum(each)
    try:
        begin = minutes_of(start)
    except ValueError as wrong:
        problems = [*problems, {"place": "start", "says": str(wrong)}]
        begin = minutes_of(START)
    return {
        "problems": problems,
        "minutes": total,
        "length": length,
        "balance": _balance(total, length),
        "fits": not length or total == length,
        "questions": len(plan.questions) if plan else None,
        "times": [clock(begin + sum(each[:n])) for n in range(len(each))],
        "end": clock(begin + total),
        "sorts": _sorts(draft.get("segments") or [], each),
        "findings": findings(plan) if plan else [],
    }


def _balance(total: int, length: int) -> str:
    if not length:
        return ""
    values = {"minutes": abs(length - total)}
    if total == length:
        return say("That fills the time just right.")
    if total < length:
        return say("{minutes} min are left.", values)
    return say("{minutes} min too long.", values)


def _sorts(segments: list[Mapping[str, Any]], minutes: list[int]) -> list[dict[str, Any]]:
    """Return for each sort of segment its minutes, and their share of the whole."""
    spent = dict.fromkeys(WHATS, 0)
    for segment, count in zip(segments, minutes, strict=True):
        if segment.get("what") in spent:
            spent[segment["what"]] += count
    whole = max(1, sum(minutes))
    return [
        {"what": what, "minutes": count, "share": count / whole} for what, count in spent.items()
    ]


def _whole(text: object) -> int:
    digits = one_line(text)
    return int(digits) if digits.isascii() and digits.isdigit() and len(digits) < 4 else 0


def findings(plan: Plan) -> list[str]:
    """Return what a colleague would say to a plan, in sentences."""
    return [*_unsettled(plan), *_without_a_break(plan), *_hands_idle(plan)]


def _unsettled(plan: Plan) -> Iterator[str]:
    """Yield votes that are never revealed: nobody learns who was right."""
    for asked, following in zip(plan.questions, [*plan.questions[1:], None], strict=True):
        until = following.segment if following else len(plan.segments)
        after = (one.what for one in plan.segments[asked.segment : until])
        segment = plan.segments[asked.segment]
        if not segment.tell and "reveal" not in after:
            yield say(
                "Part {n}, “{title}”, is never revealed: nobody learns what was right.",
                {"n": asked.segment + 1, "title": asked.title},
            )


def _without_a_break(plan: Plan) -> Iterator[str]:
    longest = now = 0
    for one in plan.segments:
        now = 0 if one.what == "break" else now + one.minutes
        longest = max(longest, now)
    if longest > LONGEST_SITTING:
        yield say("There are {minutes} min without a break.", {"minutes": longest})


def _hands_idle(plan: Plan) -> Iterator[str]:
    shown = sum(one.minutes for one in plan.segments if one.what == "demonstrate")
    if 2 * shown > plan.minutes:
        yield say("More than half of the time is shown, not done by the class.")
