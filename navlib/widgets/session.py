"""The instructor's desk and the projector: a line of a notebook each."""

import logging
from collections.abc import Mapping
from datetime import UTC, datetime
from typing import Any, Protocol

import traitlets

from navlib.classroom.leading import InstructorsDesk, Screen, sentence
from navlib.classroom.watching import Watch
from navlib.widgets import demos
from navlib.widgets.shown import Shown, front

_log = logging.getLogger(__name__)


class Behind(Protocol):
    """Who stands behind the desk or the projector; both methods may take their time."""

    def face(self) -> dict[str, Any]:
        """Return what is shown now."""
        ...

    def do(self, action: str, message: Mapping[str, Any]) -> dict[str, Any]:
        """Carry out what is asked for; what cannot be done is told by an error with a sentence."""
        ...


_watches: dict[type, Watch] = {}
"""The watch of each part of the page: a cell that runs again ends what it began before."""


class SessionPart(Shown):
    """What looks about every second at how the session stands, and shows it when it has changed.

    `face` is what is shown, its `picture` apart from it so that a sheet travels to the browser once;
    `trouble` is a sentence while the class cannot be reached: what was shown before stays. Each
    message of the browser is answered by one, with bytes beside it if a file was asked for.
    """

    face = traitlets.Dict().tag(sync=True)
    picture = traitlets.Dict(allow_none=True, default_value=None).tag(sync=True)
    trouble = traitlets.Unicode().tag(sync=True)

    def __init__(self, behind: Behind) -> None:
        self.behind = behind
        super().__init__()
        self.on_msg(self._heard)
        if before := _watches.get(type(self)):
            before.close()
        self.watch = _watches[type(self)] = Watch(self._look)

    def show(self, face: dict[str, Any], picture: dict[str, Any] | None) -> None:
        """Let the browser have what is shown now; nothing is sent unless it has changed."""
        with self.hold_sync():
            self.set_trait("picture", picture)
            self.face = face
            self.trouble = ""

    def _look(self) -> None:
        try:
            face = self.behind.face()
            self.show(face, face.pop("picture", None))
        except Exception as error:
            told = sentence(error)
            if told != self.trouble:
                _log.warning("The session cannot be shown: %s", error, exc_info=error)
                self.trouble = told

    def _heard(self, _part: Any, message: Any, _buffers: Any) -> None:
        """Tell the time at once; have anything else done by the watch, one after another."""
        if message.get("do") == "time":
            self.send({"turn": message.get("turn"), "moment": datetime.now(UTC).isoformat()})
        else:
            self.watch.ask(lambda: self._answer(message))

    def _answer(self, message: Mapping[str, Any]) -> None:
        """Do what the browser asks for; whatever happens, an answer follows."""
        reply: dict[str, Any] = {"turn": message.get("turn"), "done": message.get("do")}
        data = None
        try:
            reply |= self.behind.do(str(message.get("do")), message)
            data = reply.pop("data", None)
        except Exception as error:
            if not isinstance(error, ValueError | LookupError | OSError):
                _log.exception("The session’s page could not do what was asked")
            reply["trouble"] = sentence(error)
        self.send(reply, [data] if data is not None else None)


class Desk(SessionPart):
    """The instructor's desk: begin a session, drive it, see who is stuck."""

    words = "The instructor’s desk: begin a session, drive it, and see how the class gets on."
    _esm = front(
        "kit.js",
        "coach_parts.js",
        "small_table.js",
        "session_parts.js",
        "session_start.js",
        "session_now.js",
        "session_desk.js",
    )
    _css = front("kit.css", "coach.css", "sheet.css", "session.css")

    kinds: traitlets.List[dict[str, Any]] = traitlets.List().tag(sync=True)

    def __init__(self) -> None:
        desk = InstructorsDesk()
        self.kinds = desk.kinds()
        super().__init__(desk)


class Projector(SessionPart):
    """The projector: what the whole class sees, large, and no learner's name in it unless asked for.

    `demonstration` refers to the demonstration of the segment, which is shown within.
    """

    words = (
        "The projector: the demonstration, the question, the clock and the answers, in big type."
    )
    _esm = front(
        "kit.js",
        "coach_parts.js",
        "small_table.js",
        "session_parts.js",
        "session_spread.js",
        "session_views.js",
        "session_projector.js",
    )
    _css = front(
        "kit.css", "sheet.css", "session.css", "session_projector.css", "session_views.css"
    )

    demonstration = traitlets.Unicode().tag(sync=True)

    def __init__(self) -> None:
        self._shown: tuple[str, Shown] | None = None
        super().__init__(Screen())

    def show(self, face: dict[str, Any], picture: dict[str, Any] | None) -> None:
        """Show the face, with the demonstration that its segment is about."""
        self._demonstrate((face.get("segment") or {}).get("demonstration") or "")
        super().show(face, picture)

    def _demonstrate(self, name: str) -> None:
        """Lay out a demonstration; one that was shown before stands as it was left."""
        known = name in demos.__all__ and name[0].islower()
        if not known or (self._shown and self._shown[0] == name):
            return
        before, self._shown = self._shown, (name, getattr(demos, name)())
        self.demonstration = f"anywidget:{self._shown[1].model_id}"
        if before:
            before[1].close()
