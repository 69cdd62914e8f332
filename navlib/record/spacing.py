"""When something should come back: boxes whose waiting time doubles.

The rule is that of the learning boxes of S. Leitner, So lernt man lernen (Herder, 1972): what is
known moves on to the next box, what is not goes back to the first, and each box waits longer than
the one before. The waiting times here, 1, 2, 4 ... 32 days, are common practice.
"""

from dataclasses import dataclass
from datetime import date, timedelta

LAST_BOX = 6

RULE = (
    "What you get right at the first try waits 1 day, then 2, then 4 and so on, until it comes "
    "back; what you do not comes back at once and begins again."
)
"""The rule for the learner, in a sentence."""


@dataclass(frozen=True)
class Spacing:
    """Which box something is in (0: not known yet) and the day from which it is due."""

    box: int = 0
    due: date = date.min

    def right(self, today: date) -> "Spacing":
        """Return where it goes after it was known; known before it was due proves nothing new."""
        if today < self.due:
            return self
        box = min(self.box + 1, LAST_BOX)
        return Spacing(box, today + timedelta(days=2 ** (box - 1)))

    def wrong(self, today: date) -> "Spacing":
        """Return where it goes after it was not known: back to the beginning, due at once."""
        return Spacing(0, today)

    def is_due(self, today: date) -> bool:
        """Return whether it should come back today."""
        return today >= self.due


NEW = Spacing()
"""Where everything begins."""
