"""What all requests of the class service share: the store, the gate, the limits, the pictures."""

import asyncio
import hashlib
import json
import time
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from typing import Any, TypeVar

from navlib.chain.question import Question
from navlib.classroom.gate import Gate
from navlib.classroom.judging import catch_up, judge, question_of
from navlib.classroom.limits import Limit
from navlib.classroom.passes import Passes
from navlib.classroom.people import People
from navlib.classroom.pictures import Pictures
from navlib.classroom.store import Row, Store, Written
from navlib.marking import Marked

T = TypeVar("T")


class Room:
    """The service's state; all that must outlive it is in the store.

    The store is used by one thread, so that answers are written down in the order they came in.
    """

    def __init__(
        self,
        store: Store,
        people: People,
        gate: Gate,
        passes: Passes,
        pictures: Pictures,
        word: str = "",
    ) -> None:
        self.store = store
        self.people = people
        self.gate = gate
        self.passes = passes
        self.pictures = pictures
        self.word = word
        self.answering = Limit(burst=20, every_s=0.2)
        self.last_seen: dict[str, float] = {}
        self._thread = ThreadPoolExecutor(1, thread_name_prefix="store")

    async def do(self, work: Callable[[], T]) -> T:
        """Return what `work` returns, done in the store's thread."""
        return await asyncio.get_running_loop().run_in_executor(self._thread, work)

    def seen(self, name: str) -> None:
        """Note that somebody is there now."""
        self.last_seen[name] = time.monotonic()

    def tag(self, content: Any) -> str:
        """Return a short text that stands for `content`."""
        whole = json.dumps(content, sort_keys=True).encode()
        return hashlib.sha256(whole).hexdigest()[:20]

    def question_for(self, asked: Row, learner: str) -> Question:
        """Return the question as that learner has it; raises Missing for who has not joined."""
        seat = self.store.seat(asked["session"], learner)
        return question_of(asked, self.store.session(asked["session"])["number"], seat)

    def judge(self, kept: Written, written: dict[str, str]) -> Marked:
        """Mark an answer that is written down already, and keep what came of it."""
        return judge(self.store, kept, written)

    def catch_up(self) -> int:
        """Judge what an earlier service wrote down and did not live to judge; return how many."""
        return catch_up(self.store)
