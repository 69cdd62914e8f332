"""What the service does for those who take part; `service.py` says how it is asked."""

import re
from typing import Any, ClassVar

from navlib.chain.question import Question
from navlib.classroom.api import Api, Refusal, take, take_if_sent
from navlib.classroom.faces import face, has_picture, may_tell
from navlib.classroom.gate import TAKE_PART
from navlib.classroom.judging import (
    LONGEST_ANSWER,
    MOST_PARTS,
    are_answers,
    is_key,
    told,
)
from navlib.classroom.sessions import Row
from navlib.pictures.pencilled import with_drawn


class Me(Api):
    """Who the token says that I am."""

    needs: ClassVar[dict[str, str]] = {"GET": TAKE_PART}

    async def get(self) -> None:
        """Give name and roles."""
        known = await self.done(self.room.people.get, self.who.name)
        shown = known["shown"] if known else self.who.name
        self.give({"name": self.who.name, "shown": shown, "roles": sorted(self.who.may)})


class Join(Api):
    """Taking a seat in a session."""

    needs: ClassVar[dict[str, str]] = {"POST": TAKE_PART}

    async def post(self) -> None:
        """Join, or be told the seat once more."""
        number = take_if_sent(self.sent(), "session", int)
        session, seat = await self.done(self.room.store.join, self.who.name, number)
        shown = {name: session[name] for name in ("id", "title", "stage")}
        self.give({"session": shown, "seat": seat})


class Now(Api):
    """What is asked now."""

    needs: ClassVar[dict[str, str]] = {"GET": TAKE_PART}

    async def get(self) -> None:
        """Give the question opened last, as this learner has it."""
        given = self.get_query_argument("session", "")
        if given and not re.fullmatch(r"\d{1,9}", given):
            raise Refusal(400, "Send session as a whole number")
        self.give(await self.done(self._now, int(given) if given else None))

    def _now(self, number: int | None) -> dict[str, Any]:
        store, me = self.room.store, self.who.name
        session = store.session(store.last_joined(me) if number is None else number)
        seat = store.seat(session["id"], me)
        asked = store.asked_now(session["id"])
        shown = {name: session[name] for name in ("id", "title", "stage")}
        return {
            "session": {**shown, "ended": session["ended"] is not None},
            "seat": seat,
            "question": self._face(asked) if asked else None,
        }

    def _face(self, asked: Row) -> dict[str, Any]:
        me = self.who.name
        mine = self.room.store.answers(asked["id"], me)
        return face(asked, self.room.question_for(asked, me), mine)


class Picture(Api):
    """The sheet or page beside a question's words, with the learner's own numbers."""

    needs: ClassVar[dict[str, str]] = {"GET": TAKE_PART}

    async def get(self, number: str) -> None:
        """Give it, or null."""
        asked = await self.done(self.room.store.question, int(number))
        question = await self.done(self.room.question_for, asked, self.who.name)
        if asked["opened"] is None:
            raise Refusal(404, f"There is no question {number} to answer.")
        drawn = None
        if has_picture(question):
            drawn = await self.room.pictures.of(question.kind, question.seed)
        self.give({"picture": drawn})


class Answers(Api):
    """Handing in."""

    needs: ClassVar[dict[str, str]] = {"POST": TAKE_PART}

    async def post(self) -> None:
        """Write the answer down, once, then judge it, and say what may be told."""
        sent = self.sent()
        key = take(sent, "key", str)
        if not is_key(key):
            raise Refusal(400, "Send key as 8 to 64 letters, figures or hyphens")
        number = take(sent, "question", int)
        written = _written(take(sent, "answers", dict))
        lies = take(sent, "lies", dict, {})
        given = take(sent, "given", str, "", 40)
        if self.room.answering.wait_s(self.who.name):
            raise Refusal(429, "Too many answers at once: wait a few seconds and send it again.")
        self.room.answering.used(self.who.name)
        if lies:
            question = await self.done(self._mine, number)
            try:
                written = with_drawn(question, written, lies)
            except (ValueError, OverflowError):
                raise Refusal(400, "What is drawn lies off the sheet: draw it anew") from None
        reply, again = await self.done(self._hand_in, key, number, written, given)
        self.give(reply, 200 if again else 201)

    def _mine(self, number: int) -> Question:
        return self.room.question_for(self.room.store.question(number), self.who.name)

    def _hand_in(
        self, key: str, number: int, written: dict[str, str], given: str
    ) -> tuple[dict[str, Any], bool]:
        kept = self.room.store.hand_in(number, self.who.name, key, written, given or None)
        marked = self.room.judge(kept, written)
        head = {"id": kept.id, "question": number, "at": kept.at, "counted": kept.counted}
        parts = told(marked, may_tell(kept.asked))
        return {**head, "again": kept.again, "parts": parts}, kept.again


class Mine(Api):
    """What is kept about the learner who asks."""

    needs: ClassVar[dict[str, str]] = {"GET": TAKE_PART, "DELETE": TAKE_PART}

    async def get(self) -> None:
        """Give all of it."""
        self.give(await self.done(self._mine))

    async def delete(self) -> None:
        """Delete answers and attendance; the name stays on the class list."""
        self.give({"deleted": await self.done(self.room.store.forget, self.who.name)})

    def _mine(self) -> dict[str, Any]:
        me = self.who.name
        person = self.room.people.all().get(me)
        told_already = {
            question["id"]
            for session in self.room.store.sessions()
            for question in self.room.store.questions(session["id"])
            if may_tell(question)
        }
        rows = self.room.store.answers(learner=me)
        shown = ("session", "position", "question", "at", "given", "counted", "answers")
        judged = ("kind", "outcomes", "marks", "out_of", "slips")
        return {
            "person": person,
            "answers": [
                {name: row[name] for name in shown}
                | ({name: row[name] for name in judged} if row["question"] in told_already else {})
                for row in rows
            ],
        }


def _written(given: dict[str, Any]) -> dict[str, str]:
    if not are_answers(given):
        raise Refusal(
            400,
            f"Send answers as texts of at most {LONGEST_ANSWER} letters by the name of each part, "
            f"such as {{}}, at most {MOST_PARTS} of them",
        )
    return given


ADDRESSES = [
    (r"api/me", Me),
    (r"api/join", Join),
    (r"api/now", Now),
    (r"api/questions/(\d{1,9})/picture", Picture),
    (r"api/answers", Answers),
    (r"api/mine", Mine),
]
