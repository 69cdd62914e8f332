"""What the class server keeps of answers: each as it was written, once, and what came of it."""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from sqlalchemy import delete, func, select

from navlib.classroom.sessions import Missing, Refused, Row, Sessions, with_state
from navlib.classroom.tables import answers, joined, judgements, moment, questions, sessions

__all__ = ["Missing", "Refused", "Row", "Store", "Written"]


@dataclass(frozen=True)
class Written:
    """An answer as it was written down; `again` if it had been handed in before.

    `asked` is the row of its question, `number` that of the session, `seat` the learner's in it.
    """

    id: int
    at: str
    counted: bool
    again: bool
    asked: Row
    number: int
    seat: int


class Store(Sessions):
    """Sessions and answers in a database. What a call has written is on disk when it returns."""

    def hand_in(
        self,
        question: int,
        learner: str,
        key: str,
        written: Mapping[str, str],
        given: str | None = None,
    ) -> Written:
        """Write an answer down, once for each `key` of the learner's.

        Raises Missing for who has not joined, Refused for a question not opened yet and for a `key`
        that stands for something else already.
        """
        text = json.dumps(dict(written), sort_keys=True)
        at = moment()
        with self.database.writing() as db:
            place = self._place(db, question, learner)
            counted = place["asked"]["revealed"] is None
            row = {"question": question, "learner": learner, "key": key, "at": at, "given": given}
            insert = self.database.insert(answers).values(**row, answers=text, counted=int(counted))
            insert = insert.on_conflict_do_nothing(index_elements=["learner", "key"])
            made = db.execute(insert.returning(answers.c.id)).scalar()
            if made is not None:
                return Written(made, at, counted, again=False, **place)
            mine = (answers.c.learner == learner, answers.c.key == key)
            known = db.execute(select(answers).where(*mine)).mappings().one()
        if (known["question"], known["answers"]) != (question, text):
            raise Refused("That key was used for another answer: make a new one for each answer.")
        return Written(known["id"], known["at"], bool(known["counted"]), again=True, **place)

    def _place(self, db: Any, question: int, learner: str) -> Row:
        """Return a question that is open to a learner, with where the learner sits; raises Missing."""
        query = (
            select(questions, sessions.c.number.label("session_number"), joined.c.seat)
            .join(sessions, sessions.c.id == questions.c.session)
            .outerjoin(
                joined, (joined.c.session == questions.c.session) & (joined.c.learner == learner)
            )
            .where(questions.c.id == question)
        )
        row = db.execute(query).mappings().first()
        if row is None or row["opened"] is None:
            raise Missing(f"There is no question {question} to answer.")
        if row["seat"] is None:
            raise Missing("You have not joined the session of that question.")
        asked = with_state({column.name: row[column.name] for column in questions.c})
        return {"asked": asked, "number": row["session_number"], "seat": row["seat"]}

    def judged(self, answer: int, judgement: Mapping[str, Any]) -> None:
        """Keep what came of an answer; a judgement that stands already stays."""
        row = {
            name: value if name in ("marks", "out_of") else json.dumps(value)
            for name, value in judgement.items()
        }
        with self.database.writing() as db:
            insert = self.database.insert(judgements).values(answer=answer, **row)
            db.execute(insert.on_conflict_do_nothing(index_elements=["answer"]))

    def answers(
        self, question: int | None = None, learner: str | None = None, session: int | None = None
    ) -> list[Row]:
        """Return answers in the order in which they came in, with what came of them."""
        query = (
            select(
                answers,
                *(c for c in judgements.c if c.name != "answer"),
                questions.c.session,
                questions.c.position,
                questions.c.kind,
                questions.c.own,
                questions.c.number,
                joined.c.seat,
            )
            .join(questions, questions.c.id == answers.c.question)
            .outerjoin(judgements, judgements.c.answer == answers.c.id)
            .outerjoin(
                joined,
                (joined.c.session == questions.c.session) & (joined.c.learner == answers.c.learner),
            )
        )
        if question is not None:
            query = query.where(answers.c.question == question)
        if learner is not None:
            query = query.where(answers.c.learner == learner)
        if session is not None:
            query = query.where(questions.c.session == session)
        return [_answer(row) for row in self._all(query.order_by(answers.c.id))]

    def unjudged(self) -> list[Row]:
        """Return answers that were written down but not judged: the service ended in between."""
        judged = select(judgements.c.answer)
        query = select(answers).where(answers.c.id.not_in(judged)).order_by(answers.c.id)
        return [{**row, "answers": json.loads(row["answers"])} for row in self._all(query)]

    def version(self, question: int) -> str:
        """Return a short text that changes whenever the board of a question does."""
        asked = self.question(question)
        session = asked["session"]
        with self.database.reading() as db:
            last = select(func.count(), func.max(judgements.c.answer)).join(
                answers, answers.c.id == judgements.c.answer
            )
            count, newest = db.execute(last.where(answers.c.question == question)).one()
            sitting = select(func.count()).where(joined.c.session == session)
            here = db.execute(sitting).scalar_one()
        return f"{question}-{asked['state']}-{asked['opened']}-{count}-{newest or 0}-{here}"

    def forget(self, learner: str) -> int:
        """Delete a learner's answers and attendance; return how many answers that was."""
        with self.database.writing() as db:
            mine = db.execute(
                delete(answers).where(answers.c.learner == learner).returning(answers.c.id)
            )
            gone = len(mine.all())
            db.execute(delete(joined).where(joined.c.learner == learner))
        return gone


def _answer(row: Row) -> Row:
    held = ("answers", "outcomes", "slips", "off")
    read = {name: json.loads(row[name]) if row[name] is not None else None for name in held}
    return {**row, **read, "counted": bool(row["counted"])}
