"""The learner's record: what was tried and what came of it, on this machine only."""

from navlib.record.learners import choose, chosen, forget, learners
from navlib.record.places import default_path
from navlib.record.store import Attempt, Record

__all__ = ["Attempt", "Record", "choose", "chosen", "default_path", "forget", "learners"]
