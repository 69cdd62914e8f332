"""What markers enter, kept in a file that only grows: a line each, on the disk before it is used."""

import json
import math
import os
import sys
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import asdict, dataclass, field, replace
from datetime import UTC, datetime
from pathlib import Path
from typing import Any, TypeVar

from navlib.paper.scripts import Overrule

FORM = 1
"""The form of the lines now."""


@dataclass(frozen=True)
class Entry:
    """What a marker read on a candidate's paper.

    `answers` go by the labels of the paper, such as 3b, as they are written there; `working` are the
    marks for it by number of question. What an entry does not hold stays as entered before. `at` is
    UTC, ISO 8601.
    """

    candidate: str
    code: str
    marker: str
    answers: Mapping[str, str] = field(default_factory=dict)
    working: Mapping[str, float] = field(default_factory=dict)
    name: str = ""
    at: str = ""

    def after(self, earlier: "Entry") -> "Entry":
        """Return this entry laid over an earlier one of the same marker and candidate."""
        return replace(
            self,
            answers={**earlier.answers, **self.answers},
            working={**earlier.working, **self.working},
            name=self.name or earlier.name,
        )


@dataclass(frozen=True)
class Overruling:
    """A person's own marks for a whole question, with the reason; `marks` None takes them back."""

    candidate: str
    question: int
    marks: float | None
    reason: str
    marker: str
    at: str = ""


@dataclass(frozen=True)
class Damaged:
    """A line that could not be read: its number, and what stands there."""

    line: int
    text: str


Line = Entry | Overruling
L = TypeVar("L", Entry, Overruling)
_SORTS: dict[str, type[Line]] = {"entry": Entry, "overruling": Overruling}


def now() -> str:
    """Return the moment as lines hold it: UTC, to the second."""
    return datetime.now(UTC).isoformat(timespec="seconds")


def append(path: Path, line: L) -> L:
    """Write a line at the end and return it, with its time, once it has reached the disk.

    Safe with several programs at once. If an earlier program died within a line, that piece is left
    alone on its own line.
    """
    line = line if line.at else replace(line, at=now())
    sort = next(name for name, kind in _SORTS.items() if isinstance(line, kind))
    text = json.dumps({"form": FORM, "sort": sort, **asdict(line)}, ensure_ascii=False)
    data = text.encode(errors="backslashreplace") + b"\n"
    new = not path.exists()
    with _alone(path) as file:
        if _torn(file):
            data = b"\n" + data
        while data:
            data = data[os.write(file, data) :]
        os.fsync(file)
    if new and sys.platform != "win32":
        _sync_folder(path.parent)
    return line


def read(path: Path) -> tuple[list[Line], list[Damaged]]:
    """Return all lines in order, and those that cannot be read; raises ValueError for newer ones."""
    good: list[Line] = []
    damaged: list[Damaged] = []
    if not path.exists():
        return good, damaged
    for number, raw in enumerate(path.read_bytes().split(b"\n"), 1):
        if not raw.strip():
            continue
        text = raw.decode(errors="replace")
        try:
            good.append(_line(json.loads(text)))
        except _Newer:
            raise ValueError(
                f"{path.name} was written by a newer version of this workbook: update this one."
            ) from None
        except (ValueError, KeyError, TypeError, RecursionError):
            damaged.append(Damaged(number, text))
    return good, damaged


def standing(lines: Sequence[Line], marker: str = "") -> dict[str, Entry]:
    """Return what stands entered, by candidate: a marker's later entries laid over the earlier.

    Those of one `marker`, or else of whoever entered each candidate first.
    """
    whose: dict[str, str] = {}
    stands: dict[str, Entry] = {}
    for line in lines:
        if not isinstance(line, Entry) or marker not in ("", line.marker):
            continue
        if line.marker == whose.setdefault(line.candidate, line.marker):
            before = stands.get(line.candidate)
            stands[line.candidate] = line.after(before) if before else line
    return dict(sorted(stands.items()))


def overruled(lines: Sequence[Line], candidate: str, marker: str = "") -> dict[int, Overrule]:
    """Return what stands overruled of a candidate's paper, by one marker or by anyone."""
    stands: dict[int, Overrule] = {}
    for line in lines:
        if not isinstance(line, Overruling) or line.candidate != candidate:
            continue
        if marker not in ("", line.marker):
            continue
        stands.pop(line.question, None)
        if line.marks is not None:
            stands[line.question] = Overrule(line.marks, line.reason, line.marker, line.at)
    return stands


class _Newer(Exception):
    """A line of a form that is not known yet."""


def _line(whole: Any) -> Line:
    """Return one line with nothing in it but what it should hold; raises for anything else."""
    if whole["form"] > FORM:
        raise _Newer
    kind = _SORTS[whole["sort"]]
    line = kind(**{name: whole[name] for name in kind.__dataclass_fields__})
    texts = [line.candidate, line.marker, line.at]
    numbers: list[Any] = []
    if isinstance(line, Entry):
        texts += [line.code, line.name, *line.answers, *line.answers.values(), *line.working]
        numbers += line.working.values()
    else:
        texts += [line.reason]
        numbers += [line.question, 0 if line.marks is None else line.marks]
    if not all(isinstance(text, str) for text in texts):
        raise TypeError
    if not all(type(n) in (int, float) and math.isfinite(n) for n in numbers):
        raise TypeError
    return line


@contextmanager
def _alone(path: Path) -> Iterator[int]:
    """Yield the file, opened for adding, while no other program may add to it.

    The lock is the operating system's, so it is gone with a program that dies.
    """
    file = os.open(path, os.O_RDWR | os.O_CREAT | os.O_APPEND | getattr(os, "O_BINARY", 0), 0o600)
    try:
        if sys.platform == "win32":
            import msvcrt

            os.lseek(file, 0, os.SEEK_SET)
            msvcrt.locking(file, msvcrt.LK_LOCK, 1)
            try:
                yield file
            finally:
                os.lseek(file, 0, os.SEEK_SET)
                msvcrt.locking(file, msvcrt.LK_UNLCK, 1)
        else:
            import fcntl

            fcntl.flock(file, fcntl.LOCK_EX)
            yield file
    finally:
        os.close(file)


def _torn(file: int) -> bool:
    """Return whether the file ends within a line."""
    end = os.lseek(file, 0, os.SEEK_END)
    if end == 0:
        return False
    os.lseek(file, end - 1, os.SEEK_SET)
    return os.read(file, 1) != b"\n"


def _sync_folder(folder: Path) -> None:
    """Bring a new file's name to the disk too."""
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
