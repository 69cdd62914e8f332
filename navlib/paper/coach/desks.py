"""Behind the marking form and the results: what the coach asks for is carried out here, no widgets."""

import base64
import binascii
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from navlib.language import say
from navlib.paper.coach import giving_back
from navlib.paper.coach.making import Told, nothing_told
from navlib.paper.coach.marking import form, states
from navlib.paper.coach.outcome import outcome
from navlib.paper.coach.room import Room, files, opened
from navlib.paper.forms import take_in, write_form
from navlib.paper.sitting import Sitting, number_of, short


class Marking:
    """The marking form: one candidate's paper at a time, as one marker enters it."""

    def __init__(self, room: Room) -> None:
        self.room = room
        self.candidate = self.marker = ""
        self._code = ""

    def face(self) -> dict[str, Any]:
        """Return the sittings, the candidates of the open one, and the paper that lies open."""
        face = {**self.room.face(), "marker": self.marker, "candidates": [], "form": None}
        sitting = self.room.sitting
        if sitting is None or not self.marker:
            return face
        if self.candidate not in _candidates(sitting, self.marker) and not self._code:
            self.candidate = next(iter(sitting.plan.codes))
        face["candidates"] = states(sitting, self.marker)
        face["form"] = form(sitting, self.candidate, self.marker, self._code)
        face["damaged"] = len(sitting.damaged)
        return face

    def do(
        self, action: str, message: Mapping[str, Any], told: Told = nothing_told
    ) -> dict[str, Any]:
        """Carry out what the marker asks for. Raises ValueError with a sentence."""
        match action:
            case "open":
                self._open(message)
            case "choose":
                self._choose(message)
            case "enter":
                return self._enter(message)
            case "overrule":
                return self._overrule(message)
            case "table":
                text = write_form(self.room.needed(), self.marker)
                file = {"name": "answers.csv", "type": "text/csv", "save": True}
                return {"file": file, "data": text.encode()}
            case "take_in":
                return self._take_in(message)
        return {}

    def _open(self, message: Mapping[str, Any]) -> None:
        self.marker = short("marker", str(message.get("marker", "")))
        self.room.open(Path(str(message["sitting"])).expanduser())
        self._code = ""
        self.candidate = str(message.get("candidate", ""))

    def _choose(self, message: Mapping[str, Any]) -> None:
        """Lay out a candidate's paper; with a `code`, that paper, whichever was meant."""
        sitting = self.room.needed()
        candidate = number_of(short("candidate", str(message["candidate"])))
        code = sitting.paper(str(message["code"])).code if message.get("code") else ""
        if not code and candidate not in _candidates(sitting, self.marker):
            raise ValueError(
                say(
                    "No paper was made for candidate {candidate}. Write the code on the paper into "
                    "“Paper” too; it stands at the foot of every page.",
                    {"candidate": candidate},
                )
            )
        self.candidate, self._code = candidate, code

    def _enter(self, message: Mapping[str, Any]) -> dict[str, Any]:
        sitting = self.room.needed()
        kept = sitting.enter(
            str(message["candidate"]),
            str(message["code"]),
            {str(label): str(text) for label, text in message.get("answers", {}).items()},
            str(message["marker"]),
            {int(number): float(marks) for number, marks in message.get("working", {}).items()},
            str(message.get("name", "")),
        )
        self._code = ""
        return {"kept": {"candidate": kept.candidate, "labels": sorted(kept.answers)}}

    def _overrule(self, message: Mapping[str, Any]) -> dict[str, Any]:
        given = message.get("marks")
        marks = None if given is None else float(given)
        question, reason = int(message["question"]), str(message.get("reason", ""))
        self.room.needed().overrule(self.candidate, question, marks, reason, self.marker)
        if marks is None:
            return {"says": say("Taken back: question {number}.", {"number": question})}
        return {"says": say("Kept, with your reason: question {number}.", {"number": question})}

    def _take_in(self, message: Mapping[str, Any]) -> dict[str, Any]:
        try:
            data = base64.b64decode(str(message["data"]), validate=True)
        except binascii.Error:
            raise ValueError("This file did not arrive whole: choose it once more.") from None
        read = take_in(self.room.needed(), data, self.marker)
        return {
            "taken": {
                "says": _taken(read.taken, read.unchanged, len(read.aside)),
                "problems": [str(told) for told in read.problems],
                "notes": [str(told) for told in read.notes],
                "kept": str(read.kept or ""),
            }
        }


class Results:
    """What came of the open sitting, and the files that are given back."""

    def __init__(self, room: Room) -> None:
        self.room = room

    def face(self) -> dict[str, Any]:
        """Return the sittings, and what came of the open one."""
        face = {**self.room.face(), "outcome": None, "files": []}
        if self.room.sitting is not None:
            face["outcome"] = outcome(self.room.sitting)
            face["files"] = files(self.room.sitting.path, "results")
        return face

    def do(
        self, action: str, message: Mapping[str, Any], told: Told = nothing_told
    ) -> dict[str, Any]:
        """Carry out what the coach asks for. Raises ValueError with a sentence."""
        match action:
            case "show":
                self.room.open(Path(str(message["sitting"])).expanduser())
            case "write":
                sitting = self.room.needed()
                made = giving_back.write_results(sitting, told)
                closing, large = str(message.get("closing", "")), bool(message.get("large"))
                made += giving_back.write_feedback(sitting, closing=closing, large=large, told=told)
                where = {"count": len(made), "folder": str(sitting.path / "results")}
                return {"says": say("Written: {count} files, in {folder}.", where)}
            case "open":
                return opened(self.room, message)
        return {}


def _candidates(sitting: Sitting, marker: str) -> set[str]:
    return {*sitting.plan.codes, *sitting.entered(marker)}


def _taken(taken: int, unchanged: int, aside: int) -> str:
    parts = [say("Taken in: {count}.", {"count": taken})]
    if unchanged:
        parts.append(say("As entered before: {count}.", {"count": unchanged}))
    if aside:
        parts.append(say("Set aside to be mended: {count}.", {"count": aside}))
    return " ".join(parts)
