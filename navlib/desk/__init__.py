"""The learner's desk: shows questions, writes answers down, has them marked, says what came of it.

No widgets here: a sitting turns what a learner does into a face, a plain dict that any front end
can show.
"""

from navlib.desk.checkpoint import Checkpoint
from navlib.desk.exercise import Exercise
from navlib.desk.mixed import MixedCheckpoint, MixedPractice
from navlib.desk.practice import Practice
from navlib.desk.standing import standing_words
from navlib.desk.worked import asked, solution, worked_steps, written

__all__ = [
    "Checkpoint",
    "Exercise",
    "MixedCheckpoint",
    "MixedPractice",
    "Practice",
    "asked",
    "solution",
    "standing_words",
    "worked_steps",
    "written",
]
