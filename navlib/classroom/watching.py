"""Looks every moment at what may have changed, and does what is asked for in between, one by one."""

import contextlib
import queue
from collections.abc import Callable
from contextvars import copy_context
from threading import Thread

EVERY_S = 1.0

Work = Callable[[], None]


class Watch:
    """A thread of its own that looks about every `every_s` seconds, and after each deed.

    Deeds and looks never overlap, so what they use need not be safe for several threads.
    """

    def __init__(self, look: Work, every_s: float = EVERY_S) -> None:
        self._look = look
        self._every_s = every_s
        self._asked: queue.SimpleQueue[Work | None] = queue.SimpleQueue()
        # In the context of whoever begins it: a notebook answers its page in that of its cell.
        run = copy_context().run
        self._thread = Thread(target=run, args=(self._run,), name="watch", daemon=True)
        self._thread.start()

    def ask(self, work: Work) -> None:
        """Have something done as soon as what is under way is over; it must not raise."""
        self._asked.put(work)

    def close(self) -> None:
        """Look no more."""
        self._asked.put(None)

    def _run(self) -> None:
        self._look()
        while True:
            with contextlib.suppress(queue.Empty):
                work = self._asked.get(timeout=self._every_s)
                if work is None:
                    return
                work()
            self._look()
