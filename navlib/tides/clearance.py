"""Water under the keel and air over the mast, from a height of tide; all in metres.

Numbers or arrays in and out. Charted depths are positive below chart datum; a drying height is a
height above it (underlined on the chart). Definitions: IHO S-32, Hydrographic Dictionary.
"""

from typing import TypeVar

from navlib.tides.moments import Floats

Metres = TypeVar("Metres", float, Floats)


def water_depth(charted: float, height: Metres) -> Metres:
    """Return the depth of water: charted depth plus height of tide."""
    return charted + height


def depth_over_drying(drying: float, height: Metres) -> Metres:
    """Return the depth over a spot that dries: height of tide less drying height.

    Negative while the spot stands out of the water, by as much.
    """
    return height - drying


def under_keel(depth: Metres, draught: float) -> Metres:
    """Return the under-keel clearance: depth less draught; negative is aground."""
    return depth - draught


def overhead(charted: float, datum_height: float, height: Metres) -> Metres:
    """Return the clearance now under a bridge or cable.

    `charted` is measured above a high level, `datum_height` that level above chart datum: HAT on
    newer charts, MHWS on older ones (the title says which). As the water rises the gap shrinks.
    """
    return charted + (datum_height - height)


def over_mast(clearance: Metres, mast: float) -> Metres:
    """Return what is left over a mast `mast` metres above the water; negative strikes."""
    return clearance - mast


def least_height(charted: float, draught: float, margin: float) -> float:
    """Return the height of tide needed to carry `draught` and `margin` over a charted depth.

    Give a drying height as a negative charted depth.
    """
    return draught + margin - charted


def greatest_height(charted: float, datum_height: float, mast: float, margin: float) -> float:
    """Return the height of tide up to which a mast passes under with `margin` to spare.

    `charted` and `datum_height` as for `overhead`.
    """
    return charted + datum_height - mast - margin
