"""Marking: reads answers as people write them, compares, diagnoses, awards."""

from navlib.marking.diagnosis import Diagnosis, diagnose
from navlib.marking.marker import Marked, Outcome, PartMarked, mark

__all__ = ["Diagnosis", "Marked", "Outcome", "PartMarked", "diagnose", "mark"]
