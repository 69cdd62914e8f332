"""Tables as CSV that a spreadsheet opens as text: nothing in a cell is run as a formula."""

import csv
import io
from collections.abc import Iterable, Sequence

_RUNS = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")
"""A cell that begins so may be taken for a formula (common practice in securing exports)."""


def cell(value: object) -> str:
    """Return what stands in a cell: a number as it is, a text so that no spreadsheet runs it.

    Such a text has an apostrophe before it, which `content` takes off again.
    """
    if isinstance(value, int | float):
        return f"{value:g}"
    text = "" if value is None else str(value)
    runs = text.lstrip(" '").startswith(_RUNS) or text.startswith(_RUNS)
    return f"'{text}" if runs else text


def content(text: str) -> str:
    """Return what was written into a cell, without the apostrophe that `cell` put before it."""
    bare = text.removeprefix("'")
    return bare if bare != text and cell(bare) == text else text


def table(heads: Sequence[str], rows: Iterable[Sequence[object]]) -> str:
    """Return a table as CSV (RFC 4180), heads first."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow([cell(head) for head in heads])
    writer.writerows([cell(value) for value in row] for row in rows)
    return out.getvalue()
