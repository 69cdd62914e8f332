"""What a form's blueprint comes to, in figures and sentences, as it is typed."""

from typing import Any

from navlib import questions, waters
from navlib.paper.blueprint import Blueprint
from navlib.paper.coach.drafts import Draft, blueprint_of
from navlib.paper.frames import PAPER_MM
from navlib.paper.lessons import title
from navlib.paper.planning import Plan, Share, expected_minutes, plan
from navlib.paper.reading import SHEETS
from navlib.sheets.bars import fraction


def reckoned(draft: Draft) -> dict[str, Any]:
    """Return what the form's blueprint comes to: `problems` by place, and figures if there are none."""
    blueprint, problems = blueprint_of(draft)
    return {"problems": problems, "plan": plan_face(blueprint) if blueprint else None}


def plan_face(blueprint: Blueprint) -> dict[str, Any]:
    """Return a blueprint's time, balance and findings as plain data."""
    found = plan(blueprint)
    return {
        "expected": f"{found.expected:g}",
        "meant": f"{sum(row.minutes for row in blueprint.rows):g}",
        "minutes": blueprint.minutes,
        "marks": blueprint.marks,
        "pass_mark": blueprint.pass_mark,
        "rows": [f"{expected_minutes(row):g}" for row in blueprint.rows],
        "topics": [_share(one, title(one.name), blueprint) for one in found.topics],
        "levels": [_share(one, one.name.capitalize(), blueprint) for one in found.levels],
        "findings": [
            {"number": one.number, "missing": one.missing, "says": one.sentence}
            for one in found.findings
        ],
        "ready": not found.missing,
    }


def _share(one: Share, name: str, blueprint: Blueprint) -> dict[str, Any]:
    return {"name": name, "marks": one.marks, "share": one.marks / max(1, blueprint.marks)}


def what_there_is() -> dict[str, Any]:
    """Return what a form lets one choose from: topics with their kinds, sheets, sizes of paper."""
    return {
        "topics": [
            {"topic": topic, "title": title(topic), "kinds": _kinds(topic)}
            for topic in questions.topics()
        ],
        "sheets": [
            {
                "sheet": f"{water}/{sheet}/{scale}",
                "words": f"{waters.load(water).settings.title}, {sheet} {fraction(scale)}",
            }
            for water in waters.shipped()
            for sheet in SHEETS
            for scale in _scales(water, sheet)
        ],
        "papers": list(PAPER_MM),
    }


def _kinds(topic: str) -> list[dict[str, Any]]:
    types = (questions.question_type(kind) for kind in questions.kinds(topic))
    return [
        {"kind": one.kind, "title": one.title, "level": one.level}
        for one in sorted(types, key=lambda one: one.level)
    ]


def _scales(water: str, sheet: str) -> tuple[int, ...]:
    usual = waters.load(water).settings.scales
    return usual.land_map if sheet == "land map" else usual.sea_chart


def written(blueprint: Blueprint) -> str:
    """Return a blueprint's plan as lines to read in a terminal."""
    found: Plan = plan(blueprint)
    given = f"{blueprint.marks} marks, {blueprint.pass_mark} to pass, {blueprint.minutes} minutes"
    lines = [
        f"{blueprint.title}: {len(blueprint.rows)} questions, {given}.",
        f"Someone who knows how should take about {found.expected:g} minutes.",
        "",
        *_table([(title(one.name), one) for one in found.topics]),
        *_table([(one.name.capitalize(), one) for one in found.levels]),
    ]
    for one in found.findings:
        where = f"Question {one.number}: " if one.number else ""
        lines.append(f"{'MISSING' if one.missing else 'Look at'}: {where}{one.sentence}")
    if not found.findings:
        lines.append("Nothing is missing.")
    return "\n".join(lines)


def _table(shares: list[tuple[str, Share]]) -> list[str]:
    width = max((len(name) for name, _ in shares), default=0)
    return [
        f"  {name:{width}}  {one.marks:3} marks  {one.minutes:5g} min meant  {one.expected:5g} expected"
        for name, one in shares
    ] + [""]
