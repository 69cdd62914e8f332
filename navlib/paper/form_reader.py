"""Reads a table of answers back: every mistake at once, by row and column, and nothing lost."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from pathlib import Path

from navlib.kinds.angles import Bearing
from navlib.notation import tidy
from navlib.paper.awards import BLANK, labels
from navlib.paper.cells import content
from navlib.paper.entries import Entry
from navlib.paper.sitting import LONGEST, Sitting, number_of, plain_code, plain_label, quoted, short
from navlib.paper.spreadsheets import LARGEST, cells, decode, is_empty, mangled, place
from navlib.paper.variants import Paper

FIRST = CANDIDATE, NAME, PAPER = "candidate", "name", "paper"
WORKING = "working"
ASIDE = ("row", "problem")
"""Columns that a file of rows put aside has in front; read back, they say nothing."""

_MARKS = re.compile(r"(\d*)(?:[.,]0*)?(½|[.,]50*)?")


@dataclass(frozen=True)
class Remark:
    """Something to tell of a table; row 0 is the whole of it, column "" a whole row."""

    row: int
    column: str
    says: str

    def __str__(self) -> str:
        where = [f"Row {self.row}"] if self.row else []
        where += [f"column {self.column}"] if self.column else []
        says = self.says[:1].upper() + self.says[1:]
        return f"{', '.join(where)}: {says}" if where else says


@dataclass(frozen=True)
class Form:
    """A table as read: `entries` are good; `problems` say what is wrong with the rows `aside`.

    `notes` are what a marker should know of the others. `heads` and `rows`, by number, are the table
    as it was given. `taken`, `unchanged` and `kept` are filled when it is taken in: how many entries
    were kept, how many stood entered already, and the file of the rows put aside.
    """

    entries: tuple[Entry, ...]
    problems: tuple[Remark, ...]
    notes: tuple[Remark, ...]
    aside: tuple[int, ...]
    heads: tuple[str, ...]
    rows: Mapping[int, tuple[str, ...]]
    taken: int = 0
    unchanged: int = 0
    kept: Path | None = None


def columns(sitting: Sitting) -> list[str]:
    """Return the heads of the table: variants may differ in how many parts a question has."""
    found: dict[int, set[str]] = {}
    for paper in sitting.papers.values():
        for item in paper.items:
            found.setdefault(item.number, set()).update(labels(item))
    working = {row.number for row in sitting.plan.blueprint.rows if row.working}
    heads = [*FIRST]
    for number in sorted(found):
        heads += sorted(found[number])
        heads += [f"{number} {WORKING}"] if number in working else []
    return heads


def read_form(sitting: Sitting, data: bytes, marker: str) -> Form:
    """Return what a table holds, with all that is wrong with it; nothing is kept yet.

    Reads commas, semicolons or tabs, UTF-8, UTF-16 or Windows text, and columns in any order. An
    empty cell says nothing; a - says that the candidate wrote nothing.
    """
    return _Reader(sitting, data, short("marker", marker)).read()


class _Reader:
    """One reading of one table."""

    def __init__(self, sitting: Sitting, data: bytes, marker: str) -> None:
        self.sitting, self.marker = sitting, marker
        self.problems: list[Remark] = []
        self.notes: list[Remark] = []
        self.known = {plain_label(head): head for head in columns(sitting)}
        text, guess = decode(data[:LARGEST])
        if guess:
            self.notes.append(Remark(0, "", guess))
        if len(data) > LARGEST:
            self.problems.append(Remark(0, "", f"only the first {LARGEST:,} bytes were read."))
        rows = dict(enumerate(cells(text, self.known), 1))
        self.top = next((number for number, row in rows.items() if not is_empty(row)), 0)
        self.heads = [plain_label(content(head)) for head in rows.get(self.top, [])]
        self.titles = tuple(rows.get(self.top, ()))
        self.rows = {
            number: [content(cell).strip() for cell in row]
            for number, row in rows.items()
            if number > self.top and not is_empty(row)
        }

    def read(self) -> Form:
        """Return the whole table."""
        entries: dict[int, Entry] = {}
        whose: dict[str, list[int]] = {}
        good_heads = self._good_heads()
        for number, row in self.rows.items() if good_heads else ():
            if entry := self._entry(number, row):
                entries[number] = entry
                whose.setdefault(entry.candidate, []).append(number)
        for candidate, numbers in whose.items():
            if len(numbers) > 1:
                self._doubled(candidate, numbers)
        bad = (
            {told.row for told in self.problems} & set(self.rows) if good_heads else set(self.rows)
        )
        self._missing()
        return Form(
            tuple(entry for number, entry in entries.items() if number not in bad),
            tuple(sorted(self.problems, key=lambda told: told.row)),
            tuple(sorted(self.notes, key=lambda told: told.row)),
            tuple(sorted(bad)),
            self.titles,
            {number: tuple(row) for number, row in self.rows.items()},
        )

    def _column(self, index: int) -> str:
        """Return how a column is spoken of: E “3b”."""
        return f"{place(index)} {quoted(self.titles[index])}"

    def _good_heads(self) -> bool:
        """Tell what is wrong with the heads; return whether rows can be read by them."""
        lost = [head for head in (CANDIDATE, PAPER) if head not in self.heads]
        if lost:
            told = " and ".join(f"“{head}”" for head in lost)
            says = f"the first row must hold the heads of the columns; {told} is not among them."
            self.problems.append(Remark(self.top or 1, "", says))
        twice = {head for head in self.heads if head in self.known and self.heads.count(head) > 1}
        for index, head in enumerate(self.heads):
            if head in twice and self.heads.index(head) != index:
                says = "this column is there twice; take one away."
                self.problems.append(Remark(self.top, self._column(index), says))
        self._strange_heads()
        return not lost and not twice

    def _strange_heads(self) -> None:
        """Tell of columns that the table should not have, and of those that it lacks."""
        lacking = [head for head in self.known if head not in self.heads]
        for index, head in enumerate(self.heads):
            if head in self.known or head in ASIDE:
                continue
            filled = [n for n, row in self.rows.items() if any(row[index : index + 1])]
            if not filled:
                continue
            near = get_close_matches(head, lacking, n=1, cutoff=0.5)
            where = self._column(index)
            if not near:
                says = "no question has this label, so the column was left out."
                self.notes.append(Remark(self.top, where, says))
                continue
            says = f"no question has this label. Is it {self.known[near[0]]}?"
            self.problems.append(Remark(self.top, where, says))
            self.problems += [
                Remark(n, where, "it is not known what this answers.") for n in filled
            ]
        for head in lacking:
            if head not in FIRST:
                says = f"there is no column “{self.known[head]}”: nothing is entered for it."
                self.notes.append(Remark(self.top, "", says))

    def _entry(self, number: int, row: list[str]) -> Entry | None:
        """Return a row as an entry, having told what is wrong with it; None if it holds none."""
        self._unseen(number, row)
        found = dict(zip(self.heads, row, strict=False))
        candidate = self._short(number, CANDIDATE, found)
        name = self._short(number, NAME, found)
        paper = self._paper(number, found)
        if paper is None:
            return None
        answers = dict(self._answers(number, found, paper))
        working = dict(self._working(number, found, paper))
        if not answers and not working:
            self._not_entered(number, candidate)
            return None
        if self.sitting.plan.codes.get(candidate, paper.code) != paper.code:
            says = f"candidate {candidate} was meant to get another paper than {paper.code}."
            self.notes.append(Remark(number, self._of(PAPER), says))
        return Entry(candidate, paper.code, self.marker, answers, working, name)

    def _not_entered(self, number: int, candidate: str) -> None:
        says = (
            f"nothing is entered for candidate {candidate or '?'}, so the row was left out. If the "
            "candidate handed in an empty paper, write - in one of the cells."
        )
        self.notes.append(Remark(number, "", says))

    def _of(self, head: str) -> str:
        return self._column(self.heads.index(head)) if head in self.heads else ""

    def _fault(self, number: int, head: str, says: str) -> None:
        self.problems.append(Remark(number, self._of(head), says))

    def _unseen(self, number: int, row: list[str]) -> None:
        """Tell of cells beyond the heads, and of characters that nobody can have written."""
        for index, cell in enumerate(row):
            if index >= len(self.heads) and cell:
                says = f"{quoted(cell)} stands under no head: has something moved to the right?"
                self.problems.append(Remark(number, place(index), says))
            elif "\0" in cell:
                says = f"{quoted(cell)} holds a character that cannot be seen (NUL): write it anew."
                self.problems.append(Remark(number, self._column(index), says))

    def _short(self, number: int, head: str, found: Mapping[str, str]) -> str:
        """Return a candidate's number or name, having told what is wrong with it."""
        text = found.get(head, "")
        if head == CANDIDATE and (says := mangled(text)):
            self._fault(number, head, f"{quoted(text)} {says}.")
        try:
            plain = short(head, text)
        except ValueError as fault:
            self._fault(number, head, str(fault))
            return ""
        return number_of(plain) if head == CANDIDATE else plain

    def _paper(self, number: int, found: Mapping[str, str]) -> Paper | None:
        code = found.get(PAPER, "")
        if not code:
            self._fault(number, PAPER, "the paper's code is missing; it stands on every page.")
            return None
        try:
            return self.sitting.paper(code)
        except ValueError as fault:
            self._fault(number, PAPER, str(fault))
            return None

    def _answers(
        self, number: int, found: Mapping[str, str], paper: Paper
    ) -> Iterator[tuple[str, str]]:
        own = {label: (item, name) for item in paper.items for label, name in labels(item).items()}
        for label, text in found.items():
            if not text or label not in self.known or WORKING in label or label in FIRST:
                continue
            if label not in own:
                if tidy(text) not in BLANK:
                    says = f"paper {paper.code} has no part {label}; it has {', '.join(own)}."
                    self._fault(number, label, f"{quoted(text)}: {says}")
                continue
            if says := mangled(text):
                self._fault(number, label, f"{quoted(text)} {says}.")
            if len(text) > LONGEST:
                says = f"has {len(text):,} characters; an answer has at most {LONGEST}."
                self._fault(number, label, f"{quoted(text)} {says}")
            item, name = own[label]
            bearing = isinstance(item.question.chain.by_name[name].kind, Bearing)
            if bearing and text.isascii() and text.isdigit() and len(text) < 3:
                says = (
                    f"“{text}” is read as {int(text):03}. A spreadsheet drops noughts in front; that "
                    "costs nothing. If a T, M, G or C stands on the paper, enter it too."
                )
                self.notes.append(Remark(number, self._of(label), says))
            yield label, text

    def _working(
        self, number: int, found: Mapping[str, str], paper: Paper
    ) -> Iterator[tuple[str, float]]:
        for head, text in found.items():
            if head not in self.known or WORKING not in head or tidy(text) in BLANK:
                continue
            match = _MARKS.fullmatch(tidy(text))
            question = int(head.removesuffix(WORKING))
            if match is None:
                says = f"{quoted(text)} is no number of marks, such as 2, 1.5 or ½."
                self._fault(number, head, says)
                continue
            marks = int(match[1] or 0) + (0.5 if match[2] else 0.0)
            faults = list(self.sitting.faults(paper, {}, {question: marks}))
            for says in faults:
                self._fault(number, head, says)
            yield str(question), marks

    def _doubled(self, candidate: str, numbers: list[int]) -> None:
        for number in numbers:
            others = " and ".join(str(other) for other in numbers if other != number)
            says = f"candidate {candidate} stands in row {others} too; which is right?"
            self._fault(number, CANDIDATE, says)

    def _missing(self) -> None:
        """Tell of papers of the sitting that have no row."""
        at = self.heads.index(PAPER) if PAPER in self.heads else -1
        here = {plain_code(row[at]) for row in self.rows.values() if 0 <= at < len(row)}
        for candidate, code in self.sitting.plan.codes.items():
            if plain_code(code) not in here:
                says = f"there is no row for paper {code} (candidate {candidate})."
                self.notes.append(Remark(0, "", says))
