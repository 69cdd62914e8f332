"""All topics together, so that choosing the method is part of the question."""

import random

from navlib import questions
from navlib.chain.question import Question
from navlib.desk.checkpoint import LENGTH, Checkpoint, in_rising_level
from navlib.desk.practice import Practice
from navlib.desk.syllabus import syllabus
from navlib.language import to_say
from navlib.record import Record
from navlib.record.progress import Syllabus

TOPIC = "mixed"


class MixedPractice(Practice):
    """Practice over the topics that the learner has begun elsewhere; over all if there is only one."""

    heading = to_say("Mixed practice")

    def __init__(self, record: Record, source: random.Random | None = None) -> None:
        super().__init__(TOPIC, record, source)

    def kinds(self) -> Syllabus:
        """Return the kinds of question of the topics begun, of all topics if fewer than two are."""
        whole = syllabus()
        elsewhere = [a for a in self.record.attempts() if not a.place.startswith(f"{TOPIC}/")]
        begun = {whole[a.kind].topic for a in elsewhere if a.kind in whole}
        if len(begun) < 2:
            return whole
        return {kind: entry for kind, entry in whole.items() if entry.topic in begun}


class MixedCheckpoint(Checkpoint):
    """Ten questions over all topics, one or two of each, answered once; the result at the end."""

    def __init__(self, record: Record) -> None:
        super().__init__(TOPIC, record)

    def drawn(self, source: random.Random) -> list[Question]:
        """Return ten questions in rising level, every topic before any comes twice."""
        topics = questions.topics()
        turns: list[str] = []
        while len(turns) < LENGTH:
            turns += source.sample(topics, len(topics))
        kinds = {topic: list(questions.kinds(topic)) for topic in topics}
        for topic in topics:
            source.shuffle(kinds[topic])
        chosen = [kinds[topic].pop() for topic in turns[:LENGTH]]
        return in_rising_level(chosen, source)
