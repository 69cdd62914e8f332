"""The sitting that lies open before the coach, shared by marking and results."""

import re
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from navlib.language import say
from navlib.paper.coach import shelf
from navlib.paper.sitting import Sitting

FILES = {
    ".pdf": "application/pdf",
    ".csv": "text/csv",
    ".html": "text/html",
    ".md": "text/markdown",
}
"""Which files of a sitting a page may open, and what they are."""


class Room:
    """Holds the open sitting; `version` changes whenever another is opened."""

    def __init__(self) -> None:
        self.sitting: Sitting | None = None

    def open(self, path: Path) -> Sitting:
        """Open the sitting in a folder. Raises ValueError if it is none."""
        if self.sitting is None or self.sitting.path != path:
            opened = Sitting(path)
            opened.make_papers()  # what is wrong with the secret is said now, not at the first answer
            self.lay(opened)
        assert self.sitting is not None
        return self.sitting

    def lay(self, sitting: Sitting) -> None:
        """Take a sitting that was just made."""
        shelf.note(sitting.path)
        self.sitting = sitting

    def needed(self) -> Sitting:
        """Return the open sitting; ValueError if none is."""
        if self.sitting is None:
            raise ValueError("Open a sitting first.")
        return self.sitting

    def face(self) -> dict[str, Any]:
        """Return the sittings there are and the open one."""
        known = [{"path": str(kept.path), "words": kept.words} for kept in shelf.sittings()]
        sitting = self.sitting
        return {
            "sittings": known,
            "sitting": str(sitting.path) if sitting else "",
            "title": sitting.plan.blueprint.title if sitting else "",
            "home": str(shelf.home()),
        }


def files(path: Path, *folders: str) -> list[dict[str, Any]]:
    """Return the files of a sitting in these of its folders: name, place and what each is called."""
    found = (
        file
        for folder in folders
        for file in sorted((path / folder).rglob("*"), key=_by_number)
        if file.is_file() and file.suffix in FILES and not file.name.startswith(".")
    )
    return [
        {"name": file.name, "place": file.relative_to(path).as_posix(), "words": _called(file)}
        for file in found
    ]


def _called(file: Path) -> str:
    """Return what a file is called where one opens it."""
    known = {
        "grid.pdf": say("marking grid"),
        "moderation.pdf": say("moderator’s page"),
        "invigilator.pdf": say("invigilator’s page"),
        "marking.csv": say("table for answers"),
        "results.pdf": say("results"),
        "class-list.csv": say("class list, for a spreadsheet"),
    }
    stem = file.stem.replace("scheme-", "scheme ").replace("-large", " large")
    web = say("{name}, web page", {"name": stem})
    return known.get(file.name, web if file.suffix == ".html" else stem)


def content(path: Path, place: str) -> tuple[str, str, bytes]:
    """Return name, type and bytes of a file of a sitting. Raises ValueError for any other file."""
    file = (path / place).resolve()
    inside = file.is_relative_to(path.resolve()) and file.suffix in FILES and file.is_file()
    if not inside:
        raise ValueError(f"There is no file {place} in this sitting any more.")
    return file.name, FILES[file.suffix], file.read_bytes()


def opened(room: Room, message: Mapping[str, Any]) -> dict[str, Any]:
    """Answer a page that asks for a file: its name, type and bytes."""
    name, sort, data = content(room.needed().path, str(message.get("place", "")))
    return {"file": {"name": name, "type": sort}, "data": data}


def _by_number(file: Path) -> list[object]:
    """Return what puts paper 2 before paper 10."""
    parts = re.split(r"(\d+)", str(file))
    return [part.zfill(8) if part.isdigit() else part for part in parts]
