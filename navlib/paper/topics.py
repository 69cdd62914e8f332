"""How a candidate's marks lie over the topics."""

from dataclasses import dataclass

from navlib.paper.lessons import title
from navlib.paper.scripts import Script


@dataclass(frozen=True)
class Topic:
    """Marks in one topic."""

    topic: str
    marks: float
    out_of: float

    @property
    def title(self) -> str:
        """What the topic's lesson is called."""
        return title(self.topic)

    @property
    def share(self) -> float:
        """Share of the marks earned, 0 to 1."""
        return self.marks / self.out_of if self.out_of else 0.0


def topics_of(script: Script) -> tuple[Topic, ...]:
    """Return a candidate's marks by topic, in the order of the paper."""
    return tuple(Topic(topic, *marks) for topic, marks in script.topics.items())
