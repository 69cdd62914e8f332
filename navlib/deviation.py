"""The boat's own pull on its compass: compass error, deviation found by transit, the card.

East is positive: easterly deviation makes the compass read low.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from navlib import bearings
from navlib.angles import A, plain, signed_difference


def compass_error(variation: A, deviation: A | float) -> A:
    """Return CE = D + δ in degrees, east positive: from the compass straight to true."""
    return plain(variation + deviation)


def deviation_from_transit(true: A, variation: A | float, compass: A | float) -> A:
    """Return δ = T - D - C in degrees, east positive, in (-180, 180].

    `true` is the transit's bearing from the chart, `compass` the same bearing as observed. It holds
    for the heading on which it was observed.
    """
    return signed_difference(true - variation, compass)


@dataclass(frozen=True)
class DeviationCard:
    """A boat's deviation by heading, `headings` rising in [0, 360), `deviations` east positive.

    Both in degrees. `by` says how the headings are counted, C by this compass or M magnetic;
    `source` who made the card and when. Between two headings the deviation is taken along a
    straight line, across north too. Raises ValueError where the figures cannot be a card.
    """

    headings: Sequence[float]
    deviations: Sequence[float]
    source: str
    by: str = "C"

    def __post_init__(self) -> None:
        for name in ("headings", "deviations"):  # frozen, so that a card can be a key
            object.__setattr__(self, name, tuple(float(v) for v in getattr(self, name)))
        headings, deviations = self.headings, self.deviations
        if self.by not in ("C", "M"):
            raise ValueError(
                f"a card goes by C (compass) or M (magnetic) headings, not “{self.by}”"
            )
        if len(headings) != len(deviations) or len(headings) < 2:
            raise ValueError(
                f"a card needs a deviation for each heading, two or more; "
                f"here are {len(headings)} headings and {len(deviations)} deviations"
            )
        if not all(math.isfinite(value) for value in (*headings, *deviations)):
            raise ValueError("every heading and deviation of a card is a number of degrees")
        if not all(0 <= heading < 360 for heading in headings):
            raise ValueError("the headings of a card run from 0 to below 360")
        steps = np.diff([*headings, headings[0] + 360])
        if min(steps) <= 0:
            raise ValueError(f"the headings of a card rise, each written once; here: {headings}")
        # Else two compass headings could belong to one magnetic heading.
        turns = np.abs(np.diff([*deviations, deviations[0]]))
        if any(turns >= steps):
            where = headings[int(np.argmax(turns >= steps))]
            raise ValueError(
                f"after heading {where:03.0f} the deviation changes by as much as the heading or "
                "more; look for a wrong sign or figure"
            )

    def deviation(self, heading: A) -> A:
        """Return the deviation in degrees, east positive, on a heading counted as the card does."""
        return plain(np.interp(heading, self.headings, self.deviations, period=360))

    def compass_from_magnetic(self, magnetic: A) -> A:
        """Return the compass heading to steer for a magnetic heading, in degrees.

        A card by compass headings is entered with the magnetic heading and once more with the
        result (common practice); what is left is at most the greatest deviation times the square
        of the steepest change of deviation per degree.
        """
        if self.by == "M":
            return bearings.compass_from_magnetic(magnetic, self.deviation(magnetic))
        first = bearings.compass_from_magnetic(magnetic, self.deviation(magnetic))
        return bearings.compass_from_magnetic(magnetic, self.deviation(first))

    def magnetic_from_compass(self, compass: A) -> A:
        """Return the magnetic heading for a compass heading, refined once if the card goes by M."""
        if self.by == "C":
            return bearings.magnetic_from_compass(compass, self.deviation(compass))
        first = bearings.magnetic_from_compass(compass, self.deviation(compass))
        return bearings.magnetic_from_compass(compass, self.deviation(first))
