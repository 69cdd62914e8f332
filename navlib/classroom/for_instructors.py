"""What the service does for those who read and those who teach; `service.py` says how it is asked."""

import json
from typing import Any, ClassVar

from navlib import questions
from navlib.chain.question import Question
from navlib.classroom.api import Api, Refusal, take, take_if_sent
from navlib.classroom.faces import has_picture, words
from navlib.classroom.gate import READ, TEACH, HubAway
from navlib.classroom.teaching import Teaching

LARGEST_STAGE = 4096
DRAWN_AHEAD = 30
"""Pictures drawn before a question is opened: one for each seat taken, at most so many."""


class Teach(Api):
    """A request of somebody who reads or teaches."""

    @property
    def teaching(self) -> Teaching:
        """What they do with sessions."""
        return Teaching(self.room.store, self.room.people, self.who.name, self.room.word)

    def draw_ahead(self, wanted: list[Question]) -> None:
        """Draw the pictures of questions before anybody asks for them."""
        self.room.pictures.ahead([(one.kind, one.seed) for one in wanted if has_picture(one)])

    def seat(self) -> int | None:
        """Return the seat that is asked for, None for all; raises Refusal."""
        given = self.get_query_argument("seat", "")
        if given and not (given.isdecimal() and len(given) < 6):
            raise Refusal(400, "Send seat as a whole number")
        return int(given) if given else None


class Sessions(Teach):
    """All sessions."""

    needs: ClassVar[dict[str, str]] = {"GET": READ, "POST": TEACH}

    async def get(self) -> None:
        """List them, the latest first."""
        self.give({"sessions": await self.done(self.teaching.sessions)})

    async def post(self) -> None:
        """Begin one."""
        sent = self.sent()
        title, number = take(sent, "title", str), take_if_sent(sent, "number", int)
        self.give(await self.done(self.teaching.begin, title, number, sent.get("plan")), 201)


class Session(Teach):
    """One session."""

    needs: ClassVar[dict[str, str]] = {"GET": READ, "PATCH": TEACH, "DELETE": TEACH}

    async def get(self, number: str) -> None:
        """Give it with its questions."""
        self.give(await self.done(self.teaching.session, int(number)))

    async def patch(self, number: str) -> None:
        """Change title, plan or stage, or end it."""
        sent = self.sent()
        changes: dict[str, Any] = {"plan": sent["plan"]} if "plan" in sent else {}
        for name, sort in (("title", str), ("stage", dict)):
            if name in sent:
                changes[name] = take(sent, name, sort)
        if len(json.dumps(changes.get("stage"))) > LARGEST_STAGE:
            raise Refusal(413, f"Send a stage of at most {LARGEST_STAGE} bytes")
        changes["ended"] = take(sent, "ended", bool, False)
        self.give(await self.done(self.teaching.change, int(number), **changes))

    async def delete(self, number: str) -> None:
        """Delete it with its answers."""
        self.give({"deleted": await self.done(self.teaching.drop, int(number))})


class SessionRecord(Teach):
    """Who was there and what each answered, with names."""

    needs: ClassVar[dict[str, str]] = {"GET": READ}

    async def get(self, number: str) -> None:
        """Give it all."""
        self.give(await self.done(self.teaching.record, int(number)))


class Ask(Teach):
    """Putting a question on a session's list."""

    needs: ClassVar[dict[str, str]] = {"POST": TEACH}

    async def post(self, number: str) -> None:
        """Put it there, draw its pictures, and open it if that is asked for."""
        sent = self.sent()
        kind = take(sent, "kind", str)
        if kind not in questions.kinds():
            raise Refusal(400, f"There is no kind of question called “{kind}”")
        asked = await self.done(
            self.teaching.ask,
            int(number),
            kind,
            take(sent, "own", bool, True),
            take(sent, "tell", bool, False),
            take_if_sent(sent, "segment", int),
            take_if_sent(sent, "number", int),
        )
        self.draw_ahead(await self.done(self.teaching.to_be_drawn, asked["id"], DRAWN_AHEAD))
        if take(sent, "open", bool, False):
            asked = await self.done(self.teaching.move, asked["id"], "open")
        self.give(asked, 201)


class AskedQuestion(Teach):
    """Opening, closing, revealing."""

    needs: ClassVar[dict[str, str]] = {"PATCH": TEACH}

    async def patch(self, number: str) -> None:
        """Move the question on."""
        state = take(self.sent(), "state", str)
        if state not in ("open", "closed", "revealed"):
            raise Refusal(400, "Send state as open, closed or revealed")
        moved = await self.done(self.teaching.move, int(number), state)
        if state == "open":
            self.draw_ahead(await self.done(self.teaching.to_be_drawn, int(number), DRAWN_AHEAD))
        self.give(moved)


class Board(Teach):
    """The board of a question."""

    needs: ClassVar[dict[str, str]] = {"GET": TEACH}

    async def get(self, number: str) -> None:
        """Give it if anything has changed."""
        named = self.get_query_argument("names", "") == "1"
        people = await self.done(self.teaching.people) if named else None
        version = await self.done(self.room.store.version, int(number))
        tag = self.room.tag([people, version])
        if not self.unchanged(tag):
            self.give_tagged(await self.done(self.teaching.board, int(number), named), tag)


class Working(Teach):
    """The worked solution, for showing it."""

    needs: ClassVar[dict[str, str]] = {"GET": TEACH}

    async def get(self, number: str) -> None:
        """Give it for a seat, or for all where all share the values."""
        self.give(await self.done(self.teaching.working, int(number), self.seat()))


class AsShown(Teach):
    """The question as the projector shows it."""

    needs: ClassVar[dict[str, str]] = {"GET": TEACH}

    async def get(self, number: str) -> None:
        """Give it for a seat, or for all where all share the values."""
        made = await self.done(self.teaching.question_for, int(number), self.seat())
        drawn = None
        if has_picture(made):
            drawn = await self.room.pictures.of(made.kind, made.seed)
        self.give({**words(made), "picture": drawn})


class Everybody(Teach):
    """The class list."""

    needs: ClassVar[dict[str, str]] = {"GET": TEACH}

    async def get(self) -> None:
        """Give it, without PINs."""
        self.give({"people": await self.done(self.teaching.people)})


class Somebody(Teach):
    """One on the class list."""

    needs: ClassVar[dict[str, str]] = {"POST": TEACH, "DELETE": TEACH}

    async def post(self, name: str) -> None:
        """Confirm that a PIN was set by its owner, or clear it for them to set a new one."""
        deed = take(self.sent(), "do", str)
        if deed not in ("confirm", "clear"):
            raise Refusal(400, "Send do as confirm or clear")
        teaching = self.teaching
        await self.done(teaching.confirm if deed == "confirm" else teaching.clear, name)
        if deed == "clear":
            await self._show_out(name)
        self.give({"done": deed})

    async def delete(self, name: str) -> None:
        """Forget one with all that is kept about them."""
        await self.done(self.teaching.forget, name)
        await self._show_out(name)
        self.give({"deleted": name})

    async def _show_out(self, name: str) -> None:
        try:
            await self.room.gate.show_out(name)
        except HubAway as away:
            raise Refusal(503, str(away)) from None


class Retention(Teach):
    """How long sessions are kept."""

    needs: ClassVar[dict[str, str]] = {"GET": TEACH, "POST": TEACH}

    async def get(self) -> None:
        """Give how many days that is, null for good."""
        self.give({"days": await self.done(self.teaching.retention)})

    async def post(self) -> None:
        """Set it, and delete those that ended before."""
        days = take_if_sent(self.sent(), "days", int)
        self.give({"deleted": await self.done(self.teaching.keep_days, days)})


ADDRESSES = [
    (r"api/sessions", Sessions),
    (r"api/sessions/(\d{1,9})", Session),
    (r"api/sessions/(\d{1,9})/record", SessionRecord),
    (r"api/sessions/(\d{1,9})/questions", Ask),
    (r"api/questions/(\d{1,9})", AskedQuestion),
    (r"api/questions/(\d{1,9})/board", Board),
    (r"api/questions/(\d{1,9})/working", Working),
    (r"api/questions/(\d{1,9})/shown", AsShown),
    (r"api/people", Everybody),
    (r"api/people/([^/]{1,80})", Somebody),
    (r"api/retention", Retention),
]
