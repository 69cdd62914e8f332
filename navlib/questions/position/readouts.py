"""The same rock three ways: which of four readouts does not belong to the place on the map."""

import random
from collections.abc import Callable, Mapping
from typing import Any

from navlib import gridref, latlon, mgrs, waters
from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Slip, Step
from navlib.gridref import GridPlace
from navlib.grids import to_grid
from navlib.kinds.choices import Choice
from navlib.latlon import LatLon
from navlib.questions.held import choose_scale, choose_water
from navlib.questions.position import squares
from navlib.questions.position.formats import minutes_for_decimals
from navlib.questions.position.views import draw_marked

NATIONAL, UTM, MINUTES, DEGREES = "abcd"
OPTIONS = {NATIONAL: "A", UTM: "B", MINUTES: "C", DEGREES: "D"}
ZONE = mgrs.named("29V")
"""The UTM zone of the northern training water, ticked in violet at the edge of its land map."""


def _doubted(option: str) -> Callable[[str], str | None]:
    return lambda wrong: option if wrong != option else None


STRAY = Step(
    "stray",
    Choice(OPTIONS),
    lambda wrong: wrong,
    how="Try each on its own scale at the map’s edge: the map’s grid lines, the violet ticks of "
    "the UTM grid, the black ticks of latitude and longitude. Turn decimal degrees into minutes "
    "first.",
    line="True of this place: {truth}. The one that differs: {stray}",
    check="Which scale at the edge belongs to which of the four?",
    slips=(
        Slip(
            "map-grid-doubted",
            _doubted(NATIONAL),
            "Yours, {yours}, fits the map’s own grid lines: they give {national}. Check: left "
            "line, then lower line, then the tenths; letters from the corner of the map.",
        ),
        Slip(
            "other-grid-doubted",
            _doubted(UTM),
            "Yours, {yours}, looks wrong beside the first, but it is on another grid, with lines "
            "of its own: the violet ticks. Two grids never give one place the same figures. "
            "Check: read it on the violet ticks.",
            1.5,
        ),
        Slip(
            "minutes-doubted",
            _doubted(MINUTES),
            "Yours, {yours}, fits the black ticks of latitude and longitude at the edge. Check: "
            "latitude up the side, longitude along the top, growing to the left.",
        ),
        Slip(
            "decimals-doubted",
            _doubted(DEGREES),
            "Yours, {yours}, looks wrong beside the minutes, but it is the same angle: what "
            "stands behind the point, times 60, is minutes. Check: do that sum for the latitude.",
            1.5,
        ),
    ),
)


def _written(national: GridPlace, utm: GridPlace, at: LatLon, decimal: LatLon) -> tuple[str, ...]:
    return (
        gridref.format(*national),
        f"{ZONE.name} {gridref.format(*utm, letters=ZONE)}",
        latlon.format(*at, "minutes", 2),
        latlon.format(*decimal, "degrees", 5),
    )


def _minute_off(source: random.Random, at: LatLon) -> LatLon:
    lat, lon = source.choice(((1, 0), (-1, 0), (0, 1), (0, -1)))
    return LatLon(at.lat + lat / 60, at.lon + lon / 60)


def _square_off(source: random.Random, place: GridPlace) -> GridPlace:
    return squares.next_line(place, *source.choice(((1, 0), (-1, 0), (0, 1), (0, -1))))


def _draw(source: random.Random) -> Mapping[str, Any] | None:
    marked = draw_marked(
        source, choose_water(source, ("kessoray",)), choose_scale(source, (25_000,))
    )
    if marked is None:
        return None
    national = GridPlace(*marked["place"])
    at = LatLon(*waters.load("kessoray").lat_lon(national))
    utm = GridPlace(*(float(m) for m in to_grid(*at, ZONE.grid)))
    true = _written(national, utm, at, at)
    decimal = minutes_for_decimals(at)
    if decimal is None:
        return None
    false = _written(
        _square_off(source, national), _square_off(source, utm), _minute_off(source, at), decimal
    )
    stray = source.choice(list(OPTIONS))
    shown = {o: (false if o == stray else true)[i] for i, o in enumerate(OPTIONS)}
    return {
        "a": marked["a"],
        "window": marked["window"],
        "wrong": stray,
        "national": true[0],
        "shown": "\n\n".join(f"{OPTIONS[o]}: {text}" for o, text in shown.items()),
        "truth": "; ".join(true),
    }


TYPES = (
    QuestionType(
        "position.three-ways",
        "The same place, three ways",
        "position",
        3,
        Chain(dict.fromkeys(("a", "window", "wrong", "national", "shown", "truth")), (STRAY,)),
        _draw,
        "A on the map is {a}. Four receivers stand there, each set to another way of writing. One "
        "of them is not there, or was copied down wrongly:\n\n{shown}\n\nWhich one?",
        {"stray": "The one that is wrong"},
        lambda givens: givens["window"],
    ),
)
