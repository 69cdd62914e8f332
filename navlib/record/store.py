"""The record file: one SQLite file a machine; every attempt is kept, and kept before judging."""

import json
import os
import sqlite3
from collections.abc import Mapping
from contextlib import closing
from dataclasses import asdict, dataclass, replace
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

from platformdirs import user_data_path

if TYPE_CHECKING:
    from navlib.marking import Marked

SCHEMA = 1
"""Raised by one with each change of the tables; `_migrate` holds the way from each to the next."""

_TABLES = """
CREATE TABLE attempts (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    learner TEXT NOT NULL,
    at TEXT NOT NULL,        -- UTC, ISO 8601
    place TEXT NOT NULL,     -- where it was asked: bearings/exercise/3, bearings/practice, ...
    kind TEXT NOT NULL,
    seed INTEGER NOT NULL,
    answers TEXT NOT NULL,   -- JSON, as written, by part
    hints INTEGER NOT NULL   -- hints seen before answering
);
CREATE INDEX attempts_by_place ON attempts (learner, place, id);
CREATE TABLE judgements (
    attempt INTEGER PRIMARY KEY REFERENCES attempts (id) ON DELETE CASCADE,
    outcomes TEXT NOT NULL,  -- JSON, by part
    marks REAL NOT NULL,
    out_of REAL NOT NULL,
    slips TEXT NOT NULL      -- JSON list of names
);
CREATE TABLE notes (
    learner TEXT NOT NULL,
    name TEXT NOT NULL,      -- such as which question stands open at bearings/practice
    value TEXT NOT NULL,
    PRIMARY KEY (learner, name)
) WITHOUT ROWID;
"""


class _TooNew(RuntimeError):
    """The record file was written by a later version of this library."""


@dataclass(frozen=True)
class Attempt:
    """One answer handed in: what was asked where and when, what was written, what came of it.

    `outcomes` and the rest are empty for an attempt that was written down but not yet judged.
    """

    id: int
    learner: str
    at: str
    place: str
    kind: str
    seed: int
    answers: Mapping[str, str]
    hints: int = 0
    outcomes: Mapping[str, str] | None = None
    marks: float = 0.0
    out_of: float = 0.0
    slips: tuple[str, ...] = ()

    @property
    def right(self) -> bool:
        """Whether every part was right."""
        return self.outcomes is not None and set(self.outcomes.values()) == {"right"}


def default_path() -> Path:
    """Return where the record is kept: `NAVLIB_RECORD` if set, else this user's own data folder."""
    given = os.environ.get("NAVLIB_RECORD")
    return Path(given) if given else user_data_path("navlib", appauthor=False) / "record.sqlite"


class Record:
    """A record file, opened for one learner; safe with several open at once.

    Every call that returns has reached the disk. `note` is a sentence for the learner if the file
    could not be used as it was: a damaged file is set aside, never deleted, and a folder that
    cannot be written to gives a record that lasts until the program ends.
    """

    def __init__(self, path: Path | str | None = None, learner: str = "me") -> None:
        self.path = Path(path) if path is not None else default_path()
        self.learner = learner
        self.note = ""
        self._db = self._open()

    def attempt(
        self, place: str, kind: str, seed: int, answers: Mapping[str, str], hints: int = 0
    ) -> int:
        """Write down an attempt and return its number; it is safe on disk when this returns."""
        row = (self.learner, _now(), place, kind, seed, json.dumps(dict(answers)), hints)
        with self._db:
            cursor = self._db.execute(
                "INSERT INTO attempts (learner, at, place, kind, seed, answers, hints)"
                " VALUES (?, ?, ?, ?, ?, ?, ?)",
                row,
            )
        return int(cursor.lastrowid or 0)

    def judged(self, attempt: int, marked: "Marked") -> None:
        """Write down what came of an attempt; a second judgement takes the place of the first."""
        outcomes = {part.name: part.outcome.value for part in marked.parts}
        row = (
            attempt,
            json.dumps(outcomes),
            marked.marks,
            float(len(marked.parts)),
            json.dumps(marked.slips),
        )
        with self._db:
            self._db.execute("INSERT OR REPLACE INTO judgements VALUES (?, ?, ?, ?, ?)", row)

    def attempts(self, place: str = "") -> list[Attempt]:
        """Return this learner's attempts in order, those at `place` or below it if one is given."""
        rows = self._db.execute(
            "SELECT id, learner, at, place, kind, seed, answers, hints,"
            " outcomes, marks, out_of, slips FROM attempts LEFT JOIN judgements ON attempt = id"
            " WHERE learner = ? AND (? IN ('', place) OR place GLOB ? || '/*') ORDER BY id",
            (self.learner, place, place),
        )
        return [_attempt(row) for row in rows]

    def unjudged(self) -> list[Attempt]:
        """Return attempts that were written down but not judged (the program ended in between)."""
        return [attempt for attempt in self.attempts() if attempt.outcomes is None]

    def remember(self, name: str, value: str) -> None:
        """Keep a small note for the next time, such as which question stands open at a place."""
        with self._db:
            row = (self.learner, name, value)
            self._db.execute("INSERT OR REPLACE INTO notes VALUES (?, ?, ?)", row)

    def recall(self, name: str) -> str | None:
        """Return the note of that name, None if there is none."""
        query = "SELECT value FROM notes WHERE learner = ? AND name = ?"
        row = self._db.execute(query, (self.learner, name)).fetchone()
        return row[0] if row else None

    def export(self) -> str:
        """Return everything that is kept about this learner, as JSON text."""
        attempts = [asdict(attempt) for attempt in self.attempts()]
        whole = {"navlib-record": SCHEMA, "learner": self.learner, "attempts": attempts}
        return json.dumps(whole, indent=1, ensure_ascii=False)

    def delete(self) -> int:
        """Delete everything that is kept about this learner; return how many attempts that was."""
        with self._db:
            gone = self._db.execute("DELETE FROM attempts WHERE learner = ?", (self.learner,))
            self._db.execute("DELETE FROM notes WHERE learner = ?", (self.learner,))
        self._db.execute("PRAGMA wal_checkpoint(TRUNCATE)")
        self._db.execute("VACUUM")  # what is deleted must not linger in free pages of the file
        return gone.rowcount

    def close(self) -> None:
        """Close the file."""
        self._db.close()

    def _open(self) -> sqlite3.Connection:
        try:
            self.path.parent.mkdir(parents=True, exist_ok=True)
            return _connect(str(self.path))
        except sqlite3.DatabaseError as error:
            if isinstance(error, sqlite3.OperationalError):
                return self._in_memory(str(error))
            return self._set_aside()
        except (OSError, _TooNew) as error:
            return self._in_memory(str(error))

    def _in_memory(self, why: str) -> sqlite3.Connection:
        self.note = (
            f"Your answers cannot be saved in {self.path} ({why}). You can work on, but they will "
            "be forgotten when you close the lesson. Mend that, or set NAVLIB_RECORD to a file "
            "elsewhere, and open the lesson again."
        )
        return _connect(":memory:")

    def _set_aside(self) -> sqlite3.Connection:
        aside = self.path.with_name(f"{self.path.stem}-damaged-{_now().replace(':', '')}.sqlite")
        self.path.rename(aside)
        self.note = (
            f"Your record file was damaged. It was set aside as {aside.name}, nothing in it was "
            "deleted, and a new record begins today."
        )
        return _connect(str(self.path))


def _connect(path: str) -> sqlite3.Connection:
    """Open or make the file; what a call here has committed survives a crash of the machine."""
    db = sqlite3.connect(path, timeout=10, check_same_thread=False)
    try:
        db.execute("PRAGMA journal_mode = WAL")
        db.execute("PRAGMA synchronous = FULL")
        db.execute("PRAGMA foreign_keys = ON")
        _migrate(db)
    except BaseException:
        db.close()
        raise
    return db


def _migrate(db: sqlite3.Connection) -> None:
    with closing(db.execute("BEGIN IMMEDIATE")):
        version = db.execute("PRAGMA user_version").fetchone()[0]
        if version > SCHEMA:
            db.rollback()
            raise _TooNew("it was written by a newer version of this workbook: update this one")
        if version == 0:
            for statement in _TABLES.split(";")[:-1]:
                db.execute(statement)
        db.execute(f"PRAGMA user_version = {SCHEMA}")
        db.commit()


def _attempt(row: tuple[Any, ...]) -> Attempt:
    number, learner, at, place, kind, seed, answers, hints, *judged = row
    attempt = Attempt(number, learner, at, place, kind, seed, json.loads(answers), hints)
    outcomes, marks, out_of, slips = judged
    if outcomes is None:
        return attempt
    slips = tuple(json.loads(slips))
    return replace(attempt, outcomes=json.loads(outcomes), marks=marks, out_of=out_of, slips=slips)


def _now() -> str:
    return datetime.now(UTC).isoformat(timespec="seconds")
