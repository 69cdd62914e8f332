"""References on the UTM and polar grids (MGRS): zone and band, two letters, then figures.

29V PF 007 188 is zone 29, band V, the 100 km square PF, then easting and northing within it, cut
off and never rounded. Beyond 84 N and 80 S one letter stands for zone and band.
Source: NGA.STND.0037, Universal Grids and Grid Reference Systems (2014), military grid reference
system.
"""

import re
from dataclasses import dataclass
from typing import NamedTuple

from navlib import gridref, grids
from navlib.gridref import HUNDRED_KM, GridPlace, Letters
from navlib.language import say
from navlib.notation import Impossible, Misread, Unclear, tidy

EXAMPLE = "29V PF 007 188"

BANDS = "CDEFGHJKLMNPQRSTUVWX"
"""Eight degrees of latitude each from 80 S; the last, X, has twelve."""

_COLUMNS = ("STUVWXYZ", "ABCDEFGH", "JKLMNPQR")
_ROWS = "ABCDEFGHJKLMNPQRSTUV"
_CYCLE = HUNDRED_KM * len(_ROWS)


@dataclass(frozen=True)
class ZoneLetters:
    """How the squares of one UTM zone and latitude band are lettered."""

    zone: int
    band: str
    count: int = 2

    @property
    def name(self) -> str:
        """The zone and band, as they stand before the letters."""
        return f"{self.zone:02d}{self.band}"

    @property
    def example(self) -> str:
        """A well-written reference of this zone and band."""
        place = gridref.Square(500_700, self._rows()[0] + 218_800)
        return f"{self.name} {gridref.format(*place, letters=self)}"

    @property
    def grid(self) -> grids.Grid:
        """The UTM grid."""
        return grids.utm(self.zone, self.band >= "N")

    def of(self, easting: float, northing: float) -> str:
        """Return the two letters of the 100 km square; raise ValueError off the zone."""
        column, row = int(easting // HUNDRED_KM) - 1, int(northing // HUNDRED_KM)
        if not 0 <= column < 8:
            raise ValueError(f"E {easting:g} lies off the squares of UTM zone {self.zone}")
        return _COLUMNS[self.zone % 3][column] + _ROWS[(row + self._shift()) % len(_ROWS)]

    def corner(self, letters: str) -> GridPlace:
        """Return the south-west corner of a square; raise ValueError if the band has none such."""
        columns = _COLUMNS[self.zone % 3]
        if len(letters) == 2 and letters[0] in columns and letters[1] in _ROWS:
            row = (_ROWS.index(letters[1]) - self._shift()) % len(_ROWS)
            south, north = self._rows()
            northing = south + (row * HUNDRED_KM - south) % _CYCLE
            if northing <= north:
                return GridPlace((columns.index(letters[0]) + 1) * HUNDRED_KM, northing)
        raise ValueError(
            say("{letters} is no square of {zone}", {"letters": letters, "zone": self.name})
        )

    def _shift(self) -> int:
        return 0 if self.zone % 2 else 5

    def _rows(self) -> tuple[int, int]:
        """Return the southings of the first and last row of squares that the band touches."""
        south = -80 + 8 * BANDS.index(self.band)
        north = south + (12 if self.band == "X" else 8)
        middle = self.zone * 6 - 183
        edges = [
            grids.to_grid(lat, lon, self.grid)[1]
            for lat in (south, north)
            for lon in (middle, middle + 6)  # the widest zones reach 6 degrees from their middle
        ]
        first, last = (int(edge // HUNDRED_KM) * HUNDRED_KM for edge in (min(edges), max(edges)))
        return first, last


@dataclass(frozen=True)
class PolarLetters:
    """How the squares about a pole are lettered: A and B the south, Y and Z the north."""

    half: str
    count: int = 2

    @property
    def name(self) -> str:
        """The letter that stands for zone and band."""
        return self.half

    @property
    def example(self) -> str:
        """A well-written reference of this half of a polar cap."""
        return f"{self.half} {'ZG' if self.half in 'AY' else 'AN'} 214 214"

    @property
    def grid(self) -> grids.Grid:
        """The polar grid."""
        return grids.ups(self.half in "YZ")

    def of(self, easting: float, northing: float) -> str:
        """Return the two letters of the 100 km square; raise ValueError off the cap."""
        columns, west, south = self._frame()
        column, row = (int((m - o) // HUNDRED_KM) for m, o in ((easting, west), (northing, south)))
        if not (0 <= column < len(columns) and 0 <= row < len(self._ALPHABET)):
            raise ValueError(f"E {easting:g} N {northing:g} lies off the polar squares {self.half}")
        return columns[column] + self._ALPHABET[row]

    def corner(self, letters: str) -> GridPlace:
        """Return the south-west corner of a square; raise ValueError if there is none such."""
        columns, west, south = self._frame()
        if len(letters) != 2 or letters[0] not in columns or letters[1] not in self._ALPHABET:
            raise ValueError(
                say(
                    "{letters} is no square of the polar half {half}",
                    {"letters": letters, "half": self.half},
                )
            )
        return GridPlace(
            west + columns.index(letters[0]) * HUNDRED_KM,
            south + self._ALPHABET.index(letters[1]) * HUNDRED_KM,
        )

    _ALPHABET = "ABCDEFGHJKLMNPQRSTUVWXYZ"

    def _frame(self) -> tuple[str, int, int]:
        """Return the column letters, and where the first column and the first row begin."""
        south = 1_300_000 if self.half in "YZ" else 800_000
        if self.half in "AY":
            return "JKLPQRSTUXYZ", 800_000, south
        return "ABCFGHJKLPQR", 2_000_000, south


class Located(NamedTuple):
    """A square as read: its lettering, which knows its `grid`, and the square itself."""

    letters: ZoneLetters | PolarLetters
    square: gridref.Square

    @property
    def corner(self) -> tuple[float, float]:
        """Latitude and longitude of the south-west corner."""
        return grids.from_grid(*self.square, self.letters.grid)

    @property
    def centre(self) -> tuple[float, float]:
        """Latitude and longitude of the middle."""
        half = self.square.size_m / 2
        east, north = self.square
        return grids.from_grid(east + half, north + half, self.letters.grid)


def letters_at(lat: float, lon: float) -> ZoneLetters | PolarLetters:
    """Return the lettering that a place lies under."""
    if -80 <= lat <= 84:
        band = BANDS[min(int(lat // 8) + 10, len(BANDS) - 1)]
        return ZoneLetters(grids.utm_zone(lat, lon), band)
    east = grids.to_grid(lat, lon, grids.ups(lat > 0))[0] >= 2_000_000
    return PolarLetters(("YZ" if lat > 0 else "AB")[east])


def format(lat: float, lon: float, figures: int = 6) -> str:
    """Return the reference of the square that holds a place, such as 29V PF 007 188.

    Raises ValueError for another count of figures than 0, 2, 4, 6, 8 or 10.
    """
    letters = letters_at(lat, lon)
    place = grids.to_grid(lat, lon, letters.grid)
    return f"{letters.name} {gridref.format(*place, figures, letters)}"


def named(zone: str) -> ZoneLetters:
    """Return the lettering of a zone and band such as 29V; raise ValueError if there is none."""
    found = re.fullmatch(r"(\d{1,2})([C-HJ-NP-X])", zone)
    if not found or not 1 <= int(found[1]) <= 60:
        raise ValueError(
            say(
                "{zone} is no zone and band: zones run from 1 to 60, bands from C to X",
                {"zone": zone},
            )
        )
    return ZoneLetters(int(found[1]), found[2])


def parse(
    text: str, letters: Letters | None = None, near: tuple[float, float] | None = None
) -> Located:
    """Return the square named, with or without spaces: 29V PF 007 188, 29VPF007188.

    Where `letters` is given, the zone may be left out; where `near` (easting, northing) is, the two
    letters may. Raises Unclear for what is missing otherwise or for figures that cannot be halved,
    Impossible for a zone, band or square that there is not.
    """
    given = tidy(text)
    front = re.match(r"(\d{1,2} ?[A-Z]|[ABYZ](?= ?[A-Z] ?[A-Z]))[ -]*", given.upper())
    rest = given[front.end() :] if front else given
    if front:
        zone = front[1].replace(" ", "")
        try:
            found = PolarLetters(zone) if zone in "ABYZ" else named(zone)
        except ValueError as missing:
            raise Impossible(given, str(missing), EXAMPLE) from None
    elif isinstance(letters, ZoneLetters | PolarLetters):
        found = letters
    else:
        raise Unclear(given, "the zone and band in front are missing", EXAMPLE)
    try:
        return Located(found, gridref.read(rest, near, found))
    except Misread as misread:
        raise type(misread)(given, misread.problem, found.example) from None
