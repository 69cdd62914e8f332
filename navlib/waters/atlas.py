"""Where the arrows of a stream atlas stand: by one rule, the same for every hour."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from navlib.waters.features import Place
from navlib.waters.stream_field import StreamField

Array = NDArray[np.float64]

ACROSS = 11.5
"""So many arrows, about, stand across the page where the stream is slow."""
CLOSER = 0.6
"""Arrows where it runs hard stand at this part of that distance."""
SLOW, HARD = 1.2, 2.5
"""Rates in knots at springs up to which and from which that is so; evenly between."""
DEEP = 3.0
"""Metres below chart datum that the water must have."""


def choose_spots(
    field: StreamField,
    area: tuple[float, float, float, float],
    to_springs: float,
    fixed: Sequence[Place] = (),
) -> Array:
    """Return the places (n, 2) of an atlas's arrows within `area` (west, south, east, north).

    First the `fixed` ones, then where the stream runs hardest, then over the rest from row to row;
    none nearer to another than the page allows. `to_springs` turns amplitudes (m/s) into the
    greatest rate in knots.
    """
    west, south, east, north = area
    open_gap = (east - west) / ACROSS
    margin, step = open_gap / 5, field.spacing
    e, n = (
        part.ravel()
        for part in np.meshgrid(
            np.arange(west + margin, east - margin + 1, step),
            np.arange(south + margin, north - margin + 1, step),
        )
    )
    deep = np.asarray(field.heights.at(e, n)) < -DEEP
    given = np.array(fixed, dtype=float).reshape(-1, 2)
    e, n = np.concatenate([given[:, 0], e[deep]]), np.concatenate([given[:, 1], n[deep]])
    rate = np.hypot(*abs(field.at(e, n))) * to_springs
    hard = np.clip((rate - SLOW) / (HARD - SLOW), 0, 1)
    gap = open_gap * (1 - (1 - CLOSER) * hard)
    first = np.lexsort((e, n, -np.where(hard >= 1, rate, 0), np.arange(e.size) >= len(given)))
    free = np.ones(e.size, bool)
    chosen = []
    for k in first:
        if free[k]:
            chosen.append(k)
            free &= np.hypot(e - e[k], n - n[k]) >= (gap + gap[k]) / 2
    return np.column_stack([e[chosen], n[chosen]])
