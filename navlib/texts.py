"""All texts that a learner reads or hears, gathered from where they stand, for a translator."""

import ast
import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any, BinaryIO, NamedTuple

from navlib import questions
from navlib.chain.question import QuestionType
from navlib.language.scripts import said

ROOT = Path(__file__).parent
SCRIPTS = ("widgets/**/*.js", "classroom/web/*.js", "lab/labextensions/*/static/*.js")
"""Where the modules stand that a learner's browser runs."""
REFUSALS = {"Unclear": 1, "Impossible": 1, "Unwritten": 1}
"""Errors on what a learner wrote, and which of their arguments says what is wrong."""
SAYS = ("say", "to_say")
NAMED = "LessonWords"
"""What holds a title and a line on what it is, said where they are shown."""


class Text(NamedTuple):
    """A text, the file it stands in with its line (0: none), and what a translator should know."""

    text: str
    file: str
    line: int = 0
    note: str = ""


def texts(lessons: Path) -> list[Text]:
    """Return every text once for each place where it stands; `lessons` is the notebooks' folder."""
    found = [*_in_scripts(), *_in_code(), *_in_questions(), *_slips(), *_in_lessons(lessons)]
    return [text for text in found if re.search(r"[^\W\d_]{2}", re.sub(r"\{.*?\}", "", text.text))]


def write(found: list[Text], file: BinaryIO) -> None:
    """Write a catalogue in the PO format of GNU gettext, without translations."""
    from babel.messages.catalog import Catalog
    from babel.messages.pofile import write_po

    catalog = Catalog(
        project="navlib", msgid_bugs_address="", charset="utf-8", header_comment=HEADER, fuzzy=False
    )
    for text in found:
        places: list[Any] = [(text.file, text.line or None)]
        catalog.add(text.text, locations=places, auto_comments=[text.note] if text.note else [])
    write_po(file, catalog, width=0)


HEADER = """\
# Coastal navigation, taught and practised: what a learner reads and hears.
# Translate msgid into msgstr; what stands in braces is put in and stays as it is. To see it, set
# NAVLIB_LANGUAGE to this file and open a lesson."""


def _in_scripts() -> Iterator[Text]:
    for path in sorted(script for place in SCRIPTS for script in ROOT.glob(place)):
        for line, text in said(path.read_text(encoding="utf-8")):
            yield Text(text, _place(path), line)


def _in_code() -> Iterator[Text]:
    """Yield what is given to `say` in Python, and what is wrong with an answer as it was written.

    Where a name is given to `say`, all strings in what the module sets that name to are texts.
    """
    for path in sorted(ROOT.rglob("*.py")):
        tree = ast.parse(path.read_text(encoding="utf-8"))
        named: dict[str, list[ast.expr]] = {}
        for statement in ast.walk(tree):
            if isinstance(statement, ast.Assign):
                for target in statement.targets:
                    if isinstance(target, ast.Name):
                        named.setdefault(target.id, []).append(statement.value)
        for call in ast.walk(tree):
            if not isinstance(call, ast.Call) or not isinstance(call.func, ast.Name):
                continue
            name = call.func.id
            if name == NAMED:
                yield from (
                    Text(t, _place(path), call.lineno) for a in call.args for t in _strings(a)
                )
            if (name not in SAYS and name not in REFUSALS) or len(call.args) <= REFUSALS.get(
                name, 0
            ):
                continue
            given = call.args[REFUSALS.get(name, 0)]
            while isinstance(given, ast.Subscript):
                given = given.value
            meant = named.get(given.id, []) if isinstance(given, ast.Name) else [given]
            for text in (text for one in meant for text in _strings(one)):
                yield Text(text, _place(path), call.lineno)


def _strings(node: ast.expr) -> Iterator[str]:
    """Yield the texts that an expression may come to: of a mapping the values alone."""
    match node:
        case ast.Constant(value=str(text)):
            yield text
        case ast.Dict(values=values) | ast.Tuple(elts=values) | ast.List(elts=values):
            for value in values:
                yield from _strings(value)
        case ast.Starred(value=value):
            yield from _strings(value)
        case ast.IfExp(body=body, orelse=other):
            yield from _strings(body)
            yield from _strings(other)


def _in_questions() -> Iterator[Text]:
    for kind in questions.kinds():
        made = questions.question_type(kind)
        for text, note in _of_type(made):
            yield Text(text, f"question {kind}", note=note)


def _of_type(made: QuestionType) -> Iterator[tuple[str, str]]:
    yield made.title, "title"
    yield made.text, "question"
    yield from ((prompt, "before the answer") for prompt in made.prompts.values())
    for step in made.chain.steps:
        yield from ((text, "solution") for text in (step.how, step.line, step.nearly) if text)
        if step.check:
            yield step.check, "first hint"
        for slip in step.slips:
            yield slip.says, f"to someone who made the slip “{slip.name}”"
        for choices in ("options", "items"):
            yield from ((text, "choice") for text in getattr(step.kind, choices, {}).values())
    for kind in (*made.chain.givens.values(), *(step.kind for step in made.chain.steps)):
        if kind and re.fullmatch("[a-z ]{5,}", kind.unit):
            yield kind.unit, "unit"


def _slips() -> Iterator[Text]:
    path = ROOT / "record" / "slips.json"
    for text in json.loads(path.read_text(encoding="utf-8")).values():
        yield Text(text, _place(path), note="follows on “You”, before “three times” or a day")


def _in_lessons(folder: Path) -> Iterator[Text]:
    for path in sorted(folder.glob("*.ipynb")):
        cells = json.loads(path.read_text(encoding="utf-8"))["cells"]
        for number, cell in enumerate(cells, 1):
            if cell["cell_type"] == "markdown":
                yield Text("".join(cell["source"]), f"lessons/{path.name}", number, "Markdown")


def _place(path: Path) -> str:
    return f"navlib/{path.relative_to(ROOT).as_posix()}"
