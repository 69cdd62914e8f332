"""Demonstrations of the lesson on variation: an old rose, four norths, the leaning grid, blame.

Angles in degrees, east positive; where a name says minutes they are minutes of arc.
"""

import random
from functools import cache
from typing import Any

import traitlets

from navlib import waters
from navlib.angles import to_nearest
from navlib.grids import convergence
from navlib.magnetism import variation
from navlib.questions.bearings.compass import training_card
from navlib.questions.variation.causes import DEVIATION, HAND, ROCK, VARIATION
from navlib.widgets.demos.demonstration import Demonstration
from navlib.widgets.shown import front

HEADING_STEP = 5
"""Degrees from one heading to the next at which `ToBlame` has checks."""


def _front_of(*names: str) -> str:
    """Return the front-end module of the demonstration named last, with what it builds on."""
    shared = ("controls", "quantities", "timeline", "north_arrows")
    return front("kit.js", *(f"demos/{one}.js" for one in (*shared, *names)))


class OfNorths(Demonstration):
    """A figure of norths, or of what it costs to take one for another."""

    _css = front("kit.css", "sheet.css", "demos/demo.css", "demos/speed.css", "demos/variation.css")


class RoseAges(OfNorths):
    """A printed rose and the needle as the years go by.

    The rose says `printed` for `year` and moves by `yearly` minutes in one year; `now` is the year
    in which it is used. `slip` says what is done wrong, if anything.
    """

    words = "A figure to move: a compass rose with a date, and the needle as the years go by."
    _esm = _front_of("rose_drawn", "rose_ages")

    printed = traitlets.Float(-4.0, min=-15, max=15).tag(sync=True)
    year = traitlets.Int(2020, min=1990, max=2030).tag(sync=True)
    yearly = traitlets.Int(14, min=-15, max=15).tag(sync=True)
    now = traitlets.Int(2027, min=1990, max=2050).tag(sync=True)
    slip = traitlets.Enum(("none", "unchanged", "reversed", "hundredths"), "none").tag(sync=True)


class WrongWay(OfNorths):
    """One line counted from four norths, and where a boat goes whose sum has a slip.

    `bearing` is the true bearing of the mark. `waters` are names with the variation and the
    convergence at the middle of each, to half a degree, and stay as they were made.
    """

    words = "A figure to move: one line and four norths, and what a wrong sign does."
    _esm = _front_of("wrong_way")

    bearing = traitlets.Float(70.0).tag(sync=True)
    variation = traitlets.Float(-8.0, min=-30, max=30).tag(sync=True)
    deviation = traitlets.Float(4.0, min=-15, max=15).tag(sync=True)
    convergence = traitlets.Float(-4.5, min=-6, max=6).tag(sync=True)
    slip = traitlets.Enum(("none", "variation", "forgotten", "deviation"), "none").tag(sync=True)
    waters: traitlets.List[list[Any]] = traitlets.List().tag(sync=True)

    def __init__(self, **traits: Any) -> None:
        super().__init__(**{"waters": _of_waters(), **traits})


class GridLean(OfNorths):
    """Grid north against true north, east and west of a grid's middle meridian.

    `apart` is how far east of the middle meridian the place lies; `places` are dictionaries of
    `name` and these traits, and stay as they were made.
    """

    words = "A figure to move: meridians lean together, and the grid of a map stays upright."
    _esm = _front_of("grid_lean")

    lat = traitlets.Float(58.8, min=-75, max=75).tag(sync=True)
    apart = traitlets.Float(-5.25, min=-6, max=6).tag(sync=True)
    variation = traitlets.Float(-2.4, min=-25, max=25).tag(sync=True)
    places: traitlets.List[dict[str, Any]] = traitlets.List().tag(sync=True)

    def __init__(self, **traits: Any) -> None:
        super().__init__(**{"places": _on_grids(), **traits})


class ToBlame(OfNorths):
    """Two boats in two places check their compasses on one `heading`; something is to blame.

    `checks` holds for each cause, at each heading in steps of five degrees, how far the compasses
    are out: A and B in the first place, A and B in the second, whole degrees.
    """

    words = "A figure to move: two boats check their compasses in two places."
    _esm = _front_of("to_blame")

    cause = traitlets.Enum((VARIATION, DEVIATION, ROCK, HAND), VARIATION).tag(sync=True)
    heading = traitlets.Float(40.0).tag(sync=True)
    checks: "traitlets.Dict[str, list[list[int]]]" = traitlets.Dict().tag(sync=True)

    def __init__(self, **traits: Any) -> None:
        super().__init__(**{"checks": checks(), **traits})


class OffTheLine(OfNorths):
    """How far off its line a boat ends that is `degrees` out, after a `run` in nautical miles."""

    words = "A figure to move: how far off the line a forgotten degree leads."
    _esm = _front_of("off_the_line")

    degrees = traitlets.Float(5.0, min=1, max=30).tag(sync=True)
    run = traitlets.Float(6.0, min=0.5, max=8).tag(sync=True)


# What Python hands to the front end ---------------------------------------------------------------

_WATERS = ("kessoray", "orrimer")
_GRIDS = {
    "Kessoray, National Grid": ("kessoray", -2.0),
    "Kessoray, UTM zone 29": ("kessoray", -9.0),
    "Orrimer, UTM zone 2": ("orrimer", -171.0),
}
"""Grids with their middle meridians: each water's own, and another one of the first."""


@cache
def middle(water: str) -> dict[str, float]:
    """Return the place in the middle of a water, and its norths on the day of its sheets."""
    known = waters.load(water)
    west, south, east, north = known.bounds
    lat, lon = known.lat_lon(((west + east) / 2, (south + north) / 2))
    return {
        "lat": lat,
        "lon": lon,
        "variation": variation(lat, lon, known.settings.sheet_date),
        "convergence": convergence(lat, lon, known.settings.grid),
    }


def _of_waters() -> list[list[Any]]:
    """Return each water's name, variation and convergence, to half a degree."""
    halves = [
        [to_nearest(middle(water)[angle], 0.5) for angle in ("variation", "convergence")]
        for water in _WATERS
    ]
    return [[water.title(), *angles] for water, angles in zip(_WATERS, halves, strict=True)]


def _on_grids() -> list[dict[str, Any]]:
    """Return the waters on their grids, as `GridLean` has them."""
    return [
        {
            "name": name,
            "lat": round(to_nearest(middle(water)["lat"], 0.1), 1),
            "apart": to_nearest(middle(water)["lon"] - meridian, 0.25),
            "variation": round(to_nearest(middle(water)["variation"], 0.1), 1),
        }
        for name, (water, meridian) in _GRIDS.items()
    ]


@cache
def checks() -> dict[str, list[list[int]]]:
    """Return how far two compasses are out in two places, as `ToBlame` has it: the same each time.

    A variation too old and a rock shift the needle by a fixed angle, iron by the training boat's
    card; a hand adds a degree to either side, or two where nothing else is wrong.
    """
    source = random.Random("two boats in two places")
    card, shift = training_card(1), 7
    found: dict[str, list[list[int]]] = {}
    for cause in (VARIATION, DEVIATION, ROCK, HAND):
        found[cause] = []
        for heading in range(0, 360, HEADING_STEP):
            iron = int(to_nearest(card.deviation(heading), 1.0))
            pulled = {
                VARIATION: [shift] * 4,
                DEVIATION: [iron, 0, iron, 0],
                ROCK: [-shift, -shift, 0, 0],
                HAND: [0] * 4,
            }[cause]
            most = 2 if cause == HAND else 1
            found[cause].append([one + source.randint(-most, most) for one in pulled])
    return found
