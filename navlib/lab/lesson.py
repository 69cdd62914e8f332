"""What a lesson is, a notebook with `navlib: {lesson: NAME}` in its metadata, and finding one."""

import json
from pathlib import Path
from typing import Any


class NoLesson(ValueError):
    """There is no such lesson; the message says what there is instead."""


def is_lesson(notebook: Any) -> bool:
    """Return whether the content of a notebook is that of a lesson."""
    try:
        return bool(notebook["metadata"]["navlib"]["lesson"])
    except (KeyError, TypeError):
        return False


def is_lesson_file(path: Path) -> bool:
    """Return whether a lesson stands at `path`; False for whatever cannot be read."""
    if path.suffix != ".ipynb":
        return False
    try:
        return is_lesson(json.loads(path.read_text(encoding="utf-8")))
    except (OSError, ValueError):
        return False


def names(folder: Path) -> list[str]:
    """Return the names of the lessons in `folder`, in the order of the alphabet."""
    return sorted(path.stem for path in folder.glob("*.ipynb") if is_lesson_file(path))


FIRST = "start"
"""What opens when no lesson is named, if it is there."""


def find(folder: Path, name: str | None = None) -> Path:
    """Return the notebook of the lesson called `name`, or of the start page if no name is given.

    A folder without a start page opens with the first lesson of the alphabet.

    Raises NoLesson with a sentence for whoever asked.
    """
    known = names(folder)
    if not known:
        raise NoLesson(
            f"There are no lessons in the folder {folder}. "
            "Get the whole project, or name a folder that has lessons in it: --folder FOLDER."
        )
    first = FIRST if FIRST in known else known[0]
    wanted = first if name is None else Path(name).name.removesuffix(".ipynb")
    if wanted not in known:
        raise NoLesson(f"There is no lesson called “{name}”. There are: {', '.join(known)}.")
    return folder / f"{wanted}.ipynb"
