"""What the class server keeps of a session: its plan, who joined, and what was asked when."""

import json
from typing import Any

from sqlalchemy import delete, func, insert, select, update

from navlib.classroom import seeds
from navlib.classroom.database import Database
from navlib.classroom.refusals import Missing, Refused
from navlib.classroom.tables import answers, joined, moment, questions, sessions, settings

__all__ = ["Missing", "Refused", "Row", "Sessions", "with_state"]

Row = dict[str, Any]


class Sessions:
    """Sessions in a database. What a call has written is on disk when it returns."""

    def __init__(self, database: Database) -> None:
        self.database = database

    def begin(self, title: str, owner: str, number: int | None = None, plan: Any = None) -> Row:
        """Begin a session and return it; a session of an earlier `number` has its values again."""
        row = {
            "number": seeds.new_number() if number is None else number,
            "title": title,
            "owner": owner,
            "plan": json.dumps(plan),
            "stage": "null",
            "begun": moment(),
        }
        with self.database.writing() as db:
            made = db.execute(self.database.insert(sessions).values(row).returning(sessions.c.id))
            return self.session(made.scalar_one(), db)

    def session(self, number: int, db: Any = None) -> Row:
        """Return the session with this id; raises Missing."""
        row = self._one(select(sessions).where(sessions.c.id == number), "session", number, db)
        return {**row, "plan": json.loads(row["plan"]), "stage": json.loads(row["stage"])}

    def sessions(self) -> list[Row]:
        """Return all sessions, the latest first, with how many joined and what was asked."""
        many = select(func.count()).where(joined.c.session == sessions.c.id).scalar_subquery()
        asked = select(func.count()).where(questions.c.session == sessions.c.id).scalar_subquery()
        shown = (c for c in sessions.c if c.name not in ("plan", "stage"))
        query = select(*shown, many.label("joined"), asked.label("questions"))
        return self._all(query.order_by(sessions.c.id.desc()))

    def change_session(self, number: int, **changes: Any) -> Row:
        """Change title, plan, or what is given of the stage.

        `ended=True` ends it now, and nothing more is joined.
        """
        if changes.pop("ended", False):
            changes["ended"] = moment()
        if "plan" in changes:
            changes["plan"] = json.dumps(changes["plan"])
        with self.database.writing() as db:
            kept = self.session(number, db)
            if "stage" in changes:
                changes["stage"] = json.dumps({**(kept["stage"] or {}), **changes["stage"]})
            if changes:
                db.execute(update(sessions).where(sessions.c.id == number).values(changes))
            return self.session(number, db)

    def join(self, learner: str, number: int | None = None) -> tuple[Row, int]:
        """Return the session and the learner's seat in it, a new one the first time.

        Without a `number` it is the session begun last. Raises Missing if none is running, and
        Refused for one that has ended.
        """
        with self.database.writing() as db:
            if number is None:
                running = sessions.c.ended.is_(None)
                last = db.execute(select(func.max(sessions.c.id)).where(running)).scalar()
                if last is None:
                    raise Missing("No session is running. Wait until your instructor begins one.")
                number = last
            session = self.session(number, db)
            seat = self._seat(db, number, learner)
            if seat is None:
                if session["ended"]:
                    raise Refused("That session has ended; it takes nobody in any more.")
                taken = select(func.coalesce(func.max(joined.c.seat), 0))
                seat = db.execute(taken.where(joined.c.session == number)).scalar_one() + 1
                row = {"session": number, "learner": learner, "seat": seat, "at": moment()}
                db.execute(self.database.insert(joined).values(row))
            return session, seat

    def sit(self, learner: str, session: int, seat: int) -> None:
        """Give a learner the seat of their own choice; one who has answered nothing may change it.

        Raises Refused for a seat that is somebody else's, and for who has answered at another.
        """
        with self.database.writing() as db:
            if self._seat(db, session, learner) == seat:
                return
            mine = (joined.c.session == session, joined.c.learner == learner)
            taken = select(joined.c.learner).where(
                joined.c.session == session, joined.c.seat == seat
            )
            if other := db.execute(taken).scalar():
                raise Refused(f"Seat {seat} is taken by {other} already.")
            answered = (
                select(answers.c.id)
                .join(questions, questions.c.id == answers.c.question)
                .where(questions.c.session == session, answers.c.learner == learner)
            )
            if db.execute(answered.limit(1)).first():
                raise Refused(f"{learner} has answered at another seat already.")
            db.execute(delete(joined).where(*mine))
            row = {"session": session, "learner": learner, "seat": seat, "at": moment()}
            db.execute(self.database.insert(joined).values(row))

    def last_joined(self, learner: str) -> int:
        """Return the session that the learner joined last; raises Missing."""
        query = select(func.max(joined.c.session)).where(joined.c.learner == learner)
        with self.database.reading() as db:
            number = db.execute(query).scalar()
        if number is None:
            raise Missing("You have not joined a session yet.")
        return int(number)

    def seat(self, session: int, learner: str) -> int:
        """Return the learner's seat in a session; raises Missing for one who did not join."""
        with self.database.reading() as db:
            seat = self._seat(db, session, learner)
        if seat is None:
            raise Missing("You have not joined that session.")
        return seat

    def seats(self, session: int) -> list[Row]:
        """Return who joined a session, by seat."""
        query = select(joined).where(joined.c.session == session)
        return self._all(query.order_by(joined.c.seat))

    def ask(
        self,
        session: int,
        kind: str,
        own: bool = True,
        tell: bool = False,
        segment: int | None = None,
        number: int | None = None,
    ) -> Row:
        """Put a question on the session's list, not opened yet, and return it."""
        with self.database.writing() as db:
            if self.session(session, db)["ended"]:
                raise Refused("That session has ended; begin another one to ask more.")
            before = select(func.coalesce(func.max(questions.c.position), 0))
            row = {
                "session": session,
                "position": db.execute(before.where(questions.c.session == session)).scalar_one()
                + 1,
                **{"kind": kind, "own": int(own), "tell": int(tell)},
                **{"segment": segment, "number": number},
            }
            made = db.execute(self.database.insert(questions).values(row).returning(questions.c.id))
            return self.question(made.scalar_one(), db)

    def question(self, number: int, db: Any = None) -> Row:
        """Return the question with this id, its state worked out; raises Missing."""
        return with_state(
            self._one(select(questions).where(questions.c.id == number), "question", number, db)
        )

    def questions(self, session: int) -> list[Row]:
        """Return a session's questions in order, with how many learners have answered each."""
        count = select(func.count(answers.c.learner.distinct()))
        count = count.where(answers.c.question == questions.c.id, answers.c.counted == 1)
        query = select(questions, count.scalar_subquery().label("answers"))
        query = query.where(questions.c.session == session).order_by(questions.c.position)
        return [with_state(row) for row in self._all(query)]

    def asked_now(self, session: int) -> Row | None:
        """Return the question that was opened last, None if none was."""
        query = select(questions).where(
            questions.c.session == session, questions.c.opened.is_not(None)
        )
        rows = self._all(query.order_by(questions.c.opened.desc(), questions.c.id.desc()).limit(1))
        return with_state(rows[0]) if rows else None

    def move(self, number: int, state: str) -> Row:
        """Open, close or reveal a question; raises Refused for what cannot follow."""
        with self.database.writing() as db:
            now = self.question(number, db)
            if now["state"] == "revealed" and state != "revealed":
                raise Refused(
                    "That question has been revealed: everybody has seen its key. Ask it anew, and "
                    "it gets other values."
                )
            changes: dict[str, Any] = {}
            if state == "open":
                changes = {"opened": moment(), "closed": None}
            elif now["opened"] is None:
                raise Refused("That question was not opened yet.")
            elif state == "closed":
                changes = {"closed": moment()}
            elif state == "revealed" and now["revealed"] is None:
                changes = {"revealed": moment()}
            if changes:
                db.execute(update(questions).where(questions.c.id == number).values(changes))
            return self.question(number, db)

    def drop_session(self, number: int) -> int:
        """Delete a session with its answers; return how many sessions that was."""
        query = delete(sessions).where(sessions.c.id == number).returning(sessions.c.id)
        with self.database.writing() as db:
            return len(db.execute(query).all())

    def retention(self) -> int | None:
        """Return how many days sessions are kept after they ended; None for good."""
        query = select(settings.c.value).where(settings.c.name == "retention")
        with self.database.reading() as db:
            kept = db.execute(query).scalar()
        return None if kept is None else int(json.loads(kept))

    def set_retention(self, days: int | None) -> None:
        """Remember how many days sessions are kept."""
        with self.database.writing() as db:
            db.execute(delete(settings).where(settings.c.name == "retention"))
            if days is not None:
                db.execute(insert(settings).values(name="retention", value=json.dumps(days)))

    def _seat(self, db: Any, session: int, learner: str) -> int | None:
        query = select(joined.c.seat).where(
            joined.c.session == session, joined.c.learner == learner
        )
        seat: int | None = db.execute(query).scalar()
        return seat

    def _all(self, query: Any) -> list[Row]:
        with self.database.reading() as db:
            return [dict(row) for row in db.execute(query).mappings()]

    def _one(self, query: Any, what: str, number: int, db: Any) -> Row:
        rows = db.execute(query).mappings().all() if db is not None else self._all(query)
        if not rows:
            raise Missing(f"There is no {what} {number}.")
        return dict(rows[0])


def with_state(row: Row) -> Row:
    """Return a question's row with its state in a word."""
    for state, mark in (("revealed", "revealed"), ("closed", "closed"), ("open", "opened")):
        if row[mark]:
            return {**row, "state": state}
    return {**row, "state": "planned"}
