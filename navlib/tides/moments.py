"""Moments in and out: aware datetimes or numpy datetime64 come in, UTC goes through."""

from collections.abc import Sequence
from datetime import UTC, datetime, tzinfo
from typing import Any

import numpy as np
from numpy.typing import NDArray

from navlib.clock import zone_info

Floats = NDArray[np.float64]
Moments = NDArray[np.datetime64]
One = datetime | np.datetime64
Many = Sequence[datetime] | Sequence[np.datetime64] | NDArray[Any]
Times = One | Many
"""What the tide functions take as times: one or many; numpy datetime64 is UTC."""


def utc(times: Times) -> Moments:
    """Return `times` as datetime64 microseconds UTC, of the same shape (a single one: shape ()).

    Raises ValueError for a datetime without a zone and for a missing time.
    """
    given = np.asarray(times)
    if given.dtype.kind == "O":
        given = np.array([_naive_utc(t) for t in given.ravel()], "M8[us]").reshape(given.shape)
    elif given.dtype.kind != "M" and given.size:
        raise ValueError(f"{times!r} is not a time: give datetime(2026, 7, 15, 12, tzinfo=UTC)")
    moments = given.astype("datetime64[us]")
    if np.isnat(moments).any():
        raise ValueError("a time is missing (NaT): leave it out or fill it in")
    return moments


def _naive_utc(time: Any) -> datetime:
    if not isinstance(time, datetime) or time.tzinfo is None:
        raise ValueError(
            f"{time!r} does not say which clock it is on: "
            "give it a zone, as in datetime(2026, 7, 15, 12, tzinfo=UTC)"
        )
    return time.astimezone(UTC).replace(tzinfo=None)


def moment(time: One) -> np.datetime64:
    """Return one time as datetime64 microseconds UTC; raises ValueError as `utc` does."""
    if isinstance(time, datetime):
        return np.datetime64(_naive_utc(time), "us")
    single: np.datetime64 = utc(time).reshape(1)[0]
    return single


def aware(moment: np.datetime64) -> datetime:
    """Return one datetime64 (UTC) as an aware UTC datetime, cut to the whole second.

    Cut, not rounded: a turn of the tide just before midnight must not slip into the next day.
    """
    return moment.astype("datetime64[s]").item().replace(tzinfo=UTC)


def zone(named: str | tzinfo) -> tzinfo:
    """Return the time zone of that name, "UT" or one such as "Europe/London", or `named` itself.

    Raises ValueError for a name that is not in the time zone database.
    """
    return named if isinstance(named, tzinfo) else zone_info(named)
