"""Tides: heights, high and low waters, levels, tables, shortcuts, clearances; not for navigation.

`Port(mean_level, constituents)` is the front door. Heights in metres above chart datum, times
aware UTC. A tide is predicted after P. Schureman, SP 98 (see `astronomy`); wind and air pressure
are in no prediction.
"""

from navlib.tides.beside import heights_beside, times_beside
from navlib.tides.clearance import (
    depth_over_drying,
    greatest_height,
    least_height,
    over_mast,
    overhead,
    under_keel,
    water_depth,
)
from navlib.tides.constituents import CONSTITUENTS
from navlib.tides.curves import Curve, MeanCurves, mean_curves
from navlib.tides.levels import Levels, springs_and_neaps, tidal_levels
from navlib.tides.port import NodeFactors, Port
from navlib.tides.secondary import Differences, Offsets, SecondaryPort
from navlib.tides.shortcuts import COSINE, STRAIGHT_LINE, TWELFTHS, Rule
from navlib.tides.tables import (
    day_range,
    day_table,
    days_table,
    month_table,
    printed_days,
    ranges,
    week_table,
)
from navlib.tides.turns import Tide, Turn, Water, tide_at, tides, without_stands
from navlib.tides.windows import Window, through, tidal_windows

__all__ = [
    "CONSTITUENTS",
    "COSINE",
    "STRAIGHT_LINE",
    "TWELFTHS",
    "Curve",
    "Differences",
    "Levels",
    "MeanCurves",
    "NodeFactors",
    "Offsets",
    "Port",
    "Rule",
    "SecondaryPort",
    "Tide",
    "Turn",
    "Water",
    "Window",
    "day_range",
    "day_table",
    "days_table",
    "depth_over_drying",
    "greatest_height",
    "heights_beside",
    "least_height",
    "mean_curves",
    "month_table",
    "over_mast",
    "overhead",
    "printed_days",
    "ranges",
    "springs_and_neaps",
    "through",
    "tidal_levels",
    "tidal_windows",
    "tide_at",
    "tides",
    "times_beside",
    "under_keel",
    "water_depth",
    "week_table",
    "without_stands",
]
