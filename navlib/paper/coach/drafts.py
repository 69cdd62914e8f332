"""A blueprint as a form holds it: plain texts in boxes, read by the rules of the file."""

from collections.abc import Iterator, Mapping
from typing import Any

from navlib import questions
from navlib.paper import reading
from navlib.paper.blueprint import Blueprint, Row
from navlib.paper.choosing import kinds_at
from navlib.paper.reading import BlueprintError
from navlib.paper.typed import Line, item, listed, one_line, places, quoted

Draft = Mapping[str, Any]
"""What stands in the form: see `draft_of`."""

_SIMPLE = ("title", "minutes", "pass mark", "notation marks")


def draft_of(blueprint: Blueprint) -> dict[str, Any]:
    """Return a blueprint as the form shows it; every value that is typed is a text."""
    return {
        "name": blueprint.name,
        "title": blueprint.title,
        "minutes": str(blueprint.minutes),
        "pass mark": str(blueprint.pass_mark),
        "notation marks": str(blueprint.notation),
        "from": blueprint.first.isoformat(),
        "to": blueprint.last.isoformat(),
        "instruments": ", ".join(blueprint.instruments),
        "words": dict(blueprint.words),
        "sheets": [
            {"sheet": f"{s.water}/{s.sheet}/{s.scale}", "paper": s.paper_size}
            for s in blueprint.sheets
        ],
        "rows": [_row(row) for row in blueprint.rows],
    }


def _row(row: Row) -> dict[str, Any]:
    level = questions.question_type(row.kinds[0]).level if row.kinds else 0
    whole = bool(level) and row.kinds == kinds_at(row.topic, (level,))
    return {
        "topic": row.topic,
        "level": str(level) if whole else "",
        "kinds": [] if whole else list(row.kinds),
        "marks": str(row.marks),
        "working": str(row.working),
        "minutes": f"{row.minutes:g}",
    }


def blueprint_of(draft: Draft) -> tuple[Blueprint | None, list[dict[str, str]]]:
    """Return the blueprint that a form holds, or None, and what is wrong with which box.

    Each mistake has the `place` where it stands, such as “minutes” or “row 2”, and a sentence.
    """
    lines = list(_lines(draft))
    try:
        made = reading.parse("\n".join(line for _, line in lines), one_line(draft.get("name")))
    except BlueprintError as wrong:
        return None, places(wrong.problems, lines)
    bare = [row.number for row in made.rows if not row.kinds]
    if bare:
        says = "Tick at least one kind of question."
        return None, [{"place": f"row {number}", "says": says} for number in bare]
    return made, []


def _lines(draft: Draft) -> Iterator[Line]:
    """Yield the lines of a blueprint file with the place in the form that each comes from."""
    for name in _SIMPLE:
        yield name, f"{name}: {quoted(draft.get(name))}"
    yield "days", f"days: {{from: {quoted(draft.get('from'))}, to: {quoted(draft.get('to'))}}}"
    tools = [tool for tool in str(draft.get("instruments", "")).split(",") if tool.strip()]
    yield "instruments", f"instruments: {listed(tools)}"
    words = {name: text for name, text in dict(draft.get("words", {})).items() if str(text).strip()}
    told = ", ".join(f"{quoted(name)}: {quoted(text)}" for name, text in words.items())
    yield "words", f"words: {{{told}}}"
    sheets, rows = draft.get("sheets", []), draft.get("rows", [])
    yield "sheets", "sheets:" if sheets else "sheets: []"
    for number, sheet in enumerate(sheets, 1):
        parts = zip(
            ("water", "sheet", "scale"), str(sheet.get("sheet", "")).split("/"), strict=False
        )
        yield f"sheet {number}", item([*parts, ("paper", sheet.get("paper"))])
    yield "rows", "questions:" if rows else "questions: []"
    for number, row in enumerate(rows, 1):
        yield f"row {number}", item(_parts(row))


def _parts(row: Mapping[str, Any]) -> Iterator[tuple[str, Any]]:
    yield "topic", row.get("topic")
    if row.get("level"):
        yield "level", row["level"]
    else:
        yield "kinds", list(row.get("kinds", []))
    for name in ("marks", "working", "minutes"):
        yield name, row.get(name)
