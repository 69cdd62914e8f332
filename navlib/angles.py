"""Angles in degrees: round the circle, to east and west, in degrees and minutes."""

import math
import re
from typing import Any, TypeVar

import numpy as np
from numpy.typing import ArrayLike, NDArray

from navlib.figures import decimal_fractions
from navlib.language import either, say, to_say
from navlib.notation import Impossible, Unclear, decimal_comma, tidy

A = TypeVar("A", float, NDArray[np.float64])
"""A number or an array of numbers: what goes in decides what comes out."""


def plain(values: Any) -> Any:
    """Return a single value as a plain float, and an array as it is."""
    return values if np.ndim(values) else float(values)


def wrap(degrees: A) -> A:
    """Return an angle in [0, 360) degrees: 364 is 004, -6 is 354."""
    if isinstance(degrees, float | int):  # most angles are single ones: ten times as fast
        turned = float(degrees % 360.0)
        return 0.0 if turned >= 360.0 else turned
    turned = np.asarray(degrees, dtype=float) % 360.0
    # A tiny negative angle comes out of % as 360 itself.
    return plain(np.where(turned >= 360.0, 0.0, turned))


def signed(degrees: A) -> A:
    """Return an angle in (-180, 180] degrees, clockwise (to the east) positive: 358 is -2."""
    if isinstance(degrees, float | int):
        return 180.0 - wrap(180.0 - degrees)
    return plain(180.0 - wrap(180.0 - np.asarray(degrees, dtype=float)))


def signed_difference(one: A, other: A | float) -> A:
    """Return how far `one` lies clockwise of `other`, in (-180, 180] degrees."""
    return signed(one - other)


def reciprocal(degrees: A) -> A:
    """Return the opposite direction, R = (B + 180) mod 360, in degrees."""
    return wrap(degrees + 180.0)


def circular_mean(degrees: ArrayLike) -> float:
    """Return the mean direction in [0, 360) degrees: the mean of 358, 002 and 006 is 002.

    `degrees` has any shape. Raises ValueError if there are none or if they cancel out, as 000 and
    180 do. Source: atan2 of the summed sines and cosines (Mardia and Jupp, Directional Statistics,
    2000, section 2.2).
    """
    radians = np.radians(np.asarray(degrees, dtype=float))
    if radians.size == 0:
        raise ValueError("There are no directions here to take the mean of; give at least one.")
    east, north = np.sin(radians).mean(), np.cos(radians).mean()
    if np.hypot(east, north) < 1e-9:
        raise ValueError(f"The directions {np.asarray(degrees)} cancel out: they have no mean.")
    return wrap(float(np.degrees(np.arctan2(east, north))))


def to_nearest(value: A, step: float) -> A:
    """Return `value` rounded to a multiple of `step`, a half going up: 42.5 to 1 is 43."""
    if isinstance(value, float) and math.isfinite(value):
        return float(math.floor(value / step + 0.5) * step)
    return plain(np.floor(np.asarray(value, dtype=float) / step + 0.5) * step)


def degrees_minutes(degrees: float, step: float = 1.0) -> tuple[int, float]:
    """Return the whole degrees and the minutes of the size of an angle, its sign left out.

    The minutes are rounded to `step` and carried: 3°59.7' is (4, 0.0). 60 minutes are a degree.
    """
    # The second rounding takes off what is left over when step is no whole binary number.
    minutes = round(to_nearest(abs(degrees) * 60.0, step), 6)
    return int(minutes // 60), minutes % 60


def from_degrees_minutes(degrees: float, minutes: float = 0.0, seconds: float = 0.0) -> float:
    """Return an angle without sign in degrees; raise ValueError where 60 is reached or passed."""
    too_many = (
        (to_say("{figure} minutes was given; minutes run from 0 to below 60"), minutes),
        (to_say("{figure} seconds was given; seconds run from 0 to below 60"), seconds),
    )
    for problem, part in too_many:
        if not 0 <= part < 60:
            raise ValueError(say(problem, {"figure": f"{part:g}"}))
    return degrees + minutes / 60 + seconds / 3600


def lower_marks(text: str) -> str:
    """Return a written angle tidied, in small letters, with ° and ' for the words they stand for.

    A full stop that ends a sentence goes; a decimal comma becomes a point, and 2½ becomes 2.5.
    """
    text = decimal_fractions(decimal_comma(tidy(text))).lower().rstrip(". ")
    text = re.sub(r" ?(?:degrees?|degs?)\b\.? ?|(?<=\d) ?deg(?=[a-z])", "°", text)
    return re.sub(r" ?(?:minutes?|mins?)\b\.? ?", "'", text)


_NUMBER = r"(?:\d+(?:\.\d+)?|\.\d+)"
_DEGREES = (
    re.compile(rf"(?P<d>{_NUMBER}) ?° ?(?:(?P<m>{_NUMBER}) ?'? ?(?:(?P<s>{_NUMBER}) ?\")?)?"),
    re.compile(rf"(?P<d>\d+) (?P<m>{_NUMBER}) ?'?(?P<s>)"),
    re.compile(rf"(?P<d>)(?P<m>{_NUMBER}) ?'(?P<s>)"),
    re.compile(rf"(?P<d>{_NUMBER})(?P<m>)(?P<s>)"),
)


def _degrees(text: str, given: str, example: str, side: str = "") -> float:
    match = next(filter(None, (form.fullmatch(text) for form in _DEGREES)), None)
    if match is None:
        raise Unclear(given, "no angle can be read here", example)
    if not match["m"] and re.fullmatch(r"\d*\.[0-5]\d", text) and not text.endswith(".00"):
        whole, part = text.split(".")
        ways = either([f"{whole or 0}°{part}'{side}", f"{whole or 0}.{part}°{side}"])
        raise Unclear(given, say("this could be {ways}", {"ways": ways}), ways)
    degrees, minutes, seconds = (float(match[part] or 0) for part in "dms")
    if match["m"] and degrees % 1:
        raise Unclear(given, "both a decimal of a degree and minutes are written", example)
    try:
        return from_degrees_minutes(degrees, minutes, seconds)
    except ValueError as impossible:
        raise Impossible(given, str(impossible), example) from None


def parse_degrees(text: str, example: str = "35°", given: str = "") -> float:
    """Return the size of an angle in degrees from 35, 35°, 35.5°, 35°30', 35 30 or 14'.

    `given` is the whole answer to show in an error, where `text` is only its figures.
    Raises Unclear for 4.30 without its degree sign (4°30' or 4.3°?) and for what is no angle,
    Impossible for 60 minutes or more.
    """
    return _degrees(lower_marks(text), given or tidy(text), example)


_SIDE = r"(?:east(?:erly)?|west(?:erly)?|e|w)"
_EAST_WEST = re.compile(
    r"(?:(?:magnetic |grid |compass )?"
    r"(?:variation|var|deviation|dev|convergence|error|gma|grid magnetic angle)\b[ .:=]*)?"
    rf"(?P<before>{_SIDE})? ?(?P<sign>[-+])? ?"
    rf"(?P<amount>[\d.].*?) ?(?P<after>(?<![a-z]){_SIDE})?"
)


def parse_east_west(text: str, example: str = "4°00'W") -> float:
    """Return an angle to east (+) or west (-) in degrees, in [-180, 180].

    Reads 4°00'W, 4° W, 4W, W4, "4 West", 4.0°W, "var 4 W" and the signed -4, which is west.
    Raises Unclear without a side (unless it is zero), with a sign and a side that disagree or say
    it twice, and for 4.30W (4°30' or 4.3°?); Impossible over 180°.
    """
    given = tidy(text)
    match = _EAST_WEST.fullmatch(lower_marks(text))
    if match is None:
        raise Unclear(given, "no angle to east or west can be read here", example)
    written = match["before"] or match["after"] or ""
    degrees = _degrees(match["amount"], given, example, written[:1].upper())
    if degrees > 180:
        raise Impossible(given, "an angle to east or west is never over 180°", example)
    if match["sign"] == "-" and written:
        problem = "a minus and a letter are both written, so it could be west once or twice"
        raise Unclear(given, problem, example)
    sides = {side[0] for side in (match["before"], match["after"]) if side}
    sides |= {{"+": "e", "-": "w"}[sign] for sign in match["sign"] or ""}
    if len(sides) > 1:
        raise Unclear(given, "both east and west are written", example)
    if not sides and degrees:
        problem = "east or west is missing, so it could be either"
        raise Unclear(given, problem, either([f"{given} W", f"{given} E"]))
    return -degrees if "w" in sides and degrees else degrees


def write_east_west(degrees: float, rounding: float = 1 / 60) -> str:
    """Return an angle, east positive, with its side: 2°22'W, or 2°W if `rounding` is 1 or more.

    It is taken the short way round, 358 as 2°W. `rounding` is in degrees; at 0.1 tenths of degrees
    are written, at others below 1 minutes, below a minute tenths of minutes. A half goes away from
    zero. What rounds to zero has no side.
    """
    degrees = signed(degrees)
    if rounding == 0.1:
        tenths = to_nearest(round(abs(degrees) * 10, 6), 1.0)
        return f"{tenths / 10:.1f}°" + ("" if not tenths else "E" if degrees > 0 else "W")
    whole, minutes = degrees_minutes(degrees, rounding * 60)
    figures = f"{whole}°"
    if rounding < 1:
        figures += f"{minutes:02.0f}'" if rounding * 60 > 0.999 else f"{minutes:04.1f}'"
    side = "" if whole == minutes == 0 else "E" if degrees > 0 or whole == 180 else "W"
    return figures + side
