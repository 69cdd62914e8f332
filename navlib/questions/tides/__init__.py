"""Questions on tides: heights and times from tables, clearances, secondary ports, and streams."""

from navlib.questions.faulty import find_fault
from navlib.questions.tides import (
    atlas,
    by_rule,
    choices,
    clearances,
    crossing,
    curve,
    diamonds,
    limits,
    rates,
    secondary,
    slack,
    table,
    twelfths,
    windows,
)

TOPIC = "tides"

TYPES = (
    *table.TYPES,
    *twelfths.TYPES,
    *curve.TYPES,
    *clearances.TYPES,
    *limits.TYPES,
    *crossing.TYPES,
    *windows.TYPES,
    *secondary.TYPES,
    *by_rule.TYPES,
    *choices.TYPES,
    *slack.TYPES,
    *rates.TYPES,
    *diamonds.TYPES,
    *atlas.TYPES,
    find_fault("tides.find-the-fault", "Where did it go wrong?", 3, twelfths.HEIGHT_AT),
)

EXERCISES = (
    ("tides.read-the-table", 3),
    ("tides.range", 6),
    ("tides.tidal-hour", 7),
    ("tides.over-the-bank", 2),
    ("tides.height-at", 1),
    ("tides.rate-today", 5),
    ("tides.wind-over-tide", 2),
    ("tides.secondary-port", 4),
    ("tides.causeway", 3),
    ("tides.diamond", 1),
)
