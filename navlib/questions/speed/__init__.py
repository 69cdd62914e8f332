"""Questions on time, distance and speed: sums, the clock, rests and reserves, streams on the way."""

from navlib.questions.faulty import find_fault
from navlib.questions.speed import clocks, in_streams, leaving, legs, sums, under_way

TOPIC = "speed"

TYPES = (
    *sums.TYPES,
    *clocks.TYPES,
    *leaving.TYPES,
    *legs.TYPES,
    *in_streams.TYPES,
    *under_way.TYPES,
    find_fault("speed.find-the-fault", "Where did it go wrong?", 3, in_streams.ROUND_THE_POINT),
)

EXERCISES = (
    ("speed.time", 9),
    ("speed.distance", 6),
    ("speed.elapsed", 5),
    ("speed.on-the-map", 1),
    ("speed.eta", 14),
    ("speed.there-and-back", 4),
    ("speed.revised-eta", 7),
    ("speed.tidal-gate", 2),
    ("speed.stream-turns", 2),
    ("speed.find-the-fault", 4),
)
