"""What the instructor sees of a question: how many, how far off, which slips, who is stuck."""

from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from typing import Any

from navlib.chain.kind import Kind
from navlib.chain.question import Question
from navlib.classroom.judging import marked, says, worst
from navlib.marking import Outcome
from navlib.questions.asked import asked_part

Row = Mapping[str, Any]


def board(
    asked: Row,
    seats: Sequence[Row],
    answers: Sequence[Row],
    question_of: Callable[[int | None], Question],
    people: Mapping[str, Row] | None = None,
) -> dict[str, Any]:
    """Return the board of a question; nothing in it names a learner unless `people` is given.

    `seats` are who joined, `answers` every answer to the question in order, judged; `question_of`
    gives the question of a seat. `people` maps names to the rows of those people.
    """
    tries = Counter(row["learner"] for row in answers if row["counted"])
    last = {row["learner"]: row for row in answers if row["counted"] and row["outcomes"]}
    rows = sorted(last.values(), key=lambda row: (row["at"], row["id"]))
    outcomes = Counter(worst(row["outcomes"]) for row in rows)
    slips = _slips(rows, question_of)
    own = bool(asked["own"])
    return {
        "question": {name: asked[name] for name in _SHOWN} | {"own": own},
        "joined": len(seats),
        "in": len(last),
        "outcomes": {outcome.value: outcomes[outcome.value] for outcome in Outcome},
        "parts": [_part(name, rows, question_of(None), own) for name in question_of(None).asks],
        "slips": slips,
        "pair": _pair(rows, slips, question_of),
        "stuck": _stuck(asked, seats, last, tries, people),
        "people": None if people is None else _people(seats, last, tries, people),
    }


_SHOWN = (
    *("id", "session", "position", "kind", "state", "tell", "segment"),
    *("opened", "closed", "revealed"),
)


def _part(name: str, rows: Sequence[Row], question: Question, own: bool) -> dict[str, Any]:
    band, kind = question.band(name), question.chain.by_name[name].kind
    options = asked_part(question, name)["options"]
    given = [
        {
            "text": row["answers"].get(name, ""),
            **_as_read(kind, row["answers"].get(name, ""), options),
            "off": row["off"].get(name),
            "outcome": row["outcomes"][name],
        }
        for row in rows
    ]
    given.sort(key=lambda one: (one["off"] is None, one["off"] or 0.0, one["text"]))
    return {
        "name": name,
        "prompt": question.prompts[name],
        "unit": kind.unit,
        "signed": _has_sides(kind, question.values[name]),
        "options": options,
        "key": None if own else question.written[name],
        "right_option": None if own or not options else question.values[name],
        "band": {"full": band.full, "part": band.part},
        "answers": given,
    }


def _as_read(kind: Kind[Any], text: str, options: Any) -> dict[str, str | None]:
    """Return an answer written as a practitioner would, and the option chosen, if it is one."""
    value = kind.read(text).value
    return {
        "plain": "" if value is None else kind.write(value),
        "option": value if options else None,
    }


def _has_sides(kind: Kind[Any], key: Any) -> bool:
    """Return whether one can be off to either side of the key, as with figures but not places."""
    return kind.apart(kind.shift(key, -kind.rounding), key) < 0


def _slips(
    rows: Sequence[Row], question_of: Callable[[int | None], Question]
) -> list[dict[str, Any]]:
    counts = Counter(slip for row in rows for slip in dict.fromkeys(row["slips"]))
    found = []
    for name, count in sorted(counts.items(), key=lambda one: (-one[1], one[0])):
        row = next(row for row in rows if name in row["slips"])
        found.append({"name": name, "count": count, "says": _said(row, question_of)})
    return found


def _said(row: Row, question_of: Callable[[int | None], Question]) -> list[str]:
    return says(marked(question_of(row["seat"]), row["answers"]))


def _pair(
    rows: Sequence[Row], slips: Sequence[Row], question_of: Callable[[int | None], Question]
) -> list[dict[str, Any]] | None:
    """Return a right answer and a wrong one, of the commonest slip if there is one."""
    right = [row for row in rows if worst(row["outcomes"]) == Outcome.RIGHT.value]
    wrong = [row for row in rows if worst(row["outcomes"]) == Outcome.WRONG.value]
    if not right or not wrong:
        return None
    common = slips[0]["name"] if slips else None
    chosen = next((row for row in wrong if common in row["slips"]), wrong[0])
    return [
        {
            "text": question_of(row["seat"]).text,
            "answers": row["answers"],
            "plain": _plain(row["answers"], question_of(row["seat"])),
            "outcome": worst(row["outcomes"]),
            "says": _said(row, question_of),
        }
        for row in (right[0], chosen)
    ]


def _plain(answers: Mapping[str, str], question: Question) -> dict[str, str | None]:
    kinds = {name: question.chain.by_name[name].kind for name in question.asks}
    return {
        name: _as_read(kind, answers.get(name, ""), None)["plain"] for name, kind in kinds.items()
    }


def _stuck(
    asked: Row,
    seats: Sequence[Row],
    last: Mapping[str, Row],
    tries: Mapping[str, int],
    people: Mapping[str, Row] | None,
) -> list[dict[str, Any]]:
    found = []
    for seat in seats:
        why = _why(last.get(seat["learner"]), tries.get(seat["learner"], 0))
        if why is None or asked["state"] == "planned":
            continue
        row = last.get(seat["learner"])
        since = row["at"] if row else max(seat["at"], asked["opened"])
        who = {} if people is None else _named(seat["learner"], people)
        found.append({"seat": seat["seat"], "why": why, "since": since, **who})
    return found


def _why(row: Row | None, tries: int) -> str | None:
    if row is None:
        return "nothing yet"
    outcome = worst(row["outcomes"])
    if outcome == Outcome.UNREAD.value:
        return "not read"
    return "wrong again" if outcome == Outcome.WRONG.value and tries > 1 else None


def _people(
    seats: Sequence[Row],
    last: Mapping[str, Row],
    tries: Mapping[str, int],
    people: Mapping[str, Row],
) -> list[dict[str, Any]]:
    return [
        {
            **_named(seat["learner"], people),
            "seat": seat["seat"],
            "tries": tries.get(seat["learner"], 0),
            "outcome": worst(last[seat["learner"]]["outcomes"])
            if seat["learner"] in last
            else None,
            "confirmed": bool(people.get(seat["learner"], {}).get("confirmed")),
        }
        for seat in seats
    ]


def _named(learner: str, people: Mapping[str, Row]) -> dict[str, str]:
    return {"name": learner, "shown": people.get(learner, {}).get("shown", learner)}
