"""The ways into the lessons: what each is called, what it teaches, and where in it a place lies."""

from dataclasses import dataclass

from navlib import questions
from navlib.desk.mixed import TOPIC as MIXED
from navlib.language import say
from navlib.questions.deck import DECK


@dataclass(frozen=True)
class LessonWords:
    """What a lesson is called, and what it teaches, in a line."""

    title: str
    about: str


LESSONS = {
    "bearings": LessonWords(
        "Bearings", "Measure a direction on the map, and go in that direction by the compass."
    ),
    "variation": LessonWords(
        "Variation",
        "Your needle, your map and your chart have different norths: change between them.",
    ),
    "distance": LessonWords(
        "Scale and distance",
        "Find how far it is, on a map and on a chart, straight or along a coast.",
    ),
    "speed": LessonWords(
        "Time, distance and speed", "Know when you will be there, and when you must leave."
    ),
    "position": LessonWords(
        "Position",
        "Say where you are, so that others find you: grid reference, latitude, longitude.",
    ),
    "tides": LessonWords(
        "Tides", "Find how high the water stands, and which way it runs, at the hour you are there."
    ),
    MIXED: LessonWords(
        "Mixed practice", "All that you have begun, in turn: you choose the method yourself."
    ),
}

COACH = LessonWords(
    "For coaches",
    "A paper from blueprint to marks: set it, print it, mark it, and give it back.",
)
COACH_PAGE = "coach.ipynb"
CLASS = LessonWords(
    "In a class",
    "Take part in your instructor’s session: own numbers, own piece of map, a file to hand in.",
)
CLASS_PAGE = "class.ipynb"
INSTRUCTOR = LessonWords(
    "For instructors",
    "An evening with a class: plan it, run it on the projector, and keep what came of it.",
)
INSTRUCTOR_PAGE = "instructor.ipynb"

_HEADINGS = {
    "exercise": "Ten-exercises",
    "practice": "Practice",
    "checkpoint": "Checkpoint",
}
"""Under which heading of a lesson the cards of a place stand; a lesson's own beginning has none."""

_PLACES = {"practice": "practice", "checkpoint": "checkpoint"}
_DO = {"lesson": "Begin the lesson", "practice": "Practise", "checkpoint": "Take the checkpoint"}


def way_to(topic: str, sort: str = "lesson") -> str:
    """Return the link to a place in a topic's lesson: its beginning, or its practice and the like."""
    heading = _HEADINGS.get(sort)
    return f"{topic}.ipynb#{heading}" if heading else f"{topic}.ipynb"


def way(topic: str, sort: str) -> dict[str, str]:
    """Return the link to a place in a lesson, what to do there, and the same with its title."""
    do = say(_DO[sort])
    words = title(topic) if (topic, sort) == (MIXED, "practice") else f"{do}: {title(topic)}"
    return {"to": way_to(topic, sort), "do": do, "words": words}


def title(topic: str) -> str:
    """Return what the lesson of a topic is called."""
    return say(LESSONS[topic].title) if topic in LESSONS else topic


def way_back_to(place: str) -> dict[str, str] | None:
    """Return the way to a place of the record, such as bearings/exercise/3; None if it is no more.

    Exercises stand below one heading, so the way goes on to the card: HEADING#PLACE.
    """
    place = place.removesuffix(f"/{DECK}")
    topic, _, rest = place.partition("/")
    sort, _, number = rest.partition("/")
    if topic not in (*questions.topics(), MIXED) or sort not in _HEADINGS:
        return None
    numbered = sort == "exercise"
    where = say("exercise {number}", {"number": number}) if numbered else say(_PLACES[sort])
    shown = title(topic) if (topic, sort) == (MIXED, "practice") else f"{title(topic)}: {where}"
    card = f"#{place}" if sort == "exercise" else ""
    return {"to": way_to(topic, sort) + card, "words": shown}
