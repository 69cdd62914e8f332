"""Words and slips that several question types on bearings share."""

import inspect
from collections.abc import Callable
from typing import Any

from navlib.angles import wrap
from navlib.chain.step import Slip, Work


def variation_words(variation: float) -> dict[str, str]:
    """Return the words that go with a variation, east positive: on its side, what magnetic does."""
    west = variation < 0
    return {
        "side": "west" if west else "east",
        "Side": "West" if west else "East",
        "more": "more" if west else "less",
        "less": "less" if west else "more",
        "add": "add it" if west else "take it off",
        "take": "take it off" if west else "add it",
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


def _then(work: Work, change: Callable[[Any], Any]) -> Work:
    """Return `work` with `change` done to what comes out; it takes what `work` takes."""

    def route(**values: Any) -> Any:
        return change(work(**values))

    route.__signature__ = inspect.signature(work)  # type: ignore[attr-defined]
    return route
