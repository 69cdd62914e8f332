"""Where names may stand on a sheet: they hide nothing and never run over each other."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from navlib.sheets.ground import Ground
from navlib.sheets.lettering import Placed
from navlib.sheets.window import Box

GAP = 0.35
"""Millimetres kept clear around each name."""
DEAREST = 7.0
"""Cost of the last spot in which a name is better than no name."""
AT_A_TIME = 16


Spots = Sequence[tuple[float, Box]]
"""Boxes that a name could fill, each with its cost."""


@dataclass(frozen=True)
class Wish:
    """A name to be set: `spots` are boxes to try with the cost of each, cheapest wins."""

    text: str
    letters: str
    spots: tuple[tuple[float, Box], ...]
    turn: float = 0.0


def _box(x: float, y: float, width: float, height: float) -> Box:
    return Box(x - width / 2, y - height / 2, x + width / 2, y + height / 2)


def beside(sign: Box, width: float, height: float) -> Iterator[tuple[float, Box]]:
    """Yield boxes around a sign, the better-liked sides first."""
    middle_x, middle_y = (sign.left + sign.right) / 2, (sign.top + sign.bottom) / 2
    half_x, half_y = (sign.right - sign.left) / 2, (sign.bottom - sign.top) / 2
    for ring, (away, more) in enumerate(((0.7, 0.0), (2.2, 1.2), (4.2, 2.6))):
        for side, (right, down, cost) in enumerate(
            (
                (1, -0.6, 0.0),
                (1, 0, 0.1),
                (1, 0.6, 0.2),
                (-1, 0, 0.5),
                (-1, -0.6, 0.5),
                (-1, 0.6, 0.6),
                (0, -1, 0.4),
                (0, 1, 0.5),
                (0.5, -1, 0.5),
                (0.5, 1, 0.6),
                (-0.5, -1, 0.7),
                (-0.5, 1, 0.8),
            )
        ):
            x = middle_x + right * (half_x + away + width / 2)
            y = middle_y + down * (half_y + away + height / 2)
            yield cost + more + 0.001 * (12 * ring + side), _box(x, y, width, height)


def around(
    x: float, y: float, width: float, height: float, reach: float, step: float
) -> Iterator[tuple[float, Box]]:
    """Yield boxes about a spot and up to `reach` from it, nearer ones cheaper."""
    count = int(reach / step)
    for j in range(-count, count + 1):
        for i in range(-count, count + 1):
            away = float(np.hypot(i, j)) * step
            if away <= reach:
                yield 2.0 * away / max(reach, 1.0), _box(x + i * step, y + j * step, width, height)


def _sides(boxes: Iterable[Box]) -> np.ndarray:
    """Return a row each for left, top, right and bottom, a column for each box."""
    return np.array([(b.left, b.top, b.right, b.bottom) for b in boxes]).reshape(-1, 4).T


def land_share(spots: Spots, ground: Ground) -> np.ndarray:
    """Return which share of each spot's box lies on land."""
    left, top, right, bottom = _sides(box for _, box in spots)[:, :, None]
    across, down = np.linspace(0, 1, 7), np.linspace(0, 1, 3)
    u, v = (t.ravel()[None, :] for t in np.meshgrid(across, down))
    x = left + (right - left) * u
    y = top + (bottom - top) * v
    return np.mean(ground.at(x, y) > ground.coast, axis=1)


def hidden(spots: Spots, clutter: np.ndarray) -> np.ndarray:
    """Return how many points lie in each spot's box or within half a millimetre of it."""
    left, top, right, bottom = _sides(box for _, box in spots)[:, :, None]
    x, y = clutter[None, :, 0], clutter[None, :, 1]
    inside = (x > left - 0.5) & (x < right + 0.5) & (y > top - 0.5) & (y < bottom + 0.5)
    return inside.sum(axis=1)


def priced(
    spots: Spots, likes: str, weight: float, ground: Ground, clutter: np.ndarray
) -> tuple[tuple[float, Box], ...]:
    """Return the spots, cheapest first, dearer where the name crosses the coast or hides things."""
    land = land_share(spots, ground)
    off = {"land": 1 - land, "sea": land, "any": np.minimum(land, 1 - land)}[likes]
    cost = np.array([c for c, _ in spots]) + weight * off
    cost += np.minimum(0.14 * hidden(spots, clutter), 2.4)
    return tuple((float(cost[k]), spots[k][1]) for k in np.argsort(cost, kind="stable"))


def settle(wanted: list[Wish], taken: list[Box], frame: Box) -> list[Placed]:
    """Return the names that find room, none over another or over `taken`, all inside `frame`.

    Boxes of set names are added to `taken`.
    """
    inner = Box(frame.left + 0.8, frame.top + 0.8, frame.right - 0.8, frame.bottom - 0.8)
    sides = np.empty((4, len(taken) + len(wanted)))  # left, top, right, bottom
    sides[:, : len(taken)] = _sides(taken)
    placed = []
    for wish in wanted:
        for box in _free(wish.spots, sides[:, : len(taken)], inner):
            sides[:, len(taken)] = box.left, box.top, box.right, box.bottom
            taken.append(box)
            placed.append(Placed(wish.text, wish.letters, box, wish.turn))
            break
    return placed


def _free(spots: Spots, taken: np.ndarray, inner: Box) -> Iterator[Box]:
    """Yield the boxes that lie over none of those taken, in order, up to the first that is too dear.

    They are looked at some at a time: one of the first is free as a rule, and one by one is slow.
    """
    left, top, right, bottom = taken
    for start in range(0, len(spots), AT_A_TIME):
        some = spots[start : start + AT_A_TIME]
        sides = _sides([box for _, box in some])[:, :, None]
        over = (left < sides[2] + GAP) & (right > sides[0] - GAP)
        over &= (top < sides[3] + GAP) & (bottom > sides[1] - GAP)
        for (cost, box), clash in zip(some, over.any(axis=1), strict=True):
            if cost > DEAREST:
                return
            if not clash and box.within(inner):
                yield box
