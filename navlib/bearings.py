"""Bearings: how they are written and read, from which north they count, and what follows.

A bearing is degrees clockwise from a north: true (T), magnetic (M), grid (G), or the boat's own
uncorrected compass (C). East is positive for variation, deviation and convergence.
"""

import re
from dataclasses import dataclass

import numpy as np

from navlib.angles import (
    A,
    lower_marks,
    plain,
    reciprocal,
    signed_difference,
    to_nearest,
    wrap,
)
from navlib.language import either, say, to_say
from navlib.notation import Impossible, Unclear, tidy

NORTHS = {"T": to_say("true"), "M": to_say("magnetic"), "G": to_say("grid"), "C": to_say("compass")}
"""The letter after a bearing, and the north it stands for."""

POINTS = (
    "N", "NbE", "NNE", "NEbN", "NE", "NEbE", "ENE", "EbN",
    "E", "EbS", "ESE", "SEbE", "SE", "SEbS", "SSE", "SbE",
    "S", "SbW", "SSW", "SWbS", "SW", "SWbW", "WSW", "WbS",
    "W", "WbN", "WNW", "NWbW", "NW", "NWbN", "NNW", "NbW",
)  # fmt: skip
"""The 32 points of the compass, 11¼° apart, clockwise from north; b is said "by"."""

EXAMPLE = "042°T"


# From one north to another, and between two bearings ---------------------------------------------


def true_from_grid(grid: A, convergence: A | float) -> A:
    """Return T = G + γ; degrees, convergence γ east positive."""
    return wrap(grid + convergence)


def grid_from_true(true: A, convergence: A | float) -> A:
    """Return G = T - γ; degrees, convergence γ east positive."""
    return wrap(true - convergence)


def true_from_magnetic(magnetic: A, variation: A | float) -> A:
    """Return T = M + D; degrees, variation D east positive."""
    return wrap(magnetic + variation)


def magnetic_from_true(true: A, variation: A | float) -> A:
    """Return M = T - D; degrees, variation D east positive."""
    return wrap(true - variation)


def magnetic_from_compass(compass: A, deviation: A | float) -> A:
    """Return M = C + δ; degrees, deviation δ for the boat's heading, east positive."""
    return wrap(compass + deviation)


def compass_from_magnetic(magnetic: A, deviation: A | float) -> A:
    """Return C = M - δ; degrees, deviation δ for the boat's heading, east positive."""
    return wrap(magnetic - deviation)


def magnetic_from_grid(grid: A, grid_magnetic_angle: A | float) -> A:
    """Return M = G - GMA in one move; degrees, grid magnetic angle D - γ, east positive."""
    return wrap(grid - grid_magnetic_angle)


def grid_from_magnetic(magnetic: A, grid_magnetic_angle: A | float) -> A:
    """Return G = M + GMA in one move; degrees, grid magnetic angle D - γ, east positive."""
    return wrap(magnetic + grid_magnetic_angle)


_LINE = "GTMC"
_STEPS = (  # from each north on the line to the next, and back
    ("convergence", true_from_grid, grid_from_true),
    ("variation", magnetic_from_true, true_from_magnetic),
    ("deviation", compass_from_magnetic, magnetic_from_compass),
)


def convert(
    bearing: A,
    from_: str,
    to: str,
    *,
    variation: A | float | None = None,
    convergence: A | float | None = None,
    deviation: A | float | None = None,
) -> A:
    """Return a bearing counted from another north; `from_` and `to` are T, M, G or C.

    All in degrees, east positive. The norths stand in a line, grid - true - magnetic - compass, and
    only the angles between the two are needed. Raises ValueError if one of these is not given.
    """
    angles = {"variation": variation, "convergence": convergence, "deviation": deviation}
    here, goal = _place(from_), _place(to)
    bearing = wrap(bearing)
    while here != goal:
        onward = here < goal
        name, there, back = _STEPS[here if onward else here - 1]
        angle = angles[name]
        if angle is None:
            raise ValueError(
                f"From {NORTHS[from_]} to {NORTHS[to]} the {name} is needed; "
                f"give it in degrees, east positive, for example {name}=-2.5"
            )
        bearing = (there if onward else back)(bearing, angle)
        here += 1 if onward else -1
    return bearing


def _place(north: str) -> int:
    if north not in NORTHS:
        raise ValueError(f"“{north}” is no north known here; give one of T, M, G, C")
    return _LINE.index(north)


def back_bearing(track: A) -> A:
    """Return what the mark astern bears while the boat is on `track`, from the same north."""
    return reciprocal(track)


def bearing_from_relative(heading: A, relative: A | float) -> A:
    """Return B = heading + r; `relative` in degrees clockwise from the bow."""
    return wrap(heading + relative)


def relative_from_bearing(heading: A, bearing: A | float) -> A:
    """Return r = B - heading in [0, 360), degrees clockwise from the bow."""
    return wrap(bearing - heading)


def angle_between(one: A, other: A | float) -> A:
    """Return the smaller angle between two bearings from one north, in [0, 180] degrees."""
    return plain(np.abs(signed_difference(one, other)))


def off_line_distance(distance: A, angle: A | float) -> A:
    """Return e = d tan θ: how far off a line `angle` degrees out lies after `distance`.

    The result is in the unit of `distance`; `angle` is below 90.
    """
    return plain(distance * np.tan(np.radians(angle)))


def off_line_angle(offset: A, distance: A | float) -> A:
    """Return θ = atan(e / d) in degrees, `offset` and `distance` in one unit."""
    return plain(np.degrees(np.arctan2(offset, distance)))


def one_in_sixty_distance(distance: A, angle: A | float) -> A:
    """Return the shortcut e = d θ / 60 for `off_line_distance`.

    Common practice for the head: always short, by 4½ per cent at small angles, 13 at 30°.
    """
    return plain(distance * angle / 60.0)


def one_in_sixty_angle(offset: A, distance: A | float) -> A:
    """Return the shortcut θ = 60 e / d in degrees for `off_line_angle`; common practice."""
    return plain(60.0 * offset / distance)


# How bearings are written and read --------------------------------------------------------------


def write(degrees: float, north: str, rounding: float = 1.0) -> str:
    """Return a bearing in three figures with its north: 042°T.

    Rounded to `rounding` degrees, a half going up, 359.7 to 000; with one decimal if `rounding` is
    below 1. Raises ValueError for an unknown north.
    """
    _place(north)
    value = wrap(to_nearest(wrap(degrees), rounding))
    return f"{value:03.0f}°{north}" if rounding >= 1 else f"{value:05.1f}°{north}"


def point_name(degrees: float, points: int = 32) -> str:
    """Return the nearest of 32, 16, 8 or 4 points of the compass: 112° is ESE."""
    return POINTS[int(to_nearest(wrap(degrees) * points / 360.0, 1.0)) % points * (32 // points)]


@dataclass(frozen=True)
class Written:
    """A bearing as written: its north if any, notes on habits, its point if one was named."""

    degrees: float
    north: str | None = None
    notes: tuple[str, ...] = ()
    point: str = ""


_WORDS = {name: letter for letter, word in NORTHS.items() for name in (letter.lower(), word)}
_WORDS["mag"] = "M"
_SPOKEN = {
    "zero": "0", "nought": "0", "oh": "0", "o": "0", "one": "1", "two": "2", "three": "3",
    "tree": "3", "four": "4", "fower": "4", "five": "5", "fife": "5", "six": "6", "seven": "7",
    "eight": "8", "nine": "9", "niner": "9",
}  # fmt: skip
_DIGIT = "(?:" + "|".join(sorted(_SPOKEN, key=len, reverse=True)) + ")"
_NORTH = r"[(\[]?(?P<{}>" + "|".join(sorted(_WORDS, key=len, reverse=True)) + r")(?: north)?[)\]]?"
_FIGURES = r"(?P<whole>\d+)(?P<tenths>\.\d+)? ?°? ?(?:(?P<minutes>\d+(?:\.\d+)?) ?')?"
_PLAIN = re.compile(
    rf"(?:{_NORTH.format('before')}[ :.]*)?{_FIGURES} ?(?:{_NORTH.format('after')})?"
)
_QUADRANT = re.compile(
    rf"(?P<pole>n|north|s|south)[ -]?{_FIGURES}[ -]?(?P<side>e|east|w|west)"
    rf" ?(?:{_NORTH.format('after')})?"
)
_LABEL = re.compile(
    r"(?:(?:bearing|brg|heading|hdg|course|track|is|about|approx(?:imately)?|ca|due)\b|[ .:=~≈])*"
)
_POINT_BY_NAME = {name.lower(): name for name in POINTS}


def parse(text: str, decimals: bool = False) -> Written:
    """Return the bearing written in `text`.

    Reads 042°T, 042T, 042 (T), T042, "042 true", 42°T (with a note), "zero four two", N42E and
    S 40° W, and the points of the compass (NE, "north by east"). 360 is 000. With `decimals` parts
    of a degree are read, else they raise Unclear. Raises Unclear where it cannot be told what was
    meant (four figures, two norths, no bearing at all), Impossible over 360 or below 0.
    """
    given = tidy(text)
    words = lower_marks(text)
    words = words[_LABEL.match(words).end() :]  # type: ignore[union-attr]
    if point := _point(words):
        name, north = point
        return Written(POINTS.index(name) * 11.25, north, point=name)
    words = re.sub(
        rf"\b{_DIGIT}(?:[ -]{_DIGIT})*\b",
        lambda said: "".join(_SPOKEN[word] for word in re.split("[ -]", said[0])),
        words,
    )
    if match := _QUADRANT.fullmatch(words):
        angle, notes = _figures(match, given, decimals)
        if angle > 90:
            problem = "an angle from north or south towards east or west is never over 90°"
            raise Impossible(given, problem, either(["N42°E", "S40°W"]))
        if match["pole"][0] == "s":
            angle = 180 - angle
        degrees = angle if match["side"][0] == "e" else -angle
        return Written(wrap(degrees), _WORDS.get(match["after"]), notes)
    if re.match(r"[^\d]*-[ .]?\d", words):
        raise Impossible(given, "a bearing is never negative; it runs from 000 to 359", EXAMPLE)
    match = _PLAIN.fullmatch(words)
    if match is None:
        raise Unclear(given, "no bearing can be read here", EXAMPLE)
    norths = {_WORDS[name] for name in (match["before"], match["after"]) if name}
    if len(norths) > 1:
        raise Unclear(given, "two norths are written", EXAMPLE)
    degrees, notes = _figures(match, given, decimals)
    if len(match["whole"]) < 3:
        note = "Write three figures, {figures}, so that none can be lost on the way."
        notes += (say(note, {"figures": f"{int(degrees):03}"}),)
    return Written(wrap(degrees), norths.pop() if norths else None, notes)


def _point(words: str) -> tuple[str, str | None] | None:
    """Return the name of the point of the compass in `words`, and its north if one is written."""
    match = re.fullmatch(r"(.+?)(?: ?\(([tmgc])\)| (true|magnetic|mag|grid|compass))?", words)
    if match is None:
        return None
    letters = match[1]
    for word in ("north", "south", "east", "west"):
        letters = letters.replace(word, word[0])
    letters = re.sub(r"[ .-]", "", letters.replace("by", "b"))
    name = _POINT_BY_NAME.get(letters)
    return (name, _WORDS.get(match[2] or match[3])) if name else None


def _figures(match: re.Match[str], given: str, decimals: bool) -> tuple[float, tuple[str, ...]]:
    """Return the degrees that the figures of a matched bearing stand for, and notes on them."""
    whole, tenths, minutes = match["whole"], match["tenths"], match["minutes"]
    if len(whole) > 3:
        problem = "with more than three figures it could be a time, or have a figure too many"
        raise Unclear(given, problem, EXAMPLE)
    degrees = int(whole) + float(tenths or 0) + float(minutes or 0) / 60
    if degrees > 360:
        problem = "a bearing is never over 360°; to go on past north take off 360"
        raise Impossible(given, problem, EXAMPLE)
    if tenths and minutes:
        raise Unclear(given, "both a decimal of a degree and minutes are written", EXAMPLE)
    if float(minutes or 0) >= 60:
        raise Impossible(given, "there are 60 minutes in a degree", EXAMPLE)
    if decimals or not (tenths or minutes):
        return degrees, ()
    if degrees % 1:
        whole_ones = either([f"{int(degrees):03}", f"{(int(degrees) + 1) % 360:03}"])
        raise Unclear(given, "a bearing is written in whole degrees", whole_ones)
    return degrees, (say("A bearing is written in whole degrees, without decimals."),)
