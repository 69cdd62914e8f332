"""Behind the instructor's desk and the projector: where the class is, and which session lies open."""

import os
from collections.abc import Mapping
from typing import Any

from navlib import questions
from navlib.classroom import client
from navlib.classroom.filed import Filed, home
from navlib.classroom.plan import reading, shelf
from navlib.classroom.refusals import Down, Missing
from navlib.classroom.running import Running
from navlib.classroom.served import Served
from navlib.classroom.teaching import Classroom
from navlib.language import say
from navlib.paper.lessons import title as topic_title

Face = dict[str, Any]


def on_server() -> bool:
    """Return whether this program was started by a class server."""
    return bool(os.environ.get("NAVLIB_CLASS_URL"))


def classroom() -> Classroom:
    """Return the class: on its server, or in the instructor's own folder without one."""
    return Served(client.connect()) if on_server() else Filed(home())


def sentence(error: Exception) -> str:
    """Return what went wrong, for the instructor."""
    reason = str(error.args[0] if error.args else error).strip()
    if isinstance(error, Down | client.NoClass | Missing | ValueError) and reason:
        return reason
    named = reason.rstrip(".") or type(error).__name__
    return say("That did not work: {reason}. No answer is lost.", {"reason": named})


class Leading:
    """The session that a page shows. All that happened in it is kept by the class, not here."""

    def __init__(self) -> None:
        self._class: Classroom | None = None
        self.running: Running | None = None

    @property
    def begun(self) -> bool:
        """Whether there is a class yet; without a server its folder is made with the first session."""
        return on_server() or home().is_dir()

    @property
    def classroom(self) -> Classroom:
        """The class, looked for when it is first needed."""
        if self._class is None:
            self._class = classroom()
        return self._class

    def open(self, session: int) -> Running:
        """Turn to a session."""
        if self.running is None or self.running.session != session:
            self.running = Running(self.classroom, session)
        return self.running

    def leave(self) -> None:
        """Turn to no session."""
        self.running = None

    def follow(self) -> Running | None:
        """Turn to the session begun last, if it runs; else stay with the one shown before."""
        newest = next((row for row in self.sessions() if not row["ended"]), None)
        return self.open(newest["id"]) if newest else self.running

    def sessions(self) -> list[Face]:
        """Return all sessions there are, the latest first."""
        return self.classroom.sessions() if self.begun else []

    def deed(self, message: Mapping[str, Any]) -> None:
        """Do what is asked for in the session that is open; raises Refused with a sentence."""
        if self.running is None:
            raise Missing(say("Begin a session first."))
        given = message.get("given") or {}
        self.running.do(str(message.get("deed")), **{str(name): given[name] for name in given})


class Screen:
    """Behind the projector: the session begun last, without names."""

    def __init__(self) -> None:
        self.leading = Leading()

    def face(self) -> Face:
        """Return what the class sees; empty while no session runs."""
        running = self.leading.follow()
        if running is None:
            return {}
        try:
            return _lifted(running.face())
        except Missing:  # it was deleted
            self.leading.leave()
            return {}

    def do(self, action: str, message: Mapping[str, Any]) -> Face:
        """Carry out what a key asks for."""
        if action == "deed":
            self.leading.deed(message)
        return {}


class InstructorsDesk:
    """Behind the instructor's desk: sessions to begin or go on with, and the one that is open."""

    def __init__(self) -> None:
        self.leading = Leading()
        self._looked = False
        self._plans: tuple[Any, list[Face]] = (None, [])

    def kinds(self) -> list[Face]:
        """Return the kinds of question there are, by topic."""
        return [_topic(topic) for topic in questions.topics()]

    def face(self) -> Face:
        """Return the sessions there are, and of the open one all that its instructor sees.

        One that runs already is opened by itself, once: a page loaded anew goes on with it.
        """
        if not self._looked:
            self.leading.follow()
            self._looked = True
        server = on_server()
        return {
            "server": server,
            "folder": "" if server else str(home()),
            "plans": self._known_plans(),
            "sessions": self.leading.sessions(),
            "unread": self.leading.classroom.unread() if self.leading.begun else [],
            "run": self._run(),
        }

    def do(self, action: str, message: Mapping[str, Any]) -> Face:
        """Carry out what the instructor asks for. Raises ValueError and LookupError with a sentence."""
        leading = self.leading
        name = str(message.get("name", ""))
        match action:
            case "begin":
                leading.open(self._begun(message)["id"])
            case "open":
                leading.open(int(message["session"]))
            case "leave":
                leading.leave()
            case "end":
                Running(leading.classroom, int(message["session"])).do("end")
            case "deed":
                leading.deed(message)
            case "confirm":
                leading.classroom.confirm(name)
            case "clear":
                leading.classroom.clear(name)
                return {"says": say("The PIN is cleared: a new one is set at the next login.")}
            case "file":
                return self._file()
        return {}

    def _file(self) -> Face:
        """Return the session file, for learners without a server; it lies in the folder as well."""
        running, here = self.leading.running, self.leading.classroom
        if running is None or not isinstance(here, Filed):
            raise Missing(say("Begin a session first."))
        path = here.offer(running.session)
        where = {"file": path.name, "folder": str(path.parent)}
        return {
            "says": say("Saved as {file}, here in the browser and in {folder}.", where),
            "file": {"name": path.name, "type": "application/json", "save": True},
            "data": path.read_bytes(),
        }

    def _known_plans(self) -> list[Face]:
        """Return the plans there are; they are read when a file has changed, not at every look."""
        files = shelf.home().glob("*.yaml")
        stamp = [(file, file.stat().st_mtime_ns) for file in files]
        if stamp != self._plans[0]:
            found = [*shelf.own(), *shelf.ready()]
            plans = [{"name": n, "title": p.title, "minutes": p.minutes} for n, p in found]
            self._plans = (stamp, plans)
        return self._plans[1]

    def _begun(self, message: Mapping[str, Any]) -> Face:
        chosen = str(message.get("plan", ""))
        plan = reading.read(chosen) if chosen else None
        title = " ".join(str(message.get("title", "")).split())
        title = title or (plan.title if plan else say("An evening"))
        number = _number(str(message.get("number", "")))
        return self.leading.classroom.begin(title, number, plan and plan.to_plain())

    def _run(self) -> Face | None:
        running = self.leading.running
        if running is None:
            return None
        try:
            found = running.desk()
        except Missing:  # it was deleted
            self.leading.leave()
            return None
        face = _lifted(found["face"])
        face.pop("picture")
        session = {name: found["session"][name] for name in ("id", "number", "title")}
        return {**found, "face": face, "session": session}


def _lifted(face: Face) -> Face:
    """Return a face with its picture beside it, so that a sheet travels once."""
    asked = face["question"]
    picture = asked and asked["picture"]
    clock = face["clock"]
    steady = {**clock, "left_s": 0} if clock["ends"] else clock
    return {
        **face,
        "clock": steady,
        "question": asked and {**asked, "picture": bool(picture)},
        "picture": picture,
    }


def _topic(topic: str) -> Face:
    kinds = [kind for kind in questions.kinds() if questions.question_type(kind).topic == topic]
    return {
        "title": say(topic_title(topic)),
        "kinds": [[kind, say(questions.question_type(kind).title)] for kind in kinds],
    }


def _number(written: str) -> int | None:
    """Return the number of an earlier session as it was typed, None if none was."""
    plain = "".join(written.split())
    if not plain:
        return None
    if not (plain.isdecimal() and len(plain) <= 9):
        words = "“{number}” is no session’s number. It has up to nine figures, such as 481516234."
        raise ValueError(say(words, {"number": written.strip()}))
    return int(plain)
