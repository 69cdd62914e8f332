"""The names on the land map: which features have one, where it may stand, how it is written."""

import numpy as np

from navlib.sheets import style
from navlib.sheets.ground import Ground
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
    "village": ("village", 350.0, "land", 3),
    "bridge": ("mark", 260.0, "any", 4),
}


def label(feature: Feature) -> str:
    """Return what is written beside a feature."""
    if feature.map_height is None or feature.kind == "loch":
        return feature.name
    return f"{feature.name}  {feature.map_height:g}".strip()


def wishes(water: Water, ground: Ground, clutter: np.ndarray) -> list[Wish]:
    """Return the names that this ground asks for, those to be set first at the front.

    `clutter` are points (mm) that a name had better not hide.
    """
    window = ground.window
    queue: list[tuple[int, int, Wish]] = []
    for n, feature in enumerate(water.features):
        text = label(feature)
        if not text:
            continue
        inside = (
            window.west <= feature.easting <= window.east
            and window.south <= feature.northing <= window.north
        )
        if feature.kind in _POINT_NAMES and inside:
            letters, likes, turn = _POINT_NAMES[feature.kind]
            width, height, _ = size_of(text, letters)
            spots = list(beside(sign_box(feature, window), width, height))
            queue.append((turn, n, Wish(text, letters, priced(spots, likes, 1.6, ground, clutter))))
        elif feature.kind in _AREA_NAMES:
            family, stray, likes, turn = _AREA_NAMES[feature.kind]
            if feature.kind == "island" and feature.rank > 1:
                stray, likes = 600.0, "any"
            letters = f"{family}-{feature.rank}" if family in ("island", "water") else family
            if letters not in style.LETTERS:
                letters = family + "-2"
            width, height, _ = size_of(text, letters)
            if feature.turn:
                width, height = _turned(width, height, feature.turn)
            reach = stray * 1000 / window.scale
            x, y = window.place(feature.easting, feature.northing)
            if not _near(window.frame, x, y, reach):
                continue
            spots = list(around(x, y, width, height, reach, max(1.6, reach / 9)))
            weight = 8.0 if feature.kind in ("island", "bay", "sound") else 2.5
            costed = priced(spots, likes, weight, ground, clutter)
            queue.append((turn, n, Wish(text, letters, costed, feature.turn)))
    return [wish for _, _, wish in sorted(queue, key=lambda q: q[:2])]


def _near(frame: Box, x: float, y: float, reach: float) -> bool:
    return (
        frame.left - reach < x < frame.right + reach
        and frame.top - reach < y < frame.bottom + reach
    )


def _turned(width: float, height: float, turn: float) -> tuple[float, float]:
    c, s = abs(np.cos(np.radians(turn))), abs(np.sin(np.radians(turn)))
    return float(width * c + height * s), float(width * s + height * c)
