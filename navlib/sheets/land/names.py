"""The names on the land map: which features have one, where it may stand, how it is written."""

from textwrap import wrap

import numpy as np

from navlib.sheets import style
from navlib.sheets.ground import Ground
from navlib.sheets.land import covers
from navlib.sheets.land.symbols import sign_box
from navlib.sheets.lettering import size_of
from navlib.sheets.placing import Wish, around, beside, priced
from navlib.sheets.window import Box
from navlib.waters import Feature, Water

_POINT_NAMES: dict[str, tuple[str, str, int]] = {
    # kind: letters, likes land or sea, turn in the queue
    "light": ("mark", "sea", 1),
    "beacon": ("mark", "sea", 2),
    "daymark": ("mark", "land", 3),
    "church": ("mark", "land", 2),
    "mast": ("mark", "land", 2),
    "chimney": ("mark", "land", 2),
    "cottage": ("mark", "land", 2),
    "ruin": ("mark", "land", 4),
    "buoy": ("mark", "sea", 2),
    "jetty": ("mark", "sea", 3),
    "beach": ("point", "sea", 2),
    "headland": ("point", "sea", 1),
    "skerry": ("point", "sea", 1),
    "rock": ("point", "sea", 1),
    "summit": ("summit", "land", 0),
    "lay-by": ("mark", "land", 6),
    "spot height": ("height", "land", 9),
}
_AREA_NAMES = {
    # kind: letters before the rank, metres that the name may stray, likes, turn in the queue
    "island": ("island", 2200.0, "land", 6),
    "bay": ("water", 420.0, "sea", 5),
    "sound": ("water", 900.0, "sea", 4),
    "overfalls": ("water", 250.0, "sea", 5),
    "bank": ("water", 350.0, "sea", 5),
    "cliff": ("point", 400.0, "sea", 3),
    "village": ("village", 350.0, "land", 1),
    "bridge": ("mark", 260.0, "any", 4),
    "wood": ("mark", 250.0, "land", 7),
    "loch": ("water-3", 260.0, "any", 6),
    "reserve": ("area-note", 500.0, "any", 8),
    "anomaly": ("area-note", 900.0, "any", 8),
}
_MINOR = ("spot height", "lay-by", "ruin")
_VILLAGE = 600.0  # metres from the middle of a village within which a house belongs to it
_NOTE_LETTERS = 26  # in a line of a limit's note
_CROWDED = 50_000
"""From this scale on, names of minor things that would hide something are left out."""


def label(feature: Feature) -> str:
    """Return what is written beside a feature; a limit's note stands on lines of its own."""
    if feature.kind in covers.LIMITS:
        words = f"{feature.note} {feature.period}".strip()
        lines = -(-len(words) // _NOTE_LETTERS)
        return "\n".join([feature.name, *wrap(words, len(words) // max(lines, 1) + 5)]).strip()
    if feature.map_height is None or feature.kind == "loch":
        return feature.name
    return f"{feature.name}  {feature.map_height:g}".strip()


def wishes(water: Water, ground: Ground, clutter: np.ndarray) -> list[Wish]:
    """Return the names that this ground asks for, those to be set first at the front.

    `clutter` are points (mm) that a name had better not hide.
    """
    queue: list[tuple[int, int, Wish]] = []
    for n, feature in enumerate(water.features):
        if not label(feature):
            continue
        if feature.kind in _POINT_NAMES:
            turn = _POINT_NAMES[feature.kind][2]
            wish = _beside_its_sign(feature, ground, clutter)
        elif feature.kind in _AREA_NAMES:
            turn = _AREA_NAMES[feature.kind][3]
            wish = _over_its_area(feature, _spread(feature, water, ground), ground, clutter)
        else:
            continue
        if wish:
            queue.append((turn, n, wish))
    return [wish for _, _, wish in sorted(queue, key=lambda q: q[:2])]


def _beside_its_sign(feature: Feature, ground: Ground, clutter: np.ndarray) -> Wish | None:
    window, text = ground.window, label(feature)
    if not window.frame.holds(*window.place(*feature.place)):
        return None
    letters, likes, _ = _POINT_NAMES[feature.kind]
    width, height, _ = size_of(text, letters)
    spots = list(beside(sign_box(feature, window), width, height))
    costed = priced(spots, likes, 1.6, ground, clutter)
    if feature.kind in _MINOR and window.scale >= _CROWDED:
        costed = tuple(spot for spot in costed if spot[0] < 0.9)
    return Wish(text, letters, costed)


def _spread(feature: Feature, water: Water, ground: Ground) -> Box | None:
    """Return the box (mm) of a limit's outline or of a village's houses: names may stand by it."""
    if feature.kind in covers.LIMITS:
        rings = covers.on_sheet(feature, ground.window)
    elif feature.kind == "village":
        x, y = ground.window.place(*feature.place)
        reach = _VILLAGE * 1000 / ground.window.scale
        houses = [h for f in water.of_kind("buildings") for h in covers.on_sheet(f, ground.window)]
        rings = [h for h in houses if np.hypot(*(h[0] - (x, y))) < reach]
    else:
        return None
    if not rings:
        return None
    points = np.vstack(rings)
    return Box(*points.min(axis=0).tolist(), *points.max(axis=0).tolist())


def _over_its_area(
    feature: Feature, spread: Box | None, ground: Ground, clutter: np.ndarray
) -> Wish | None:
    window, text = ground.window, label(feature)
    family, stray, likes, _ = _AREA_NAMES[feature.kind]
    if feature.kind == "island" and feature.rank > 1:
        stray, likes = 600.0, "any"
    letters = f"{family}-{feature.rank}" if family in ("island", "water") else family
    if letters not in style.LETTERS:
        letters = family + "-2"
    width, height, _ = size_of(text, letters)
    if feature.turn:
        width, height = _turned(width, height, feature.turn)
    reach = stray * 1000 / window.scale
    x, y = window.place(*feature.place)
    if not _near(window.frame, x, y, reach):
        return None
    more: list[tuple[float, Box]] = []
    if spread:
        by_it = 1.5 if feature.kind in covers.LIMITS else 0.5
        more = [(cost + by_it, box) for cost, box in beside(spread, width, height)]
    if spread and feature.kind in covers.LIMITS:  # inside its own outline, if there is room
        reach = min(reach, spread.width / 2, spread.height / 2)
    if feature.kind == "loch":  # beside a loch too small for its name
        reach = max(reach, 6.0)
    spots = list(around(x, y, width, height, reach, max(1.6, reach / 9))) + more
    weight = 8.0 if feature.kind in ("island", "bay", "sound") else 2.5
    return Wish(text, letters, priced(spots, likes, weight, ground, clutter), feature.turn)


def _near(frame: Box, x: float, y: float, reach: float) -> bool:
    return (
        frame.left - reach < x < frame.right + reach
        and frame.top - reach < y < frame.bottom + reach
    )


def _turned(width: float, height: float, turn: float) -> tuple[float, float]:
    c, s = abs(np.cos(np.radians(turn))), abs(np.sin(np.radians(turn)))
    return float(width * c + height * s), float(width * s + height * c)
