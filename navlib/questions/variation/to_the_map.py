"""On to the land map: grid north from the longitude, and from an old rose to a grid bearing."""

import random
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

import numpy as np

from navlib.angles import signed_difference
from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Slip, Step
from navlib.kinds.angles import EastWest
from navlib.language import say, to_say
from navlib.latlon import format_latitude, format_longitude
from navlib.magnetism import convergence_shortcut, grid_magnetic_angle
from navlib.questions.bearings.on_the_map import TO_GRID
from navlib.questions.bearings.words import variation_words
from navlib.questions.variation.norths import (
    CONVERGENCES,
    DEGREE,
    GMA,
    HALF_DEGREE,
    MAGNETIC,
    TENTH,
)
from navlib.questions.variation.roses import CHANGE, MINUTE, ROSE, VARIATION, draw_rose

_WORDS = dict.fromkeys(variation_words(0))

# Convergence from the longitude -----------------------------------------------------------------

GRID_NORTH = Step(
    "convergence",
    TENTH,
    lambda lat, lon, meridian: convergence_shortcut(lat, lon, meridian),
    how="Take the degrees of longitude from the middle meridian of the grid, times the sine of the "
    "latitude. Grid north leans to the side on which you are; south of the equator, to the other.",
    line="{apart} from the middle meridian, times the sine of {lat_words}: {convergence}",
    check="On the middle meridian it is zero, at the pole it is the whole difference.",
    slips=(
        Slip(
            "sine-forgotten",
            lambda lon, meridian: signed_difference(lon, meridian),
            "Yours, {yours}, is the difference of longitude itself. Meridians lean together only "
            "as fast as the latitude makes them. Check: on the equator it must come to zero.",
        ),
        Slip(
            "cosine-for-sine",
            lambda lat, lon, meridian: signed_difference(lon, meridian) * np.cos(np.radians(lat)),
            "Yours, {yours}, comes out with the cosine. The cosine gives how far apart meridians "
            "are; how they lean is the sine. Check: on the equator it must come to zero.",
        ),
        Slip(
            "convergence-reversed",
            lambda lat, lon, meridian: -convergence_shortcut(lat, lon, meridian),
            "Yours, {yours}, leans to the wrong side. You are {place_side} of the middle meridian "
            "and {half} of the equator, so grid north lies {grid_side} of true. Check: sketch two "
            "meridians that meet at the nearer pole, and a grid line beside one of them.",
        ),
        Slip(
            "counted-from-greenwich",
            lambda lat, lon: convergence_shortcut(lat, lon, 0.0),
            "Yours, {yours}, counts the longitude from Greenwich. This grid is straight on its own "
            "middle meridian, {middle}. Check: on that meridian the answer must be zero.",
        ),
    ),
)


_NATIONAL, _NORTHERN, _SOUTHERN = (-2,), (-15, -9, -3, 3, 9, 15), (-171, 147, 171, 177)
"""Middle meridians: of the National Grid, and of UTM zones with shores to paddle along."""


def _draw_place(source: random.Random) -> Mapping[str, Any] | None:
    meridians = source.choice((_NATIONAL, _NORTHERN, _SOUTHERN))
    meridian = float(source.choice(meridians))
    if meridians == _NATIONAL:  # in its far west; a UTM zone reaches 3° to either side
        lat, lon = source.randrange(500, 610, 5) / 10, meridian - source.randrange(30, 56, 5) / 10
    else:
        lat = source.randrange(360, 625, 5) / 10
        lat = -source.randrange(360, 475, 5) / 10 if meridians == _SOUTHERN else lat
        lon = meridian + source.choice((-1, 1)) * source.randrange(20, 31, 5) / 10
    variation = source.choice((-1, 1)) * float(source.randint(5, 20))
    gma = grid_magnetic_angle(variation, convergence_shortcut(lat, lon, meridian))
    apart = signed_difference(lon, meridian)
    east = convergence_shortcut(lat, lon, meridian) > 0
    return {
        "lat": lat,
        "lon": lon,
        "meridian": meridian,
        "lat_words": f"{abs(lat):g}°",
        "place": f"{format_latitude(lat, places=0)} {format_longitude(lon, places=0)}",
        "middle": EastWest(1.0).write(meridian),
        "apart": say(
            "{degrees}° east" if apart > 0 else "{degrees}° west", {"degrees": f"{abs(apart):g}"}
        ),
        "place_side": say("east" if apart > 0 else "west"),
        "grid_side": say("east" if east else "west"),
        "half": say("north" if lat > 0 else "south"),
        "variation": variation,
        **variation_words(gma),
    }


# From an old rose to the land map ---------------------------------------------------------------

EXACT_GMA = replace(GMA.without("gma-reversed"), kind=MINUTE)


def _draw_light(source: random.Random) -> Mapping[str, Any] | None:
    rose = draw_rose(source, (12, 20))
    if rose is None:
        return None
    convergence = source.choice(CONVERGENCES)
    gma = grid_magnetic_angle(rose["rose"].variation(rose["now"]), convergence)
    magnetic = float(source.randrange(360))
    return {**rose, "convergence": convergence, "magnetic": magnetic, **variation_words(gma)}


_LIGHT = {**ROSE, "convergence": HALF_DEGREE, "magnetic": MAGNETIC, **_WORDS}

ROSE_TO_GRID = QuestionType(
    "variation.rose-to-grid",
    "From an old rose to the land map",
    "variation",
    3,
    Chain(_LIGHT, (CHANGE, VARIATION, EXACT_GMA, TO_GRID)),
    _draw_light,
    "With a hand compass you take a bearing of {magnetic} to a light. It is {now}; the chart’s rose "
    "reads {legend}. You have only the land map at hand to draw on, and its grid north lies "
    "{convergence} of true north.\n\n"
    "Bring the variation up to date, counting whole years. Then give the grid bearing to draw.",
    {"variation": "Variation in {now}", "grid": "Grid bearing"},
)

WORKED = replace(
    ROSE_TO_GRID,
    chain=Chain(
        _LIGHT,
        (
            replace(CHANGE, slips=()),
            VARIATION.without("hundred-minute-degree"),
            EXACT_GMA,
            replace(TO_GRID, line="{magnetic}, grid magnetic angle {gma}: {grid}"),
        ),
    ),
    text=to_say(
        "A hand compass gives {magnetic} to a light. It is {now}; the chart’s rose reads {legend}. "
        "On the land map, grid north lies {convergence} of true north. Which grid bearing is drawn?"
    ),
    prompts={"grid": "Grid bearing"},
)
"""The same task asked in one go, with slips that all show in its answer: for faulty workings."""


TYPES = (
    QuestionType(
        "variation.convergence",
        "Grid north from the longitude",
        "variation",
        3,
        Chain(
            {
                **dict.fromkeys(
                    ("lat", "lon", "meridian", "lat_words", "place", "middle", "apart")
                ),
                **dict.fromkeys(("place_side", "grid_side", "half")),
                "variation": DEGREE,
                **_WORDS,
            },
            (GRID_NORTH, replace(GMA, kind=TENTH)),
        ),
        _draw_place,
        "You are at {place}. The middle meridian of the map’s grid is {middle}. For this exercise "
        "take a variation of {variation}.\n\n"
        "Work the convergence of the grid, difference of longitude times sine of latitude, and "
        "from it the grid magnetic angle. Give both to a tenth of a degree.",
        {"convergence": "Convergence", "gma": "Grid magnetic angle"},
    ),
    ROSE_TO_GRID,
)
