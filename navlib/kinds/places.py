"""Answers that are places: a grid reference, a position, a mark on the sheet."""

import math
from dataclasses import dataclass, field

from navlib import gridref, latlon, mgrs
from navlib.chain.kind import Kind
from navlib.geodesy import geodesic, geodesic_destination
from navlib.gridref import GridPlace, Letters, LettersMissing, Square
from navlib.kinds.numbers import decimals, to_step
from navlib.language import say
from navlib.latlon import Form, LatLon
from navlib.notation import Unclear, tidy

_DECIMAL = {
    "minutes": "these are decimal degrees, and degrees and minutes are asked",
    "seconds": "these are decimal degrees, and degrees, minutes and seconds are asked",
}
LONGEST_MINUTE = 1862.0
"""Metres that no minute of latitude exceeds (1861.6 m at the poles of WGS 84), so that an answer
whose last figure is one out lies within one rounding."""


@dataclass(frozen=True)
class GridReference(Kind[GridPlace]):
    """A grid reference of `figures` figures: the square that a place lies in.

    A value is easting and northing in metres: an exact place as a chain works it out, or a
    `Square` as an answer names it, by its south-west corner; both unpack into two numbers.

    `apart` is metres along the axis where two differ more. Two exact places: their difference. A
    place and a square: how far the place lies beyond the square, 0 inside it. Two squares of one
    size: the difference of their corners, so one in the last figure of a six-figure reference is
    100 m. Of two sizes: the finer one is cut off to the coarser first.

    `lettering` says which grid: the National Grid, the Irish Grid, or a UTM zone such as
    `mgrs.named("29V")`, whose zone and band may be left out. Letters that are missing are
    asked for, unless the sheet has one `square` only, such as "HV". Fewer figures than asked are
    asked about; more are taken with a note. `exact` is for questions that give easting and northing
    in figures, where nothing is measured and the very square is wanted.
    """

    figures: int = 6
    square: str = ""
    lettering: Letters = gridref.NATIONAL
    exact: bool = False
    unit: str = field(init=False, default="")
    rounding: float = field(init=False, default=0.0)
    example: str = field(init=False, default="")

    def __post_init__(self) -> None:
        """Check figures and square, and take a well-written answer as the example."""
        size = gridref.square_size(self.figures)
        object.__setattr__(self, "rounding", 1.0 if self.exact else float(size))
        place: GridPlace = self._read(self.lettering.example, None)
        if self.square:
            corner = self.lettering.corner(self.square)
            within = (m % gridref.HUNDRED_KM for m in place)
            place = GridPlace(*(c + w for c, w in zip(corner, within, strict=True)))
        object.__setattr__(self, "example", self.write(place))

    def parse(self, text: str) -> tuple[Square, tuple[str, ...]]:
        """Return the square named and notes; raise Misread as `gridref.parse` does."""
        try:
            square, notes = self._read(text, None), []
        except LettersMissing:
            if not self.square:
                raise
            middle = (m + gridref.HUNDRED_KM / 2 for m in self.lettering.corner(self.square))
            square = self._read(text, GridPlace(*middle))
            notes = [
                say(
                    "Write the letters too, {square}: the figures come back every 100 km.",
                    {"square": self.square},
                )
            ]
        asked = gridref.square_size(self.figures)
        if square.size_m > asked:
            named, wanted = (f"{m:,.0f} m".replace(",", " ") for m in (square.size_m, asked))
            problem = say(
                "it names a square of {named}; {figures} figures name one of {wanted}",
                {"named": named, "figures": self.figures, "wanted": wanted},
            )
            raise Unclear(tidy(text), problem, self.example)
        if square.size_m < asked and not gridref.whole_metres(text):
            notes.append(
                say(
                    "{figures} figures are asked; the others say more than is known.",
                    {"figures": self.figures},
                )
            )
        return square, tuple(notes)

    def write(self, value: GridPlace) -> str:
        """Return the reference of the square that holds the place, cut off: HV 965 023."""
        east, north = value
        written = gridref.format(east, north, self.figures, self.lettering)
        zoned = isinstance(self.lettering, mgrs.ZoneLetters)
        return f"{self.lettering.name} {written}" if zoned else written

    def apart(self, one: GridPlace, other: GridPlace) -> float:
        """Return metres along the axis where the two differ more; see the class."""
        sides = [place.size_m if isinstance(place, Square) else 0.0 for place in (one, other)]
        pairs = zip(one, other, strict=True)
        return max(_beyond(a, sides[0], b, sides[1]) for a, b in pairs)

    def shift(self, value: GridPlace, by: float) -> GridPlace:
        """Return `value` moved east by `by` metres, a square staying a square."""
        east, north = value
        if isinstance(value, Square):
            return Square(east + by, north, value.size_m)
        return GridPlace(east + by, north)

    def write_width(self, width: float) -> str:
        """Return a width of tolerance in metres."""
        return f"{width:g} m"

    def _read(self, text: str, near: GridPlace | None) -> Square:
        if not isinstance(self.lettering, mgrs.ZoneLetters):
            return gridref.read(text, near, self.lettering)
        found = mgrs.parse(text, self.lettering, near)
        if found.letters.grid != self.lettering.grid:
            problem = say(
                "zone {zone} is not on this sheet, which has {here}",
                {"zone": found.letters.name, "here": self.lettering.name},
            )
            raise Unclear(tidy(text), problem, self.example)
        return found.square


def _beyond(one: float, side: float, other: float, other_side: float) -> float:
    """Return how far apart two stretches of an axis are; see `GridReference`."""
    if side == other_side:
        return abs(one - other)
    if side < other_side:
        one, side, other, other_side = other, other_side, one, side
    if other_side:
        return abs(one - other // side * side)
    return max(one - other, other - (one + side), 0.0)


@dataclass(frozen=True)
class Position(Kind[LatLon]):
    """A latitude and longitude in degrees, written 58°46.97'N 007°11.64'W.

    `form` and `places` (decimals of its last unit) say how it is asked. `apart` is metres over the
    ground, without a sign. Decimal degrees are asked about where minutes are wanted; a missing N,
    S, E or W is taken as the nearer to `near` (lat, lon) with a note, and asked about without it.
    """

    form: Form = "minutes"
    places: int = 2
    near: tuple[float, float] | None = None
    unit: str = field(init=False, default="")
    rounding: float = field(init=False, default=0.0)
    example: str = field(init=False, default="")

    def __post_init__(self) -> None:
        """Take the last digit, in metres of the longest latitude, as the rounding."""
        per_degree = {"minutes": 60, "seconds": 3600, "degrees": 1}[self.form]
        object.__setattr__(self, "rounding", 60 * LONGEST_MINUTE / per_degree / 10**self.places)
        lat, lon = self.near or (58.782833, -7.194)
        object.__setattr__(self, "example", self.write(LatLon(lat, lon)))

    def parse(self, text: str) -> tuple[LatLon, tuple[str, ...]]:
        """Return the position and notes; raise Misread as `latlon.parse` does."""
        written = latlon.read(text, self.near)
        if written.form == "degrees" != self.form:
            raise Unclear(tidy(text), say(_DECIMAL[self.form]), self.example)
        return written.place, written.assumed

    def write(self, value: LatLon) -> str:
        """Return latitude, then longitude."""
        return latlon.format(*value, self.form, self.places)

    def apart(self, one: LatLon, other: LatLon) -> float:
        """Return the distance over the ground in metres."""
        return float(geodesic(*one, *other).distance_m)

    def shift(self, value: LatLon, by: float) -> LatLon:
        """Return the place `by` metres north."""
        return geodesic_destination(*value, 0.0, by)

    def write_width(self, width: float) -> str:
        """Return a width of tolerance in metres."""
        return f"{width:.0f} m"


@dataclass(frozen=True)
class Mark(Kind[GridPlace]):
    """A point put on the sheet: easting and northing in metres of its grid, written 96580,1002350.

    `apart` is metres in a straight line, without a sign.
    """

    rounding: float = 10.0
    unit: str = field(init=False, default="m")
    example: str = field(init=False, default="")

    def __post_init__(self) -> None:
        """Take a well-written answer as the example."""
        object.__setattr__(self, "example", self.write(GridPlace(96_580, 1_002_350)))

    def parse(self, text: str) -> tuple[GridPlace, tuple[str, ...]]:
        """Return the place; raise Unclear for what is not two numbers of metres."""
        return gridref.parse_metres(text), ()

    def write(self, value: GridPlace) -> str:
        """Return easting,northing in metres, rounded."""
        return ",".join(f"{to_step(m, self.rounding):.{decimals(self.rounding)}f}" for m in value)

    def apart(self, one: GridPlace, other: GridPlace) -> float:
        """Return the distance between the two in metres."""
        return math.hypot(one[0] - other[0], one[1] - other[1])

    def shift(self, value: GridPlace, by: float) -> GridPlace:
        """Return the place `by` metres to the east."""
        return GridPlace(value[0] + by, value[1])
