"""Where to go back to: which lesson, and which section of it, teaches what a question asks."""

from dataclasses import dataclass

from navlib import questions

TITLES = {
    "bearings": "Bearings",
    "variation": "Variation",
    "distance": "Scale and distance",
    "speed": "Time, distance and speed",
    "position": "Position",
    "tides": "Tides",
}
"""What the lesson of each topic is called."""

_AT_THE_TABLE, _USUAL_MISTAKES = "At the table", "Usual mistakes"
SECTIONS: dict[str, dict[str, str]] = {
    "bearings": {
        "A direction as a number": "measure back-bearing on-the-bow",
        "Three norths": "true-to-magnetic magnetic-to-true map-to-compass compass-to-map three-norths",
        "The boat pulls too": "deviation-by-transit compass-to-true true-to-compass",
        "On deck": "off-the-line",
    },
    "variation": {
        "A rose has a date": (
            "rose-to-date which-way read-the-rose through-zero old-directions chart-to-compass"
        ),
        "The lines of a land map lean": (
            "grid-magnetic-angle map-margin convergence rose-to-grid chart-and-map"
        ),
        "What a degree costs": "old-rose",
        "When the compass does not agree": "what-is-to-blame",
        "Four norths, one line": "order-of-norths compass-error",
    },
    "distance": {
        "Miles, kilometres, cables": "to-miles cables",
        "From paper to ground": "fraction by-bar print-check photocopy",
        "The miles of a sea chart": "by-latitude along-a-parallel torn-title",
        "Level with the leg": "wrong-level",
        "Further than the dividers reach": "dividers round-the-head",
        "How long is a coast?": "coast-steps next-step which-length",
    },
    "speed": {
        "Three quantities, one sum": "time distance knots",
        "The clock does not count in hundreds": "elapsed eta rests on-the-map first-there revised-eta",
        "Leave in time": "latest-departure tidal-gate",
        "Two speeds on one trip": "there-and-back turn-back",
        "The water moves too": "round-the-point stream-turns",
    },
    "position": {
        "A place as two numbers": "square six-figures from-metres find-the-reference",
        "Tenths with a romer": "eight-figures plot-reference",
        "From two references to a leg": "two-references across-the-letters",
        "Latitude and longitude": "find-the-position at-the-border plot-position read-back",
        "One angle, three ways": "decimal-degrees seconds to-decimal-degrees three-ways how-fine",
        "A minute of longitude is not a mile": "after-a-run between-positions plot-report",
        "The same figures, another place": "world-grid old-datum plot-world-grid",
    },
    "tides": {
        "Read the table": "read-the-table range",
        "One, two, three, three, two, one": "tidal-hour height-at",
        "The port’s own curve": "by-the-curve",
        "Another harbour: the secondary port": "secondary-port",
        "What is under you, and what is over you": "over-the-bank under-the-bridge bridge-and-sill",
        "How much is enough?": "time-for-height which-high-water",
        "The water runs": "diamond atlas",
        "Springs, neaps, and today": "rate-today hours-in-order",
        "From slack to slack without a table": "thirds",
        "Where wind meets tide": "wind-over-tide",
        "From when to when": "causeway",
        "Slack at the gate": "slack",
    },
}
"""By topic, each section of its lesson and the kinds of question that it teaches."""

_SECTION_OF = {
    f"{topic}.{kind}": section
    for topic, sections in SECTIONS.items()
    for section, kinds in sections.items()
    for kind in kinds.split()
}


@dataclass(frozen=True)
class Back:
    """A place to go back to: title and section of a lesson, and the link from its folder."""

    lesson: str
    section: str
    link: str

    @property
    def says(self) -> str:
        """The place in words."""
        return f"Lesson “{self.lesson}”, section “{self.section}”"


def title(topic: str) -> str:
    """Return what the lesson of a topic is called."""
    return TITLES.get(topic, topic.capitalize())


def question_title(kind: str) -> str:
    """Return the title of a kind of question; its name if it is no more."""
    known = kind in questions.kinds()
    return questions.question_type(kind).title if known else kind


def back_to(kind: str) -> Back:
    """Return where the lesson teaches what questions of this kind ask.

    Questions that hold a fault lead to its usual mistakes, what has no section to its table method.
    """
    topic = kind.partition(".")[0]
    usual = _USUAL_MISTAKES if kind.endswith(".find-the-fault") else _AT_THE_TABLE
    return _place(topic, _SECTION_OF.get(kind, usual))


def practice(topic: str) -> Back:
    """Return where questions of a topic are practised."""
    return _place(topic, "Practice")


def _place(topic: str, section: str) -> Back:
    return Back(title(topic), section, f"{topic}.ipynb#{section.replace(' ', '-')}")


def exercise_of(kind: str) -> int | None:
    """Return which of the ten exercises of its lesson is of this kind; None if none is."""
    topic = kind.partition(".")[0]
    kinds = questions.exercise_kinds(topic) if topic in questions.topics() else ()
    return kinds.index(kind) + 1 if kind in kinds else None
