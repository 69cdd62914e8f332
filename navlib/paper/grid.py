"""The marking grid: the answers of all variants by part of question, on one page as far as it goes."""

from collections.abc import Iterator, Sequence
from typing import Any

from navlib.kinds.places import GridReference
from navlib.paper.awards import labels, split
from navlib.paper.printed import SHORT
from navlib.paper.reasons import tolerance
from navlib.paper.scheme import short_answer
from navlib.paper.scripts import write_marks
from navlib.paper.typeset import plain, typeset
from navlib.paper.variants import Item, Paper

LETTER_MM = 1.42
"""Width of a letter in the grid, with room; the template sets them in 6.5 points."""
ROOM_MM = {"a4": 297.0 - 20.0 - 27.0, "a3": 420.0 - 20.0 - 27.0}
"""Width that the columns share: paper across, less its margins and the column of the codes."""
LEAST_MM = 12.5
ROWS_ON_A4 = 22
"""Variants that one page across of A4 holds."""
MOST_GROWN, WORTH_PARTING, GROWN_ON_A3 = 1.6, 1.4, 1.12
"""How many times as large the letters are set: at most, from where on the columns are parted for it,
and on A3."""


def grid_pdf(papers: Sequence[Paper]) -> bytes:
    """Return the marking grid of papers of one sitting: a row a variant, a column a part.

    A4 across, or A3 where that takes it all in at once; columns that find no room stand in a second
    table, and rows flow on to the next page under the same heads. Raises ValueError without papers.
    """
    if not papers:
        raise ValueError("There are no papers to make a grid of: give the papers of a sitting.")
    columns = [column for one in range(len(papers[0].items)) for column in _columns(papers, one)]
    small = len(papers) <= ROWS_ON_A4 and len(_tables(columns, ROOM_MM["a4"])) == 1
    page = "a4" if small else "a3"
    grown = _grown(columns, len(papers)) if small else GROWN_ON_A3
    tables = _tables(columns, ROOM_MM["a4"] / grown if small else ROOM_MM["a3"])
    title = papers[0].blueprint.title
    return typeset(
        "grid",
        {
            "title": plain(f"Marking grid: {title}", SHORT + 20),
            "code": "Marking grid",
            "note": "for the coach only",
            "page": page,
            "over": plain(title, SHORT),
            "codes": [[f"{paper.variant:02}", plain(paper.code, 24)] for paper in papers],
            "tables": tables,
            "grown": grown,
            "legend": (
                "Behind ±: within it all marks, within twice as much half of them. = below a figure is "
                "where this variant’s limit differs. A later part is marked from the candidate’s own "
                "earlier figures: see the mark scheme of the variant, which has the slips too."
            ),
        },
    )


def _grown(columns: Sequence[dict[str, Any]], rows: int) -> float:
    """Return how many times as large as at least a page of A4 can have its letters.

    Much larger ones are worth more tables, each with its heads, which count as a row and a half.
    """
    for grown in (MOST_GROWN, 1.5, 1.4, 1.3, 1.2, 1.1):
        tables = len(_tables(columns, ROOM_MM["a4"] / grown))
        if tables > 1 and grown < WORTH_PARTING:
            continue
        if tables * (rows + 1.5) * grown <= ROWS_ON_A4 + 1.5:
            return grown
    return 1.0


def _columns(papers: Sequence[Paper], index: int) -> Iterator[dict[str, Any]]:
    """Yield a column for each part of one question."""
    first = papers[0].items[index]
    for label, name in labels(first).items():
        items = [paper.items[index] for paper in papers]
        limits = [tolerance(item.question, name).full for item in items]
        common = max(set(limits), key=limits.count)
        cells = [
            [*_lines(item, name), *([f"= ± {limit}"] if limit != common else [])]
            for item, limit in zip(items, limits, strict=True)
        ]
        head = [label, f"[{write_marks(split(first).parts[name])}]"]
        longest = max(len(line) for cell in [*cells, [f"± {common}"]] for line in cell)
        yield {
            "question": first.number,
            "head": head,
            "limit": f"± {common}" if common else "",
            "cells": cells,
            "mm": max(LEAST_MM, longest * LETTER_MM + 2.4),
        }


def _lines(item: Item, name: str) -> list[str]:
    """Return an answer in lines short enough for a narrow column."""
    text = short_answer(item.question, name, item.question.written[name])
    words = text.split(" ")
    half = len(text) / 2
    if len(text) < 9 or len(words) == 1:
        return [text]
    cuts = [len(" ".join(words[:k])) for k in range(1, len(words))]
    if isinstance(item.question.chain.by_name[name].kind, GridReference):
        cuts = cuts[-2:-1]  # letters, then figures
    cut = min(cuts, key=lambda at: abs(at - half))
    return [text[:cut], text[cut + 1 :]]


def _tables(columns: Sequence[dict[str, Any]], room_mm: float) -> list[list[dict[str, Any]]]:
    """Return the columns in tables that are no wider than the room, a question never parted."""
    tables: list[list[dict[str, Any]]] = [[]]
    numbers = list(dict.fromkeys(column["question"] for column in columns))
    for number in numbers:
        together = [column for column in columns if column["question"] == number]
        width = sum(column["mm"] for column in (*tables[-1], *together))
        if tables[-1] and width > room_mm:
            tables.append([])
        tables[-1] += together
    return tables
