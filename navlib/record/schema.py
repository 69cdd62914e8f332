"""The tables of a record file, and the way from each earlier form of them to the next."""

import sqlite3
from contextlib import closing

_FORMS = (
    """
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
    learner TEXT NOT NULL,   -- empty for what is known of the file itself, such as whose it is
    name TEXT NOT NULL,      -- such as which question stands open at bearings/practice
    value TEXT NOT NULL,
    PRIMARY KEY (learner, name)
) WITHOUT ROWID;
""",
    # Second form: which slips the numbers of the question gave a chance to; JSON list of names,
    # null where nobody knows.
    "ALTER TABLE attempts ADD COLUMN chances TEXT;",
    # Third form: where the instruments lay on the sheet; JSON as the chart table tells it, null
    # where there was no sheet or nobody knows.
    "ALTER TABLE attempts ADD COLUMN lies TEXT;",
)

SCHEMA = len(_FORMS)
"""The form of the tables now; a record in an earlier one is carried over when it is opened."""


class TooNew(RuntimeError):
    """The record file was written by a later version of this library."""


def connect(path: str) -> sqlite3.Connection:
    """Open or make the file; what a call here has committed survives a crash of the machine."""
    db = sqlite3.connect(path, timeout=10, check_same_thread=False)
    try:
        db.execute("PRAGMA journal_mode = WAL")
        db.execute("PRAGMA synchronous = FULL")
        db.execute("PRAGMA foreign_keys = ON")
        _carry_over(db)
    except BaseException:
        db.close()
        raise
    return db


def _carry_over(db: sqlite3.Connection) -> None:
    """Bring the tables to their form now, all of the way or not at all."""
    with closing(db.execute("BEGIN IMMEDIATE")):
        form = db.execute("PRAGMA user_version").fetchone()[0]
        if form > SCHEMA:
            db.rollback()
            raise TooNew("it was written by a newer version of this workbook: update this one")
        for change in _FORMS[form:]:
            for statement in change.split(";")[:-1]:
                db.execute(statement)
        db.execute(f"PRAGMA user_version = {SCHEMA}")
        db.commit()
