"""Whether a slip could earn marks by luck: what is written down is rounded, and may end near the key."""

from navlib.chain.question import Question
from navlib.paper.reasons import band_of, before

EARNS = 2.0
"""Widths of the band for all marks within which an answer earns half of them."""


def lucky(question: Question) -> bool:
    """Return whether a slip, rounded as it is written, comes near enough for half marks."""
    return nearest_slip(question) <= EARNS + 1e-6


def nearest_slip(question: Question) -> float:
    """Return how far the nearest slip lies from the key, in widths of the band for all marks.

    Both as they are written down. Above 2 no slip earns marks; a choice or an order has no width and
    is left out.
    """
    chain, nearest = question.chain, float("inf")
    for asked in question.asks:
        kind, fixed = chain.by_name[asked].kind, before(question, asked)
        if not kind.write_width(1.0):
            continue
        key = kind.rounded(chain.run(question.givens, fixed=fixed)[asked])
        full = band_of(question, asked).full
        for step in chain.upstream(asked, fixed):
            for slip in step.slips:
                end = chain.run(question.givens, {step.name: slip}, fixed=fixed)[asked]
                if end is not None:
                    nearest = min(nearest, abs(kind.apart(kind.rounded(end), key)) / full)
    return nearest
