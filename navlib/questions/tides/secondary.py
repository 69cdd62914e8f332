"""At the secondary port: differences between the columns, and the clock changed once, last."""

import random
from collections.abc import Mapping
from datetime import datetime, timedelta
from typing import Any

from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Slip, Step
from navlib.clock import later
from navlib.kinds.numbers import Number
from navlib.language import listed, say
from navlib.questions.picture import TidePage
from navlib.questions.tides.draws import (
    FINE,
    HEIGHT,
    KESSORAY,
    UT,
    date_words,
    draw_turn,
    model,
    short_name,
    where,
)
from navlib.questions.tides.steps import ahead, to_watch
from navlib.tides import Differences, SecondaryPort, Turn

MINUTES = Number("min", 1.0)


def _minutes(differences: Differences, time: datetime, late: float = 0) -> float:
    """Return the time difference for a turn `time` UT, looked up `late` minutes too late."""
    clock = time + timedelta(minutes=late)
    return differences.minutes_at(clock.hour + clock.minute / 60)


TIME_DIFFERENCE = Step(
    "shift",
    MINUTES,
    lambda differences, standard: _minutes(differences, standard),
    how="Between the two hours of the columns go from one difference to the other in step with "
    "the time.",
    line="{columns}; at {standard} between them: {shift}",
    check="Does yours lie between the two figures of the columns? Nearer to which?",
    slips=(
        Slip(
            "by-local-clock",
            lambda differences, standard: where(
                ahead(standard) > 0, lambda: _minutes(differences, standard, ahead(standard))
            ),
            "Yours, {yours}, comes out if the hour is looked up by the clocks ashore. The "
            "columns are in the table’s time, UT. Check: stay in UT until the very last line.",
        ),
        Slip(
            "from-the-other-column",
            lambda differences, standard: (
                sum(differences.minutes) - _minutes(differences, standard)
            ),
            "Yours, {yours}, goes in step from the wrong column. {standard} lies nearer to the "
            "other hour. Check: at a column’s own hour, would your way give that column’s figure?",
        ),
        Slip(
            "sign-lost",
            lambda differences, standard: -_minutes(differences, standard),
            "Yours, {yours}, has the sign the other way. Minus means that it comes earlier than "
            "at the standard port, plus later. Check: write the sign first, then the figure.",
        ),
    ),
)

TIME_THERE = Step(
    "there",
    UT,
    lambda standard, shift: later(standard, shift),
    how="Put the difference on the standard port’s time, with its sign.",
    line="{standard} and {shift}: {there}",
    check="Earlier or later than at the standard port?",
    slips=(
        Slip(
            "difference-wrong-way",
            lambda standard, shift: later(standard, -shift),
            "Yours, {yours}, has the difference of {shift} the wrong way on. Minus means earlier "
            "than at the standard port. Check: is it earlier or later there than {standard}?",
        ),
        Slip(
            "difference-forgotten",
            lambda standard: standard,
            "Yours, {yours}, is the time at Kessoray Harbour. {port} has its own, {shift} from "
            "it. Check: whose tide is this?",
        ),
    ),
)

HEIGHT_DIFFERENCE = Step(
    "metres",
    FINE,
    lambda differences, standard_height: differences.metres_at(standard_height),
    how="Between the levels at springs and at neaps, and a little beyond, go in step with the "
    "height.",
    line="{levels}; at {standard_height}: {metres}",
    check="Is today’s height nearer to springs or to neaps? Then so is the difference.",
)

HEIGHT_THERE = Step(
    "height",
    HEIGHT,
    lambda standard_height, metres: standard_height + metres,
    how="Put the difference on the standard port’s height, with its sign.",
    line="{standard_height} and {metres}: {height}",
    check="Higher or lower than at the standard port?",
    slips=(
        Slip(
            "difference-wrong-way",
            lambda standard_height, metres: standard_height - metres,
            "Yours, {yours}, has the difference the wrong way on. Check: minus means less water "
            "than at the standard port, plus means more.",
        ),
        Slip(
            "difference-forgotten",
            lambda standard_height: standard_height,
            "Yours, {yours}, is the height at Kessoray Harbour. Check: whose tide is this? The "
            "page has a difference for {port}.",
        ),
    ),
)


def secondary_givens(port: SecondaryPort, turn: Turn) -> dict[str, Any]:
    """Return the givens for one turn of the standard port: differences, time and height."""
    half = port.high if turn.kind == "high" else port.low
    if not isinstance(half, Differences):
        raise TypeError(f"{port.name} has no table of differences")
    one, other = half.minutes
    springs, neaps = ("MHWS", "MHWN") if turn.kind == "high" else ("MLWS", "MLWN")
    first, second = (
        listed([f"{int(hour):02d}00", f"{int(hour) + 12:02d}00"]) for hour in half.hours
    )
    return {
        "port": port.name,
        "water": say("high water" if turn.kind == "high" else "low water"),
        "short": short_name(turn),
        "differences": half,
        "columns": f"{first}: {one:+.0f} min, {second}: {other:+.0f} min",
        "levels": f"{springs} {half.levels[0]} m: {half.metres[0]:+.1f} m, "
        f"{neaps} {half.levels[1]} m: {half.metres[1]:+.1f} m",
        "standard": turn.time,
        "standard_height": turn.height,
        "day": date_words(turn.time.date()),
    }


def _draw(source: random.Random) -> Mapping[str, Any]:
    _, turn = draw_turn(source)
    return secondary_givens(source.choice(model(KESSORAY).secondary), turn)


TYPES = (
    QuestionType(
        "tides.secondary-port",
        "At the secondary port",
        "tides",
        3,
        Chain(
            {
                **dict.fromkeys(
                    ("port", "water", "short", "differences", "columns", "levels", "day")
                ),
                "standard": UT,
                "standard_height": HEIGHT,
            },
            (
                TIME_DIFFERENCE,
                TIME_THERE,
                to_watch("ashore", "there"),
                HEIGHT_DIFFERENCE,
                HEIGHT_THERE,
            ),
        ),
        _draw,
        "On {day} the table of Kessoray Harbour, in UT, has {short} {standard}, "
        "{standard_height}.\n\nWith the differences on the page find this {water} at {port}: how "
        "many minutes later it is than at Kessoray Harbour (minus if earlier), its time by the "
        "clocks ashore, with its zone, and its height.",
        {
            "shift": "Time difference in minutes",
            "ashore": "Time by the clocks ashore",
            "height": "Height",
        },
        lambda givens: TidePage(KESSORAY, "differences", say("Time and height differences.")),
    ),
)
