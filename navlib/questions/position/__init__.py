"""Questions on position: grid references, latitude and longitude, and from the one to the other."""

from navlib.questions.faulty import find_fault
from navlib.questions.position import (
    border,
    crosses,
    formats,
    metres,
    old_datum,
    on_the_radio,
    plotting,
    plotting_on_chart,
    pythagoras,
    readouts,
    romer,
    sea_legs,
)

TOPIC = "position"

TYPES = (
    *romer.TYPES,
    *metres.TYPES,
    *crosses.TYPES,
    *pythagoras.TYPES,
    *border.TYPES,
    *formats.TYPES,
    *sea_legs.TYPES,
    *readouts.TYPES,
    *old_datum.TYPES,
    *on_the_radio.TYPES,
    *plotting.TYPES,
    *plotting_on_chart.TYPES,
    find_fault("position.find-the-fault", "Where did it go wrong?", 3, sea_legs.BETWEEN),
)

EXERCISES = (
    ("position.square", 3),
    ("position.six-figures", 3),
    ("position.from-metres", 5),
    ("position.find-the-reference", 3),
    ("position.seconds", 6),
    ("position.decimal-degrees", 4),
    ("position.at-the-border", 6),
    ("position.two-references", 9),
    ("position.three-ways", 1),
    ("position.between-positions", 8),
)
