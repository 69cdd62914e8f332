"""What stands behind the start page: where to go on, and what can be done with the record."""

import re
from collections.abc import Mapping
from contextlib import suppress
from typing import Any

from navlib import questions
from navlib.desk.mixed import TOPIC as MIXED
from navlib.desk.standing import standing_words
from navlib.desk.ways import (
    CLASS,
    CLASS_PAGE,
    COACH,
    COACH_PAGE,
    INSTRUCTOR,
    INSTRUCTOR_PAGE,
    LESSONS,
    LessonWords,
    title,
    way,
    way_back_to,
    way_to,
)
from navlib.language import say
from navlib.record import Record, choose, chosen, forget, learners

Face = dict[str, Any]

HANDED_IN_AS = "start/handed-in-as"
"""The note of the name that the learner wrote on the file handed in last."""

NOBODY = "Learner without a name"

BEGIN = (
    "A bearing is where all the rest begins. It takes about an hour and a half. Stop whenever you "
    "like: your answers are kept."
)


class Start:
    """The start page of whoever is the chosen learner on this machine."""

    def __init__(self) -> None:
        self.record = Record()
        self.note = self.record.note

    def face(self) -> Face:
        """Return what the start page shows now: plain data, links and sentences."""
        self._open_anew()
        record = self.record
        standing = standing_words(record)
        self.note = (
            standing["note"] or self.note
        )  # a record set aside is said until the page closes
        kept = len(record.attempts())
        first = standing["last"] is None
        return {
            "learner": record.name,
            "others": [name for name in ["", *learners()] if name != record.name],
            "note": self.note,
            "first": first,
            "next": self._next(standing, first),
            "last": self._last(standing),
            "topics": [self._topic(topic) for topic in standing["topics"]],
            "mixed": _page(way_to(MIXED), LESSONS[MIXED]),
            "class": _page(CLASS_PAGE, CLASS),
            "instructor": _page(INSTRUCTOR_PAGE, INSTRUCTOR),
            "coach": _page(COACH_PAGE, COACH),
            "slips": [self._slip(slip) for slip in standing["slips"]],
            "kept": kept,
            "file": str(record.path),
            "sign": record.recall(HANDED_IN_AS) or record.name,
        }

    def do(self, action: str, content: Mapping[str, Any]) -> Face:
        """Carry out what the learner asked for: return `says`, and perhaps a `file` to be saved.

        Raises ValueError with a sentence for the learner if it cannot be done.
        """
        return getattr(self, f"do_{action}")(content) if action in _ACTIONS else {"says": ""}

    def do_choose(self, content: Mapping[str, Any]) -> Face:
        """Make someone the learner of this machine, begun if there is no such name yet."""
        known = learners()
        record = choose(str(content.get("name", "")))
        if chosen() != record.name:
            raise ValueError(
                say(
                    "The choice cannot be kept in {folder}, so the lessons stay as they are. Let this "
                    "program write there, or set NAVLIB_RECORD to a file elsewhere.",
                    {"folder": record.path.parent},
                )
            )
        self.record.close()
        self.record, self.note = record, record.note
        if not record.name:
            return {"says": say("Lessons that you open now are for the learner without a name.")}
        says = say("Lessons that you open now are for {name}.", {"name": record.name})
        new = "" if record.name in known else say("This name is new here.")
        return {"says": f"{new} {says}".strip()}

    def do_forget(self, content: Mapping[str, Any]) -> Face:
        """Forget the learner chosen, name and answers."""
        name = self.record.name
        self.record.close()
        gone = forget(name)
        self.record = Record()
        told = {"name": name or say(NOBODY), "answers": _answers(gone)}
        return {"says": say("{name} is forgotten, with {answers}.", told)}

    def do_delete(self, content: Mapping[str, Any]) -> Face:
        """Delete the answers of the learner chosen; the name stays."""
        gone = _answers(self.record.delete())
        return {"says": say("Deleted: {answers}.", {"answers": gone})}

    def do_export(self, content: Mapping[str, Any]) -> Face:
        """Give the learner a file with all that is kept, to be taken in on another machine."""
        return self._file("answers", self.record.name, self.record.export())

    def do_hand_in(self, content: Mapping[str, Any]) -> Face:
        """Give the learner a file with all that is kept and a name on it, for the instructor."""
        name = " ".join(str(content.get("name", "")).split())
        if not name:
            raise ValueError(
                say(
                    "Write your name first, such as Ina Holm: your instructor must know whose file "
                    "it is."
                )
            )
        self.record.remember(HANDED_IN_AS, name)
        return self._file("hand-in", name, self.record.export(name))

    def do_take_in(self, content: Mapping[str, Any]) -> Face:
        """Take in a file that was saved on another machine."""
        new = self.record.take_in(str(content.get("text", "")))
        if not new:
            return {"says": say("All that is in this file is here already. Nothing was changed.")}
        told = {"answers": _answers(new)}
        return {"says": say("Taken in: {answers}. What was here before is here still.", told)}

    def _file(self, sort: str, name: str, text: str) -> Face:
        day = self.record.clock().date().isoformat()
        words = [sort, re.sub(r"\W+", "-", name).strip("-"), day]
        file = f"{'-'.join(word for word in words if word)}.json"
        kept = _answers(len(self.record.attempts()))
        says = say(
            "Saved: {file}, with {answers}. It is where your browser keeps what you download.",
            {"file": file, "answers": kept},
        )
        if sort == "hand-in":
            says += " " + say("Give it to your instructor, by e-mail or on a stick.")
        return {"says": says, "file": {"name": file, "text": text}}

    def _open_anew(self) -> None:
        """Open the record of whoever is chosen now: another window may have chosen someone else."""
        before = self.record
        self.record = Record()
        same = self.record.path == before.path
        self.note = self.record.note or (self.note if same else "")  # said until the page closes
        with suppress(Exception):
            before.close()

    def _next(self, standing: Face, first: bool) -> Face:
        to = standing["next"]
        reason = say(BEGIN) if first else to["reason"]
        return {**way(to["topic"], to["place"]), "reason": reason}

    def _last(self, standing: Face) -> Face | None:
        last = standing["last"]
        back = last and way_back_to(last["place"])
        return {**back, "when": last["when"]} if back else None

    def _topic(self, stand: Face) -> Face:
        topic = stand["topic"]
        checkpoint = stand["checkpoint"]
        return {
            "title": title(topic),
            "about": say(LESSONS[topic].about),
            "to": way_to(topic),
            "sure": stand["sure"],
            "kinds": stand["kinds"],
            "tried": stand["tried"],
            "since": _since(stand["days_since"]),
            "checkpoint": checkpoint["says"] if checkpoint else "",
            "passed": bool(checkpoint and checkpoint["passed"]),
            "next": {**way(topic, stand["next"]["place"]), "reason": stand["next"]["reason"]},
        }

    def _slip(self, slip: Face) -> Face:
        kind = max(slip["kinds"], key=slip["kinds"].__getitem__)
        topic = questions.question_type(kind).topic if kind in questions.kinds() else MIXED
        return {"says": slip["says"], **way(topic, "practice")}


_ACTIONS = ("choose", "forget", "delete", "export", "hand_in", "take_in")


def _page(to: str, words: LessonWords) -> Face:
    return {"to": to, "title": say(words.title), "about": say(words.about)}


def _answers(count: int) -> str:
    return say("one answer") if count == 1 else say("{count} answers", {"count": count})


def _since(days: int | None) -> str:
    """Return how long ago something was; "" for never."""
    if days is None:
        return ""
    if days < 2:
        return say("yesterday") if days else say("today")
    return say("{days} days ago", {"days": days})
