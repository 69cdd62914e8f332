"""Question types, one module a topic: each a chain of steps with the generator that feeds it."""

from functools import cache

from navlib.chain.question import Question, QuestionType
from navlib.questions import bearings, distance, position, speed, tides, variation

_TOPICS = (bearings, variation, distance, speed, position, tides)
"""In the order that they are taught in."""

_TYPES: dict[str, QuestionType] = {kind.kind: kind for topic in _TOPICS for kind in topic.TYPES}
_EXERCISES = {topic.TOPIC: topic.EXERCISES for topic in _TOPICS}


def topics() -> tuple[str, ...]:
    """Return the topics that there are questions on, in the order that they are taught in."""
    return tuple(_EXERCISES)


def kinds(topic: str = "") -> tuple[str, ...]:
    """Return the names of all kinds of question, or of one topic's, easiest first."""
    chosen = [kind for kind in _TYPES.values() if topic in ("", kind.topic)]
    return tuple(kind.kind for kind in sorted(chosen, key=lambda kind: (kind.topic, kind.level)))


def question_type(kind: str) -> QuestionType:
    """Return the question type of that name; KeyError lists the names there are."""
    if kind not in _TYPES:
        raise KeyError(f"there is no kind of question called “{kind}”; there are: {kinds()}")
    return _TYPES[kind]


@cache
def make(kind: str, seed: int) -> Question:
    """Return the question of this kind and seed: the same on every machine, every time."""
    return question_type(kind).make(seed)


def exercise(topic: str, number: int) -> Question:
    """Return set exercise `number`, from 1, of a topic's lesson: the same for everyone."""
    return make(*_EXERCISES[topic][number - 1])


def exercises(topic: str) -> range:
    """Return the numbers of the set exercises of a topic's lesson."""
    return range(1, len(_EXERCISES[topic]) + 1)


def exercise_kinds(topic: str) -> tuple[str, ...]:
    """Return the kinds of a topic's set exercises, in their order."""
    return tuple(kind for kind, _ in _EXERCISES[topic])
