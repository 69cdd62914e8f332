"""A class on its server, as its instructor deals with it from a notebook: a `Classroom` over HTTP."""

from collections.abc import Callable
from datetime import datetime
from http import HTTPStatus
from typing import Any, TypeVar
from urllib.parse import quote

from navlib.classroom import client
from navlib.classroom.client import Line
from navlib.classroom.refusals import Down, Missing
from navlib.language import say

Found = dict[str, Any]
T = TypeVar("T")


class Served:
    """What `API.md` lets an instructor do. What has not changed is not sent again.

    Raises `Missing`, `Refused` and `Down`; where something is looked for, the sentence of `Down` says
    from when the latest news is.
    """

    def __init__(self, line: Line) -> None:
        self.line = line
        self.heard: datetime | None = None

    def sessions(self) -> list[Found]:
        """Return all sessions, the latest first."""
        return list(self._look("sessions")["sessions"])

    def session(self, number: int) -> Found:
        """Return a session with its questions."""
        return self._look(f"sessions/{number}")

    def begin(self, title: str, number: int | None = None, plan: Any = None) -> Found:
        """Begin a session and return it."""
        numbered = {} if number is None else {"number": number}
        return self._ask("POST", "sessions", {"title": title, "plan": plan, **numbered})

    def change(self, number: int, **changes: Any) -> Found:
        """Change title, plan, stage; `ended=True` ends it."""
        return self._ask("PATCH", f"sessions/{number}", changes)

    def drop(self, number: int) -> int:
        """Delete a session with its answers; return how many sessions that was."""
        return int(self._ask("DELETE", f"sessions/{number}")["deleted"])

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
        asked = {"kind": kind, "own": own, "tell": tell, "segment": segment, "number": number}
        return self._ask("POST", f"sessions/{session}/questions", {**asked, "open": open})

    def move(self, question: int, state: str) -> Found:
        """Open, close or reveal a question; return it."""
        return self._ask("PATCH", f"questions/{question}", {"state": state})

    def board(self, question: int, names: bool = False) -> Found:
        """Return the board of a question."""
        return self._look(f"questions/{question}/board", **({"names": 1} if names else {}))

    def working(self, question: int, seat: int | None = None) -> Found:
        """Return text, working and answers for a seat, or of the one for all."""
        return self._look(f"questions/{question}/working", **_of(seat))

    def shown(self, question: int, seat: int | None = None) -> Found:
        """Return a question as the projector shows it, with its picture."""
        return self._look(f"questions/{question}/shown", **_of(seat))

    def record(self, session: int) -> Found:
        """Return who was there and what each answered, with names."""
        return self._look(f"sessions/{session}/record")

    def people(self) -> list[Found]:
        """Return the class list."""
        return list(self._look("people")["people"])

    def confirm(self, name: str) -> None:
        """Note that a PIN was set by its owner."""
        self._ask("POST", _person(name), {"do": "confirm"})

    def clear(self, name: str) -> None:
        """Forget a PIN, so that its owner can set a new one."""
        self._ask("POST", _person(name), {"do": "clear"})

    def forget(self, name: str) -> None:
        """Delete a learner with all that is kept about them."""
        self._ask("DELETE", _person(name))

    def retention(self) -> int | None:
        """Return how many days sessions are kept after they ended; None for good."""
        days: int | None = self._look("retention")["days"]
        return days

    def keep_days(self, days: int | None) -> int:
        """Keep sessions for so many days; delete those that ended before, and return how many."""
        return int(
            self._ask("POST", "retention", {} if days is None else {"days": days})["deleted"]
        )

    def unread(self) -> list[Found]:
        """Return nothing: what is handed in on a server is taken or refused at once."""
        return []

    def _look(self, path: str, **query: Any) -> Found:
        try:
            found = self._heard(lambda: self.line.look(path, **query))
        except Down as down:
            raise Down(self._cut_off()) from down
        return {name: value for name, value in found.items() if name != "tag"}

    def _ask(self, method: str, path: str, content: Found | None = None) -> Found:
        found: Found = self._heard(lambda: self.line.ask(method, path, content))
        return found

    def _heard(self, ask: Callable[[], T]) -> T:
        """Return what the server answers, and note when; raises what a `Classroom` raises."""
        try:
            found = ask()
        except client.Refused as refused:
            if refused.status == HTTPStatus.NOT_FOUND:
                raise Missing(str(refused)) from None
            raise
        self.heard = datetime.now().astimezone()
        return found

    def _cut_off(self) -> str:
        if self.heard is None:
            return say("The class server cannot be reached. This is tried again by itself.")
        return say(
            "The class server cannot be reached; what you see is from {time}. It goes on by itself.",
            {"time": f"{self.heard:%H:%M}"},
        )


def _of(seat: int | None) -> Found:
    return {} if seat is None else {"seat": seat}


def _person(name: str) -> str:
    return f"people/{quote(name, safe='')}"
