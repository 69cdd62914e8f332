"""Latitude and longitude as they are written: decimal minutes, seconds, decimal degrees."""

import re
from typing import Literal, NamedTuple

from navlib.angles import from_degrees_minutes
from navlib.language import say, to_say
from navlib.notation import Impossible, Unclear, decimal_comma, tidy

EXAMPLE = "58°46.97'N 007°11.64'W"

Form = Literal["minutes", "seconds", "degrees"]
"""Decimal minutes as at sea, degrees minutes and seconds, or decimal degrees."""

PLACES: dict[Form, int] = {"minutes": 2, "seconds": 0, "degrees": 5}


class _Axis(NamedTuple):
    """What is particular to latitude or to longitude; `letters` are its negative and positive side."""

    name: str
    limit: int
    letters: str
    width: int
    example: str


_LATITUDE = _Axis(to_say("latitude"), 90, "SN", 2, "58°46.97'N")
_LONGITUDE = _Axis(to_say("longitude"), 180, "WE", 3, "007°11.64'W")


class LatLon(NamedTuple):
    """A position: degrees north and degrees east (south and west negative)."""

    lat: float
    lon: float


class Written(NamedTuple):
    """A position as read, the form it was written in, and what had to be assumed (sentences)."""

    place: LatLon
    form: Form
    assumed: tuple[str, ...]


def format(lat: float, lon: float, form: Form = "minutes", places: int | None = None) -> str:
    """Return latitude then longitude, rounded, such as 58°46.97'N 007°11.64'W.

    `places` are the decimals of the last unit: 2 of minutes, 0 of seconds, 5 of degrees if not
    given. Raises ValueError for a position that is not on the Earth.
    """
    return f"{format_latitude(lat, form, places)} {format_longitude(lon, form, places)}"


def format_latitude(lat: float, form: Form = "minutes", places: int | None = None) -> str:
    """Return a latitude with two figures of degrees and N or S."""
    return _write(lat, _LATITUDE, form, places)


def format_longitude(lon: float, form: Form = "minutes", places: int | None = None) -> str:
    """Return a longitude with three figures of degrees and E or W."""
    return _write(lon, _LONGITUDE, form, places)


def parse(text: str, near: tuple[float, float] | None = None) -> LatLon:
    """Return the position written in `text`.

    Where N, S, E or W is missing, the nearer to `near` (lat, lon) is taken; without `near` that is
    Unclear, as are figures that could be read two ways (58.4697: degrees, or 58°46.97'?). Raises
    Impossible for 60 minutes or more, a latitude over 90 or a longitude over 180.
    """
    return read(text, near).place


def read(text: str, near: tuple[float, float] | None = None) -> Written:
    """Return the position written in `text` with its form and what was assumed; see `parse`."""
    first, second = _halves(text, _one_form(text))
    order: tuple[str, ...] = ()
    if set(first) & set("EW") or set(second) & set("NS"):
        first, second = second, first
        order = (say("Latitude comes first, then longitude."),)
    near_lat, near_lon = near or (None, None)
    signed = sum(half[:1] in ("+", "-") for half in (first, second)) == 1
    if signed:
        near_lat, near_lon = _LATITUDE.limit, _LONGITUDE.limit  # what has no minus is a plus
    lat, form, lat_assumed = _read(text, first, _LATITUDE, near_lat)
    lon, _, lon_assumed = _read(text, second, _LONGITUDE, near_lon)
    assumed = () if signed else lat_assumed + lon_assumed
    return Written(LatLon(lat, lon), form, order + assumed)


def parse_latitude(text: str, near: float | None = None) -> float:
    """Return the latitude written in `text`, alone; raises as `parse` does."""
    return _read(text, _one_form(text), _LATITUDE, near)[0]


def parse_longitude(text: str, near: float | None = None) -> float:
    """Return the longitude written in `text`, alone; raises as `parse` does."""
    return _read(text, _one_form(text), _LONGITUDE, near)[0]


def _write(angle: float, axis: _Axis, form: Form, places: int | None) -> str:
    if not abs(angle) <= axis.limit:
        raise ValueError(
            f"a {axis.name} of {angle} is not on the Earth: give {-axis.limit} to {axis.limit} degrees"
        )
    places = PLACES[form] if places is None else places
    size, letter = abs(angle), axis.letters[angle >= 0]
    if form == "degrees":
        return f"{size:.{places}f}°{letter}"
    # Counted in the last unit first, so that 59.996' becomes the next degree, never 60.00'.
    per_degree = 60 if form == "minutes" else 3600
    whole, last = divmod(round(size * per_degree * 10**places), 60 * 10**places)
    figures = f"{last / 10**places:0{2 + (places > 0) + places}.{places}f}"
    if form == "minutes":
        return f"{whole:0{axis.width}d}°{figures}'{letter}"
    return f"{whole // 60:0{axis.width}d}°{whole % 60:02d}'{figures}\"{letter}"


_WORDS = [
    (r"LATITUDE|LAT(?![A-Z])|LONGITUDE|LONG(?![A-Z])|LON(?![A-Z])", " "),
    (r"NORTH|SOUTH|EAST|WEST", lambda m: m[0][0]),
    (r"DEG(REES?|S)?(?![A-Z])\.?", "°"),
    (r"MIN(UTES?|S)?(?![A-Z])\.?", "'"),
    (r"SEC(ONDS?|S)?(?![A-Z])\.?", '"'),
    (r"(\d)([°'\"])\.(\d+)", r"\1.\3\2"),  # 46'.97 is how older charts write 46.97'
]

_PART = r"(?P<{0}>\d+(?:\.\d+)?) ?(?P<{0}_mark>[°'\"]?)"
_ANGLE = re.compile(
    r"(?P<before>[NSEW]?) ?(?P<sign>[+-]?) ?"
    + _PART.format("degrees")
    + r"(?:[-: ]{0,3}(?<!\d)" + _PART.format("minutes") + r")?"
    + r"(?:[-: ]{0,3}(?<!\d)" + _PART.format("seconds") + r")?"
    + r" ?(?P<after>[NSEW]?)"
)  # fmt: skip


def _one_form(text: str) -> str:
    """Return `text` tidied, in capitals, words as signs, decimals as points."""
    plain = decimal_comma(tidy(text).upper())
    for pattern, sign in _WORDS:
        plain = re.sub(pattern, sign, plain)  # type: ignore[call-overload]
    return re.sub(r"[:= ]*([NSEW])[:= ]*", r" \1 ", plain).strip(" .:=")


def _halves(given: str, plain: str) -> tuple[str, str]:
    """Return the latitude's and the longitude's part of a position in one form."""
    letters = [m.start() for m in re.finditer("[NSEW]", plain)]
    marked = re.split(r" ?[,;/] ?", plain)
    if len(marked) == 2:
        return marked[0], marked[1]
    if len(letters) == 2 and letters[0] == 0:
        return plain[: letters[1]].strip(), plain[letters[1] :]
    if letters and 0 < letters[0] < len(plain) - 1:
        return plain[: letters[0] + 1], plain[letters[0] + 1 :].strip()
    if letters and _ANGLE.fullmatch(plain):
        raise Unclear(given, "only one of latitude and longitude is written", EXAMPLE)
    numbers = [m.start() for m in re.finditer(r"(?:(?<![^ ])[+-])?\d+(?:\.\d+)?", plain)]
    if len(numbers) in (2, 4, 6):
        cut = numbers[len(numbers) // 2]
        return plain[:cut].strip(), plain[cut:]
    if numbers:
        raise Unclear(given, "I cannot see where latitude ends and longitude begins", EXAMPLE)
    raise Impossible(given, "there are no figures of a position in it", EXAMPLE)


def _read(
    given: str, plain: str, axis: _Axis, near: float | None
) -> tuple[float, Form, tuple[str, ...]]:
    """Return signed degrees, the form they were written in, and what was assumed."""
    found = _ANGLE.fullmatch(plain.strip())
    if not found:
        kind = Unclear if re.search(r"\d", plain) else Impossible
        problem = say("the {axis} cannot be made out", {"axis": say(axis.name)})
        raise kind(given, problem, axis.example)
    marks = [found[part] or "" for part in ("degrees_mark", "minutes_mark", "seconds_mark")]
    if any(mark not in ("", sign) for mark, sign in zip(marks, "°'\"", strict=True)):
        problem = say(
            "the {axis} has degrees °, minutes ' and seconds \" out of order",
            {"axis": say(axis.name)},
        )
        raise Unclear(given, problem, axis.example)
    values, form = _values(given, found, axis)
    try:
        size = from_degrees_minutes(*values)
    except ValueError as impossible:
        problem = say(
            "in the {axis}, {problem}", {"axis": say(axis.name), "problem": str(impossible)}
        )
        raise Impossible(given, problem, axis.example) from None
    if size > axis.limit:
        problem = say(
            "a {axis} is never more than {limit} degrees",
            {"axis": say(axis.name), "limit": axis.limit},
        )
        raise Impossible(given, problem, axis.example)
    sign, assumed = _side(given, found, size, axis, near)
    return sign * size, form, assumed


def _values(given: str, found: re.Match[str], axis: _Axis) -> tuple[list[float], Form]:
    """Return degrees, or degrees and minutes, or degrees, minutes and seconds; and the form."""
    parts = [found[part] for part in ("degrees", "minutes", "seconds") if found[part]]
    if any("." in part for part in parts[:-1]):
        problem = say(
            "only the last number of a {axis} can have decimals", {"axis": say(axis.name)}
        )
        raise Unclear(given, problem, axis.example)
    if len(parts) > 1:
        return [float(part) for part in parts], "minutes" if len(parts) == 2 else "seconds"
    whole, _, decimals = parts[0].partition(".")
    if found["degrees_mark"] or found["sign"]:
        return [float(parts[0])], "degrees"
    if 3 < len(whole) <= 7:  # run together: 5846.97, 00711.64, 584658
        seconds = len(whole) > axis.width + 2
        cuts = [len(whole) - 4, len(whole) - 2] if seconds else [len(whole) - 2]
        pieces = [whole[i:j] for i, j in zip([0, *cuts], [*cuts, None], strict=True)]
        pieces[-1] += f".{decimals or 0}"
        return [float(piece) for piece in pieces], "seconds" if seconds else "minutes"
    if float(whole) > axis.limit:
        problem = say(
            "the figures of the {axis} run together without noughts", {"axis": say(axis.name)}
        )
        raise Unclear(given, problem, axis.example)
    if 2 <= len(decimals) <= 4 and int(decimals[:2]) < 60:
        problem = say(
            "{figures} may be decimal degrees, or {whole} degrees and {minutes} minutes",
            {"figures": parts[0], "whole": whole, "minutes": decimals[:2]},
        )
        example = say(
            "{example}, or with a degree sign after decimal degrees", {"example": axis.example}
        )
        raise Unclear(given, problem, example)
    return [float(parts[0])], "degrees"


def _side(
    given: str, found: re.Match[str], size: float, axis: _Axis, near: float | None
) -> tuple[int, tuple[str, ...]]:
    """Return 1 or -1 by the letter, by + or -, or by what is near, and what was assumed."""
    letter = found["before"] + found["after"]
    south, north = axis.letters[0], axis.letters[1]
    if len(letter) > 1 or (letter and found["sign"]):
        problem = say("the {axis} says twice on which side of 0 it lies", {"axis": say(axis.name)})
        raise Unclear(given, problem, axis.example)
    if letter and letter not in axis.letters:
        problem = say(
            "{letter} does not go with a {axis}", {"letter": letter, "axis": say(axis.name)}
        )
        raise Unclear(given, problem, axis.example)
    if letter or found["sign"]:
        return (-1 if (letter or found["sign"]) in (south, "-") else 1), ()
    if near is None:
        problem = say(
            "{north} or {south} is missing from the {axis}",
            {"north": north, "south": south, "axis": say(axis.name)},
        )
        raise Unclear(given, problem, axis.example)
    sign = 1 if abs(size - near) <= abs(-size - near) else -1
    taken = north if sign == 1 else south
    assumed = say(
        "The {axis} has no {north} or {south}: taken as {taken}.",
        {"axis": say(axis.name), "north": north, "south": south, "taken": taken},
    )
    return sign, (assumed,)
