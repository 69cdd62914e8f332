"""Questions on variation: the rose brought to date, grid north, old bearings, what is to blame."""

from navlib.questions.faulty import find_fault
from navlib.questions.variation import (
    causes,
    compass,
    margin,
    norths,
    old_rose,
    on_charts,
    roses,
    to_the_map,
    zero,
)

TOPIC = "variation"

TYPES = (
    *roses.TYPES,
    *zero.TYPES,
    *norths.TYPES,
    *compass.TYPES,
    *on_charts.TYPES,
    *margin.TYPES,
    *causes.TYPES,
    *to_the_map.TYPES,
    *old_rose.TYPES,
    find_fault("variation.find-the-fault", "Where did it go wrong?", 3, to_the_map.WORKED),
)

EXERCISES = (
    ("variation.which-way", 5),
    ("variation.rose-to-date", 4),
    ("variation.order-of-norths", 4),
    ("variation.compass-error", 5),
    ("variation.read-the-rose", 3),
    ("variation.grid-magnetic-angle", 1),
    ("variation.map-margin", 0),
    ("variation.what-is-to-blame", 7),
    ("variation.chart-to-compass", 4),
    ("variation.find-the-fault", 7),
)
