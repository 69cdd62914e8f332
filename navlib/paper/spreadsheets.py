"""What spreadsheets hand back: bytes in their encodings, cells, and what they do to figures."""

import csv
import io
import re
from collections.abc import Collection, Sequence
from string import ascii_uppercase

LARGEST = 20_000_000
"""Bytes of a file that are read."""
SEPARATORS = (",", ";", "\t")

_MONTH = "(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*"
_DATE = re.compile(
    rf"\d{{1,2}}[-/. ] ?{_MONTH}\.?(?:[-/. ]\d{{2,4}})?|{_MONTH}[-/. ]\d{{1,4}}"
    r"|\d{4}-\d\d-\d\d(?:[ T][\d:.]+)?|\d{1,2}([/.])\d{1,2}\1\d{2,4}",
    re.IGNORECASE,
)
_POWER = re.compile(r"[+-]?\d[.,]?\d*E\+?\d+", re.IGNORECASE)
_FAILED = re.compile(r"#(?:NAME\?|REF!|VALUE!|N/A|DIV/0!|NUM!|NULL!)|#{3,}")


def decode(data: bytes) -> tuple[str, str]:
    """Return the text of a file, and a sentence if its encoding had to be guessed, else "".

    UTF-8 with or without a mark in front, UTF-16, else Windows' western letters (cp1252).
    """
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        return data.decode("utf-16", errors="replace"), ""
    start = data[:400]
    for wide, zeros in (("utf-16-le", start[1::2]), ("utf-16-be", start[::2])):
        if zeros and zeros.count(0) > 0.4 * len(zeros):
            return data.decode(wide, errors="replace"), ""
    try:
        return data.decode("utf-8-sig"), ""
    except UnicodeDecodeError:
        pass
    guess = "The file is not in UTF-8, so it was read as Windows text: look at names with accents."
    try:
        return data.decode("cp1252"), guess
    except UnicodeDecodeError:
        return data.decode("latin-1"), guess


def cells(text: str, heads: Collection[str]) -> list[list[str]]:
    """Return the rows of cells of a CSV text, whichever separator it has.

    The separator is the one with which most of the first row are `heads`, given in lower case and
    without spaces.
    """
    csv.field_size_limit(max(csv.field_size_limit(), LARGEST))
    lines = text.removeprefix("\ufeff")
    if match := re.match(r"sep=(.)\r?\n", lines):  # written by spreadsheets for each other
        return [[], *_rows(lines[match.end() :], match[1])]

    def known(separator: str) -> int:
        first = next((row for row in _rows(lines, separator) if any(row)), [])
        return sum("".join(head.split()).casefold() in heads for head in first)

    return _rows(lines, max(SEPARATORS, key=known))


def _rows(text: str, separator: str) -> list[list[str]]:
    return list(csv.reader(io.StringIO(text, newline=""), delimiter=separator))


def mangled(text: str) -> str:
    """Return a sentence on what a spreadsheet made of a figure, "" if nothing can be seen."""
    if _DATE.fullmatch(text):
        return (
            "is a date. A spreadsheet makes one of figures such as 4/5 or 4-5: give the column the "
            "format “text”, and enter what stands on the paper"
        )
    if _POWER.fullmatch(text):
        return (
            "is a figure that a spreadsheet has shortened: give the column the format “text”, and "
            "enter what stands on the paper"
        )
    if _FAILED.fullmatch(text):
        return "is a spreadsheet's sign of failure: enter what stands on the paper"
    return ""


def place(number: int) -> str:
    """Return the letters over column `number`, from 0: A, B ... Z, AA."""
    letters = ""
    number += 1
    while number:
        number, which = divmod(number - 1, 26)
        letters = ascii_uppercase[which] + letters
    return letters


def is_empty(row: Sequence[str]) -> bool:
    """Return whether a row has nothing in any cell."""
    return not any(cell.strip() for cell in row)
