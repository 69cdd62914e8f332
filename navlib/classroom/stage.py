"""Where a session is in its plan: plain data that is kept with the session, and the clock in it.

A stage is `{"segment": n or None, "clock": {"ends": UTC or None, "left_s": seconds}, "spread": bool,
"names": bool, "pair": bool, "seat": n or None}`.
"""

from collections.abc import Mapping
from datetime import UTC, datetime, timedelta
from typing import Any

Stage = dict[str, Any]

LONGEST_S = 24 * 3600
SHUT: Stage = {"spread": False, "names": False, "pair": False, "seat": None}
"""What is shown of a question when a segment begins: nothing but the question."""


def stage_of(kept: Any) -> Stage:
    """Return the stage of a session as it was kept; the beginning of one for what is none."""
    known = kept if isinstance(kept, Mapping) else {}
    clock = known.get("clock")
    number = {name: known.get(name) for name in ("segment", "seat")}
    return {
        "segment": number["segment"] if type(number["segment"]) is int else None,
        "clock": _clock(clock if isinstance(clock, Mapping) else {}),
        **{name: known.get(name) is True for name in ("spread", "names", "pair")},
        "seat": number["seat"] if type(number["seat"]) is int else None,
    }


def entered(segment: int, minutes: float, now: datetime) -> Stage:
    """Return the stage at the beginning of a segment: its clock runs."""
    return {"segment": segment, "clock": running(minutes * 60, now), **SHUT}


def left_s(clock: Mapping[str, Any], now: datetime) -> float:
    """Return how many seconds a clock has left; never less than none."""
    if clock["ends"] is None:
        return float(clock["left_s"])
    return max((datetime.fromisoformat(clock["ends"]) - now).total_seconds(), 0.0)


def running(seconds: float, now: datetime) -> dict[str, Any]:
    """Return a clock that runs and has so many seconds left."""
    ends = (now + timedelta(seconds=seconds)).astimezone(UTC)
    return {"ends": ends.isoformat(timespec="seconds"), "left_s": round(seconds)}


def paused(seconds: float) -> dict[str, Any]:
    """Return a clock that stands, with so many seconds left."""
    return {"ends": None, "left_s": round(seconds)}


def _clock(kept: Mapping[str, Any]) -> dict[str, Any]:
    left = kept.get("left_s")
    seconds = left if isinstance(left, int | float) and 0 <= left <= LONGEST_S else 0
    ends = kept.get("ends")
    try:
        aware = isinstance(ends, str) and datetime.fromisoformat(ends).tzinfo is not None
    except ValueError:
        aware = False
    return {"ends": ends if aware else None, "left_s": seconds}
