"""A blueprint file: read with every mistake named by its line, and written back."""

import re
from collections.abc import Mapping
from datetime import date
from pathlib import Path
from typing import Any

import yaml

from navlib import questions, waters
from navlib.paper.blueprint import Blueprint, Row, SheetWanted
from navlib.paper.choosing import kinds_at, sheets_of
from navlib.paper.frames import PAPER_MM
from navlib.paper.nodes import Nodes, did_you_mean
from navlib.paper.plain_yaml import Mistakes, NotYaml, file_of, root_of, text_of, written
from navlib.questions.picture import Sort
from navlib.questions.tides.draws import FIRST, LAST

FOLDER = Path(__file__).parent / "blueprints"
SHEETS: tuple[Sort, ...] = ("land map", "sea chart")
NOTATION_MARKS = 1
"""Marks lost once a paper for units, norths and zones left out, unless a blueprint says."""
MOST_QUESTIONS = 40

_HEAD = """\
# What this paper tests. Words behind a # are for you alone.
"""


class BlueprintError(Mistakes):
    """A blueprint that cannot be used, with its mistakes."""


def ready_made() -> tuple[str, ...]:
    """Return the names of the blueprints that come with the project."""
    return tuple(sorted(file.stem for file in FOLDER.glob("*.yaml")))


def read(source: str | Path) -> Blueprint:
    """Return the blueprint of a file, or the ready-made one of that name.

    Raises BlueprintError with all mistakes, and FileNotFoundError with the names there are.
    """
    file = file_of(source, FOLDER, ready_made(), "blueprint", "my-paper.yaml")
    try:
        return parse(text_of(file), file.stem)
    except NotYaml as wrong:
        raise BlueprintError(file.stem, (wrong.problem,)) from None


def parse(text: str, name: str) -> Blueprint:
    """Return the blueprint written in `text`. Raises BlueprintError with all mistakes."""
    nodes = Nodes()
    try:
        root = root_of(text, "a blueprint")
    except NotYaml as wrong:
        raise BlueprintError(name, (wrong.problem,)) from None
    made = _Reader(nodes, name).blueprint(root)
    if made is None or nodes.problems:
        raise BlueprintError(name, tuple(sorted(nodes.problems)))
    return made


def write(blueprint: Blueprint) -> str:
    """Return a blueprint as the text of a file, which reads back equal."""
    content: dict[str, Any] = {
        "title": blueprint.title,
        "minutes": blueprint.minutes,
        "pass mark": blueprint.pass_mark,
        "notation marks": blueprint.notation,
        "days": {"from": blueprint.first, "to": blueprint.last},
        "instruments": list(blueprint.instruments),
        "sheets": [
            {"water": s.water, "sheet": s.sheet, "scale": s.scale, "paper": s.paper_size}
            for s in blueprint.sheets
        ],
        "questions": [_row_as_written(row) for row in blueprint.rows],
        "words": dict(blueprint.words),
    }
    return _HEAD + written(content)


def _row_as_written(row: Row) -> dict[str, Any]:
    level = questions.question_type(row.kinds[0]).level
    whole = row.kinds == kinds_at(row.topic, (level,))
    minutes = int(row.minutes) if row.minutes == int(row.minutes) else row.minutes
    return {
        "topic": row.topic,
        **({"level": level} if whole else {"kinds": list(row.kinds)}),
        "marks": row.marks,
        **({"working": row.working} if row.working else {}),
        "minutes": minutes,
    }


class _Reader:
    """Reads the parts of one file; what is wrong goes to `nodes`."""

    def __init__(self, nodes: Nodes, name: str) -> None:
        self.nodes, self.name = nodes, name

    def blueprint(self, root: yaml.Node | None) -> Blueprint | None:
        must = ("title", "minutes", "pass mark", "questions")
        may = ("notation marks", "days", "instruments", "sheets", "words")
        found = self.nodes.mapping(root, "a blueprint", must, may)
        if found is None:
            return None
        n = self.nodes
        first, last = self._days(found.get("days"))
        rows = self._rows(found.get("questions"))
        marks = sum(row.marks for row in rows)
        return Blueprint(
            self.name,
            n.text(found.get("title"), "title", 200),
            n.whole(found.get("minutes"), "minutes", 1, 480),
            n.whole(found.get("pass mark"), "pass mark", 0, marks, ", all marks of the paper"),
            n.whole(
                found.get("notation marks"), "notation marks", 0, marks, default=NOTATION_MARKS
            ),
            first,
            last,
            tuple(filter(None, map(self._sheet, n.items(found.get("sheets"), "sheets", 12)))),
            tuple(
                n.text(item, "instruments", 60)
                for item in n.items(found.get("instruments"), "instruments", 40)
            ),
            rows,
            n.texts(found.get("words"), "words"),
        )

    def _days(self, node: yaml.Node | None) -> tuple[date, date]:
        if node is None:
            return FIRST, LAST
        found = self.nodes.mapping(node, "days", ("from", "to"), ()) or {}
        first = self.nodes.day(found.get("from"), "from", FIRST, LAST)
        last = self.nodes.day(found.get("to"), "to", FIRST, LAST)
        if first and last and last < first:
            self.nodes.say(found["to"], f"the days end on {last}, before they begin on {first}.")
        return first or FIRST, last or LAST

    def _sheet(self, node: yaml.Node) -> SheetWanted | None:
        must = ("water", "sheet", "scale", "paper")
        found = self.nodes.mapping(node, "a sheet", must, ())
        if found is None or set(found) != set(must):
            return None
        water = self.nodes.one_of(found["water"], "water", waters.shipped())
        sheet = self.nodes.one_of(found["sheet"], "sheet", SHEETS)
        paper = self.nodes.one_of(found["paper"], "paper", tuple(PAPER_MM))
        if not (water and sheet and paper):
            return None
        usual = waters.load(water).settings.scales
        scales = usual.land_map if sheet == "land map" else usual.sea_chart
        digits = re.sub(r"^1\s*:|[\s,._']", "", str(found["scale"].value))
        scale = self.nodes.one_of(found["scale"], "scale", tuple(map(str, scales)), digits)
        if not scale:
            return None
        return SheetWanted(water, sheet, int(scale), paper)

    def _rows(self, node: yaml.Node | None) -> tuple[Row, ...]:
        items = self.nodes.items(node, "questions", MOST_QUESTIONS)
        if node is not None and not items and not self.nodes.problems:
            self.nodes.say(
                node, "there are no questions. Give at least one, as “- topic: bearings”."
            )
        rows = (self._row(number, item) for number, item in enumerate(items, 1))
        return tuple(row for row in rows if row is not None)

    def _row(self, number: int, node: yaml.Node) -> Row | None:
        must, may = ("topic", "marks", "minutes"), ("kinds", "level", "working", "sheet")
        found = self.nodes.mapping(node, "a question", must, may)
        if found is None:
            return None
        n = self.nodes
        marks = n.whole(found.get("marks"), "marks", 1, 100)
        working = n.whole(found.get("working"), "working", 0, marks, ", the marks of it", default=0)
        minutes = n.number(found.get("minutes"), "minutes", 0.5, 240)
        topic = n.one_of(found.get("topic"), "topic", questions.topics())
        kinds = self._kinds(topic, found, node) if topic else ()
        return Row(number, topic or "", kinds, marks, working, minutes)

    def _kinds(
        self, topic: str, found: Mapping[str, yaml.Node], node: yaml.Node
    ) -> tuple[str, ...]:
        n = self.nodes
        if ("kinds" in found) == ("level" in found):
            n.say(node, "a question has either “kinds:” or “level:” (1, 2 or 3), not both or none.")
            return ()
        if "level" in found:
            levels = tuple(
                sorted({questions.question_type(k).level for k in questions.kinds(topic)})
            )
            level = n.one_of(found["level"], "level", tuple(map(str, levels)))
            kinds = kinds_at(topic, (int(level),)) if level else ()
        else:
            kinds = self._named(topic, found["kinds"])
        if "sheet" in found and kinds:
            sheet = n.one_of(found["sheet"], "sheet", (*SHEETS, "none"))
            kinds = tuple(kind for kind in kinds if sheet in (_sorts(kind) or {"none"}))
            if sheet and not kinds:
                n.say(found["sheet"], f"none of these kinds is worked on “{sheet}”.")
        return kinds

    def _named(self, topic: str, node: yaml.Node) -> tuple[str, ...]:
        n, able = self.nodes, questions.kinds(topic)
        nodes = n.items(node, "kinds", 40) if isinstance(node, yaml.SequenceNode) else [node]
        named = []
        known = (*able, *(kind.split(".")[1] for kind in able))
        for item in nodes:
            text = n.text(item, "kinds", 60)
            if text in able or f"{topic}.{text}" in able:
                named.append(text if text in able else f"{topic}.{text}")
            elif text in questions.kinds():
                n.say(item, f"“{text}” is not on the topic {topic}. Give it a question of its own.")
            elif text:
                n.say(item, f"there is no kind “{text}”{did_you_mean(text, known)}")
        levels = {questions.question_type(kind).level: kind for kind in named}
        if len(levels) > 1:
            each = ", ".join(
                f"“{kind}” has level {level}" for level, kind in sorted(levels.items())
            )
            n.say(node, f"{each}: a question keeps to one level, so that no variant is harder.")
        if len(set(named)) != len(named):
            n.say(node, "a kind is named twice.")
        return tuple(named)


def _sorts(kind: str) -> set[str]:
    return {sheet for _, sheet, _ in sheets_of(kind)}
