"""Drawn on the sheet from the compass: a course and a position line."""

import math
import random
from collections.abc import Mapping
from functools import cache
from typing import Any

from navlib import waters
from navlib.angles import reciprocal, wrap
from navlib.bearings import true_from_grid
from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Step
from navlib.distance import ground_m
from navlib.grids import convergence
from navlib.kinds.angles import Bearing, EastWest
from navlib.latlon import LatLon
from navlib.questions.bearings.convert import draw_variation
from navlib.questions.bearings.legs import AFLOAT
from navlib.questions.bearings.words import variation_words
from navlib.questions.held import choose, choose_scale, choose_water
from navlib.questions.picture import BEARING_TOOLS, SheetWindow
from navlib.questions.plotted import (
    DEEP_M,
    DRAWN,
    LINE_MM,
    chart_drawn,
    laid_slips,
    line_from,
    on_chart,
    turn_step,
    window_about,
)
from navlib.questions.position.views import draw_feature, draw_window
from navlib.waters import Feature, Place, Water

ASHORE_MM = 4.0
"""Paper of a course that may lie on land: the shore that it leaves from."""
EYE_M = 1.0
"""Height of the eye of someone who sits in a kayak, metres."""
MAGNETIC, DEGREE = Bearing("M"), EastWest(1.0)
TURNED = dict.fromkeys(variation_words(0))
"""What a question is given to say which way a variation turns."""
BY_VARIATION = turn_step("variation", "variation", "variation", "true")
BY_GMA = turn_step("gma", "grid magnetic angle", "grid-magnetic", "grid")


def _towards(place: Place, degrees: float, metres: float) -> Place:
    t = math.radians(degrees)
    return place[0] + metres * math.sin(t), place[1] + metres * math.cos(t)


# A course line on the chart -----------------------------------------------------------------------

TRUE = Step(
    "true",
    Bearing("T"),
    lambda magnetic, turn: wrap(magnetic + turn),
    how="Do the sum.",
    line="{magnetic}: {true}",
    check="Which way, roughly: towards which edge of the sheet?",
)
COURSE = Step(
    "line",
    on_chart("line"),
    lambda true, start, scale: line_from(start, true, scale),
    how="Lay {true} off at A with the protractor, or with the rule from the rose, and draw the line "
    "from A.",
    line="From A along {true}",
    check="Which edge of the sheet does the line run to? Does that fit the figure?",
    slips=laid_slips(
        lambda true, start, scale: line_from(start, true, scale), "true", "start", "scale"
    ),
    errors=DRAWN,
)


@cache
def _afloat(water: Water) -> tuple[Feature, ...]:
    return water.of_kind(*AFLOAT)


def _draw_course(source: random.Random) -> Mapping[str, Any] | None:
    water, scale = chart_drawn(source)
    start = choose(source, _afloat(water), lambda feature: [feature.place])
    variation, magnetic = draw_variation(source), float(source.randrange(360))
    end = _towards(start.place, wrap(magnetic + variation), ground_m(LINE_MM, scale))
    shown = _shown(source, water, scale, start.place, end, start.name, "sea chart")
    if shown is None or water.land_crossed(start.place, end) > ground_m(ASHORE_MM, scale):
        return None
    return {
        "a": start.name,
        "start": LatLon(*water.lat_lon(start.place)),
        "magnetic": magnetic,
        "variation": variation,
        "scale": scale,
        "window": shown,
        **variation_words(variation),
    }


def _shown(
    source: random.Random, water: Water, scale: int, start: Place, end: Place, name: str, sheet: Any
) -> SheetWindow | None:
    """Return a window that holds a line to be drawn, only its named place marked A."""
    centre = draw_window(source, water, scale, [start, end], sheet)
    if centre is None:
        return None
    return window_about(water, scale, centre, (("A", name, start),), sheet, BEARING_TOOLS[sheet])


# A position line on the land map --------------------------------------------------------------------

GRID = Step(
    "grid",
    Bearing("G"),
    lambda magnetic, turn: wrap(magnetic + turn),
    how="Do the sum.",
    line="{magnetic}: {grid}",
    check="Which way, roughly: towards which edge of the sheet?",
)


def _back_from(grid: float, start: LatLon, lean: float, scale: int) -> Any:
    """Return the line that one looks along at A on a grid bearing, drawn from A back."""
    return line_from(start, true_from_grid(reciprocal(grid), lean), scale)


LOOKED_ALONG = Step(
    "line",
    on_chart("line"),
    _back_from,
    how="You look from the boat to A, so the boat lies from A the other way: 180 round. Lay that off at "
    "A against the grid lines, and draw the line from A.",
    line="To A along {grid}, so from A the opposite way",
    check="Stand in thought on your line and look at A: is that the bearing you took?",
    slips=laid_slips(_back_from, "grid", "start", "lean", "scale"),
    errors=DRAWN,
)


def _draw_looked(source: random.Random) -> Mapping[str, Any] | None:
    water = waters.load(choose_water(source, waters.shipped()))
    scale = choose_scale(source, water.settings.scales.land_map)
    mark = draw_feature(source, water)
    gma, magnetic = draw_variation(source), float(source.randrange(360))
    end = _towards(mark.place, reciprocal(wrap(magnetic + gma)), ground_m(LINE_MM, scale))
    afloat = _towards(mark.place, reciprocal(wrap(magnetic + gma)), ground_m(LINE_MM / 2, scale))
    shown = _shown(source, water, scale, mark.place, end, mark.name, "land map")
    if shown is None or water.height(afloat) > DEEP_M:
        return None
    if not water.sees(afloat, mark, eye_height=EYE_M):
        return None
    start = LatLon(*water.lat_lon(mark.place))
    return {
        "a": mark.name,
        "start": start,
        "lean": float(convergence(*start, water.settings.grid)),
        "magnetic": magnetic,
        "gma": gma,
        "scale": scale,
        "window": shown,
        **variation_words(gma),
    }


TYPES = (
    QuestionType(
        "bearings.plot-course",
        "Draw the course",
        "bearings",
        2,
        Chain(
            {
                "magnetic": MAGNETIC,
                "variation": DEGREE,
                **dict.fromkeys(("a", "start", "scale", "window")),
                **TURNED,
            },
            (BY_VARIATION, TRUE, COURSE),
        ),
        _draw_course,
        "You leave A, {a}, and your compass holds {magnetic}; it is free of deviation. For this "
        "exercise take a variation of {variation}.\n\nDraw your track from A with the pencil, 6 cm "
        "or more.",
        {"line": "Your line"},
        lambda givens: givens["window"],
    ),
    QuestionType(
        "bearings.plot-position-line",
        "Somewhere on this line",
        "bearings",
        2,
        Chain(
            {
                "magnetic": MAGNETIC,
                "gma": DEGREE,
                **dict.fromkeys(("a", "start", "lean", "scale", "window")),
                **TURNED,
            },
            (BY_GMA, GRID, LOOKED_ALONG),
        ),
        _draw_looked,
        "From your boat you see A, {a}, at {magnetic} by hand compass. For this exercise take a grid "
        "magnetic angle of {gma}.\n\nDraw the line that you are on, from A towards you, 6 cm or "
        "more.",
        {"line": "Your line"},
        lambda givens: givens["window"],
    ),
)
