"""On the sheet and on the water: a leg measured and timed, and who is first at the beach."""

import random
from collections.abc import Callable, Mapping
from datetime import datetime
from itertools import pairwise
from typing import Any

from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Slip, Step, Work
from navlib.clock import later, minutes_between
from navlib.kinds.choices import Order
from navlib.language import say
from navlib.questions.distance.draws import MAP_LEG, draw_map_leg
from navlib.questions.distance.steps import MEASURED
from navlib.questions.picture import Table
from navlib.questions.speed.draws import PADDLING, draw_time
from navlib.questions.speed.steps import KNOTS, MILES, UT, time_step
from navlib.speed import HOUR, time_taken
from navlib.units import NM

# A leg on the sheet -----------------------------------------------------------------------------


def _draw_sheet(source: random.Random) -> Mapping[str, Any]:
    return {**draw_map_leg(source), "speed": source.choice(PADDLING)}


# Who is there first? ----------------------------------------------------------------------------

Boat = tuple[str, datetime, float, float]
"""Letter, departure, distance in metres, speed in knots."""


def _arrival(boat: Boat) -> datetime:
    _, departure, distance, speed = boat
    return later(departure, time_taken(distance, speed))


def _by(measure: Callable[[Boat], Any]) -> Work:
    return lambda boats: tuple(boat[0] for boat in sorted(boats, key=measure))


IN_ORDER = Step(
    "order",
    Order({letter: f"boat {letter.upper()}" for letter in "abcde"}),
    _by(_arrival),
    how="Find each boat’s minutes from the minutes for one mile, and put them on its departure.",
    line="{arrivals}: {order}",
    check="A boat that starts early may still be late. Have you an arrival for each?",
    slips=(
        Slip(
            "by-speed",
            _by(lambda boat: -boat[3]),
            "Yours, {yours}, is the order of the speeds. The fastest is not there first if it has "
            "further to go or starts late. Check: write the time of arrival beside each boat.",
        ),
        Slip(
            "by-distance",
            _by(lambda boat: boat[2]),
            "Yours, {yours}, is the order of the distances. The nearest is not there first if it is "
            "slow or starts late. Check: write the time of arrival beside each boat.",
        ),
        Slip(
            "by-departure",
            _by(lambda boat: boat[1]),
            "Yours, {yours}, is the order in which they start. Check: write the time of arrival "
            "beside each boat; who starts later may be faster or have less to go.",
        ),
        Slip(
            "by-duration",
            _by(lambda boat: time_taken(boat[2], boat[3])),
            "Yours, {yours}, is the order of the times under way, as if all started together. Check: "
            "put each boat’s minutes on its own departure.",
        ),
    ),
)


def _draw_boats(source: random.Random) -> Mapping[str, Any] | None:
    speeds = source.sample((2.0, 3.0, 4.0, 5.0, 6.0), 5)
    halves = source.sample(range(4, 19), 5)
    start = draw_time(source, 9, 14, 10)
    waits = source.sample(range(0, 90, 5), 5)
    boats = tuple(
        (letter, later(start, wait), half / 2 * NM, speed)
        for letter, wait, half, speed in zip("abcde", waits, halves, speeds, strict=True)
    )
    ends = sorted(map(_arrival, boats))
    if any(minutes_between(one, other) < 4 for one, other in pairwise(ends)):
        return None
    if minutes_between(ends[0], ends[-1]) > 3 * HOUR:
        return None
    arrivals = ", ".join(f"{boat[0].upper()} {UT.write(_arrival(boat))}" for boat in boats)
    return {"boats": boats, "arrivals": arrivals}


def _boats_table(givens: Mapping[str, Any]) -> Table:
    return Table(
        say("Five boats on their way to one beach"),
        (say("Boat"), say("Leaves at"), say("Distance to go"), say("Speed over the ground")),
        tuple(
            (letter.upper(), UT.write(departure), MILES.write(distance), KNOTS.write(speed))
            for letter, departure, distance, speed in givens["boats"]
        ),
    )


TYPES = (
    QuestionType(
        "speed.on-the-map",
        "From the map to the clock",
        "speed",
        2,
        Chain(
            {**dict.fromkeys(MAP_LEG), "speed": KNOTS},
            (MEASURED, time_step("time").without("miles-left-for-hours")),
        ),
        _draw_sheet,
        "A is {a}, B is {b}. You paddle straight from A to B at {speed} over the ground.\n\n"
        "Measure the distance in nautical miles, then give the time it takes.",
        {"distance": "Distance in NM", "time": "Time"},
        lambda givens: givens["window"],
    ),
    QuestionType(
        "speed.first-there",
        "Who is first at the beach?",
        "speed",
        2,
        Chain({"boats": None, "arrivals": None}, (IN_ORDER,)),
        _draw_boats,
        "Five boats are bound for the same beach, as the table shows. In what order do they arrive?"
        "\n\nGive all five letters, the first to arrive first.",
        {"order": "Order of arrival"},
        _boats_table,
    ),
)
