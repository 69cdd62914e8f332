"""An old chart on another datum: what to plot there, and what it costs to forget."""

import random
from collections.abc import Mapping
from typing import Any

from navlib import waters
from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Slip, Step
from navlib.grids import from_grid
from navlib.kinds.angles import Angle
from navlib.kinds.places import Position
from navlib.kinds.quantities import Distance
from navlib.latlon import LatLon
from navlib.questions.position.sea_legs import departure_step
from navlib.questions.position.sides import NORTHWARD, Side, distance_step
from navlib.questions.position.views import draw_at_sea
from navlib.units import NM

HOME_SHARE = 0.1
"""Share of draws in the northern training water, where the shift is the same all over."""
HUNDREDTH = 1 / 6000
"""A hundredth of a minute, in degrees."""
MINUTES_EAST, MINUTES_NORTH = Side("′", 0.01), Side("′", 0.01, ways=NORTHWARD)


def _moved(spot: LatLon, dlat: float, dlong: float) -> LatLon:
    return LatLon(spot.lat + dlat / 60, spot.lon + dlong / 60)


PLOTTED = Step(
    "plotted",
    Position(),
    _moved,
    how="Move the receiver’s position as the note says, latitude and longitude each for itself.",
    line="{spot}, moved {dlat} and {dlong}: {plotted}",
    check="Sketch the two spots: does yours lie from the receiver’s as the note says?",
    slips=(
        Slip(
            "wrong-way",
            lambda spot, dlat, dlong: _moved(spot, -dlat, -dlong),
            "Yours, {yours}, is moved the wrong way, so you are off by twice as much as without "
            "the note. The note goes from satellite to chart: {dlat}, {dlong}. Check: sketch the "
            "two spots.",
        ),
        Slip(
            "not-moved",
            lambda spot: spot,
            "Yours, {yours}, is what the receiver shows, and the chart has another datum. The same "
            "figures are another place there. Check: read the chart’s note before the first plot.",
        ),
        Slip(
            "shifts-exchanged",
            lambda spot, dlat, dlong: _moved(spot, dlong, dlat),
            "Yours, {yours}, puts the shift of longitude on the latitude. North or south goes with "
            "latitude. Check: write N or S, E or W behind each shift.",
        ),
        Slip(
            "one-shift-only",
            lambda spot, dlat: _moved(spot, dlat, 0.0),
            "Yours, {yours}, has the latitude moved and the longitude left. The note gives two "
            "shifts. Check: tick each off in the note as you use it.",
        ),
    ),
)

METRES = Distance("m", 10.0, unit_asked=True)
NORTH = Step(
    "north",
    Side("m", 1.0, ways=NORTHWARD),
    lambda dlat: dlat * NM,
    how="A minute of latitude is a mile, 1852 m.",
    line="{dlat} of latitude × 1852 m: {north}",
)
LATITUDE = Step(
    "middle",
    Angle(),
    lambda spot: abs(spot.lat),
    how="To a degree, the latitude is enough here.",
    line="Latitude: {middle}",
)


def _old_chart_of_the_waters(source: random.Random) -> tuple[LatLon, float, float]:
    """Return a place by satellite in the northern water, and the shift to its grid's own datum."""
    water = waters.load("kessoray")
    place, grid = source.choice(water.marks()).place, water.settings.grid
    spot, old = water.lat_lon(place), from_grid(*place, grid.on_own_datum)
    dlat, dlong = (round((b - a) * 60, 2) for a, b in zip(spot, old, strict=True))
    return LatLon(*(round(angle / HUNDREDTH) * HUNDREDTH for angle in spot)), dlat, dlong


def _draw_old_chart(source: random.Random) -> tuple[LatLon, float, float]:
    """Return a place at sea by satellite, and the shift to an old chart there: some 100 to 600 m."""
    dlat, dlong = (
        source.choice((-1, 1)) * source.randrange(low, high) / 100
        for low, high in ((4, 25), (6, 40))
    )
    return draw_at_sea(source, HUNDREDTH), dlat, dlong


def _draw(source: random.Random) -> Mapping[str, Any]:
    at_home = source.random() < HOME_SHARE
    spot, dlat, dlong = (_old_chart_of_the_waters if at_home else _draw_old_chart)(source)
    return {"spot": spot, "dlat": dlat, "dlong": dlong}


TYPES = (
    QuestionType(
        "position.old-datum",
        "An old chart on another datum",
        "position",
        3,
        Chain(
            {"spot": Position(), "dlat": MINUTES_NORTH, "dlong": MINUTES_EAST},
            (
                PLOTTED,
                NORTH,
                LATITUDE,
                departure_step(Side("m", 1.0), NM),
                distance_step(METRES, 1.0).without("root-forgotten", "sides-added"),
            ),
        ),
        _draw,
        "An old chart says: “Positions obtained from satellites must be moved {dlat} and {dlong} "
        "to agree with this chart.” Your receiver, on WGS 84, shows {spot}.\n\nWhich position do "
        "you plot on this chart? And how far off would you be if you forgot the note?",
        {"plotted": "Position to plot", "distance": "Off, in metres"},
    ),
)
