"""Questions worked on deck: with a soft protractor, a cord and a thumb, and the errors those make."""

import math

from navlib.chain.question import Question
from navlib.distance import ground_m
from navlib.questions.picture import SheetWindow
from navlib.units import NM

DECK = "deck"
"""The name of this set of instruments among the errors of a step."""
DECK_TOOLS = ("soft protractor", "knotted cord", "thumb")
"""What lies at hand on deck, whatever is asked."""

SOFT_SIGMA = 1.75
"""Standard deviation of one reading of a soft protractor, degrees; common practice: 1.5 to 2."""
THREAD_MM = 1.0
"""The same of each end of a line that a thread is laid along, mm; common practice."""
LAID_MM, SLACK = 1.5, 0.02
"""The same of each end of a cord or a thumb laid on a sheet, mm, and of a cord's length, as a share
of it; common practice.
"""


def soft_line_sigma(length_mm: float) -> float:
    """Return the standard deviation of the bearing of a line taken on deck, in degrees."""
    return math.hypot(SOFT_SIGMA, math.degrees(math.sqrt(2) * THREAD_MM / length_mm))


def laid_nm_sigma(length_mm: float, scale: float) -> float:
    """Return the standard deviation, in nautical miles, of a length taken by cord or thumb."""
    on_paper = math.hypot(LAID_MM, LAID_MM, SLACK * length_mm)
    return ground_m(on_paper, scale) / NM


def laid_m_sigma(scale: float) -> float:
    """Return the standard deviation, in metres, of a short way to a line, taken by thumb."""
    return ground_m(LAID_MM, scale)


def on_deck(question: Question) -> Question | None:
    """Return a question as it is worked on deck, with the wider bands of what is used there.

    None where it is no work for deck: nothing on its sheet is measured with what lies at hand there,
    or its slips could no longer be told from a careful reading.
    """
    if not isinstance(question.picture, SheetWindow):
        return None
    if not any(DECK in error.others for step in question.steps for error in step.errors):
        return None
    aboard = question.by(DECK)
    return aboard if aboard.fair else None
