"""A sitting: its papers from the coach's secret, what markers enter, and the marks that follow."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from difflib import get_close_matches
from functools import cached_property
from pathlib import Path
from typing import TypeVar

from navlib.notation import tidy
from navlib.paper import entries, folder
from navlib.paper.awards import labels, script
from navlib.paper.blueprint import Blueprint
from navlib.paper.building import FIRST_SITTING, Follows, build_after
from navlib.paper.differences import Comparison, compare
from navlib.paper.entries import Damaged, Entry, Line, Overruling
from navlib.paper.filling import CannotFill
from navlib.paper.lots import read_code
from navlib.paper.scripts import HALF, Overrule, Script, write_marks
from navlib.paper.variants import Item, Paper

L = TypeVar("L", Entry, Overruling)

LONGEST = 500
"""Characters of an answer or a reason; what is longer is refused."""
_SHORT = {"name": 80, "candidate": 12, "marker": 12}


class Sitting:
    """A sitting's folder, opened. Raises ValueError if it is none.

    Candidates go by their numbers, such as 07; paper codes are those printed on every page. What is
    entered has reached the disk when the call returns, and nothing entered is changed or removed.
    """

    def __init__(self, path: Path | str, papers: Sequence[Paper] | None = None) -> None:
        self.path = Path(path)
        self.plan = folder.read_plan(self.path)
        self._given = papers
        self._marked: dict[tuple[str, str], tuple[object, Script]] = {}

    @classmethod
    def new(
        cls,
        path: Path | str,
        blueprint: Blueprint,
        count: int,
        secret: bytes | None = None,
        name: str = FIRST_SITTING,
        papers: Sequence[Paper] | None = None,
        follows: Follows = (),
    ) -> "Sitting":
        """Make the folder of a sitting with `count` papers and return it.

        Without a `secret` one is drawn. A resit takes the secret of the sittings that it `follows`
        (their names, and how many papers each had) and another `name`; its papers differ from all
        of theirs. Raises FileExistsError where a sitting is already.
        """
        secret = secret or folder.draw_secret()
        made = (
            papers if papers is not None else build_after(blueprint, secret, count, name, follows)
        )
        codes = {f"{paper.variant:02}": paper.code for paper in made}
        seals = {paper.code: folder.seal(paper, secret) for paper in made}
        folder.make(
            Path(path),
            folder.Plan(name, entries.now(), codes, seals, blueprint, tuple(follows)),
            secret,
        )
        return cls(path, made)

    @cached_property
    def papers(self) -> dict[str, Paper]:
        """The papers by their codes, made again from the secret; ValueError if that is missing."""
        secret, plan = folder.read_secret(self.path), self.plan
        made = self._given
        if made is None:
            try:
                made = build_after(plan.blueprint, secret, len(plan.codes), plan.name, plan.follows)
            except (KeyError, CannotFill):  # a kind is gone, or finds other questions now
                made = ()
        if {paper.code: folder.seal(paper, secret) for paper in made} != plan.seals:
            raise ValueError(folder.why_unlike(plan, secret))
        return {paper.code: paper for paper in made}

    def make_papers(self) -> None:
        """Make the papers now. Raises ValueError if the secret is missing or is not theirs."""
        _ = self.papers

    def paper(self, code: str) -> Paper:
        """Return the paper with this code, however it is spaced; ValueError names the nearest."""
        known = {plain_code(each): each for each in self.papers}
        plain = plain_code(code)
        if plain in known:
            return self.papers[known[plain]]
        near = get_close_matches(plain, known, n=1, cutoff=0.6)
        guess = f" Is it {known[near[0]]}?" if near else ""
        why = (
            "It is the code of a paper, but of another sitting."
            if read_code(code)
            else "Its letters do not fit together, so one may be misread."
        )
        raise ValueError(
            f"{quoted(code)} is no paper of this sitting. {why}{guess} The code stands at the foot of "
            f"every page, such as {next(iter(self.papers))}."
        )

    # What markers enter

    def enter(
        self,
        candidate: str,
        code: str,
        answers: Mapping[str, str],
        marker: str,
        working: Mapping[int, float] | None = None,
        name: str = "",
    ) -> Entry:
        """Keep what a marker read on a candidate's paper, before anything is judged.

        `answers` go by label, such as 3b; `working` are marks by number of question. A later entry
        corrects an earlier one of the same marker where the two hold the same label. Raises
        ValueError, with nothing kept, for a code, label or mark that the sitting does not have.
        """
        paper = self.paper(code)
        plain = {plain_label(label): str(text) for label, text in answers.items()}
        if says := list(self.faults(paper, plain, working or {})):
            raise ValueError(" ".join(says))
        ticked = {str(number): float(marks) for number, marks in (working or {}).items()}
        whose = number_of(short("candidate", candidate))
        by, called = short("marker", marker), short("name", name)
        entry = Entry(whose, paper.code, by, plain, ticked, called)
        return self._keep(entry)

    def faults(
        self, paper: Paper, answers: Mapping[str, str], working: Mapping[int, float]
    ) -> Iterator[str]:
        """Yield a sentence for each answer or mark that cannot belong to this paper."""
        known = {label: item for item in paper.items for label in labels(item)}
        items = {item.number: item for item in paper.items}
        for label, text in answers.items():
            if label not in known:
                yield (
                    f"Paper {paper.code} has no part {quoted(label)}; it has {', '.join(known)}."
                )
            elif len(text) > LONGEST:
                yield (
                    f"The answer to {label} has {len(text)} characters, and an answer has at most "
                    f"{LONGEST}: {quoted(text)}"
                )
        for number, marks in working.items():
            if says := _bad_working(items.get(number), number, marks):
                yield says

    def overrule(
        self, candidate: str, question: int, marks: float | None, reason: str, marker: str
    ) -> Overruling:
        """Keep a person's own marks for a whole question, in place of all others, with the reason.

        `marks` None takes an earlier overruling back. Raises ValueError without a reason, for a
        candidate of whom nothing is entered, and for marks that the question does not have.
        """
        whose = number_of(short("candidate", candidate))
        if not reason.strip() or len(reason) > LONGEST:
            raise ValueError(
                f"Give the reason, in at most {LONGEST} characters, for example: the sketch shows "
                "that 210 was meant."
            )
        if whose not in (entered := self.entered()):
            raise ValueError(f"Nothing has been entered for candidate {whose} yet.")
        items = {item.number: item for item in self.papers[entered[whose].code].items}
        if question not in items:
            raise ValueError(f"There is no question {question}; there are 1 to {len(items)}.")
        if marks is not None and (says := _bad_marks(marks, items[question].row.marks)):
            raise ValueError(f"Question {question}: {says}")
        by = short("marker", marker)
        return self._keep(Overruling(whose, question, marks, reason.strip(), by))

    def history(self) -> list[Line]:
        """Return everything that was ever entered, in order."""
        return self._read()[0]

    @property
    def damaged(self) -> list[Damaged]:
        """Lines that cannot be read, such as one within which a machine died."""
        return self._read()[1]

    def markers(self) -> tuple[str, ...]:
        """Return the initials of all who have entered answers, in order."""
        return tuple(dict.fromkeys(e.marker for e in self.history() if isinstance(e, Entry)))

    def entered(self, marker: str = "") -> dict[str, Entry]:
        """Return what stands entered, by candidate, in order of their numbers.

        That of one `marker`, or else of whoever entered each candidate first.
        """
        return entries.standing(self.history(), marker)

    # What follows from it

    def script(self, candidate: str, marker: str = "") -> Script:
        """Return a candidate's paper marked; KeyError if nothing is entered for them."""
        return {s.candidate: s for s in self.scripts(marker)}[number_of(candidate)]

    def scripts(self, marker: str = "") -> list[Script]:
        """Return all papers entered so far, marked, in order of the candidates' numbers.

        Those of one `marker`, with what this person overruled; or else of whoever entered each
        candidate first, with what anyone overruled.
        """
        lines = self.history()
        return [
            self._mark(entry, entries.overruled(lines, entry.candidate, marker))
            for entry in entries.standing(lines, marker).values()
        ]

    def differences(self) -> list[Comparison]:
        """Return, for each candidate whom two have marked, where they differ."""
        lines = self.history()
        found = []
        first_of = entries.standing(lines)
        for second in self.markers():
            for candidate, entry in entries.standing(lines, second).items():
                if (first := first_of[candidate]).marker != second:
                    one, other = (
                        self._mark(e, entries.overruled(lines, candidate, e.marker))
                        for e in (first, entry)
                    )
                    found.append(compare(one, other, (first.marker, second)))
        return sorted(found, key=lambda each: each.candidate)

    def _mark(self, entry: Entry, overruled: Mapping[int, Overrule]) -> Script:
        """Return an entry marked; what has not changed since is not marked again."""
        state = (replace(entry, at=""), dict(overruled))
        where = (entry.candidate, entry.marker)
        if where not in self._marked or self._marked[where][0] != state:
            working = {int(number): marks for number, marks in entry.working.items()}
            paper = self.papers[entry.code]
            made = script(paper, entry.candidate, entry.answers, working, overruled, entry.name)
            self._marked[where] = (state, made)
        return self._marked[where][1]

    def _keep(self, line: L) -> L:
        return entries.append(self.path / "marks" / "entries.jsonl", line)

    def _read(self) -> tuple[list[Line], list[Damaged]]:
        return entries.read(self.path / "marks" / "entries.jsonl")


def number_of(candidate: str) -> str:
    """Return a candidate's number as it is kept: a spreadsheet's 7 is 07."""
    plain = tidy(candidate)
    return f"{int(plain):02}" if plain.isascii() and plain.isdigit() else plain


def plain_label(label: str) -> str:
    """Return a label as it is kept: “3 B” is 3b."""
    return tidy(label).replace(" ", "").casefold()


def plain_code(code: str) -> str:
    """Return a paper code without what hands and spreadsheets put into it."""
    return "".join(letter for letter in tidy(code).upper() if letter.isalnum())


def quoted(text: str, most: int = 40) -> str:
    """Return a text in quotation marks as it is told of: on one line, and not too long."""
    plain = tidy(text)
    return f"“{plain[:most]}…”" if len(plain) > most else f"“{plain}”"


def short(what: str, text: str) -> str:
    """Return a name, a number or initials; ValueError if there is none or it is too long."""
    plain, most = " ".join(text.split()), _SHORT[what]
    if len(plain) > most or (not plain and what != "name"):
        wants = {
            "name": "A name has at most 80 characters",
            "candidate": "A candidate has a number, such as 07",
            "marker": "Give the initials of who marks, such as AB",
        }[what]
        raise ValueError(f"{wants}; {quoted(text)} was given.")
    return plain


def _bad_marks(marks: float, most: float) -> str:
    """Return what is wrong with marks that a person gives, "" if nothing."""
    if 0 <= marks <= most and marks % HALF == 0:
        return ""
    return f"{marks:g} marks were given; it has 0 to {write_marks(most)}, in halves."


def _bad_working(item: Item | None, number: int, marks: float) -> str:
    """Return what is wrong with marks for working, "" if nothing."""
    if item is None:
        return f"There is no question {number} on this paper."
    says = _bad_marks(marks, item.row.working)
    return f"Working of question {number}: {says}" if says else ""
