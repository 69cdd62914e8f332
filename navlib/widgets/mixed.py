"""The front door of mixed practice: all topics together, a line at a time."""

from functools import cached_property

from navlib.desk import MixedCheckpoint, MixedPractice
from navlib.record import Record
from navlib.widgets.card import Card


class Mixed:
    """Practice and checkpoint over all topics, for the learner whose record is on this machine."""

    @cached_property
    def record(self) -> Record:
        """Return the learner's record, opened when it is first needed."""
        return Record()

    def practice(self) -> Card:
        """Return the card of practice over the topics that the learner has begun."""
        return Card(MixedPractice(self.record), words="Practice: all topics in turn")

    def checkpoint(self) -> Card:
        """Return the card of ten questions over all topics, without help."""
        return Card(MixedCheckpoint(self.record), words="Checkpoint: all topics")
