"""Steps that this topic's types and others share: a leg measured on a sheet, paper to ground."""

import math
from collections.abc import Callable

from navlib.chain.step import Error, Slip, Step, Work, taking
from navlib.distance import ground_m
from navlib.kinds.quantities import Distance, Length
from navlib.questions.deck import DECK, laid_nm_sigma
from navlib.units import NM

MILES = Distance("NM", 0.1, unit_asked=True)
KILOMETRES = Distance("km", 0.1, unit_asked=True)
TO_TEN_METRES = Distance("km", 0.01, unit_asked=True)
PAPER = Length("mm", 1.0)

LAND_MILE = Distance("statute mile").per_unit
"""Metres in a land mile."""

# A leg on the sheet -----------------------------------------------------------------------------

POINT_MM, RULER_MM, STRETCH = 0.4, 0.3, 0.003
"""Standard deviations: of a point pricked or pencilled, of a ruler read, and of how much paper
stretches, as a share of the length. Common practice."""

TO_HALF_A_CABLE = Distance("NM", 0.05, unit_asked=True)
"""As finely as a short leg can be read on the land map."""


def measured_nm_sigma(length_mm: float, scale: float) -> float:
    """Return the standard deviation, in nautical miles, of a length measured on a sheet."""
    on_paper = math.hypot(POINT_MM, POINT_MM, RULER_MM, STRETCH * length_mm)
    return ground_m(on_paper, scale) / NM


KILOMETRES_FOR_MILES = (
    "Yours, {yours}, is the number of kilometres. A nautical mile is longer, 1.852 km, so there are "
    "fewer of them. Check: about half as many miles as kilometres."
)
MILES_WRONG_WAY = (
    "Yours, {yours}, multiplies the kilometres by 1.85. A nautical mile is longer than a kilometre, "
    "so there are fewer of them: divide. Check: about half as many miles."
)

MEASURED = Step(
    "distance",
    TO_HALF_A_CABLE,
    lambda length_mm, scale: ground_m(length_mm, scale),
    how="Take the length from A to B with dividers, or on the edge of a paper, and hold it against "
    "the scale bar for nautical miles.",
    line="From {a} to {b}: {distance}",
    check="The squares of the map are 1 km wide. Count those on your line; two are about a mile.",
    slips=(
        Slip(
            "kilometres-for-miles",
            lambda length_mm, scale: ground_m(length_mm, scale) / 1000 * NM,
            "Yours, {yours}, is the number of kilometres. Asked are nautical miles, which knots go "
            "with, and one is 1.85 km. Check: which of the two scale bars did you use?",
        ),
        Slip(
            "wrong-scale",
            lambda length_mm, scale: ground_m(length_mm, 75_000 - scale),
            "Yours, {yours}, goes with the other scale of the land map. This sheet is 1:{scale}. "
            "Check: on this sheet, how many millimetres wide is a 1 km square?",
        ),
        Slip(
            "miles-wrong-way",
            lambda length_mm, scale: ground_m(length_mm, scale) * (NM / 1000) ** 2,
            MILES_WRONG_WAY,
            0.5,
        ),
    ),
    errors=(Error("points, ruler and paper", measured_nm_sigma, others={DECK: laid_nm_sigma}),),
    read_off=True,
)

# From paper to ground, from kilometres to miles -------------------------------------------------


def on_the_ground(name: str, length: str, scale: str = "scale", other: str = "other") -> Step:
    """Return the step from a length on paper to kilometres; `other` is the scale it is mixed with."""

    def times(factor: float) -> Work:
        return taking(lambda paper, one_to: ground_m(paper * 1000, one_to) * factor, length, scale)

    return Step(
        name,
        TO_TEN_METRES,
        times(1),
        how="One millimetre on paper is as many millimetres on the ground as the scale says: "
        "multiply, then take a million millimetres for a kilometre.",
        line=f"{{{length}}} at {{{scale}}}: {{{name}}}",
        check=f"How far does one centimetre go at {{{scale}}}? Take off two zeros for metres.",
        slips=(
            Slip(
                "wrong-scale",
                taking(lambda paper, one_to: ground_m(paper * 1000, one_to), length, other),
                f"Yours, {{yours}}, goes with a sheet of {{{other}}}. This one is {{{scale}}}. Check: "
                "read the fraction in the title before you measure anything.",
            ),
            Slip("zero-slip", times(10), _ZERO),
            Slip("zero-slip", times(0.1), _ZERO),
        ),
    )


_ZERO = (
    "Yours, {yours}, is ten times out: a zero was lost or won, as when centimetres are taken for "
    "millimetres. Check: does such a distance fit on a sheet, and is it worth a boat?"
)


def in_miles(name: str, of: str) -> Step:
    """Return the step from a distance in kilometres to the same in nautical miles."""

    def made(work: Callable[[float], float]) -> Work:
        return taking(work, of)

    return Step(
        name,
        MILES,
        made(lambda metres: metres),
        how="A nautical mile is 1.852 km: divide. In the head: half the kilometres and 8 % more.",
        line=f"{{{of}}} ÷ 1.852: {{{name}}}",
        check="A nautical mile is nearly 2 km: a little more than half as many miles.",
        slips=(
            Slip(
                "kilometres-for-miles",
                made(lambda metres: metres / 1000 * NM),
                KILOMETRES_FOR_MILES,
            ),
            Slip(
                "miles-wrong-way",
                made(lambda metres: metres * (NM / 1000) ** 2),
                MILES_WRONG_WAY,
                0.5,
            ),
            Slip(
                "land-miles",
                made(lambda metres: metres / LAND_MILE * NM),
                "Yours, {yours}, counts land miles of 1.609 km. At sea a mile is 1.852 km, a minute "
                "of latitude. Check: 10 km are 6.2 land miles, but 5.4 sea miles.",
                0.7,
            ),
        ),
    )
