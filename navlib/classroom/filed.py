"""A class without a server: a `Classroom` in a folder, into which learners' hand-in files are dropped.

    classes = Filed(home())
    session = classes.begin("An evening")
    classes.offer(session["id"])    # the session file, for the learners

What they hand in is read as soon as it lies there. It is only read: a file is taken away with the
session or the learner that is deleted, and never otherwise.
"""

import os
import threading
from collections.abc import Callable
from pathlib import Path
from typing import Any

from platformdirs import user_documents_path

from navlib.classroom.class_files import (
    ASKED_END,
    AnswersFile,
    AskedHere,
    SessionFile,
    plain_name,
    session_text,
)
from navlib.classroom.database import Database
from navlib.classroom.inbox import Inbox
from navlib.classroom.judging import catch_up
from navlib.classroom.people import People
from navlib.classroom.standing import put_on_the_list
from navlib.classroom.store import Store
from navlib.classroom.taking_in import belongs_to, learner_of, take_in
from navlib.classroom.teaching import Teaching

Found = dict[str, Any]


def home() -> Path:
    """Return the folder for classes: `NAVLIB_CLASSES`, else “classes” among the user’s documents."""
    given = os.environ.get("NAVLIB_CLASSES")
    return Path(given) if given else user_documents_path() / "classes"


class Filed(Teaching):
    """A class in a folder; several notebooks may have it open at once.

    Its database is `class.sqlite` there; the folder is made if there is none. Raises OSError if it
    cannot be.
    """

    def __init__(self, folder: Path) -> None:
        folder.mkdir(parents=True, exist_ok=True)
        self.folder = folder
        database = Database(folder / "class.sqlite")
        super().__init__(Store(database), People(database))
        self._inbox = Inbox(folder)
        self._unread: list[Found] = []
        self._done: set[tuple[Path, tuple[int, int]]] = set()
        self._turn = threading.Lock()
        catch_up(self.store)

    def close(self) -> None:
        """Close the database."""
        self.store.database.close()

    def look(self) -> list[Found]:
        """Read what was handed in since; return what could not be taken, as `unread` does."""
        with self._turn:
            unread = []
            for found in self._inbox.look():
                why = [found.why] if found.handed is None else []
                if found.handed and (found.path, found.stamp) not in self._done:
                    taken = take_in(self.store, self.class_list, found.handed)
                    why = taken.why
                    if not taken.why and not taken.waits:
                        self._done.add((found.path, found.stamp))
                unread += [{"file": self._inbox.name(found.path), "why": one} for one in why]
            self._unread = unread
        return list(unread)

    def unread(self) -> list[Found]:
        """Return what was handed in and could not be taken: `file`, and a sentence `why`."""
        return list(self._unread)

    def sessions(self) -> list[Found]:
        """Return all sessions, the latest first."""
        self.look()
        return super().sessions()

    def session(self, number: int) -> Found:
        """Return a session with its questions and who sits in it."""
        self.look()
        return super().session(number)

    def board(self, question: int, names: bool = False) -> Found:
        """Return the board of a question."""
        self.look()
        return super().board(question, names)

    def record(self, session: int) -> Found:
        """Return who was there and what each answered, with names."""
        self.look()
        return super().record(session)

    def people(self) -> list[Found]:
        """Return everybody who has handed anything in."""
        self.look()
        return super().people()

    def offer(self, session: int) -> Path:
        """Write the session file, which learners get, and return where it is.

        All questions of the plan are in it, since a file may go round only once. From then on it is
        kept as the session stands; what is revealed in it, learners may see.
        """
        row = self.store.session(session)
        plain = Teaching(self.store, self.class_list)
        if not row["ended"]:
            put_on_the_list(plain, plain.session(session))
        asked = [
            AskedHere(
                one["position"],
                one["kind"],
                bool(one["own"]),
                bool(one["tell"]),
                one["number"],
                one["state"],
            )
            for one in self.store.questions(session)
        ]
        whole = SessionFile(
            row["number"], row["begun"], row["title"], row["ended"] is not None, tuple(asked)
        )
        path = (
            self._offered(session)
            or self.folder / f"{plain_name(row['title']) or 'class'}-{session}{ASKED_END}"
        )
        part = path.with_suffix(".part")  # whoever copies it meanwhile gets a whole one
        part.write_text(session_text(whole), encoding="utf-8")
        part.replace(path)
        return path

    def change(self, number: int, **changes: Any) -> Found:
        """Change title, plan, stage; `ended=True` ends it."""
        changed = super().change(number, **changes)
        if changes.keys() & {"title", "ended"}:
            self._offer_again(number)
        return changed

    def ask(
        self,
        session: int,
        kind: str,
        own: bool = True,
        tell: bool = False,
        segment: int | None = None,
        number: int | None = None,
        open: bool = False,
    ) -> Found:
        """Put a question on a session's list, and open it if that is asked for; return it."""
        asked = super().ask(session, kind, own, tell, segment, number, open)
        self._offer_again(session)
        return asked

    def move(self, question: int, state: str) -> Found:
        """Open, close or reveal a question; return it."""
        moved = super().move(question, state)
        self._offer_again(moved["session"])
        return moved

    def drop(self, number: int) -> int:
        """Delete a session with its answers, the files handed in for it, and its session file."""
        row = self.store.session(number)
        for path in self._handed_in(lambda one: belongs_to(one, row)):
            path.unlink(missing_ok=True)
        if offered := self._offered(number):
            offered.unlink(missing_ok=True)
        return super().drop(number)

    def forget(self, name: str) -> None:
        """Delete a learner with all answers and with the files that they handed in."""
        for path in self._handed_in(lambda one: learner_of(one)[0] == name):
            path.unlink(missing_ok=True)
        super().forget(name)

    def _offer_again(self, session: int) -> None:
        if self._offered(session):
            self.offer(session)

    def _offered(self, session: int) -> Path | None:
        return next(iter(self.folder.glob(f"*-{session}{ASKED_END}")), None)

    def _handed_in(self, those: Callable[[AnswersFile], bool]) -> list[Path]:
        with self._turn:
            found = self._inbox.look()
        return [one.path for one in found if one.handed and those(one.handed)]
