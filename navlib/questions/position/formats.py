"""One position, three ways to write it: decimal degrees, decimal minutes, seconds."""

import math
import random
from collections.abc import Callable, Mapping
from typing import Any

from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Error, Slip, Step
from navlib.kinds.places import Position
from navlib.latlon import LatLon
from navlib.questions.position.border import minutes
from navlib.questions.position.views import draw_at_sea

SEA_FORM = Position()
SECONDS = Position("seconds", 0)
DEGREES = Position("degrees", 5)
SMALL = 0.35
"""Share of questions in which a nought behind the point or a one-figure second may get lost."""


def _each(place: LatLon, change: Callable[[float], float | None]) -> LatLon | None:
    """Return the place with `change` done to the minutes of both angles; None if it cannot be."""
    changed = []
    for angle in place:
        new = change(minutes(angle))
        if new is None or new >= 60:
            return None
        changed.append(math.copysign(math.floor(abs(angle) + 1e-9) + new / 60, angle))
    return LatLon(*changed)


def minutes_for_decimals(spot: LatLon) -> LatLon | None:
    """Return what 58°46.97' becomes when it is put down as 58.4697 degrees."""
    return _each(spot, lambda m: m / 100 * 60)


def _side_lost(axis: int, name: str, says: str) -> Slip:
    return Slip(
        name,
        lambda spot: (
            LatLon(*(abs(a) if i == axis else a for i, a in enumerate(spot)))
            if spot[axis] < 0
            else None
        ),
        says,
        0.6,
    )


def _where_small(below: float, times: float) -> Callable[[LatLon], LatLon | None]:
    """Return what a lost nought does: minutes under `below` become `times` as many."""

    def lost(spot: LatLon) -> LatLon | None:
        if all(minutes(a) >= below for a in spot):
            return None
        return _each(spot, lambda m: m * times if m < below else m)

    return lost


# Decimal degrees to decimal minutes -------------------------------------------------------------

TO_MINUTES = Step(
    "position",
    SEA_FORM,
    lambda spot: spot,
    how="Keep the whole degrees. What stands behind the point, times 60, is minutes. Without a "
    "minus it is north and east, with one south and west.",
    line="{lat_part} × 60 and {lon_part} × 60: {position}",
    check="Half a degree is 30 minutes: is your part below or above that?",
    slips=(
        Slip(
            "decimals-for-minutes",
            lambda spot: _each(spot, lambda m: m / 60 * 100),
            "Yours, {yours}, takes the figures behind the point for minutes as they stand. They "
            "are hundredths of a degree, and a degree has 60 minutes: .50 is 30′. Check: can your "
            "minutes come to 60 or more? They never may.",
            1.5,
        ),
        _side_lost(
            0,
            "minus-lost",
            "Yours, {yours}, is on the wrong side of the equator. A minus before the latitude "
            "means SOUTH. Check: write N or S before you write a figure.",
        ),
        _side_lost(
            1,
            "minus-lost",
            "Yours, {yours}, is on the wrong side of Greenwich. A minus before the longitude means "
            "WEST. Check: write E or W before you write a figure.",
        ),
        Slip(
            "nought-lost",
            _where_small(6.0, 10.0),
            "Yours, {yours}, has lost a nought behind the point: .05 of a degree is 3′, .5 is 30′. "
            "Check: a tenth of a degree is 6′; is your part more or less than that?",
        ),
        Slip(
            "sixtieth-of-decimals",
            lambda spot: _each(spot, lambda m: m / 60 * 100 / 60),
            "Yours, {yours}, divides by 60 where it should multiply. Minutes are smaller than "
            "degrees, so there are more of them. Check: half a degree is 30 minutes.",
            0.6,
        ),
    ),
)


# Seconds to decimal minutes ---------------------------------------------------------------------


def _seconds(minute: float) -> tuple[int, float]:
    whole = math.floor(minute + 1e-6)
    return whole, round((minute - whole) * 60, 3)


def _seconds_as_tenths(minute: float) -> float:
    whole, seconds = _seconds(minute)
    return whole + (seconds / 10 if seconds < 10 else seconds / 100)


def _nought_lost(spot: LatLon) -> LatLon | None:
    return _each(spot, _seconds_as_tenths) if _any_small_second(spot) else None


def _any_small_second(spot: LatLon) -> bool:
    return any(_seconds(minutes(a))[1] < 10 for a in spot)


FROM_SECONDS = Step(
    "position",
    SEA_FORM,
    lambda spot: spot,
    how="Degrees and whole minutes stay. Seconds divided by 60 are the part of a minute behind the "
    "point.",
    line="{lat_part} ÷ 60 and {lon_part} ÷ 60: {position}",
    check="Thirty seconds are half a minute, .50: is yours more or less?",
    slips=(
        Slip(
            "seconds-for-decimals",
            lambda spot: _each(spot, lambda m: (s := _seconds(m))[0] + s[1] / 100),
            "Yours, {yours}, puts the seconds behind the point as they stand. A minute has 60 "
            "seconds, not 100: 30″ is .50′. Check: divide by 6 and put the point one further left.",
            1.5,
        ),
        Slip(
            "seconds-dropped",
            lambda spot: _each(spot, lambda m: float(_seconds(m)[0])),
            "Yours, {yours}, has the seconds left off. A second of latitude is 31 m, so up to 1.8 "
            "km is lost. Check: two decimals are asked, and they come from the seconds.",
        ),
        Slip(
            "times-sixty",
            lambda spot: _each(spot, lambda m: (s := _seconds(m))[0] + s[1] * 0.6 / 100),
            "Yours, {yours}, turns hundredths into seconds; here seconds are to be turned into "
            "hundredths. From seconds to decimals the figure grows. Check: 30″ is .50′, not .18′.",
        ),
        Slip(
            "nought-lost",
            _nought_lost,
            "Yours, {yours}, has lost a nought: a few seconds are a few hundredths, not tenths. "
            "06″ is .10′. Check: six seconds are a tenth of a minute.",
        ),
    ),
)

# Decimal minutes to decimal degrees -------------------------------------------------------------

TO_DEGREES = Step(
    "position",
    DEGREES,
    lambda spot: spot,
    how="Keep the whole degrees. The minutes divided by 60 stand behind the point.",
    line="{lat_part} ÷ 60 and {lon_part} ÷ 60: {position}",
    check="Thirty minutes are half a degree, .5: is yours more or less?",
    slips=(
        Slip(
            "minutes-for-decimals",
            minutes_for_decimals,
            "Yours, {yours}, puts the minutes behind the point as they stand. A degree has 60 "
            "minutes, not 100: 30′ is .5°. Check: the figure behind the point must be larger than "
            "the minutes.",
            1.5,
        ),
        _side_lost(
            0,
            "side-lost",
            "Yours, {yours}, is north of the equator; the position is SOUTH. On a phone a south "
            "latitude has a minus. Check: put the sign down before you type a figure.",
        ),
        _side_lost(
            1,
            "side-lost",
            "Yours, {yours}, is east of Greenwich; the position is WEST. On a phone a west "
            "longitude has a minus. Check: put the sign down before you type a figure.",
        ),
        Slip(
            "nought-lost",
            _where_small(6.0, 10.0),
            "Yours, {yours}, has lost a nought behind the point: 3′ is .05 of a degree, not .5. "
            "Check: under 6 minutes, a nought comes first.",
        ),
        Slip(
            "times-six",
            lambda spot: _each(spot, lambda m: m * 0.6 / 100 * 60),
            "Yours, {yours}, multiplies the minutes by 6 where it should divide. Check: 30′ is "
            "half a degree, .5, and not .18.",
            0.6,
        ),
    ),
    errors=(Error("a hundredth of a minute as given", 5.0),),
)


def _small(source: random.Random, place: LatLon, part: float) -> LatLon:
    """Return the place, at times with the minutes, or the seconds, of one angle made small."""
    if source.random() > SMALL:
        return place
    axis = source.randrange(2)
    return LatLon(
        *(
            math.copysign(abs(a) - abs(a) % part + abs(a) % part * 0.1, a) if i == axis else a
            for i, a in enumerate(place)
        )
    )


def _draw(source: random.Random, step: float, part: float) -> LatLon:
    place = _small(source, draw_at_sea(source, step), part)
    return LatLon(*(round(angle / step) * step for angle in place))


def _draw_degrees(source: random.Random) -> Mapping[str, Any]:
    spot = _draw(source, 1e-5, 1.0)
    return {
        "spot": spot,
        "shown": ", ".join(f"{angle:.5f}" for angle in spot).replace("-", "−"),
        **dict(zip(("lat_part", "lon_part"), (f"{abs(a) % 1:.5f}" for a in spot), strict=True)),
    }


def _draw_seconds(source: random.Random) -> Mapping[str, Any]:
    spot = _draw(source, 1 / 3600, 1 / 60)
    parts = (f"{_seconds(minutes(a))[1]:02.0f}″" for a in spot)
    return {"spot": spot, **dict(zip(("lat_part", "lon_part"), parts, strict=True))}


def _draw_minutes(source: random.Random) -> Mapping[str, Any]:
    spot = _draw(source, 1 / 6000, 1.0)
    parts = (f"{minutes(a):05.2f}′" for a in spot)
    return {"spot": spot, **dict(zip(("lat_part", "lon_part"), parts, strict=True))}


_PARTS = dict.fromkeys(("lat_part", "lon_part"))

TYPES = (
    QuestionType(
        "position.decimal-degrees",
        "From the receiver to the chart",
        "position",
        1,
        Chain({"spot": None, "shown": None, **_PARTS}, (TO_MINUTES,)),
        _draw_degrees,
        "A receiver shows decimal degrees: {shown}. The chart’s border is in degrees and "
        "minutes.\n\nWrite the position in degrees and minutes, to a hundredth of a minute, with "
        "N or S, E or W.",
        {"position": "Degrees and minutes"},
    ),
    QuestionType(
        "position.seconds",
        "Seconds are not decimals",
        "position",
        1,
        Chain({"spot": SECONDS, **_PARTS}, (FROM_SECONDS,)),
        _draw_seconds,
        "An old log book gives {spot}.\n\nWrite it as is usual at sea: degrees and minutes, "
        "to a hundredth of a minute.",
        {"position": "Degrees and minutes"},
    ),
    QuestionType(
        "position.to-decimal-degrees",
        "Typed into a phone",
        "position",
        2,
        Chain({"spot": SEA_FORM, **_PARTS}, (TO_DEGREES,)),
        _draw_minutes,
        "A skipper gives you {spot} by radio. Your phone takes decimal degrees only.\n\nWhat do "
        "you type? Give five decimals.",
        {"position": "Decimal degrees"},
    ),
)
