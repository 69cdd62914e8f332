"""The record file: one SQLite file a learner; every attempt is kept, and kept before judging."""

import json
import sqlite3
from collections.abc import Callable, Iterable, Mapping
from dataclasses import asdict, dataclass, replace
from datetime import UTC, datetime
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from navlib.record import handed, places
from navlib.record.schema import SCHEMA, TooNew, connect

if TYPE_CHECKING:
    from navlib.marking import Marked

LOCAL = "me"
"""Who every row of a file belongs to: a file holds one learner."""


@dataclass(frozen=True)
class Attempt:
    """One answer handed in: what was asked where and when, what was written, what came of it.

    `at` is UTC, ISO 8601. `outcomes` and the rest are empty for an attempt that was written down
    but not yet judged. `chances` are the slips that the numbers of the question gave a chance to;
    None where that was not kept (a record begun before it was). `lies` is where the instruments lay
    on the sheet, as the chart table tells it; None where there was no sheet or it was not kept.
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
    chances: tuple[str, ...] | None = None
    lies: Mapping[str, Any] | None = None

    @property
    def right(self) -> bool:
        """Whether every part was right."""
        return self.outcomes is not None and set(self.outcomes.values()) == {"right"}


def this_moment() -> datetime:
    """Return the time now, by the clock of this machine and in its zone."""
    return datetime.now().astimezone()


class Record:
    """A learner's record file, opened; safe with several open at once.

    Without a `path` it is the file of the learner chosen last on this machine. Every call that
    returns has reached the disk. `note` is a sentence for the learner if the file could not be used
    as it was: a damaged file is set aside, never deleted, and a folder that cannot be written to
    gives a record that lasts until the program ends. `clock` tells the time of each attempt, with
    its zone.
    """

    def __init__(
        self,
        path: Path | str | None = None,
        learner: str = LOCAL,
        clock: Callable[[], datetime] = this_moment,
    ) -> None:
        name = places.chosen() if path is None else ""
        self.path = Path(path) if path is not None else places.path_of(name)
        self.learner = learner
        self.clock = clock
        self.note = ""
        self._db = self._open()
        if name and not self.name:
            self.name = name

    @property
    def name(self) -> str:
        """The name the learner of this file chose, "" for none."""
        return self._recall("", "name") or ""

    @name.setter
    def name(self, name: str) -> None:
        self._remember("", "name", places.tidy(name))

    def attempt(
        self,
        place: str,
        kind: str,
        seed: int,
        answers: Mapping[str, str],
        hints: int = 0,
        chances: Iterable[str] | None = None,
        lies: Mapping[str, Any] | None = None,
    ) -> int:
        """Write down an attempt and return its number; it is safe on disk when this returns."""
        at = _written(self.clock())
        with self._db:
            return self._insert(at, place, kind, seed, dict(answers), hints, chances, lies)

    def judged(self, attempt: int, marked: "Marked") -> None:
        """Write down what came of an attempt; a second judgement takes the place of the first."""
        outcomes = {part.name: part.outcome.value for part in marked.parts}
        with self._db:
            self._judge(attempt, outcomes, marked.marks, len(marked.parts), marked.slips)

    def attempts(self, place: str = "") -> list[Attempt]:
        """Return this learner's attempts in order, those at `place` or below it if one is given."""
        rows = self._db.execute(
            "SELECT id, learner, at, place, kind, seed, answers, hints,"
            " chances, lies, outcomes, marks, out_of, slips"
            " FROM attempts LEFT JOIN judgements ON attempt = id"
            " WHERE learner = ? AND (? IN ('', place) OR place GLOB ? || '/*') ORDER BY id",
            (self.learner, place, place),
        )
        return [_attempt(row) for row in rows]

    def unjudged(self) -> list[Attempt]:
        """Return attempts that were written down but not judged (the program ended in between)."""
        return [attempt for attempt in self.attempts() if attempt.outcomes is None]

    def remember(self, name: str, value: str) -> None:
        """Keep a small note for the next time, such as which question stands open at a place."""
        self._remember(self.learner, name, value)

    def recall(self, name: str) -> str | None:
        """Return the note of that name, None if there is none."""
        return self._recall(self.learner, name)

    def export(self, name: str = "") -> str:
        """Return everything that is kept about this learner, as JSON text with a name on it.

        Without a `name` it is the one that the learner chose.
        """
        query = "SELECT name, value FROM notes WHERE learner = ? ORDER BY name"
        whole = {
            "navlib-record": SCHEMA,
            "learner": name or self.name or self.learner,
            "attempts": [asdict(attempt) for attempt in self.attempts()],
            "notes": dict(self._db.execute(query, (self.learner,)).fetchall()),
        }
        return json.dumps(whole, indent=1, ensure_ascii=False)

    def take_in(self, text: str) -> int:
        """Add what `export` wrote, perhaps on another machine; return how many attempts are new.

        What is here already is not added twice, and nothing here is changed but that an attempt not
        judged yet gets its judgement. Raises ValueError for a text that is no export.
        """
        attempts, notes = handed.read(text)
        here: dict[handed.Key, list[Attempt]] = {}
        for attempt in self.attempts():
            here.setdefault(handed.key(asdict(attempt)), []).append(attempt)
        added = 0
        with self._db:
            for given in attempts:
                same = here.get(handed.key(given))
                if same:
                    known = same.pop()
                    number, wanted = known.id, known.outcomes is None
                else:
                    asked = (given[name] for name in handed.ASKED)
                    number, wanted, added = self._insert(*asked), True, added + 1
                if wanted and given["outcomes"] is not None:
                    self._judge(number, *(given[name] for name in handed.JUDGED))
            self._db.executemany(
                "INSERT OR IGNORE INTO notes VALUES (?, ?, ?)",
                [(self.learner, name, value) for name, value in notes.items()],
            )
        return added

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

    def _insert(
        self,
        at: str,
        place: str,
        kind: str,
        seed: int,
        answers: Mapping[str, str],
        hints: int,
        chances: Iterable[str] | None,
        lies: Mapping[str, Any] | None,
    ) -> int:
        kept = None if chances is None else json.dumps(list(chances))
        lay = json.dumps(lies) if lies else None
        cursor = self._db.execute(
            "INSERT INTO attempts (learner, at, place, kind, seed, answers, hints, chances, lies)"
            " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
            (self.learner, at, place, kind, seed, json.dumps(answers), hints, kept, lay),
        )
        return int(cursor.lastrowid or 0)

    def _judge(
        self,
        attempt: int,
        outcomes: Mapping[str, str],
        marks: float,
        out_of: float,
        slips: Iterable[str],
    ) -> None:
        row = (attempt, json.dumps(outcomes), marks, float(out_of), json.dumps(list(slips)))
        self._db.execute("INSERT OR REPLACE INTO judgements VALUES (?, ?, ?, ?, ?)", row)

    def _remember(self, learner: str, name: str, value: str) -> None:
        with self._db:
            self._db.execute(
                "INSERT OR REPLACE INTO notes VALUES (?, ?, ?)", (learner, name, value)
            )

    def _recall(self, learner: str, name: str) -> str | None:
        query = "SELECT value FROM notes WHERE learner = ? AND name = ?"
        row = self._db.execute(query, (learner, name)).fetchone()
        return row[0] if row else None

    def _open(self) -> sqlite3.Connection:
        try:
            self.path.parent.mkdir(parents=True, exist_ok=True)
            return connect(str(self.path))
        except sqlite3.DatabaseError as error:
            if isinstance(error, sqlite3.OperationalError):
                return self._in_memory(str(error))
            return self._set_aside()
        except (OSError, TooNew) as error:
            return self._in_memory(str(error))

    def _in_memory(self, why: str) -> sqlite3.Connection:
        self.note = (
            f"Your answers cannot be saved in {self.path} ({why}). You can work on, but they will "
            "be forgotten when you close the lesson. Mend that, or set NAVLIB_RECORD to a file "
            "elsewhere, and open the lesson again."
        )
        return connect(":memory:")

    def _set_aside(self) -> sqlite3.Connection:
        aside = self.path.with_name(
            f"{self.path.stem}-damaged-{_written(this_moment()).replace(':', '')}.sqlite"
        )
        try:
            self.path.rename(aside)
        except OSError as error:
            return self._in_memory(str(error))
        self.note = (
            f"Your record file was damaged. It was set aside as {aside.name}, nothing in it was "
            "deleted, and a new record begins today."
        )
        return connect(str(self.path))


@lru_cache(maxsize=20_000)  # a record is read often, and its rows hardly change
def _attempt(row: tuple[Any, ...]) -> Attempt:
    number, learner, at, place, kind, seed, answers, hints, chances, lies, *judged = row
    chances = None if chances is None else tuple(json.loads(chances))
    asked = (number, learner, at, place, kind, seed, json.loads(answers), hints)
    attempt = Attempt(*asked, chances=chances, lies=json.loads(lies) if lies else None)
    outcomes, marks, out_of, slips = judged
    if outcomes is None:
        return attempt
    slips = tuple(json.loads(slips))
    return replace(attempt, outcomes=json.loads(outcomes), marks=marks, out_of=out_of, slips=slips)


def _written(moment: datetime) -> str:
    """Return a moment as the record holds it: UTC, to the second."""
    return moment.astimezone(UTC).isoformat(timespec="seconds")
