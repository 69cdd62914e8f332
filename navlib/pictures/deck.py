"""A drawn sheet as it lies on deck: folded into a case, turned, with what is at hand there."""

import math
import random
from collections.abc import Mapping, Sequence
from typing import Any

from navlib.questions.deck import DECK_TOOLS

CASES: Mapping[str, tuple[float, float]] = {
    "A3": (420.0, 297.0),
    "A4": (297.0, 210.0),
    "A5": (210.0, 148.0),
    "A6": (148.0, 105.0),
}
"""What deck cases hold, mm, long side first (ISO 216)."""
FOLDED = 0.8
"""Share of a sheet that a case may hold at most, so that there is something to fold."""
TURNED = (5.0, 14.0)
"""Degrees that a case lies turned against the learner, to either side."""
IN_SIGHT = 2
"""Panels that the case shows each way, so that a crease runs through the middle."""


def on_deck(
    drawn: Mapping[str, Any],
    seed: object,
    case: str = "",
    shown: tuple[float, float] | None = None,
    pencils: Sequence[str] = (),
) -> dict[str, Any]:
    """Return a drawn sheet, a face's picture, as it lies on deck.

    `case` is "A3" to "A6", unless given the largest that makes the sheet be folded; its long side lies
    across. `shown` is a spot of the sheet, mm, that the fold leaves in sight; `pencils` are at hand
    where something is to be drawn. The same `seed` gives the same fold, turn and waves. Raises
    ValueError for a case that there is not.
    """
    width, height = drawn["width_mm"], drawn["height_mm"]
    name = case or _case_for(width * height)
    if name not in CASES:
        raise ValueError(f"A deck case is {', '.join(CASES)}, not “{case}”.")
    sides = (width, height)
    folds = [math.ceil(IN_SIGHT * s / space) for s, space in zip(sides, CASES[name], strict=True)]
    spot = shown or (width / 2, height / 2)
    source = random.Random(f"deck/{seed}")
    deck = {
        "turn": round(source.choice((-1, 1)) * source.uniform(*TURNED), 1),
        "columns": folds[0],
        "rows": folds[1],
        "at": [
            _first(source, int(at / side * n), n)
            for at, side, n in zip(spot, sides, folds, strict=True)
        ],
        "seed": source.randrange(2**31),
    }
    return {**drawn, "tools": [*DECK_TOOLS, *pencils], "deck": deck}


def _first(source: random.Random, panel: int, panels: int) -> int:
    """Return the first panel in sight, chosen so that `panel` is."""
    least, most = max(panel - IN_SIGHT + 1, 0), max(panels - IN_SIGHT, 0)
    return source.randint(min(least, most), min(max(panel, 0), most))


def _case_for(area: float) -> str:
    """Return the largest case that holds no more than its share of a sheet of that area, mm²."""
    fitting = [name for name, (a, b) in CASES.items() if a * b <= FOLDED * area]
    return (fitting or list(CASES))[0 if fitting else -1]
