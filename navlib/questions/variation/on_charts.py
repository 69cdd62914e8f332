"""Read off the chart: the roses of a sea chart, and a leg on to the compass."""

import math
import random
from collections.abc import Mapping
from dataclasses import replace
from functools import cache, lru_cache
from itertools import permutations
from typing import Any

from navlib import waters
from navlib.angles import signed
from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Error, Slip, Step
from navlib.geodesy import rhumb
from navlib.kinds.angles import Bearing, EastWest
from navlib.language import say, to_say
from navlib.magnetism import Rose
from navlib.questions.bearings.convert import TRUE_TO_MAGNETIC
from navlib.questions.bearings.legs import AFLOAT, LEG_MM, MARGIN_MM, SHORE_M
from navlib.questions.bearings.on_the_map import MEASURED
from navlib.questions.bearings.words import variation_words
from navlib.questions.held import choose, choose_sheet, view_of
from navlib.questions.picture import BEARING_TOOLS, SheetWindow, Spot, with_places
from navlib.questions.variation.roses import (
    CHANGE,
    MINUTE,
    ROSE,
    VARIATION,
    change_since,
    rose_words,
)
from navlib.waters import Feature, Place, Water

CHART_MM = (150.0, 120.0)
"""The frame of the charts shown."""

CHARTS: Mapping[str, tuple[int, tuple[Place, ...]]] = {
    "kessoray": (
        75_000,
        (
            (92_000.0, 1_007_000.0),
            (93_000.0, 996_000.0),
            (96_000.0, 996_000.0),
            (102_000.0, 997_000.0),
            (102_000.0, 1_001_000.0),
            (103_000.0, 1_006_000.0),
        ),
    ),
    "orrimer": (
        50_000,
        (
            (397_500.0, 5_597_500.0),
            (397_500.0, 5_599_500.0),
            (398_000.0, 5_602_000.0),
            (402_000.0, 5_597_500.0),
            (402_500.0, 5_598_500.0),
        ),
    ),
}
"""Scale and centres of extracts of the sea chart on which a rose finds room."""
_SHEETS = tuple((name, scale) for name, (scale, _) in CHARTS.items())


def _year(water: Water) -> int:
    return water.settings.sheet_date.year


def _chart(name: str, centre: Place, spots: tuple[Spot, ...], alt: str) -> SheetWindow:
    tools = BEARING_TOOLS["sea chart"] if spots else ()
    return SheetWindow(
        name, CHARTS[name][0], centre, CHART_MM, spots, alt, instruments=tools, sheet="sea chart"
    )


# The rose of the chart --------------------------------------------------------------------------

REAL, TRAINING = to_say("the chart’s own rose"), to_say("the training rose")

READ = Step(
    "printed_rose",
    MINUTE,
    lambda rose: rose.printed,
    how="Find {called}, on the chart or at the sheet’s upper right corner, and read its figure with "
    "the letter.",
    line="By {called}: {legend}",
    check="Which of the two roses is asked for?",
    slips=(
        Slip(
            "other-rose",
            lambda other: other.printed,
            "Yours, {yours}, stands in the other rose. The question says {called}. Check: read the "
            "words in the middle of a rose before you use it.",
        ),
        Slip(
            "side-misread",
            lambda rose: -rose.printed,
            "Yours, {yours}, has the wrong letter. The rose says {printed}. Check: in the rose, does "
            "magnetic north lean to the left of true, west, or to the right, east?",
        ),
    ),
    errors=(
        # The figure in a rose is that of its own place on the sheet; the corner has the middle's.
        Error("rose away from the middle of the sheet", lambda called: 1.5 / 60 * (called == REAL)),
    ),
)

TO_DATE = replace(
    VARIATION.without("hundred-minute-degree"),
    work=lambda printed_rose, change: signed(printed_rose + change),
    slips=(
        Slip(
            "change-wrong-way",
            lambda printed_rose, change: signed(printed_rose - change),
            VARIATION.slips[0].says,
        ),
        Slip(
            "change-forgotten",
            lambda printed_rose: printed_rose,
            VARIATION.slips[1].says,
        ),
    ),
)

FROM_SHEET = Slip(
    "years-from-sheet",
    lambda rose, now, sheet_year: (
        change_since(replace(rose, year=sheet_year), now) if rose.year != sheet_year else None
    ),
    "Yours, {yours}, counts the years from {sheet_year}, the year of the other rose. This one has a "
    "year of its own, {year}. Check: take the year and the change from the rose you use.",
)


@lru_cache(maxsize=64)
def _rose_at(name: str, centre: Place) -> Rose:
    return waters.load(name).rose(centre)


def _draw_rose(source: random.Random) -> Mapping[str, Any]:
    name, _ = choose_sheet(source, _SHEETS)
    water, centre = waters.load(name), source.choice(CHARTS[name][1])
    if view := view_of(source):
        centre = view.centre
    roses = {REAL: _rose_at(name, centre), TRAINING: water.settings.training_roses[0]}
    called = source.choice((TRAINING, TRAINING, REAL))
    other = roses[REAL if called == TRAINING else TRAINING]
    words = rose_words(roses[called], source.randint(2028, 2034))
    alt = say("Sea chart, one to {scale}, with a compass rose in it.", {"scale": CHARTS[name][0]})
    window = _chart(name, centre, (), alt)
    year = _year(water)
    return {**words, "called": called, "other": other, "sheet_year": year, "window": window}


# A leg on the chart, and the compass ------------------------------------------------------------

ON_THE_CHART = replace(
    MEASURED,
    name="true",
    kind=Bearing("T"),
    how="Draw the line from {a} to {b}, lay the protractor’s centre on it and its north along a "
    "meridian, and read where the line crosses the ring.",
    line="The line from {a} to {b} runs {true}",
)

FROM_ROSE = Step(
    "variation",
    EastWest(0.5),
    lambda rose, now: rose.variation(now),
    how="Read {called}, on the chart or at its upper right corner, and bring it to {now}.",
    line="By {called}: {legend}; in {now} that is {variation}",
    check="Which rose, which year, which letter?",
    slips=(
        Slip(
            "other-rose",
            lambda rose, other, now: (
                other.variation(now)
                if abs(other.variation(now) - rose.variation(now)) > 3
                else None
            ),
            "Yours, {yours}, comes out with the variation of the other rose. The question "
            "says {called}. Check: read the words in the middle of a rose before you use it.",
        ),
    ),
    errors=(Error("read off the rose and brought to date", 0.25),),
    read_off=True,
)


@cache
def _all_legs(name: str) -> tuple[tuple[Place, Feature, Feature], ...]:
    """Return all pairs of places to paddle between whose line measures well, with one of them."""
    scale, water = CHARTS[name][0], waters.load(name)
    near, far = (mm / 1000 * scale for mm in LEG_MM)
    return tuple(
        (a.place, a, b)
        for a, b in permutations(water.of_kind(*AFLOAT), 2)
        if near <= math.dist(a.place, b.place) <= far
        and water.land_crossed(a.place, b.place) <= SHORE_M
    )


@cache
def _legs(name: str) -> tuple[tuple[Place, Feature, Feature], ...]:
    """Return pairs of places to paddle between, with the centre of an extract that holds both."""
    scale, centres = CHARTS[name]
    water = waters.load(name)
    places = water.of_kind(*AFLOAT)
    half = [(size / 2 - MARGIN_MM) / 1000 * scale for size in CHART_MM]
    near, far = (mm / 1000 * scale for mm in LEG_MM)
    return tuple(
        (centre, a, b)
        for centre in centres
        for a, b in permutations(places, 2)
        if all(abs(p.place[i] - centre[i]) <= half[i] for p in (a, b) for i in (0, 1))
        and near <= math.dist(a.place, b.place) <= far
        and water.land_crossed(a.place, b.place) <= SHORE_M
    )


@lru_cache(maxsize=4096)
def _bearing(name: str, a: Place, b: Place) -> float:
    water = waters.load(name)
    return rhumb(*water.lat_lon(a), *water.lat_lon(b)).bearing


def _draw_leg(source: random.Random) -> Mapping[str, Any]:
    name, _ = choose_sheet(source, _SHEETS)
    water = waters.load(name)
    view = view_of(source)
    legs = _all_legs(name) if view else _legs(name)
    centre, a, b = choose(source, legs, lambda leg: [leg[1].place, leg[2].place])
    if view:
        centre = view.centre
    real, training = _rose_at(name, centre), water.settings.training_roses[0]
    northern = name == "kessoray"
    rose, other = (training, real) if northern else (real, training)
    now = source.randint(2026, 2029)
    alt = with_places("sea chart", CHARTS[name][0], [("A", a.name), ("B", b.name)])
    spots = (Spot(*a.place, "A"), Spot(*b.place, "B"))
    return {
        **rose_words(rose, now),
        "a": a.name,
        "b": b.name,
        "line": _bearing(name, a.place, b.place),
        "length_mm": math.dist(a.place, b.place) * 1000 / CHARTS[name][0],
        "called": TRAINING if northern else REAL,
        "other": other,
        "window": _chart(name, centre, spots, alt),
        **variation_words(rose.variation(now)),
    }


_ON_CHART = {**ROSE, **dict.fromkeys(("called", "other", "window"))}


TYPES = (
    QuestionType(
        "variation.read-the-rose",
        "Reading the rose",
        "variation",
        2,
        Chain(
            {**_ON_CHART, "sheet_year": None},
            (
                READ,
                replace(CHANGE.without("one-year-only"), slips=(CHANGE.slips[0], FROM_SHEET)),
                TO_DATE,
            ),
        ),
        _draw_rose,
        "The figures of two roses stand at the upper right corner of this chart: its own, and a "
        "training rose. Use {called}.\n\n"
        "Which variation does it give, and what does that come to in {now}? Count whole years; give "
        "degrees and minutes.",
        {"printed_rose": "As printed", "variation": "In {now}"},
        lambda givens: givens["window"],
    ),
    QuestionType(
        "variation.chart-to-compass",
        "From the chart to the compass",
        "variation",
        3,
        Chain(
            {
                **_ON_CHART,
                **dict.fromkeys(("a", "b", "line", "length_mm")),
                **dict.fromkeys(variation_words(0)),
            },
            (ON_THE_CHART, FROM_ROSE, TRUE_TO_MAGNETIC.without("ten-out")),
        ),
        _draw_leg,
        "You mean to paddle from A, {a}, straight to B, {b}, in {now}. Use {called}."
        "\n\nMeasure the true bearing, then give what your hand compass will read.",
        {"true": "True bearing from A to B", "magnetic": "Magnetic bearing"},
        lambda givens: givens["window"],
    ),
)
