"""How much may be sent to the service at once, and how often something may be tried."""

import time
from collections import OrderedDict
from collections.abc import Callable, Hashable
from dataclasses import dataclass, field

LARGEST = 16 * 1024
"""Bytes of a request's body; an answer has some hundred."""

MOST = 10_000
"""Keys remembered; a flood of made-up ones pushes out the oldest, never fills the memory."""


@dataclass
class Limit:
    """A bucket for each key: at most `burst` tries at once, then one more every `every_s` seconds."""

    burst: int
    every_s: float
    clock: Callable[[], float] = time.monotonic
    _left: OrderedDict[Hashable, tuple[float, float]] = field(default_factory=OrderedDict)

    def wait_s(self, key: Hashable) -> float:
        """Return how many seconds `key` has to wait before it may try; 0 if it may now."""
        return max(0.0, (1 - self._now(key)) * self.every_s)

    def used(self, key: Hashable) -> None:
        """Count one try of `key`."""
        self._left[key] = (self._now(key) - 1, self.clock())
        self._left.move_to_end(key)
        while len(self._left) > MOST:
            self._left.popitem(last=False)

    def forget(self, key: Hashable) -> None:
        """Let `key` begin anew."""
        self._left.pop(key, None)

    def _now(self, key: Hashable) -> float:
        left, since = self._left.get(key, (float(self.burst), self.clock()))
        return min(float(self.burst), left + (self.clock() - since) / self.every_s)
