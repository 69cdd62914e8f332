"""Questions on scale and distance: paper to ground, the latitude scale, wrong prints, coasts."""

from navlib.questions.distance import (
    along_the_coast,
    conversions,
    copies,
    mercator,
    on_paper,
    on_the_sheet,
    plotting,
    torn,
    which_length,
)
from navlib.questions.faulty import find_fault

TOPIC = "distance"

TYPES = (
    *conversions.TYPES,
    *on_paper.TYPES,
    *on_the_sheet.TYPES,
    *plotting.TYPES,
    *copies.TYPES,
    *torn.TYPES,
    *mercator.TYPES,
    *along_the_coast.TYPES,
    *which_length.TYPES,
    find_fault("distance.find-the-fault", "Where did it go wrong?", 3, on_paper.DIVIDERS),
)

EXERCISES = (
    ("distance.cables", 2),
    ("distance.fraction", 1),
    ("distance.by-bar", 1),
    ("distance.by-latitude", 2),
    ("distance.dividers", 2),
    ("distance.torn-title", 2),
    ("distance.print-check", 1),
    ("distance.round-the-head", 12),
    ("distance.coast-steps", 1),
    ("distance.find-the-fault", 3),
)
