"""Grid references: letters for the 100 km square, then figures, easting before northing.

A reference names a square by its south-west corner, so it is cut off, never rounded. 2, 4, 6, 8 or
10 figures name squares of 10 km, 1 km, 100 m, 10 m or 1 m; letters alone the 100 km square.
Metres are those of the grid, which `navlib.grids` ties to latitude and longitude.
"""

import math
import re
from dataclasses import dataclass
from typing import NamedTuple, Protocol

from navlib.language import say
from navlib.notation import Impossible, Unclear, tidy

FIGURES = (0, 2, 4, 6, 8, 10)
ALPHABET = "ABCDEFGHJKLMNOPQRSTUVWXYZ"
"""Without I, five to a row, rows from north to south."""

HUNDRED_KM = 100_000
METRES_EXAMPLE = "96580,1002347"


class LettersMissing(Unclear):
    """A reference without its letters, which comes back every 100 km."""


class GridPlace(NamedTuple):
    """A place on a metre grid, or the south-west corner of a square."""

    easting: float
    northing: float


class Square(GridPlace):
    """A square as read: a `GridPlace` of two fields, its south-west corner, that knows its side."""

    size_m: float = 0.0

    def __new__(cls, easting: float, northing: float, size_m: float = 0.0) -> "Square":
        """Return the square of side `size_m` north and east of its corner."""
        square = super().__new__(cls, easting, northing)
        square.size_m = size_m
        return square


class Letters(Protocol):
    """How a grid names its 100 km squares: its name, the count of letters, a good reference."""

    @property
    def name(self) -> str: ...  # noqa: D102
    @property
    def count(self) -> int: ...  # noqa: D102
    @property
    def example(self) -> str: ...  # noqa: D102

    def of(self, easting: float, northing: float) -> str:
        """Return the letters of the 100 km square; raise ValueError off the lettering."""

    def corner(self, letters: str) -> GridPlace:
        """Return the south-west corner of a 100 km square; raise ValueError if there is none."""


@dataclass(frozen=True)
class Lettered:
    """A lettering by squares of 25: each further letter names a fifth of the square before it.

    `west` and `south` are the corner of the whole.
    """

    name: str
    count: int
    west: int
    south: int
    example: str

    def of(self, easting: float, northing: float) -> str:
        """Return the letters of the 100 km square; raise ValueError off the lettering."""
        size = HUNDRED_KM * 5**self.count
        east, north = int(easting - self.west), int(northing - self.south)
        if not (0 <= easting - self.west < size and 0 <= northing - self.south < size):
            raise ValueError(
                f"E {easting:g} N {northing:g} lies off the letters of the {self.name}: "
                f"give metres of that grid, easting first, such as {METRES_EXAMPLE}"
            )
        letters = ""
        for _ in range(self.count):
            size //= 5
            letters += ALPHABET[(4 - north // size) * 5 + east // size]
            east, north = east % size, north % size
        return letters

    def corner(self, letters: str) -> GridPlace:
        """Return the south-west corner of a 100 km square; raise ValueError if there is none."""
        if len(letters) != self.count or any(letter not in ALPHABET for letter in letters):
            raise ValueError(
                say("{letters} is no square of the {grid}", {"letters": letters, "grid": self.name})
            )
        east, north, size = self.west, self.south, HUNDRED_KM * 5**self.count
        for letter in letters:
            row, column = divmod(ALPHABET.index(letter), 5)
            size //= 5
            east, north = east + column * size, north + (4 - row) * size
        return GridPlace(east, north)


NATIONAL = Lettered("National Grid", 2, -1_000_000, -500_000, "HV 965 023")
"""Two letters, 500 km then 100 km; the false origin is the corner of SV.

Drawn on over the sea and beyond the official land cover, as far as the 25 first letters reach.
Source: A Guide to Coordinate Systems in Great Britain, v3.6, section 7.
"""

IRISH = Lettered("Irish Grid", 1, 0, 0, "C 123 456")
"""One letter; the false origin is the corner of V. Source: as above, the Irish Grid (from memory)."""


def square_size(figures: int) -> int:
    """Return the side in metres of the square that so many figures name: 100 for 6."""
    if figures not in FIGURES:
        raise ValueError(f"a grid reference has 0, 2, 4, 6, 8 or 10 figures, not {figures}")
    return HUNDRED_KM // 10 ** (figures // 2)


def format(easting: float, northing: float, figures: int = 6, letters: Letters = NATIONAL) -> str:
    """Return the reference of the square that holds a place, such as HV 965 023.

    Cut off, never rounded. Raises ValueError for another count of figures than 0, 2, 4, 6, 8 or
    10, and for a place off the lettering.
    """
    size = square_size(figures)
    if not (math.isfinite(easting) and math.isfinite(northing)):
        raise ValueError(f"E {easting} N {northing} is no place: give metres, {METRES_EXAMPLE}")
    # Counted in whole squares at once, or a place a hair west of a line falls between two.
    east, north = (int(metres // size) * size for metres in (easting, northing))
    parts = [letters.of(east, north)]
    if figures:
        parts += [f"{m % HUNDRED_KM // size:0{figures // 2}d}" for m in (east, north)]
    return " ".join(parts)


def parse(
    text: str, near: tuple[float, float] | None = None, letters: Letters = NATIONAL
) -> GridPlace:
    """Return easting and northing in metres of the south-west corner of the square named.

    Reads HV 965 023, HV965023, hv 965-023 and whole metres (96580 1002347, 96580,1002347). Where
    the letters are missing, takes the square that comes nearest to `near` (easting, northing).
    Raises Unclear for an odd number of figures, unequal halves, O for 0, or missing letters;
    Impossible for letters that name no square.
    """
    return GridPlace(*read(text, near, letters))


def read(text: str, near: tuple[float, float] | None = None, letters: Letters = NATIONAL) -> Square:
    """Return the square named, which knows its size; see `parse`."""
    given = tidy(text)
    if metres := whole_metres(given):
        return Square(*metres, 1.0)
    written, rest = _cut(given, letters)
    east, north = _figures(given, rest, letters)
    figures = len(east) + len(north)
    size = square_size(figures)
    within = GridPlace(int(east or 0) * size, int(north or 0) * size)
    if written:
        corner = _corner(given, written, letters)
    elif near is None:
        problem = "the letters of the 100 km square are missing"
        raise LettersMissing(given, problem, letters.example)
    else:
        corner = GridPlace(*(_nearest(n, w, size) for n, w in zip(near, within, strict=True)))
    east_m, north_m = (float(c + w) for c, w in zip(corner, within, strict=True))
    return Square(east_m, north_m, float(size))


_NUMBER = r"-?(?:\d{1,3}(?: \d{3}){1,2}|\d+)(?:\.\d+)?"
_METRES = re.compile(
    rf"(?:E(?:asting)? ?)?(?P<e>{_NUMBER}) ?(?:m(?: ?E)?|E)?"
    r"(?: ?[,;/] ?| )"
    rf"(?:N(?:orthing)? ?)?(?P<n>{_NUMBER}) ?(?:m(?: ?N)?|N)?",
    re.IGNORECASE,
)


def parse_metres(text: str) -> GridPlace:
    """Return a place written in metres, easting,northing; decimals and minus signs are read."""
    given = tidy(text)
    found = _METRES.fullmatch(given)
    if not found:
        raise Unclear(given, "this is no easting and northing in metres", METRES_EXAMPLE)
    return _place(found)


def whole_metres(text: str) -> GridPlace | None:
    """Return the place if `text` is metres with all their figures, five or more and one of six."""
    found = _METRES.fullmatch(tidy(text))
    if not found:
        return None
    counts = [len(re.sub(r"\..*|\D", "", found[part])) for part in "en"]
    if min(counts) < 5 or max(counts) < 6 or max(counts) > 7:
        return None
    return _place(found)


def _place(found: re.Match[str]) -> GridPlace:
    return GridPlace(*(float(found[part].replace(" ", "")) for part in "en"))


def _cut(given: str, letters: Letters) -> tuple[str, str]:
    """Return the letters in front, in capitals, and what follows them."""
    plain = given.upper()
    if re.match(r"\d{1,2} ?[A-Z]", plain):
        problem = say(
            "this begins like a UTM zone, and the {grid} is asked", {"grid": letters.name}
        )
        raise Unclear(given, problem, letters.example)
    front = re.match(r"(?:[A-Z][ .-]*)*", plain)
    run = re.findall("[A-Z]", front[0]) if front else []
    written = "".join(run[: letters.count])
    rest = re.sub(rf"^(?:[A-Z][ .-]*){{{len(written)}}}", "", plain) if written else plain
    if not re.search(r"\d", plain) and len(run) != letters.count:
        raise Impossible(given, "there are no figures in it", letters.example)
    if 0 < len(written) < letters.count:
        problem = say(
            "the {grid} names a 100 km square by {count} letters",
            {"grid": letters.name, "count": letters.count},
        )
        raise Unclear(given, problem, letters.example)
    return written, rest


def _figures(given: str, rest: str, letters: Letters) -> tuple[str, str]:
    """Return the figures of easting and of northing."""
    if re.search(r"[OIL]", rest) and not re.search(r"[A-HJKM-NP-Z]", rest):
        problem = "a letter stands among the figures: O may be meant for 0, I or L for 1"
        raise Unclear(given, problem, letters.example)
    if not re.fullmatch(r"[\d ,;/-]*", rest):
        raise Unclear(given, "this is not letters and then figures", letters.example)
    groups = re.findall(r"\d+", rest)
    together = "".join(groups)
    half = len(together) // 2
    if len(together) % 2:
        problem = say(
            "{count} figures cannot be halved into easting and northing", {"count": len(together)}
        )
        raise Unclear(given, problem, letters.example)
    if len(together) > 10:
        raise Unclear(given, "a reference has ten figures at most", letters.example)
    ends = {sum(map(len, groups[:i])) for i in range(len(groups) + 1)}
    if len(groups) > 1 and half not in ends:
        problem = "easting and northing need the same number of figures"
        raise Unclear(given, problem, letters.example)
    return together[:half], together[half:]


def _corner(given: str, written: str, letters: Letters) -> GridPlace:
    try:
        return letters.corner(written)
    except ValueError as missing:
        raise Impossible(given, str(missing), letters.example) from None


def _nearest(near: float, within: float, size: float) -> float:
    """Return the multiple of 100 km that brings a square's middle nearest to `near`."""
    return round((near - within - size / 2) / HUNDRED_KM) * HUNDRED_KM
