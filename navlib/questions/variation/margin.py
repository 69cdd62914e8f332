"""Read off the land map's margin: which of its three angles, and what becomes of it."""

import random
from collections.abc import Mapping
from functools import lru_cache
from typing import Any

from navlib import waters
from navlib.angles import signed, to_nearest
from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Slip, Step
from navlib.grids import convergence
from navlib.language import say
from navlib.language.days import month_in_year
from navlib.magnetism import Rose, annual_change, grid_magnetic_angle, variation
from navlib.questions.bearings.words import variation_words
from navlib.questions.held import choose_scale, choose_water, view_of
from navlib.questions.picture import SheetWindow
from navlib.questions.variation.norths import TENTH
from navlib.questions.variation.roses import ROSE, change_since, rose_words
from navlib.waters import Place

MAP_MM = (150.0, 110.0)
"""The frame of the map shown."""


def _in_tenths(angle: float) -> str:
    """Return an angle as the margin prints it."""
    return f"{abs(angle):.1f}° {'E' if angle > 0 else 'W'}"


MARGIN = Step(
    "gma",
    TENTH,
    grid_magnetic_angle,
    how="Below the map, beside the arrows, find how far magnetic north lies from grid north.",
    line="The margin says {gma_printed} of grid: {gma}",
    check="The margin gives three angles. Which two arrows does yours lie between?",
    slips=(
        Slip(
            "variation-read",
            lambda variation: variation,
            "Yours, {yours}, is magnetic north from true north, the variation: for a chart. You "
            "measure from the grid here. Check: read which two norths the figure lies between.",
        ),
        Slip(
            "convergence-read",
            lambda convergence: convergence,
            "Yours, {yours}, is grid north from true north. There is no needle in it. Check: look "
            "for the line on magnetic north, and in it for the words “of grid”.",
        ),
        Slip(
            "gma-reversed",
            lambda variation, convergence: grid_magnetic_angle(convergence, variation),
            "Yours, {yours}, has the right size and the wrong letter: magnetic north lies {side} of "
            "grid north. Check: look at the arrows, which of the two leans to the left?",
        ),
    ),
    read_off=True,
)

LATER = Step(
    "later",
    TENTH,
    lambda gma, rose, now: signed(gma + change_since(rose, now)),
    how="Magnetic north moves by the yearly change in the margin; grid north stays.",
    line="{years} years, {yearly} each, is {total}': from {gma} to {later}",
    check="Which way does the needle move, and which way does your angle point?",
    slips=(
        Slip(
            "change-wrong-way",
            lambda gma, rose, now: signed(gma - change_since(rose, now)),
            "Yours, {yours}, has the change the wrong way on. The needle moves {way} each year, and "
            "it lies {side} of grid north. Check: same side, the angle grows; other side, it shrinks.",
        ),
        Slip(
            "change-forgotten",
            lambda gma: gma,
            "Yours, {yours}, is the figure of {year}. In {years} years the needle moves {total}'. "
            "Check: a map lasts longer than its margin; how old is yours?",
        ),
        Slip(
            "minutes-as-decimals",
            lambda gma, rose, now: signed(gma + change_since(rose, now) * 60 / 100),
            "Yours, {yours}, comes out if {total} minutes are written as hundredths of a degree. A "
            "degree has 60 minutes. Check: divide minutes by 60 before you add them to degrees.",
        ),
        Slip(
            "change-as-degrees",
            lambda gma, now, year: gma + (now - int(year)),
            "Yours, {yours}, moves a degree a year. The margin says {yearly}, minutes. Check: how "
            "many years does one degree take?",
            0.3,
        ),
    ),
)


@lru_cache(maxsize=64)
def _norths(name: str, centre: Place) -> tuple[float, Rose]:
    """Return the convergence in the middle of a map, and its variation as a rose would give it."""
    water = waters.load(name)
    lat, lon, when = *water.lat_lon(centre), water.settings.sheet_date
    yearly = to_nearest(annual_change(lat, lon, when), 1.0)
    rose = Rose(variation(lat, lon, when), when.year, yearly)
    return convergence(lat, lon, water.settings.grid), rose


def _draw_margin(source: random.Random) -> Mapping[str, Any]:
    name, scale = choose_water(source, ("kessoray",)), choose_scale(source, (25_000, 50_000))
    water = waters.load(name)
    west, south, east, north = water.bounds
    half = [size * scale / 2000 for size in MAP_MM]
    centre = (
        round(source.uniform(west + half[0], east - half[0]), -2),
        round(source.uniform(south + half[1], north - half[1]), -2),
    )
    if view := view_of(source):
        centre = view.centre
    when = water.settings.sheet_date
    to_grid, rose = _norths(name, centre)
    gma = grid_magnetic_angle(rose.printed, to_grid)
    alt = say("Land map, one to {scale}, with the three norths in its margin.", {"scale": scale})
    return {
        **rose_words(rose, when.year + source.randint(6, 14)),
        "variation": rose.printed,
        "convergence": to_grid,
        "gma_printed": _in_tenths(gma),
        "month": month_in_year(when),
        "window": SheetWindow(name, scale, centre, MAP_MM, (), alt, instruments=()),
        **variation_words(gma),
    }


TYPES = (
    QuestionType(
        "variation.map-margin",
        "The margin of the land map",
        "variation",
        2,
        Chain(
            {
                **ROSE,
                **dict.fromkeys(variation_words(0)),
                **dict.fromkeys(("gma_printed", "month", "window")),
                "variation": TENTH,
                "convergence": TENTH,
            },
            (MARGIN, LATER),
        ),
        _draw_margin,
        "This map will hang in the boat shed for years.\n\n"
        "Read from its margin the grid magnetic angle of {month}, from grid to magnetic north. What "
        "will it be in November {now}? Give both to a tenth of a degree.",
        {"gma": "Grid magnetic angle, {month}", "later": "In November {now}"},
        lambda givens: givens["window"],
    ),
)
