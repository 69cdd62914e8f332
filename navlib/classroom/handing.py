"""A learner's seat in a class without a server: questions from the session file, answers into a file.

    seat = Seat(text_of_the_session_file, "Ina Skarp", 7)
    asked = seat.now()["question"]
    seat.hand_in(asked["id"], {"grid": "042 G"})
    name, content = seat.to_file()

An answer is on this computer's disk before anything else is done with it. What one opens again under
the same name, seat and session goes on where it was.
"""

import hashlib
import os
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import asdict, replace
from datetime import UTC, datetime
from pathlib import Path
from typing import Any
from uuid import uuid4

from platformdirs import user_data_path

from navlib.chain.question import Question
from navlib.classroom.class_files import (
    ANSWERS_END,
    MOST_SEATS,
    Answered,
    AnswersFile,
    AskedHere,
    answers_text,
    plain_name,
    read_answers,
    read_session,
)
from navlib.classroom.client import HandedIn
from navlib.classroom.faces import face, may_tell
from navlib.classroom.judging import are_answers, marked, question_of, told
from navlib.classroom.refusals import Missing, Refused
from navlib.language import say
from navlib.pictures.drawn import draw
from navlib.pictures.pencilled import with_drawn
from navlib.record.places import tidy

Face = dict[str, Any]


class Seat:
    """A learner in a class without a server: takes part as over a `Line`, and hands in a file.

    A question's `id` is its position in the session. `folder` is where answers are kept, in the
    learner's own data if none is given. Raises ValueError with a sentence for a session file, a name
    or a seat that is none.
    """

    def __init__(self, session: str, name: str, seat: int, folder: Path | None = None) -> None:
        if type(seat) is not int or not 1 <= seat <= MOST_SEATS:
            raise ValueError(say("Give your seat as a number from 1, such as 7."))
        self.session = read_session(session)
        self.folder = folder or user_data_path("navlib", appauthor=False) / "to-be-handed-in"
        mark = (self.session.number, self.session.begun)
        self._handed = AnswersFile(*mark, seat, tidy(name), ())
        self._handed = self._kept(self._handed)

    @property
    def seat(self) -> int:
        """The seat, from which own values follow."""
        return self._handed.seat

    @property
    def name(self) -> str:
        """The learner's name as it stands in the file; may be empty."""
        return self._handed.name

    def now(self) -> Face:
        """Return what is asked: `session`, `seat`, the `question` to work on, and all `questions`.

        The one to work on is the one that is open, else the first without an answer, else the last;
        None where nothing is asked. Each is as the class service's `API.md` has it.
        """
        faces = [self._face(asked) for asked in self.session.questions]
        opened = [asked.position for asked in self.session.questions if asked.state == "open"]
        first = (
            *(one for one in faces if one["id"] in opened),
            *(one for one in faces if one["mine"] is None),
            *faces[-1:],
        )
        session = {"id": self.session.number, "title": self.session.title, "stage": None}
        return {
            "session": {**session, "ended": self.session.ended},
            "seat": self.seat,
            "question": first[0] if first else None,
            "questions": faces,
        }

    def picture(self, question: int) -> Face | None:
        """Return the sheet or page beside a question, None if it has none; raises Missing."""
        return draw(self._question(self._asked(question)).picture)

    def hand_in(
        self, question: int, answers: Mapping[str, str], lies: Mapping[str, Any] | None = None
    ) -> HandedIn:
        """Write an answer to disk, and return what may be told of it, as the class service would.

        `lies` is what is drawn on the sheet. Raises Missing for a question that is not asked, and
        Refused for what is no answer.
        """
        asked = self._asked(question)
        if not are_answers(answers):
            raise Refused(say("An answer is too long. Write each in a line of its own, and short."))
        at = datetime.now(UTC).isoformat(timespec="seconds")
        before = self._kept(self._handed).answers  # another notebook may have added to it
        answer = Answered(uuid4().hex, question, dict(answers), dict(lies or {}), at)
        self._handed = replace(self._handed, answers=(*before, answer))
        self._keep()
        written = self._written(asked, answer)
        counted = asked.state != "revealed"
        head = {"id": len(self._handed.answers), "question": question, "at": at}
        parts = told(marked(self._question(asked), written), may_tell(asdict(asked)))
        return HandedIn(answer.key, {**head, "counted": counted, "again": False, "parts": parts})

    def to_file(self) -> tuple[str, bytes]:
        """Return the name and the content of the file that is handed in."""
        name = plain_name(self.name) or say("seat")
        return f"{name}-{self.seat:02}{ANSWERS_END}", answers_text(self._handed).encode()

    def _face(self, asked: AskedHere) -> Face:
        mine = [
            {"answers": self._written(asked, one), "at": one.given, "counted": True}
            for one in self._handed.answers
            if one.position == asked.position
        ]
        row = {**asdict(asked), "id": asked.position, "state": _state(asked)}
        return face(row, self._question(asked), mine)

    def _asked(self, position: int) -> AskedHere:
        for asked in self.session.questions:
            if asked.position == position:
                return asked
        raise Missing(say("There is no question {number} to answer.", {"number": position}))

    def _question(self, asked: AskedHere) -> Question:
        return question_of(asdict(asked), self.session.number, self.seat)

    def _written(self, asked: AskedHere, answer: Answered) -> Mapping[str, str]:
        with suppress(ValueError, OverflowError):
            return with_drawn(self._question(asked), answer.answers, answer.lies)
        return answer.answers

    @property
    def _file(self) -> Path:
        whole = f"{self.session.number}/{self.session.begun}/{self.seat}/{self.name}"
        return self.folder / f"{hashlib.sha256(whole.encode()).hexdigest()[:16]}{ANSWERS_END}"

    def _kept(self, otherwise: AnswersFile) -> AnswersFile:
        """Return what this learner answered before; a file that is damaged is set aside, not lost."""
        file = self._file
        try:
            return read_answers(file.read_text(encoding="utf-8"))
        except FileNotFoundError:
            return otherwise
        except ValueError:
            file.replace(file.with_suffix(".damaged"))
            return otherwise

    def _keep(self) -> None:
        self.folder.mkdir(parents=True, exist_ok=True)
        part = self._file.with_suffix(".part")
        with part.open("w", encoding="utf-8") as out:
            out.write(answers_text(self._handed))
            out.flush()
            os.fsync(out.fileno())
        part.replace(self._file)


def _state(asked: AskedHere) -> str:
    """Return the state as it is for a learner: a file goes round once, and is answered when told."""
    return "open" if asked.state == "planned" else asked.state
