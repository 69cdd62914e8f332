"""Answers that are pencilled on a sheet: a mark, a line, a circle."""

import math
import re
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Literal

from navlib import gridref, grids, latlon, mgrs
from navlib.chain.kind import Kind, Reading, Verdict
from navlib.geodesy import degree_of_latitude, degree_of_longitude
from navlib.gridref import GridPlace, Letters
from navlib.kinds.places import GridReference
from navlib.kinds.quantities import Distance
from navlib.language import say, to_say
from navlib.latlon import LatLon
from navlib.notation import Misread, Unclear, tidy

Sort = Literal["mark", "line", "circle"]
PLACES = {"mark": 1, "line": 2, "circle": 1}
_WRITTEN: dict[str, str] = {
    "mark": "{place}",
    "line": to_say("{place} to {end}"),
    "circle": to_say("{miles} NM about {place}"),
}
"""How each is written, and what it is called when it is spoken of."""
_ON_THE_SHEET = {
    "mark": "the mark on the sheet",
    "line": "the line on the sheet",
    "circle": "the circle on the sheet",
}
_NOT_YET = {
    "mark": "There is no pencil mark on the sheet yet. Draw it, then check it.",
    "line": "There is no pencil line on the sheet yet. Draw it, then check it.",
    "circle": "There is no pencil circle on the sheet yet. Draw it, then check it.",
}
MILES = Distance("NM", 0.01)


@dataclass(frozen=True)
class Pencilled:
    """What is drawn on a sheet: one place, the two ends of a line, or the middle of a circle.

    Places are WGS 84 degrees, so that it is the same on every sheet. `radius_m` is a circle's.
    `scale` is the denominator of the sheet it is drawn on, 0 where only the writing is known.
    """

    places: tuple[LatLon, ...]
    scale: int = 0
    radius_m: float = 0.0


@dataclass(frozen=True)
class OnSheet(Kind[Pencilled]):
    """Something put on a sheet with the pencil: a `sort` of mark, line or circle.

    `apart` is millimetres of paper at the scale of either of the two, without a sign. A mark: the
    distance. A circle: how far the two rims lie apart at the worst. A line: how far it passes from
    the two ends of the other one, whether it is longer or shorter; what runs the other way from the
    same place misses the far end. The second of the two is the one that is aimed at.

    Written it is a grid reference to ten metres of `lettering`, or without one a latitude and
    longitude to a hundredth of a minute; two of them for a line (HV 9658 0234 to HV 9712 0301); for
    a circle the radius too (1.20 NM about HV 9658 0234). `drawn_only` is for questions that give the
    place in writing, so that writing it would be copying.
    """

    sort: Sort = "mark"
    lettering: Letters | None = gridref.NATIONAL
    drawn_only: bool = False
    rounding: float = 0.5
    unit: str = field(init=False, default="mm")
    example: str = field(init=False, default="")

    def __post_init__(self) -> None:
        """Take a well-written answer as the example."""
        first = LatLon(58.782833, -7.254)
        if self.lettering is not None:
            first = self._place(GridReference(8, lettering=self.lettering).example)
        places = (first, LatLon(first.lat + 0.01, first.lon + 0.01))[: PLACES[self.sort]]
        object.__setattr__(self, "example", self.write(Pencilled(places, radius_m=2222.4)))

    def read(self, text: str) -> Reading[Pencilled]:
        """Read what is written; nothing at all means that nothing is drawn yet."""
        if text.strip():
            return super().read(text)
        return Reading(Verdict.QUERY, None, (say(_NOT_YET[self.sort]),))

    def parse(self, text: str) -> tuple[Pencilled, tuple[str, ...]]:
        """Return what is written; raise Misread for what is no place or not so many of them."""
        given, radius = _in_english(tidy(text)), 0.0
        rest = given
        if self.sort == "circle":
            parts = re.split(r"\b(?:about|around|round|from|of)\b", given, maxsplit=1)
            if len(parts) < 2:
                raise Unclear(given, "a circle has a radius and a middle", self.example)
            radius = MILES.parse(re.sub(r"^radius\b", "", parts[0].strip(), flags=re.I))[0]
            rest = parts[1]
        ends = [end for end in re.split(r"\bto\b|[;→>]", rest) if end.strip()]
        if len(ends) != PLACES[self.sort]:
            problem = (
                "two places are needed, from one end to the other"
                if self.sort == "line"
                else "one place is needed"
            )
            raise Unclear(given, problem, self.example)
        return Pencilled(tuple(self._place(end) for end in ends), 0, radius), ()

    def write(self, value: Pencilled) -> str:
        """Return the places as written by hand, a circle with its radius before."""
        words, values = self._written(value, 8, 2, f"{value.radius_m / 1852:.2f}")
        return say(words, values)

    def exactly(self, value: Pencilled) -> str:
        """Return the same to a metre and finer, in English in every language.

        It is how what is drawn goes into the record.
        """
        words, values = self._written(value, 10, 4, f"{value.radius_m / 1852:.4f}")
        return words.format_map(values)

    def rounded(self, value: Pencilled) -> Pencilled:
        """Return the value as it is: nothing of it is rounded by drawing it."""
        return value

    def apart(self, one: Pencilled, other: Pencilled) -> float:
        """Return millimetres of paper between the two; see the class."""
        scale = other.scale or one.scale or 25_000
        about = other.places[0]
        a, b = ([_metres(place, about) for place in drawn.places] for drawn in (one, other))
        if self.sort == "line":
            metres = max(_off_line(spot, a, b[0]) for spot in b)
        else:
            metres = math.dist(a[0], b[0]) + abs(one.radius_m - other.radius_m)
        return float(metres * 1000 / scale)

    def shift(self, value: Pencilled, by: float) -> Pencilled:
        """Return the value moved north by `by` millimetres of paper."""
        return moved(value, 0.0, by)

    def write_width(self, width: float) -> str:
        """Return a width of tolerance on paper: 1.5 mm on the sheet."""
        return say("{width} mm on the sheet", {"width": f"{width:g}"})

    def quoted(self, text: str, value: Pencilled) -> str:
        """Return what the answer is called when it is spoken of: the mark itself is on the sheet."""
        return say(_ON_THE_SHEET[self.sort])

    def _written(
        self, value: Pencilled, figures: int, places: int, miles: str
    ) -> tuple[str, dict[str, str]]:
        """Return how the value is written, with names in braces, and what they stand for."""
        spots = [self._write_place(place, figures, places) for place in value.places]
        named = dict(zip(("place", "end"), spots, strict=False))
        return _WRITTEN[self.sort], {**named, "miles": miles}

    def _write_place(self, place: LatLon, figures: int, places: int) -> str:
        if self.lettering is None:
            return latlon.format(*place, "minutes", places)
        on_grid = GridPlace(*grids.to_grid(*place, _grid(self.lettering)))
        return GridReference(figures, lettering=self.lettering).write(on_grid)

    def _place(self, text: str) -> LatLon:
        """Return a place written in either form, the sheet's own being tried first."""
        if self.lettering is None:
            return latlon.parse(text)
        try:
            square, _ = GridReference(8, lettering=self.lettering).parse(text)
        except Misread:
            if not re.search(r"[NS].*[EW]", tidy(text).upper()) or "°" not in tidy(text):
                raise
            return latlon.parse(text)
        half = square.size_m / 2
        east, north = square[0] + half, square[1] + half
        lat, lon = grids.from_grid(east, north, _grid(self.lettering))
        return LatLon(float(lat), float(lon))


def moved(value: Pencilled, east_mm: float, north_mm: float) -> Pencilled:
    """Return what is drawn moved over the paper by so many millimetres."""
    metres = [mm * (value.scale or 25_000) / 1000 for mm in (east_mm, north_mm)]
    return _each(value, lambda place: _at(metres[0], metres[1], place))


def turned(value: Pencilled, degrees: float) -> Pencilled:
    """Return a line turned clockwise about its first end."""
    about, t = value.places[0], math.radians(degrees)

    def swing(place: LatLon) -> LatLon:
        x, y = _metres(place, about)
        return _at(x * math.cos(t) + y * math.sin(t), y * math.cos(t) - x * math.sin(t), about)

    return _each(value, swing)


def widened(value: Pencilled, mm: float) -> Pencilled:
    """Return a circle whose radius is so many millimetres of paper longer."""
    return Pencilled(value.places, value.scale, value.radius_m + mm * value.scale / 1000)


def _in_english(given: str) -> str:
    """Return what is written in the learner's own words for a line or a circle in English ones."""
    for words in (_WRITTEN["circle"], _WRITTEN["line"]):
        own = re.sub(r"\\{(\w+)\\}", r"(?P<\1>.+)", re.escape(say(words)))
        if match := re.fullmatch(own, given, flags=re.IGNORECASE):
            return words.format_map(match.groupdict())
    return given


def _each(value: Pencilled, change: Callable[[LatLon], LatLon]) -> Pencilled:
    return Pencilled(tuple(change(p) for p in value.places), value.scale, value.radius_m)


def _grid(lettering: Letters) -> grids.Grid:
    if isinstance(lettering, mgrs.ZoneLetters):
        return lettering.grid
    return grids.IRISH if lettering is gridref.IRISH else grids.NATIONAL


@lru_cache(maxsize=4096)
def _degree(lat: float) -> tuple[float, float]:
    """Return metres in a degree of longitude and of latitude."""
    return float(degree_of_longitude(lat)), float(degree_of_latitude(lat))


def _metres(place: LatLon, about: LatLon) -> tuple[float, float]:
    """Return metres east and north of `about`, by the length of a degree half-way between.

    Over a sheet it agrees with the rhumb line, and with the grid but for its lean, to a tenth of a
    millimetre.
    """
    east, north = _degree(round((place[0] + about[0]) / 2, 3))
    across = (place[1] - about[1] + 180) % 360 - 180
    return across * east, (place[0] - about[0]) * north


def _at(east_m: float, north_m: float, about: LatLon) -> LatLon:
    """Return the place so many metres from `about`: the way back of `_metres`."""
    lat = about[0] + north_m / _degree(round(about[0], 3))[1]
    return LatLon(lat, about[1] + east_m / _degree(round((lat + about[0]) / 2, 3))[0])


def _off_line(
    spot: tuple[float, float], line: list[tuple[float, float]], start: tuple[float, float]
) -> float:
    """Return how far a spot lies from a drawn line that is thought of as going on.

    It goes on away from the end that is nearer to `start`, where it should begin; both ways if
    `start` lies well between its ends.
    """
    near, far = sorted(line, key=lambda end: math.dist(end, start))
    way = (far[0] - near[0], far[1] - near[1])
    length = math.hypot(*way)
    if length == 0:
        return math.dist(spot, near)

    def out(of: tuple[float, float]) -> float:
        return ((of[0] - near[0]) * way[0] + (of[1] - near[1]) * way[1]) / length

    if spot != start and out(spot) < 0 and out(start) < length / 4:
        return math.dist(spot, near)
    return abs((spot[0] - near[0]) * way[1] - (spot[1] - near[1]) * way[0]) / length
