"""Windows of time: when is the tide high enough, low enough, or both."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

import numpy as np

from navlib.tides.crossings import MINUTE, crossings
from navlib.tides.moments import Floats, Moments, One, Times, aware, moment, utc
from navlib.tides.shortcuts import Method
from navlib.tides.turns import Turn, tides

_ALMOST_A_SECOND = np.timedelta64(999_999, "us")

HeightFunction = Callable[[Any], float | Floats]
"""Heights in metres for many times: `port.heights`, or what `through` returns."""


@dataclass(frozen=True)
class Window:
    """A stretch of time, `start` to `end`, in UTC.

    `opens` and `closes` tell whether the level is really passed there; where not, the search
    began or ended inside the window and it may be longer.
    """

    start: datetime
    end: datetime
    opens: bool = True
    closes: bool = True

    @property
    def duration(self) -> timedelta:
        """How long it lasts."""
        return self.end - self.start

    def to_minutes(self) -> "Window":
        """Return the window in whole minutes, rounded to the safe side: opens later, shuts earlier.

        The start stands where it would pass the end.
        """
        minute = timedelta(minutes=1)
        start = _whole_minute(self.start + minute - timedelta.resolution)
        end = max(_whole_minute(self.end), start)
        return Window(start, end, self.opens, self.closes)


def _whole_minute(time: datetime) -> datetime:
    return time.replace(second=0, microsecond=0)


def tidal_windows(
    height_at: HeightFunction,
    start: One,
    end: One,
    *,
    above: float | None = None,
    below: float | None = None,
) -> tuple[Window, ...]:
    """Return the windows in [start, end] in which the height is at least `above`, at most `below`.

    Levels in metres above chart datum; give one or both (keel and mast on the same tide). No
    window: an empty tuple. `height_at` is `port.heights` or any function of datetime64 times.
    """
    if above is None and below is None:
        raise ValueError(
            "give a level: tidal_windows(..., above=1.9) or tidal_windows(..., below=3.4)"
        )
    first, last = moment(start), moment(end)
    if last <= first:
        raise ValueError(f"the search ends at {end} before it begins at {start}")

    def spare(moments: Moments) -> Floats:
        heights = np.asarray(height_at(np.clip(moments, first, last)))
        over = np.inf if above is None else heights - above
        under = np.inf if below is None else below - heights
        return np.minimum(over, under)

    moments, rising = crossings(spare, first, last, 10 * MINUTE)
    inside = bool(spare(np.array([first]))[0] > 0)
    opens = [first, *moments[rising]] if inside else list(moments[rising])
    closes = list(moments[~rising])
    cut = len(opens) > len(closes)
    return tuple(
        Window(
            aware(a + _ALMOST_A_SECOND),  # later rather than earlier
            aware(b),
            opens=not (inside and k == 0),
            closes=not (cut and k == len(opens) - 1),
        )
        for k, (a, b) in enumerate(zip(opens, [*closes, last] if cut else closes, strict=True))
    )


def through(turns: Sequence[Turn], method: Method) -> Callable[[Times], float | Floats]:
    """Return a height function through successive high and low waters by a shortcut.

    `turns` in order; the function raises ValueError for times before the first or after the last.
    """
    spans = tides(turns)
    starts = np.array([utc(tide.start.time) for tide in spans], "M8[us]")

    def height_at(times: Times) -> float | Floats:
        moments = utc(times)
        flat = moments.ravel()
        which = np.clip(np.searchsorted(starts, flat, side="right") - 1, 0, len(spans) - 1)
        heights = np.empty(flat.shape)
        for k in np.unique(which):
            heights[which == k] = method.height(spans[k], flat[which == k])
        return heights.reshape(moments.shape) if moments.shape else float(heights[0])

    return height_at
