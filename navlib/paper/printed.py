"""A paper for one candidate: cover, questions with room to answer, and its sheets at true scale."""

from collections.abc import Mapping
from typing import Any, Literal

from navlib.paper.awards import labels
from navlib.paper.by_eye import plotted
from navlib.paper.fields import fields
from navlib.paper.overlay import base, laid, paper_for, title
from navlib.paper.typeset import code_square, plain, typeset
from navlib.paper.variants import Item, Paper
from navlib.pictures.drawn import tabulate
from navlib.questions.picture import SheetWindow

SHORT = 80
"""Characters of a name or title that are printed."""

NOT_ALLOWED = "telephone, satellite receiver, smart watch, notes of your own."


def paper_pdf(
    paper: Paper,
    *,
    number: str = "",
    name: str = "",
    large: bool = False,
    page_size: Literal["A4", "A3"] = "A4",
) -> bytes:
    """Return a paper as the candidate gets it, as PDF: the same bytes each time.

    `number` and `name` of the candidate are printed where they are known, else there are lines to
    write them on. `large` sets all words in 18 point letters; sheets stay at their true scale.
    `page_size` is that of cover and questions; each sheet takes the smallest of A4 and A3 that holds
    it. Raises ValueError for a sheet too large for A3.
    """
    whose = {"number": plain(number, 12), "name": plain(name, SHORT)}
    whose["note"] = f"Candidate {whose['number'] or '.........'}"
    return typeset("paper", {**paper_data(paper, large), **whose, "page": page_size.lower()})


def paper_data(paper: Paper, large: bool = False) -> dict[str, Any]:
    """Return what is printed of a paper as plain data: nothing in it leads to an answer."""
    blueprint = paper.blueprint
    return {
        "title": plain(blueprint.title, SHORT),
        "code": plain(paper.code, 24),
        "square": code_square(paper.code),
        "large": large,
        "cover": cover(paper, large),
        "items": items_data(paper),
        "extracts": [laid(extract) for extract in paper.extracts],
    }


def items_data(paper: Paper) -> list[dict[str, Any]]:
    """Return the questions as they are printed, in order."""
    return [_item(item) for item in paper.items]


def cover(paper: Paper, large: bool = False) -> dict[str, Any]:
    """Return the words of the cover."""
    blueprint = paper.blueprint
    return {
        "centre": plain(blueprint.words.get("centre", ""), SHORT),
        "note": plain(blueprint.words.get("note", ""), 600),
        "facts": [
            ["Time", f"{blueprint.minutes} minutes"],
            ["Questions", f"{len(paper.items)}, answer all"],
            ["Marks", f"{blueprint.marks}, to pass {blueprint.pass_mark}"],
        ],
        "allowed": _listed(blueprint.instruments),
        "not_allowed": NOT_ALLOWED,
        "sheets": [
            [f"Sheet {e.number}", f"{title(e.base)} ({paper_size(e.base)})"] for e in paper.extracts
        ],
        "instructions": instructions(paper, large),
        "marks": [[str(item.number), str(item.row.marks)] for item in paper.items],
    }


def paper_size(shown: Any) -> str:
    """Return the name of the paper that a sheet is printed on: A4 or A3."""
    under = base(shown)
    return paper_for(under.width_mm, under.height_mm).split()[0]


def instructions(paper: Paper, large: bool = False) -> list[str]:
    """Return what a candidate is told before the start, a sentence or two each."""
    lost = paper.blueprint.notation
    told = [
        "Marks stand in square brackets. Show your working: where a later part follows from an "
        "earlier one, it is marked from the figure that you found yourself.",
        "Say what a figure is: T, M, G or C for a bearing, the unit of a quantity, E or W of a "
        "variation, the zone of a time."
        + (
            f" Where that is missing, {_count(lost)} lost, once in the whole paper." if lost else ""
        ),
        "Unless a question says otherwise give bearings to 1°, distances to 0.1 NM, speeds to "
        "0.1 kn, times to the minute, and heights to 0.1 m.",
        "Cross out what is not to be marked. If two answers stand, the worse one counts.",
    ]
    if any(isinstance(e.base, SheetWindow) for e in paper.extracts):
        told.append(
            "Draw on the sheets in pencil and leave your lines in. Hand the sheets in with the paper, "
            "your number on each."
            + (
                " Write the number of the question beside what it asks you to draw."
                if any(plotted(item.question) for item in paper.items)
                else ""
            )
        )
    if large and paper.extracts:
        told.append(
            "The sheets are not enlarged: instruments fit their scale. You may use a magnifier."
        )
    return told


def _count(marks: int) -> str:
    return "1 mark is" if marks == 1 else f"{marks} marks are"


def _listed(things: tuple[str, ...]) -> str:
    """Return things as a sentence: Pencil, dividers, ruler."""
    words = ", ".join(plain(thing, SHORT) for thing in things)
    return f"{words[:1].upper()}{words[1:]}." if words else "Nothing but a pen."


def _item(item: Item) -> dict[str, Any]:
    question = item.question
    return {
        "number": str(item.number),
        "marks": item.row.marks,
        "working": item.row.working,
        "text": [part for part in question.text.split("\n\n") if part.strip()],
        "table": tabulate(question.picture),
        "where": where(item),
        "fields": [
            {
                **field,
                "prompt": f"{label}  {field['prompt']}"
                if len(question.asks) > 1
                else field["prompt"],
            }
            for label, field in zip(labels(item), fields(question), strict=True)
        ],
    }


def where(item: Item) -> str:
    """Return which sheet a question is worked on, and what its letters are called there."""
    if not item.extract:
        return ""
    renamed = {a: b for a, b in item.labels.items() if a != b}
    if not renamed:
        return f"Use sheet {item.extract}."
    return f"Use sheet {item.extract}. {_renamed(renamed)}"


def _renamed(labels: Mapping[str, str]) -> str:
    """Return a sentence on letters of the words and labels of the sheet: A and B are 2A and 2B there."""

    def together(names: list[str]) -> str:
        return " and ".join(filter(None, [", ".join(names[:-1]), names[-1]]))

    verb = "is" if len(labels) == 1 else "are"
    return f"{together(list(labels))} {verb} {together(list(labels.values()))} there."
