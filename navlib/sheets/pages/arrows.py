"""The arrows of a stream atlas: figures with their comma on the place, and an arrow beside them."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from navlib.sheets.ground import Array, Ground
from navlib.sheets.pages.leaf import Leaf, Spot, measure
from navlib.sheets.pages.rates import tenth_figures
from navlib.sheets.window import Box, MercatorWindow
from navlib.waters import Arrow, Water

SLACK = 0.25
"""Knots at springs below which a stream is marked slack (our choice)."""
FIGURES = 7.2
"""Points of the figures' letters."""
_RING, _GAP = 1.0, 0.5
_LONGEST = 13.0
_REACH = 2 * _LONGEST
"""Millimetres from its figures beyond which an arrow never runs."""


@dataclass(frozen=True)
class Drawn:
    """A stream as it stands on the page: figures and their box, and the arrow's tail and tip.

    Where the stream is slack there are no figures, and `tail` and `tip` are one spot.
    """

    arrow: Arrow
    figures: str
    box: Box
    tail: Spot
    tip: Spot

    @property
    def slack(self) -> bool:
        """Whether it is marked as slack."""
        return not self.figures


def figures_of(arrow: Arrow) -> str:
    """Return an arrow's figures: neap, comma, spring rate, each in tenths of a knot."""
    return f"{tenth_figures(arrow.neap_kn)},{tenth_figures(arrow.spring_kn)}"


def settle_arrows(
    water: Water, window: MercatorWindow, ground: Ground, hour: int, taken: list[Box]
) -> list[Drawn]:
    """Return the streams of an hour that find room, strong places first; `taken` grows by them.

    Which places show figures is the same at all hours, save where an arrow finds no room.
    """
    arrows = water.tides.atlas(hour)
    kept: list[tuple[Arrow, Box]] = []
    boxes: list[Box] = []
    for k in _by_strength(water):
        box = _figures_box(window, figures_of(arrows[k]), arrows[k])
        if box.within(_inner(window.frame)) and not any(
            box.overlaps(other, _GAP) for other in (*boxes, *taken)
        ):
            boxes.append(box)
            kept.append((arrows[k], box))
    drawn: list[Drawn] = []
    lengths: list[Box] = []
    for arrow, box in kept:
        others = [*taken, *lengths, *(b for b in boxes if b is not box)]
        near = [other for other in others if other.overlaps(box, _REACH)]
        found = _settle(arrow, box, window, ground, near)
        if found is None:
            boxes = [b for b in boxes if b is not box]
            continue
        lengths += _beads(found)
        drawn.append(found)
    taken += boxes + lengths
    return drawn


def draw_arrows(leaf: Leaf, drawn: Iterable[Drawn]) -> None:
    """Draw the arrows, thicker for stronger streams, their figures, and rings for slack water."""
    drawn = tuple(drawn)
    leaf.shapes(
        [outline(d.tail, d.tip, weight(d.arrow.spring_kn)) for d in drawn if not d.slack],
        gid="streams",
        zorder=8,
    )
    leaf.shapes(
        [ring(d.tip) for d in drawn if d.slack], "#ffffff", line=0.25, gid="slack", zorder=8
    )
    for d in drawn:
        if not d.slack:
            neap = d.figures.partition(",")[0]
            x, y = _comma_spot(d.box, neap)
            leaf.write(x, y, d.figures, FIGURES, edge=1.6, zorder=9)


def length(spring_kn: float) -> float:
    """Return how many millimetres long an arrow is for a spring rate."""
    return min(4.2 + 2.0 * spring_kn, _LONGEST)


def weight(spring_kn: float) -> float:
    """Return how many millimetres thick an arrow's shaft is for a spring rate."""
    return min(0.2 + 0.17 * spring_kn, 1.0)


def outline(tail: Spot, tip: Spot, thick: float) -> list[Spot]:
    """Return an arrow's outline, first its tip; its shaft is `thick` millimetres wide."""
    a, b = np.array(tail), np.array(tip)
    way = (b - a) / np.hypot(*(b - a))
    side = np.array([-way[1], way[0]])
    head, half = 1.5 + 1.6 * thick, 0.55 + 0.9 * thick
    neck = b - way * head * 0.86
    corners = (
        b,
        b - way * head + side * half,
        neck + side * thick / 2,
        a + side * thick / 2,
        a - side * thick / 2,
        neck - side * thick / 2,
        b - way * head - side * half,
    )
    return [(float(x), float(y)) for x, y in corners]


def ring(spot: Spot) -> list[Spot]:
    """Return the outline of the ring that marks slack water."""
    turns = np.linspace(0, 2 * np.pi, 25)[:-1]
    return [(spot[0] + _RING * float(np.cos(a)), spot[1] + _RING * float(np.sin(a))) for a in turns]


def direction(arrow: Arrow) -> Array:
    """Return the unit vector on the page, x right and y down, of an arrow's true direction.

    On a Mercator chart, whose meridians run straight up the page.
    """
    turn = np.radians(arrow.set_to)
    return np.array([np.sin(turn), -np.cos(turn)])


@lru_cache(maxsize=8)
def _by_strength(water: Water) -> tuple[int, ...]:
    """Return the atlas's places, the strongest spring stream of any hour first."""
    rates = np.array([[a.spring_kn for a in water.tides.atlas(h)] for h in range(-6, 7)])
    return tuple(int(k) for k in np.argsort(-rates.max(axis=0), kind="stable"))


def _inner(frame: Box) -> Box:
    return Box(frame.left + 1.0, frame.top + 1.0, frame.right - 1.0, frame.bottom - 1.0)


def _figures_box(window: MercatorWindow, figures: str, arrow: Arrow) -> Box:
    """Return the box of the figures with the middle of their comma on the place."""
    x, y = (float(v) for v in window.place(*arrow.place))
    neap = figures.partition(",")[0]
    left = x - _to_comma(neap)
    width, height, depth = measure(figures, FIGURES)
    tall = height - depth
    return Box(left, y - tall / 2, left + width, y + tall / 2 + depth)


def _to_comma(neap: str) -> float:
    """Return how far the middle of the comma lies from the left end of the figures."""
    return (measure(neap, FIGURES)[0] + measure(f"{neap},", FIGURES)[0]) / 2


def _comma_spot(box: Box, neap: str) -> Spot:
    """Return where the figures begin, on their line."""
    _, _, depth = measure(f"{neap},00", FIGURES)
    return box.left, box.bottom - depth


def _settle(
    arrow: Arrow, box: Box, window: MercatorWindow, ground: Ground, others: Sequence[Box]
) -> Drawn | None:
    x, y = (float(v) for v in window.place(*arrow.place))
    if arrow.spring_kn < SLACK:
        found = Drawn(arrow, "", Box(x - _RING, y - _RING, x + _RING, y + _RING), (x, y), (x, y))
        return found if _clear(found, window.frame, others) else None
    way, long = direction(arrow), length(arrow.spring_kn)
    best: tuple[float, Drawn] | None = None
    for cost, middle in _middles(np.array([x, y]), box, way, long):
        tail, tip = middle - way * long / 2, middle + way * long / 2
        found = Drawn(
            arrow,
            figures_of(arrow),
            box,
            (float(tail[0]), float(tail[1])),
            (float(tip[0]), float(tip[1])),
        )
        if not _clear(found, window.frame, others):
            continue
        along = tail + np.linspace(0, 1, 7)[:, None] * (tip - tail)
        cost += 2.0 * float(np.mean(ground.at(along[:, 0], along[:, 1]) > 0))
        if best is None or cost < best[0]:
            best = (cost, found)
    return best[1] if best else None


def _middles(place: Array, box: Box, way: Array, long: float) -> list[tuple[float, Array]]:
    """Return where the arrow's middle may lie: beside the figures, ahead of or behind them."""
    side = np.array([-way[1], way[0]])
    half = np.array([box.width / 2, box.height / 2])
    middle = np.array(box.middle)
    beside = float(np.abs(side) @ half) + 1.7
    ahead = float(np.abs(way) @ half) + long / 2 + 0.7
    spots = [(0.0, middle + side * beside), (0.1, middle - side * beside)]
    spots += [(0.3, middle + way * ahead), (0.4, middle - way * ahead)]
    spots += [
        (0.5, middle + (side * s * beside + way * t * long / 3)) for s in (1, -1) for t in (1, -1)
    ]
    return spots


def _beads(drawn: Drawn) -> list[Box]:
    """Return boxes along an arrow that nothing else may stand on."""
    if drawn.slack:
        return [drawn.box]
    tail, tip = np.array(drawn.tail), np.array(drawn.tip)
    half = 0.55 + 0.9 * weight(drawn.arrow.spring_kn)
    count = max(3, int(np.hypot(*(tip - tail)) / 0.8))
    spots = tail + np.linspace(0, 1, count)[:, None] * (tip - tail)
    return [Box(x - half, y - half, x + half, y + half) for x, y in spots.tolist()]


def _clear(drawn: Drawn, frame: Box, others: Sequence[Box]) -> bool:
    inner = _inner(frame)
    return all(
        bead.within(inner) and not any(bead.overlaps(other, 0.25) for other in others)
        for bead in _beads(drawn)
    )
