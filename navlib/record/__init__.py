"""The learner's record: what was tried and what came of it, on this machine only."""

from navlib.record.store import Attempt, Record, default_path

__all__ = ["Attempt", "Record", "default_path"]
