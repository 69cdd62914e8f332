"""Questions on bearings: measured, converted, observed, and by eye."""

from navlib.questions.bearings import by_eye, compass, convert, fix, on_the_map, plotting

TOPIC = "bearings"

TYPES = (
    *convert.TYPES,
    *on_the_map.TYPES,
    *compass.TYPES,
    *by_eye.TYPES,
    *plotting.TYPES,
    *fix.TYPES,
)

EXERCISES = (
    ("bearings.measure", 8),
    ("bearings.true-to-magnetic", 1),
    ("bearings.magnetic-to-true", 1),
    ("bearings.on-the-bow", 1),
    ("bearings.back-bearing", 1),
    ("bearings.map-to-compass", 4),
    ("bearings.compass-to-map", 1),
    ("bearings.deviation-by-transit", 1),
    ("bearings.compass-to-true", 1),
    ("bearings.true-to-compass", 1),
)
