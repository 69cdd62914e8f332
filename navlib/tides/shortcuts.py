"""Height between high and low water by rule: the twelfths, the cosine, and the straight line.

A rule says what share of the range has gone by after a share of the tide's real duration. It knows
nothing of the port: it fails where the tide is out of shape, as in estuaries and behind sounds.
"""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from typing import Protocol

import numpy as np

from navlib.tides.moments import Floats, Times, aware, moment, utc
from navlib.tides.turns import Tide


class Method(Protocol):
    """A way to get from a tide's two turns to a height at a time, and back."""

    @property
    def name(self) -> str:
        """What the trade calls it."""

    def height(self, tide: Tide, when: Times) -> float | Floats:
        """Return heights in metres at `when`."""

    def time(self, tide: Tide, height: float) -> datetime:
        """Return the UTC time at which the tide passes `height`."""


@dataclass(frozen=True)
class Rule:
    """A share of the range for a share of the duration, and the other way; both 0 to 1."""

    name: str
    share: Callable[[Floats], Floats]
    inverse: Callable[[Floats], Floats]

    def height(self, tide: Tide, when: Times) -> float | Floats:
        """Return heights in metres at `when`; a single time gives a float.

        Raises ValueError for a time outside the tide.
        """
        start, end = tide.start.height, tide.end.height
        heights = start + (end - start) * self.share(share_of_duration(tide, when))
        return heights if np.ndim(heights) else float(heights)

    def time(self, tide: Tide, height: float) -> datetime:
        """Return the UTC time at which the tide passes `height`; ValueError if it does not."""
        share = (reached(tide, height) - tide.start.height) / (tide.end.height - tide.start.height)
        start, end = moment(tide.start.time), moment(tide.end.time)
        return aware(start + float(self.inverse(np.asarray(share))) * (end - start))


def share_of_duration(tide: Tide, when: Times) -> Floats:
    """Return how much of the tide's duration has gone by, 0 to 1, shaped as `when`.

    Raises ValueError for a time outside the tide.
    """
    moments, start, end = utc(when), utc(tide.start.time), utc(tide.end.time)
    outside = (moments < start) | (moments > end)
    if outside.any():
        first = aware(moment(moments[outside].min())).astimezone(tide.start.time.tzinfo)
        raise ValueError(
            f"{first:%Y-%m-%d %H%M %Z} is not between {tide.start} and {tide.end}: "
            "take the high and low water on either side of it"
        )
    return np.asarray((moments - start) / (end - start))


def reached(tide: Tide, height: float) -> float:
    """Return `height` if the tide passes it; ValueError in words if it does not."""
    if not tide.low.height <= height <= tide.high.height:
        raise ValueError(
            f"{height:.2f} m is not reached: this tide goes between "
            f"{tide.low.height:.2f} m and {tide.high.height:.2f} m"
        )
    return height


_SIXTHS = np.arange(7) / 6
_TWELFTHS = np.array([0, 1, 3, 6, 9, 11, 12]) / 12  # steps of 1, 2, 3, 3, 2, 1

TWELFTHS = Rule(
    "rule of twelfths",
    lambda x: np.interp(x, _SIXTHS, _TWELFTHS),
    lambda y: np.interp(y, _TWELFTHS, _SIXTHS),
)
"""1, 2, 3, 3, 2, 1 twelfths of the range in each sixth of the duration (common practice)."""

COSINE = Rule(
    "cosine curve",
    lambda x: (1 - np.cos(np.pi * x)) / 2,
    lambda y: np.arccos(1 - 2 * y) / np.pi,
)
"""Half a cosine from one turn to the next: one constituent's own shape."""

STRAIGHT_LINE = Rule("straight line", lambda x: x, lambda y: y)
"""Even rise or fall: wrong, and kept to show by how much; the tide is slow at its ends."""
