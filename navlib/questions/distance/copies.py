"""Sheets that are not what their title says: printed too small or too large, copied in another size."""

import random
from collections.abc import Mapping
from typing import Any

from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Slip, Step
from navlib.distance import (
    print_factor,
    scale_after_copying,
)
from navlib.kinds.choices import Choice
from navlib.kinds.numbers import Number
from navlib.kinds.quantities import Distance, Length
from navlib.language import say
from navlib.questions.distance.on_paper import SCALE, draw_scale
from navlib.questions.distance.steps import (
    PAPER,
    in_miles,
    on_the_ground,
)

WHOLE_MILES = Distance("NM", 1.0)
TENTHS_MM = Length("mm", 0.1)
CHECK_BAR = 0.1
"""Metres that the check bar of a sheet should measure."""

# Printed at a wrong size ------------------------------------------------------------------------


def _factor(bar: float) -> float:
    return print_factor(bar, CHECK_BAR)


UNDONE = Step(
    "true_length",
    TENTHS_MM,
    lambda length, bar: length / _factor(bar),
    how="The bar tells by how much the print is stretched: divide the length by what the bar "
    "measures and multiply by 100.",
    line="{length} × 100 ÷ {bar}: {true_length} on a true print",
    check="The bar came out too {short}. Should a true print show your leg longer or shorter?",
    slips=(
        Slip(
            "bar-ignored",
            lambda length: length,
            "Yours, {yours}, takes the print at its word. Its bar of 100 mm measures {bar}, so every "
            "length on it is too {short}. Check: lay a ruler on the bar before you lay it on a leg.",
        ),
        Slip(
            "corrected-twice",
            lambda length, bar: length * _factor(bar),
            "Yours, {yours}, corrects the wrong way and makes the fault double. On this print all is "
            "too {short}, so the true length is {more}. Check: correct the bar itself your way; does "
            "it become 100 mm?",
        ),
        Slip(
            "difference-taken",
            lambda length, bar: length + CHECK_BAR - bar,
            "Yours, {yours}, changes the leg by the millimetres that the bar is out. A leg of another "
            "length is out by another amount: only the share is the same. Check: divide, do not take "
            "away.",
        ),
    ),
)

SAME, MORE, LESS = "same", "more", "less"

BEARING = Step(
    "bearing",
    Choice({MORE: "it is too large", SAME: "it is right", LESS: "it is too small"}),
    lambda: SAME,
    how="A print stretched alike both ways keeps its angles.",
    line="Angles stay as they are: {bearing}",
    check="Does a square become anything but a square when it is copied smaller?",
    slips=(
        Slip(
            "angle-stretched",
            lambda bar: LESS if bar < CHECK_BAR else MORE,
            "This stretches the angle as the lengths are stretched. But both ways are stretched alike, "
            "so shapes stay and angles with them. Check: is a square on this print still square?",
        ),
        Slip(
            "angle-stretched-back",
            lambda bar: MORE if bar < CHECK_BAR else LESS,
            "This changes the angle because the print is too {short}. But both ways are stretched "
            "alike, so angles stay. Check: is a square on this print still square?",
        ),
    ),
)


def _draw_print(source: random.Random) -> Mapping[str, Any]:
    bar = source.choice((*range(86, 95), *range(106, 112)))
    short = bar < 100
    return {
        "bar": bar / 1000,
        "length": source.randint(60, 170) / 1000,
        "short": say("short" if short else "long"),
        "more": say("more" if short else "less"),
        "angle": f"{source.randrange(20, 340):03d}°T",
        **draw_scale(source),
    }


# A copy, larger or smaller ----------------------------------------------------------------------

PERCENT = Number("%", 1.0)

COPIED = Step(
    "copy",
    SCALE,
    lambda scale, percent: scale_after_copying(scale, percent / 100),
    how="A larger copy has a larger scale, which is a smaller number below the line: divide by what "
    "the copier was set to.",
    line="1:({scale_number} ÷ {percent}): {copy}",
    check="On the larger copy a kilometre takes more paper. Does it on yours?",
    slips=(
        Slip(
            "copy-wrong-way",
            lambda scale, percent: scale * percent / 100,
            "Yours, {yours}, multiplies. On a copy at {percent} a kilometre takes {more} paper, so the "
            "number below the line is {less}. Check: how many millimetres has a kilometre on yours?",
        ),
        Slip(
            "copy-unchanged",
            lambda scale: scale,
            "Yours, {yours}, is what the title says, and the title was copied too. It was true of the "
            "sheet, not of the copy. Check: measure a square of the grid.",
        ),
        Slip(
            "area-for-length",
            lambda scale, percent: scale / (percent / 100) ** 2,
            "Yours, {yours}, takes the change twice. That is how the area changes; lengths change by "
            "{percent} once. Check: measure a square of the grid along one side.",
        ),
    ),
)


def _draw_copy(source: random.Random) -> Mapping[str, Any]:
    percent = source.choice((71, 80, 85, 115, 120, 125, 141, 200))
    larger, scale = percent > 100, draw_scale(source)["scale"]
    return {
        "percent": float(percent),
        "scale": scale,
        "scale_number": SCALE.write(scale).removeprefix("1:"),
        "length": source.randint(60, 180) / 1000,
        "more": say("more" if larger else "less"),
        "less": say("less" if larger else "more"),
    }


TYPES = (
    QuestionType(
        "distance.print-check",
        "Printed a little too small?",
        "distance",
        2,
        Chain(
            {
                "bar": PAPER,
                "length": PAPER,
                "scale": SCALE,
                "other": SCALE,
                **dict.fromkeys(("short", "more", "angle")),
            },
            (
                UNDONE,
                on_the_ground("ground", "true_length").without("zero-slip", "wrong-scale"),
                in_miles("miles", "ground").without("land-miles"),
                BEARING,
            ),
        ),
        _draw_print,
        "You have printed a sheet of {scale}. Its check bar should be 100 mm long; on your print it "
        "measures {bar}. With a ruler you measure {length} for a leg, and with a protractor its "
        "bearing, {angle}.\n\nHow long is the leg in truth, in nautical miles? And the bearing?",
        {"miles": "True distance in NM", "bearing": "The bearing as measured"},
    ),
    QuestionType(
        "distance.photocopy",
        "A copy in another size",
        "distance",
        2,
        Chain(
            {
                "scale": SCALE,
                "percent": PERCENT,
                "length": PAPER,
                **dict.fromkeys(("scale_number", "more", "less")),
            },
            (
                COPIED,
                on_the_ground("ground", "length", "copy", "scale").without("zero-slip"),
                in_miles("miles", "ground").without("land-miles"),
            ),
        ),
        _draw_copy,
        "A sheet of {scale} was copied at {percent}, and you have the copy. A leg on it measures "
        "{length}.\n\nWhat is the scale of the copy, and how long is the leg in nautical miles?",
        {"copy": "Scale of the copy", "miles": "Distance in NM"},
    ),
)
