"""Words and slips that several question types on bearings share."""

import inspect
from collections.abc import Callable
from typing import Any

from navlib.angles import reciprocal, wrap
from navlib.chain.step import Slip, Step, Work, taking
from navlib.kinds.angles import Bearing
from navlib.language import say


def variation_words(variation: float) -> dict[str, str]:
    """Return the words that go with a variation, east positive: on its side, what magnetic does."""
    west = variation < 0
    return {
        "side": say("west" if west else "east"),
        "Side": say("West" if west else "East"),
        "more": say("more" if west else "less"),
        "less": say("less" if west else "more"),
        "add": say("add it" if west else "take it off"),
        "take": say("take it off" if west else "add it"),
    }


def ten_out(work: Work) -> tuple[Slip, Slip]:
    """Return the slips of a carry lost or made twice: ten degrees out, either way."""
    says = (
        "Yours, {yours}, is exactly ten out: the method is right, the sum is not. A ten was lost or "
        "carried twice. Do the sum once more from the other end: from your answer back to the start."
    )
    return (
        Slip("ten-out", _then(work, lambda value: wrap(value + 10)), says, 0.3),
        Slip("ten-out", _then(work, lambda value: wrap(value - 10)), says, 0.3),
    )


def way_back(of: str, kind: Bearing) -> Step:
    """Return the step from the bearing called `of` to the opposite one, asked as “back”."""

    return Step(
        "back",
        kind,
        taking(reciprocal, of),
        how="The other way along the same line is the opposite direction: put 180 on, or take it off.",
        line=f"{{{of}}} and 180 is {{back}}",
        check="Point along the first bearing, then over your shoulder: which quarter is that?",
        slips=(
            Slip(
                "back-forgotten",
                taking(lambda bearing: bearing, of),
                "Yours, {yours}, is the way there once more. Looking back you face the other way. "
                "Check: there and back always differ by 180.",
            ),
            Slip(
                "taken-from-360",
                taking(lambda bearing: wrap(-bearing), of),
                "Yours, {yours}, is 360 less the bearing: a mirror image. The opposite direction is "
                "180 further round. Check: one of the two is below 180, the other above.",
            ),
            *ten_out(taking(reciprocal, of)),
        ),
    )


def _then(work: Work, change: Callable[[Any], Any]) -> Work:
    """Return `work` with `change` done to what comes out; it takes what `work` takes."""

    def route(**values: Any) -> Any:
        return change(work(**values))

    route.__signature__ = inspect.signature(work)  # type: ignore[attr-defined]
    return route
