"""Marking: reads answers as people write them, compares, diagnoses, awards."""

from navlib.marking.diagnose import Diagnosis, diagnose
from navlib.marking.mark import Marked, Outcome, PartMarked, mark

__all__ = ["Diagnosis", "Marked", "Outcome", "PartMarked", "diagnose", "mark"]
