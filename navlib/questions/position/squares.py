"""Where a grid reference leads that was read or written with a slip: places on the grid, in metres.

Each goes wrong within the 100 km square of the place: who reads a wrong line still writes its letters.
"""

from navlib.gridref import HUNDRED_KM, GridPlace
from navlib.language import say

KM = 1000.0


def in_tenths(metres: float) -> str:
    """Return how far a place lies beyond its grid line: 3 tenths."""
    tenths = int(metres % KM // 100)
    return say("1 tenth") if tenths == 1 else say("{tenths} tenths", {"tenths": tenths})


def in_hundredths(metres: float) -> str:
    """Return the same to ten metres: 32 hundredths."""
    return say("{hundredths} hundredths", {"hundredths": f"{metres % KM // 10:02.0f}"})


def in_square(place: GridPlace, east: float, north: float) -> GridPlace:
    """Return the place with these metres in the 100 km square of `place`, round and round."""
    pairs = zip(place, (east, north), strict=True)
    return GridPlace(*(m - m % HUNDRED_KM + new % HUNDRED_KM for m, new in pairs))


def northing_first(place: GridPlace) -> GridPlace:
    """Return where the figures lead if the halves are exchanged."""
    return in_square(place, place[1], place[0])


def next_line(place: GridPlace, east: int = 0, north: int = 0) -> GridPlace:
    """Return where the figures lead that are counted from a line so many squares further on."""
    return in_square(place, place[0] + east * KM, place[1] + north * KM)


def tenths_backwards(place: GridPlace) -> GridPlace:
    """Return where the figures lead if tenths are counted from the far side of the square."""
    return GridPlace(*(m - m % KM + (KM - m % KM) % KM for m in place))


def tenths_exchanged(place: GridPlace) -> GridPlace:
    """Return where the figures lead if the tenths of the one half are written in the other."""
    east, north = place
    return GridPlace(east - east % KM + north % KM, north - north % KM + east % KM)


def other_edge(place: GridPlace, scale: int) -> GridPlace | None:
    """Return where a romer's edge for the other map scale leads; None where it ends too soon.

    On a 1:25 000 map the edge for 1:50 000 counts double, and the other way about by half.
    """
    times = 2 if scale == 25_000 else 0.5
    if any(m % KM * times >= KM for m in place):
        return None
    return GridPlace(*(m - m % KM + m % KM * times for m in place))


def across(place: GridPlace, east: bool) -> GridPlace:
    """Return the same figures under the letters of the nearest other 100 km square, in one axis."""
    axis = 0 if east else 1
    step = HUNDRED_KM if place[axis] % HUNDRED_KM >= HUNDRED_KM / 2 else -HUNDRED_KM
    return GridPlace(place[0] + step, place[1]) if east else GridPlace(place[0], place[1] + step)


def middle(place: GridPlace, size: float) -> GridPlace:
    """Return the middle of the square of this size that holds a place."""
    return GridPlace(*(m - m % size + size / 2 for m in place))


def rounded_up(place: GridPlace, size: float) -> GridPlace | None:
    """Return the middle of the square named by rounding; None where cutting off names it too."""
    up = GridPlace(*((m + size / 2) // size * size + size / 2 for m in place))
    return None if up == middle(place, size) else up
