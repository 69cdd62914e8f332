"""What a minute is worth: along a parallel, and at another height of a Mercator chart."""

import math
import random
from collections.abc import Mapping
from typing import Any

from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Error, Slip, Step
from navlib.distance import mercator_scale_by_cosine
from navlib.kinds.numbers import Number
from navlib.kinds.quantities import Distance
from navlib.language import say
from navlib.latlon import format_latitude, format_longitude
from navlib.questions.distance.steps import MILES
from navlib.sailings import departure_nm, difference_of_longitude
from navlib.units import NM

# Along a parallel -------------------------------------------------------------------------------

MINUTES = Number("minutes", 1.0)


def _minutes(lon1: float, lon2: float) -> float:
    return abs(difference_of_longitude(lon1, lon2))


def _crosses_degree(lon1: float, lon2: float) -> bool:
    return int(abs(lon1)) != int(abs(lon2))


BETWEEN = Step(
    "between",
    MINUTES,
    _minutes,
    how="Take the longitudes from each other; a degree has 60 minutes.",
    line="From {from_lon} to {to_lon}: {between}",
    check="Count up to the full degree first, then the rest.",
    slips=(
        Slip(
            "hundred-minute-degree",
            lambda lon1, lon2: _minutes(lon1, lon2) + 40 if _crosses_degree(lon1, lon2) else None,
            "Yours, {yours}, comes from longitudes taken from each other like plain numbers, with 100 "
            "minutes to the degree. A degree has 60. Check: count up to the full degree first.",
        ),
    ),
)

ALONG = Step(
    "departure",
    MILES,
    lambda between, lat: departure_nm(between, lat) * NM,
    how="A minute of longitude shrinks as the meridians close up: it is a mile times the cosine of "
    "the latitude.",
    line="{between} × cos {lat_number}: {departure}",
    check="At 60° a minute of longitude is half a mile, at the equator a whole one.",
    slips=(
        Slip(
            "longitude-for-miles",
            lambda between: between * NM,
            "Yours, {yours}, takes minutes of longitude for miles. Only minutes of LATITUDE are miles; "
            "at {lat_words} the meridians are closer together. Check: which edge of the chart do you "
            "measure on?",
        ),
        Slip(
            "sine-for-cosine",
            lambda between, lat: between * abs(math.sin(math.radians(lat))) * NM,
            "Yours, {yours}, takes the sine of the latitude. That would make a minute of longitude "
            "nothing at the equator and a mile at the pole. Check: at the pole all meridians meet.",
        ),
        Slip(
            "divided-by-cosine",
            lambda between, lat: between / math.cos(math.radians(lat)) * NM,
            "Yours, {yours}, divides by the cosine, so a minute of longitude would be more than a "
            "mile. Away from the equator it is always less. Check: {between} must come to "
            "fewer miles than that.",
        ),
    ),
)


def _draw_parallel(source: random.Random) -> Mapping[str, Any]:
    lat = source.choice((58, 59, 57, 56, 55, -39, -40, 50, 52))
    degrees = (4, 5, 6, 7, 8) if lat > 0 else (168, 170, 172, 174)
    lon1 = source.choice(degrees) * 60 - source.randint(1, 25)
    lon2 = lon1 + source.randint(8, 45)
    sign = -1 if lat > 0 else source.choice((-1, 1))
    return {
        "lat": float(lat),
        "lat_number": f"{abs(lat)}°",
        "lat_words": format_latitude(lat, places=0),
        "lon1": sign * lon1 / 60,
        "lon2": sign * lon2 / 60,
        "from_lon": format_longitude(sign * lon1 / 60, places=0),
        "to_lon": format_longitude(sign * lon2 / 60, places=0),
    }


# At another height of the chart -----------------------------------------------------------------

READING = Distance("NM", 0.5, unit_asked=True)


def _level(read: float, leg_lat: float, read_lat: float) -> float:
    """Return the true distance of a span that covers `read` miles of the scale at `read_lat`."""
    return mercator_scale_by_cosine(read, read_lat, leg_lat)


LEVEL = Step(
    "distance",
    READING,
    _level,
    how="A Mercator chart is stretched more the nearer the pole, as 1/cos of the latitude. The same "
    "opening covers cos(latitude of the leg) ÷ cos(latitude of the scale) times the miles.",
    line="{read} × cos {leg_number} ÷ cos {read_number}: {distance}",
    check="Where are the minutes at the side the longest? An opening covers fewer of those.",
    slips=(
        Slip(
            "level-ignored",
            lambda read: read,
            "Yours, {yours}, is what was read at {read_words}, far from the leg. The minutes at the "
            "side grow towards the pole. Check: take the scale level with the leg, always.",
        ),
        Slip(
            "level-wrong-way",
            lambda read, leg_lat, read_lat: _level(read, read_lat, leg_lat),
            "Yours, {yours}, corrects the wrong way. The scale at {read_words} has {longer} minutes "
            "than the one level with the leg, so it gave too {few} miles. Check: which of the two "
            "lies nearer the pole?",
        ),
        Slip(
            "cosine-of-the-leg-only",
            lambda read, leg_lat: read * math.cos(math.radians(leg_lat)),
            "Yours, {yours}, multiplies by one cosine only, as for minutes of longitude. These were "
            "minutes of latitude, only at the wrong height. Check: a few degrees change a few per cent.",
        ),
    ),
    errors=(Error("cosine for the true shape of the earth", lambda read: 0.002 * read / NM),),
)


def _draw_level(source: random.Random) -> Mapping[str, Any] | None:
    leg, off = source.choice((54, 55, 56, 57, 58, 59, 60)), source.choice((-4, -3, 3, 4))
    read, sign = leg + off, source.choice((1, 1, -1))
    return {
        "read": source.randrange(80, 220) / 2 * NM,
        "leg_lat": float(leg),
        "read_lat": float(read),
        "leg_number": f"{leg}°",
        "read_number": f"{read}°",
        "leg_words": format_latitude(sign * leg, places=0),
        "read_words": format_latitude(sign * read, places=0),
        "longer": say("longer" if read > leg else "shorter"),
        "few": say("few" if read > leg else "many"),
    }


TYPES = (
    QuestionType(
        "distance.along-a-parallel",
        "Along a parallel",
        "distance",
        2,
        Chain(
            dict.fromkeys(("lat", "lat_number", "lat_words", "lon1", "lon2", "from_lon", "to_lon")),
            (BETWEEN, ALONG),
        ),
        _draw_parallel,
        "Two headlands lie on the parallel of {lat_words}, one at {from_lon}, the other at {to_lon}."
        "\n\nHow far apart are they, in nautical miles?",
        {"departure": "Distance in NM"},
    ),
    QuestionType(
        "distance.wrong-level",
        "Read at the wrong height",
        "distance",
        3,
        Chain(
            {
                "read": READING,
                **dict.fromkeys(("leg_lat", "read_lat", "leg_number", "read_number")),
                **dict.fromkeys(("leg_words", "read_words", "longer", "few")),
            },
            (LEVEL,),
        ),
        _draw_level,
        "A leg on a Mercator passage chart lies about {leg_words}. Somebody set the dividers to it and "
        "read them at the side at {read_words}: {read}.\n\nHow long is the leg in truth, in nautical "
        "miles?",
        {"distance": "True distance in NM"},
    ),
)
