"""What the service does for those who read and those who teach; `service.py` says how it is asked."""

import json
from datetime import UTC, datetime, timedelta
from typing import Any, ClassVar

from navlib import questions
from navlib.classroom.api import Api, Refusal, take, take_if_sent
from navlib.classroom.board import board
from navlib.classroom.faces import has_picture, working
from navlib.classroom.gate import READ, TEACH, HubAway
from navlib.classroom.judging import question_of, seed_of
from navlib.classroom.sessions import Row

LARGEST_STAGE = 4096
DRAWN_AHEAD = 30
"""Pictures drawn before a question is opened: one for each seat taken, at most so many."""


class Sessions(Api):
    """All sessions."""

    needs: ClassVar[dict[str, str]] = {"GET": READ, "POST": TEACH}

    async def get(self) -> None:
        """List them, the latest first."""
        self.give({"sessions": await self.done(self.room.store.sessions)})

    async def post(self) -> None:
        """Begin one."""
        sent = self.sent()
        title, number = take(sent, "title", str), take_if_sent(sent, "number", int)
        begin, plan = self.room.store.begin, sent.get("plan")
        self.give(await self.done(begin, title, self.who.name, number, plan), 201)


class Session(Api):
    """One session."""

    needs: ClassVar[dict[str, str]] = {"GET": READ, "PATCH": TEACH, "DELETE": TEACH}

    async def get(self, number: str) -> None:
        """Give it with its questions."""
        self.give(await self.done(self._whole, int(number)))

    async def patch(self, number: str) -> None:
        """Change title, plan or stage, or end it."""
        sent = self.sent()
        changes: dict[str, Any] = {n: sent[n] for n in ("plan", "stage") if n in sent}
        if "title" in sent:
            changes["title"] = take(sent, "title", str)
        if len(json.dumps(changes.get("stage"))) > LARGEST_STAGE:
            raise Refusal(413, f"Send a stage of at most {LARGEST_STAGE} bytes")
        changes["ended"] = take(sent, "ended", bool, False)
        self.give(await self.done(self.room.store.change_session, int(number), **changes))

    async def delete(self, number: str) -> None:
        """Delete it with its answers."""
        self.give({"deleted": await self.done(self.room.store.drop_session, int(number))})

    def _whole(self, number: int) -> dict[str, Any]:
        store = self.room.store
        session = store.session(number)
        rows = store.questions(number)
        return {
            **session,
            "joined": len(store.seats(number)),
            "questions": [
                {
                    **{n: row[n] for n in ("id", "position", "kind", "segment", "state")},
                    **{n: row[n] for n in ("opened", "closed", "revealed", "answers")},
                    **{n: bool(row[n]) for n in ("own", "tell")},
                    "title": questions.question_type(row["kind"]).title,
                }
                for row in rows
            ],
        }


class SessionRecord(Api):
    """Who was there and what each answered, with names."""

    needs: ClassVar[dict[str, str]] = {"GET": READ}

    async def get(self, number: str) -> None:
        """Give it all."""
        self.give(await self.done(self._record, int(number)))

    def _record(self, number: int) -> dict[str, Any]:
        store = self.room.store
        session, people = store.session(number), self.room.people.all()
        shown = ("question", "position", "kind", "seat", "at", "given", "counted", "answers")
        judged = ("outcomes", "marks", "out_of", "slips")
        return {
            "session": session,
            "people": [
                {
                    "name": row["learner"],
                    "shown": people.get(row["learner"], {}).get("shown", row["learner"]),
                    "seat": row["seat"],
                    "at": row["at"],
                }
                for row in store.seats(number)
            ],
            "answers": [
                {"name": row["learner"], "seed": seed_of(row, session["number"], row["seat"])}
                | {name: row[name] for name in (*shown, *judged)}
                for row in store.answers(session=number)
            ],
        }


class Ask(Api):
    """Putting a question on a session's list."""

    needs: ClassVar[dict[str, str]] = {"POST": TEACH}

    async def post(self, number: str) -> None:
        """Put it there, draw its pictures, and open it if that is asked for."""
        sent = self.sent()
        kind = take(sent, "kind", str)
        if kind not in questions.kinds():
            raise Refusal(400, f"There is no kind of question called “{kind}”")
        asked = await self.done(
            self.room.store.ask,
            int(number),
            kind,
            take(sent, "own", bool, True),
            take(sent, "tell", bool, False),
            take_if_sent(sent, "segment", int),
            take_if_sent(sent, "number", int),
        )
        self.room.pictures.ahead(await self.done(self._pictures, asked))
        if take(sent, "open", bool, False):
            asked = await self.done(self.room.store.move, asked["id"], "open")
        self.give(asked, 201)

    def _pictures(self, asked: Row) -> list[tuple[str, int]]:
        session = self.room.store.session(asked["session"])
        taken = self.room.store.seats(session["id"])[:DRAWN_AHEAD]
        seats = [row["seat"] for row in taken] if asked["own"] else [None]
        made = [question_of(asked, session["number"], seat) for seat in seats]
        return [(one.kind, one.seed) for one in made if has_picture(one)]


class Question(Api):
    """Opening, closing, revealing."""

    needs: ClassVar[dict[str, str]] = {"PATCH": TEACH}

    async def patch(self, number: str) -> None:
        """Move the question on."""
        state = take(self.sent(), "state", str)
        if state not in ("open", "closed", "revealed"):
            raise Refusal(400, "Send state as open, closed or revealed")
        self.give(await self.done(self.room.store.move, int(number), state))


class Board(Api):
    """The board of a question."""

    needs: ClassVar[dict[str, str]] = {"GET": TEACH}

    async def get(self, number: str) -> None:
        """Give it if anything has changed."""
        named = self.get_query_argument("names", "") == "1"
        tag = self.room.tag([named, await self.done(self.room.store.version, int(number))])
        if not self.unchanged(tag):
            self.give_tagged(await self.done(self._board, int(number), named), tag)

    def _board(self, number: int, named: bool) -> dict[str, Any]:
        store = self.room.store
        asked = store.question(number)
        session = store.session(asked["session"])
        return board(
            asked,
            store.seats(session["id"]),
            store.answers(number),
            lambda seat: question_of(asked, session["number"], seat),
            self.room.people.all() if named else None,
        )


class Working(Api):
    """The worked solution, for showing it."""

    needs: ClassVar[dict[str, str]] = {"GET": TEACH}

    async def get(self, number: str) -> None:
        """Give it for a seat, or for all where all share the values."""
        given = self.get_query_argument("seat", "")
        if given and not (given.isdecimal() and len(given) < 6):
            raise Refusal(400, "Send seat as a whole number")
        asked = await self.done(self.room.store.question, int(number))
        session = await self.done(self.room.store.session, asked["session"])
        seat = int(given) if given else None
        made = await self.done(question_of, asked, session["number"], seat)
        self.give({"text": made.text, **working(made)})


class Everybody(Api):
    """The class list."""

    needs: ClassVar[dict[str, str]] = {"GET": TEACH}

    async def get(self) -> None:
        """Give it, without PINs."""
        people = await self.done(self.room.people.all)
        shown = ("name", "shown", "role", "claimed", "confirmed")
        self.give({"people": [{n: one[n] for n in shown} for one in people.values()]})


class Somebody(Api):
    """One on the class list."""

    needs: ClassVar[dict[str, str]] = {"POST": TEACH, "DELETE": TEACH}

    async def post(self, name: str) -> None:
        """Confirm that a PIN was set by its owner, or clear it for them to set a new one."""
        deed = take(self.sent(), "do", str)
        if deed not in ("confirm", "clear"):
            raise Refusal(400, "Send do as confirm or clear")
        people = self.room.people
        done = await self.done(people.confirm if deed == "confirm" else people.clear, name)
        self._found(name, done)
        if deed == "clear":
            await self._show_out(name)
        self.give({"done": deed})

    async def delete(self, name: str) -> None:
        """Forget one with all that is kept about them."""
        self._found(name, await self.done(self.room.people.forget, name))
        await self.done(self.room.store.forget, name)
        await self._show_out(name)
        self.give({"deleted": name})

    async def _show_out(self, name: str) -> None:
        try:
            await self.room.gate.show_out(name)
        except HubAway as away:
            raise Refusal(503, str(away)) from None

    def _found(self, name: str, found: bool) -> None:
        if not found:
            raise Refusal(404, f"There is nobody called {name} on the class list.")


class Retention(Api):
    """How long sessions are kept."""

    needs: ClassVar[dict[str, str]] = {"POST": TEACH}

    async def post(self) -> None:
        """Delete sessions that ended longer ago than so many days."""
        days = take(self.sent(), "days", int)
        day = (datetime.now(UTC) - timedelta(days=min(days, 36_500))).isoformat()
        self.give({"deleted": await self.done(self.room.store.drop_ended_before, day)})


ADDRESSES = [
    (r"api/sessions", Sessions),
    (r"api/sessions/(\d{1,9})", Session),
    (r"api/sessions/(\d{1,9})/record", SessionRecord),
    (r"api/sessions/(\d{1,9})/questions", Ask),
    (r"api/questions/(\d{1,9})", Question),
    (r"api/questions/(\d{1,9})/board", Board),
    (r"api/questions/(\d{1,9})/working", Working),
    (r"api/people", Everybody),
    (r"api/people/([^/]{1,80})", Somebody),
    (r"api/retention", Retention),
]
