"""Rests and reserves: how long a trip really takes, and when one must leave at the latest."""

import random
from collections.abc import Mapping
from typing import Any

from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Slip, Step, taking
from navlib.clock import later
from navlib.kinds.times import Clock
from navlib.language import say
from navlib.questions.speed.by_clock import leaving_step
from navlib.questions.speed.draws import PADDLING, SUMMER, draw_leg, draw_time
from navlib.questions.speed.steps import KNOTS, MILES, TIME, bounded, time_step, whole
from navlib.speed import HOUR, time_taken, with_rests

LEAVE = Clock("UT", side="earlier")
ASHORE = "Europe/London"
TABLE_TIME = Clock("UT", SUMMER)
WATCH_TIME = Clock(ASHORE, SUMMER, zone_needed=True, side="earlier")


def _with_rests(moving: float, rest: float) -> float | None:
    return bounded(with_rests(moving, HOUR, rest))


RESTED = Step(
    "total",
    TIME,
    _with_rests,
    how="Rest after each full hour under way, but not where you arrive: you rest there anyway.",
    line="{moving} and a rest of {rest} after each full hour: {total}",
    check="Draw the hours as a line and mark each rest on it. How many lie between start and end?",
    slips=(
        Slip(
            "rests-forgotten",
            lambda moving: moving,
            "Yours, {yours}, has no rest in it. Nobody paddles {moving} "
            "without a stop. Check: where would you stop for {rest}? Mark it on the line.",
        ),
        Slip(
            "one-rest-too-many",
            lambda moving, rest: bounded(with_rests(moving, HOUR, rest) + rest),
            "Yours, {yours}, holds one rest too many. Rests lie between the hours: two hours have one "
            "rest between them, not two. Check: draw the hours as a line and mark each rest.",
        ),
        Slip(
            "one-rest-only",
            lambda moving, rest: moving + rest if moving > 2 * HOUR else None,
            "Yours, {yours}, holds one rest only. There is one after each full hour of the {moving}. "
            "Check: draw the hours as a line and mark each rest.",
        ),
    ),
)


def _draw_rested(source: random.Random) -> dict[str, Any]:
    return {**draw_leg(source, PADDLING, 115, 260), "rest": float(source.choice((5, 10, 15)))}


SHARES = {4: "a quarter", 3: "a third"}
"""Parts of the time under way that are kept in reserve; common practice."""


def needed_step(base: str) -> Step:
    """Return the step from the time called `base` to the time needed with the reserve in it."""
    return Step(
        "needed",
        TIME,
        taking(lambda time, moving, part: time + moving / part, base, "moving", "part"),
        how="The reserve is {share} of the {moving} under way; it comes on top.",
        line=f"{{{base}}}, and {{share}} of {{moving}} in reserve: {{needed}}",
        check="A reserve makes the time needed longer. By about how much?",
        slips=(
            Slip(
                "reserve-forgotten",
                taking(lambda time: time, base),
                "Yours, {yours}, leaves no reserve. Any boat is late at times: a group, a headwind, "
                "a lost hat. Check: is {share} of the time under way in it?",
            ),
            Slip(
                "reserve-taken-off",
                taking(lambda time, moving, part: time - moving / part, base, "moving", "part"),
                "Yours, {yours}, takes the reserve off, so you plan to be faster than you are. A "
                "reserve comes on top. Check: is the time needed longer than without it?",
            ),
            Slip(
                "share-of-an-hour",
                taking(lambda time, part: time + HOUR / part, base, "part"),
                "Yours, {yours}, adds {share} of an hour. The reserve is {share} of the time under "
                "way, so a long trip has a long one. Check: what is {share} of {moving}?",
            ),
        ),
    )


def _draw_reserve(source: random.Random, shortest: int, longest: int) -> dict[str, Any] | None:
    part = source.choice(list(SHARES))
    leg = draw_leg(source, PADDLING, shortest, longest)
    moving = time_taken(leg["distance"], leg["speed"])
    if not whole(moving / part):
        return None
    return {**leg, "part": part, "share": say(SHARES[part])}


def _draw_latest(source: random.Random) -> Mapping[str, Any] | None:
    reserve = _draw_reserve(source, 70, 200)
    return reserve and {**reserve, "deadline": draw_time(source, 15, 21)}


ON_WATCH = Step(
    "on_watch",
    WATCH_TIME,
    lambda gate: gate,
    how="The watch keeps BST, one hour ahead of UT: put one hour on.",
    line="{gate} by the table, by the watch {on_watch}",
    check="In summer the clocks ashore are ahead of UT: should the watch show more, or less?",
    slips=(
        Slip(
            "zone-forgotten",
            lambda gate: later(gate, -HOUR),
            "Yours, {yours}, is exactly one hour early: the table’s time went into the sum as if a "
            "watch showed it. The table has UT, the watch has BST. Check: write the zone behind "
            "each time, and work in one zone only.",
        ),
        Slip(
            "zone-wrong-way",
            lambda gate: later(gate, -2 * HOUR),
            "Yours, {yours}, is two hours early: the hour between UT and BST was taken off. BST is "
            "ahead, so the watch shows more. Check: {gate} by the table, {on_watch} by the watch.",
        ),
    ),
)


def _draw_gate(source: random.Random) -> Mapping[str, Any] | None:
    reserve = _draw_reserve(source, 115, 190)
    gate = draw_time(source, 11, 17, 1, day=SUMMER)
    rest = float(source.choice((5, 10, 15)))
    return reserve and {**reserve, "rest": rest, "gate": gate}


_LEG = {"distance": MILES, "speed": KNOTS}
_RESERVE = dict.fromkeys(("part", "share"))

TYPES = (
    QuestionType(
        "speed.rests",
        "With a rest every hour",
        "speed",
        2,
        Chain({**_LEG, "rest": TIME}, (time_step(), RESTED)),
        _draw_rested,
        "Your group makes {speed} over the ground and lands for a rest of {rest} after each full "
        "hour under way. The camp is {distance} away.\n\n"
        "How long are you under way, and how long is it from start to camp?",
        {"moving": "Time under way", "total": "Time from start to camp"},
    ),
    QuestionType(
        "speed.latest-departure",
        "Home before dark",
        "speed",
        2,
        Chain(
            {**_LEG, **_RESERVE, "deadline": LEAVE},
            (
                time_step().without("miles-left-for-hours"),
                needed_step("moving"),
                leaving_step("leave", "deadline", "needed", LEAVE),
            ),
        ),
        _draw_latest,
        "You want to be on the beach by {deadline}. It is {distance} at {speed} over the ground. Keep "
        "{share} of the time under way in reserve, on top of it.\n\n"
        "How much time do you need with the reserve, and when must you leave at the latest?",
        {"needed": "Time needed with the reserve", "leave": "Latest departure"},
    ),
    QuestionType(
        "speed.tidal-gate",
        "In time for the gate",
        "speed",
        3,
        Chain(
            {**_LEG, **_RESERVE, "rest": TIME, "gate": TABLE_TIME},
            (
                time_step().without("upside-down", "miles-left-for-hours"),
                RESTED,
                needed_step("total"),
                ON_WATCH,
                leaving_step("leave", "on_watch", "needed", WATCH_TIME).without(
                    "hour-not-borrowed"
                ),
            ),
        ),
        _draw_gate,
        "It is July. Slack water at the narrows is at {gate} by the tide table; your watch keeps BST. "
        "It is {distance} to the narrows at {speed} over the ground, with a rest of {rest} after each "
        "full hour under way. Keep {share} of the time under way in reserve, rests not counted.\n\n"
        "How much time do you need in all, and when by your watch must you leave at the latest?",
        {"needed": "Time needed in all", "leave": "Latest departure by your watch"},
    ),
)
