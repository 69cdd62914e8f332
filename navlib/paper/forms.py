"""The table for entering answers in a spreadsheet: written for a sitting, and taken in again."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

from navlib.paper.awards import labels
from navlib.paper.cells import table
from navlib.paper.entries import Entry
from navlib.paper.folder import put
from navlib.paper.form_reader import (
    ASIDE,
    CANDIDATE,
    NAME,
    PAPER,
    WORKING,
    Form,
    Remark,
    columns,
    read_form,
)
from navlib.paper.sitting import Sitting, short
from navlib.paper.variants import Paper

__all__ = ["Form", "Remark", "columns", "read_form", "take_in", "write_form"]

NOT_ON_THIS_PAPER = "–"


def write_form(sitting: Sitting, marker: str = "") -> str:
    """Return the table of a sitting as CSV text, a row a paper, with what `marker` has entered.

    It begins with the mark by which spreadsheets know UTF-8. A cell that a spreadsheet would take for
    a formula has an apostrophe in front, which is taken off again on reading. Columns go by label, such
    as 3b; those called “3 working” are for the marks that a person gives for working.
    """
    heads = columns(sitting)
    empty = {who: Entry(who, code, marker) for who, code in sitting.plan.codes.items()}
    rows = {**empty, **(sitting.entered(marker) if marker else {})}
    return "\ufeff" + table(
        heads, (_row(heads, sitting.papers[entry.code], entry) for entry in rows.values())
    )


def _row(heads: Sequence[str], paper: Paper, entry: Entry) -> list[object]:
    own = {label for item in paper.items for label in labels(item)}
    cells: dict[str, object] = {
        head: NOT_ON_THIS_PAPER for head in heads if WORKING not in head and head not in own
    }
    cells |= {label: text for label, text in entry.answers.items() if label in own}
    cells |= {f"{number} {WORKING}": marks for number, marks in entry.working.items()}
    cells |= {CANDIDATE: entry.candidate, NAME: entry.name, PAPER: entry.code}
    return [cells.get(head, "") for head in heads]


def take_in(sitting: Sitting, given: bytes | Path, marker: str) -> Form:
    """Read a table and keep its good rows as entries of `marker`; rows with problems go aside.

    Those stand in a file in “marks” with what is wrong in front of each, ready to be mended and taken
    in, and the table as given beside it. Rows that stand entered already are not entered again. An
    empty cell says nothing; a - says that the candidate wrote nothing.
    """
    data = given.read_bytes() if isinstance(given, Path) else given
    form = read_form(sitting, data, marker)
    stands = sitting.entered(short("marker", marker))
    taken = 0
    for entry in form.entries:
        before = stands.get(entry.candidate)
        if before is not None and replace(entry.after(before), at=before.at) == before:
            continue
        working = {int(number): marks for number, marks in entry.working.items()}
        sitting.enter(entry.candidate, entry.code, entry.answers, marker, working, entry.name)
        taken += 1
    kept = _put_aside(sitting.path / "marks", data, form) if form.problems else None
    return replace(form, taken=taken, unchanged=len(form.entries) - taken, kept=kept)


def _put_aside(marks: Path, data: bytes, form: Form) -> Path:
    """Keep the rows that have problems, and the table as it was given; return the file of the rows."""
    stem = f"aside-{datetime.now(UTC):%Y%m%dT%H%M%S}"
    number = next(n for n in range(1, 10_000) if not (marks / f"{stem}-{n}.csv").exists())
    rows = []
    for row in form.aside:
        told = " ".join(str(problem) for problem in form.problems if problem.row == row)
        rows.append([row, told, *form.rows[row]])
    put(marks / f"{stem}-{number}-as-given.csv", data)
    kept = marks / f"{stem}-{number}.csv"
    put(kept, ("\ufeff" + table((*ASIDE, *form.heads), rows)).encode(errors="replace"))
    return kept
