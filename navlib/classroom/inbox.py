"""Notices the hand-in files that learners drop into a folder, new ones and changed ones."""

import os
import stat
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from navlib.classroom.class_files import (
    ANSWERS_END,
    ASKED_END,
    LARGEST,
    AnswersFile,
    read_answers,
)
from navlib.language import say

MOST_FILES = 2000
"""Files that are looked at; a class has some thirty."""

Stamp = tuple[int, int]


@dataclass(frozen=True)
class Found:
    """A file as it was found: `handed` is what stands in it, or None and `why` it cannot be read."""

    path: Path
    stamp: Stamp
    handed: AnswersFile | None
    why: str = ""


class Inbox:
    """The hand-in files in a folder and the folders in it. Nothing is changed there."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self._known: dict[Path, Found] = {}

    def look(self) -> list[Found]:
        """Return what lies there now, the oldest first; only what is new or changed is read."""
        known = {}
        for path in self._files():
            with suppress(FileNotFoundError):  # taken away while we looked
                known[path] = self._found(path)
        self._known = known
        return sorted(known.values(), key=lambda one: (one.stamp[1], one.path))

    def name(self, path: Path) -> str:
        """Return what a file is called in this folder."""
        return path.relative_to(self.folder).as_posix()

    def _files(self) -> list[Path]:
        found = (
            Path(folder) / name
            for folder, _, names in os.walk(self.folder)
            for name in names
            if _may_be_handed_in(name)
        )
        return [path for path, _ in zip(found, range(MOST_FILES), strict=False)]

    def _found(self, path: Path) -> Found:
        try:
            about = path.lstat()
            stamp = (about.st_size, about.st_mtime_ns)
            before = self._known.get(path)
            if before and before.stamp == stamp:
                return before
            if not stat.S_ISREG(about.st_mode):  # reading a pipe would wait for ever
                return Found(path, stamp, None, say("It is no file: copy the file itself there."))
            return Found(path, stamp, read_answers(_text(path)))
        except FileNotFoundError:
            raise
        except OSError as error:
            words = say("It cannot be opened: {reason}.", {"reason": error.strerror or error})
            return Found(path, (0, 0), None, words)
        except ValueError as error:
            return Found(path, stamp, None, str(error))


def _may_be_handed_in(name: str) -> bool:
    """Return whether a file is meant for us: as we name it, or as mail and browsers rename it."""
    small = name.casefold()
    ours = small.endswith(".json") or ANSWERS_END.removesuffix(".json") in small
    return ours and not small.startswith(".") and ASKED_END not in small


def _text(path: Path) -> str:
    """Return the text of a file. Raises ValueError for what is too large or no text."""
    with path.open("rb") as file:
        data = file.read(LARGEST + 1)
    if len(data) > LARGEST:
        raise ValueError(
            say("It is larger than 1 MB, and a hand-in file is small: this is another file.")
        )
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise ValueError(
            say("It is no text, and a hand-in file is: this is another file.")
        ) from None
