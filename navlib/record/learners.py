"""Several learners on one machine: each has a file of their own, and none sees another's unchosen.

Whoever sits at the machine can choose any name: this keeps records apart, it does not lock them.
"""

import sqlite3
from contextlib import closing, suppress
from pathlib import Path

from navlib.record import places
from navlib.record.store import Record


def learners() -> list[str]:
    """Return the names of the learners who have a record here, without the one without a name."""
    names = (_name_in(file) for file in places.folder().glob("*.sqlite"))
    return sorted({name for name in names if name}, key=str.casefold)


def chosen() -> str:
    """Return the name of the learner chosen last, "" for the one without a name."""
    return places.chosen()


def choose(name: str) -> Record:
    """Return the record of the learner of that name, begun if there is none; "" for no name.

    Lessons opened from now on are this learner's; those open already stay with theirs. Raises
    ValueError for a name that is too long.
    """
    name = places.tidy(name)
    record = Record(places.path_of(name))
    if name and not record.name:
        record.name = name
    with suppress(OSError):  # then the record cannot be saved either, and its note says so
        places.keep_choice(record.name if name else "")
    return record


def forget(name: str) -> int:
    """Delete a learner with all that is kept of them; return how many attempts that was."""
    path = places.path_of(name)
    if not path.exists():
        return 0
    record = Record(path)
    gone = record.delete()
    if not places.tidy(name):
        record.close()
        return gone
    record.name = ""
    record.close()
    for file in (path, *path.parent.glob(f"{path.name}-*")):
        with suppress(OSError):  # another program has it open: it is empty and has no name now
            file.unlink()
    if places.path_of(places.chosen()) == path:
        with suppress(OSError):
            places.keep_choice("")
    return gone


def _name_in(file: Path) -> str:
    """Return the name kept in a record file, "" if there is none to be read."""
    query = "SELECT value FROM notes WHERE learner = '' AND name = 'name'"
    try:
        with closing(sqlite3.connect(file, timeout=1)) as db:
            row = db.execute(query).fetchone()
    except sqlite3.Error:
        return ""
    return row[0] if row else ""
