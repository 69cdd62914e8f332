"""Latitude and longitude read at the border of the sea chart, and the slips of counting there."""

import math
import random
from collections.abc import Mapping
from typing import Any

from navlib import waters
from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Error, Slip, Step
from navlib.geodesy import geodesic_destination
from navlib.kinds.places import Position
from navlib.language import say
from navlib.latlon import LatLon
from navlib.questions.deck import DECK, laid_m_sigma
from navlib.questions.held import choose_sheet
from navlib.questions.position.views import draw_marked, reading_sigma_m

CHARTS = (("kessoray", 75_000), ("orrimer", 50_000))
"""The waters, each with the scale of its sea chart."""
DIVISION = {75_000: 0.2, 50_000: 0.1}
"""What one small division of the border is worth at these scales, in minutes."""
WORDS = ("times", "far", "taken", "worth", "Half", "upward", "downward", "sideways")


def minutes(angle: float) -> float:
    """Return the minutes of an angle in degrees, without its sign and its whole degrees."""
    return round(abs(angle) * 60, 6) % 60


def with_part(angle: float, part: float) -> float:
    """Return the angle with `part` of a minute beyond its whole minutes."""
    return math.copysign((math.floor(round(abs(angle) * 60, 6)) + part) / 60, angle)


def other_division(place: LatLon, scale: int, plotted: bool = False) -> LatLon | None:
    """Return where counting the divisions at the other chart's worth leads, read or `plotted`.

    Who takes 0.2' for 0.1' reads half as much, and goes twice as far to plot. None where so many
    divisions do not fit into a minute.
    """
    times = 0.5 if (DIVISION[scale] == 0.2) != plotted else 2.0
    parts = [minutes(angle) % 1 * times for angle in place]
    if max(parts) >= 1:
        return None
    return LatLon(*(with_part(a, p) for a, p in zip(place, parts, strict=True)))


def backwards(angle: float, up: bool) -> float:
    """Return the angle counted the wrong way from the whole minute below it, or above if `up`."""
    size = round(abs(angle) * 60, 6)
    whole = math.ceil(size) if up else math.floor(size)
    return math.copysign((2 * whole - size) / 60, angle)


def words(place: LatLon, scale: int) -> dict[str, str]:
    """Return the words that go with a place on a chart: which way numbers grow, what a tick is."""
    north, east = place.lat >= 0, place.lon >= 0
    coarse = DIVISION[scale] == 0.2
    return {
        "times": say("half" if coarse else "twice"),
        "far": say("twice" if coarse else "half"),
        "taken": "0.1" if coarse else "0.2",
        "worth": f"{DIVISION[scale]:.1f}",
        "Half": say("North" if north else "South"),
        "upward": say("upwards" if north else "downwards"),
        "downward": say("down" if north else "up"),
        "sideways": say("right" if east else "left"),
    }


def _off(bearing: float) -> Any:
    return lambda place, by: geodesic_destination(place.lat, place.lon, bearing, by)


READ = Step(
    "position",
    Position(places=1),
    lambda spot: spot,
    how="Go from the place level to the side and read the latitude; then straight up to the top "
    "and read the longitude. Count on from the last whole minute the way the numbers grow. One "
    "small division is {worth}′.",
    line="Latitude grows {upward}, longitude to the {sideways}; a small division is {worth}′: "
    "{position}",
    check="Between which two numbered minutes does it lie, at the side and along the top?",
    slips=(
        Slip(
            "wrong-division",
            lambda spot, scale: other_division(spot, scale),
            "Yours, {yours}, has the whole minutes right, but the part of a minute {times} what "
            "it is: one small division was taken for {taken}′. It is {worth}′ here. Check: count "
            "the divisions from one numbered minute to the next.",
        ),
        Slip(
            "longitude-backwards",
            lambda spot: LatLon(spot.lat, backwards(spot.lon, up=True)),
            "Yours, {yours}, counts the longitude to the right, from the minute on the left. West "
            "of Greenwich numbers grow to the left. Check: read the next two numbers along the "
            "edge.",
        ),
        Slip(
            "latitude-backwards",
            lambda spot: LatLon(backwards(spot.lat, up=True), spot.lon),
            "Yours, {yours}, counts the latitude {downward} the side, from the wrong minute. "
            "{Half} of the equator the numbers grow {upward}. Check: read the next two numbers up "
            "the side.",
            0.5,
        ),
        Slip(
            "east-for-west",
            lambda spot: LatLon(spot.lat, -spot.lon),
            "Yours, {yours}, is on the other side of Greenwich. The numbers along the top grow to "
            "the left, so they count west. Check: say the side aloud each time you read a "
            "longitude.",
        ),
        Slip(
            "north-for-south",
            lambda spot: LatLon(-spot.lat, spot.lon),
            "Yours, {yours}, is on the other side of the equator. {Half} of it the numbers up the "
            "side grow {upward}. Check: say the side aloud each time you read a latitude.",
        ),
    ),
    errors=(
        Error("dividers, to north or south", reading_sigma_m, _off(0.0), {DECK: laid_m_sigma}),
        Error("dividers, to east or west", reading_sigma_m, _off(90.0), {DECK: laid_m_sigma}),
    ),
)


def _draw(source: random.Random) -> Mapping[str, Any] | None:
    name, scale = choose_sheet(source, CHARTS)
    marked = draw_marked(source, name, scale, "sea chart")
    if marked is None:
        return None
    spot = LatLon(*waters.load(name).lat_lon(marked["place"]))
    return {**marked, "spot": spot, **words(spot, scale)}


TYPES = (
    QuestionType(
        "position.at-the-border",
        "Read at the chart’s border",
        "position",
        2,
        Chain(dict.fromkeys(("a", "place", "scale", "window", "spot", *WORDS)), (READ,)),
        _draw,
        "A is {a}.\n\nGive its latitude and longitude to a tenth of a minute.",
        {"position": "Latitude and longitude"},
        lambda givens: givens["window"],
    ),
)
