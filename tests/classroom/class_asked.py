"""A class that is asked a question, and what its learners answer."""

from hall import Caller

from navlib import questions
from navlib.chain.question import Question

KIND = "bearings.true-to-magnetic"
LEARNERS = ("ina-skarp", "oskar-lund", "mira-holt")


def opened(people: dict[str, Caller], kind: str = KIND, **asked: object) -> tuple[int, int]:
    """Begin a session that all learners join and a question in it; return the ids of both."""
    teach = people["instructor"]
    session = teach.post("sessions", {"title": "An evening"})["id"]
    for name in LEARNERS:
        people[name].post("join", {"session": session})
    question = teach.post(f"sessions/{session}/questions", {"kind": kind, "open": True, **asked})
    return session, question["id"]


def question_of(people: dict[str, Caller], name: str, session: int, asked: int) -> Question:
    """Return the question that a learner was asked, as the class record knows it."""
    people[name].hand_in(asked, {"magnetic": "?"})
    rows = people["instructor"].get(f"sessions/{session}/record")["answers"]
    row = next(row for row in rows if row["name"] == name and row["question"] == asked)
    return questions.make(row["kind"], row["seed"])


def slipped(question: Question) -> tuple[str, str]:
    """Return a slip's name, and the answer of who makes it and no other."""
    routes = question.chain.routes(question.givens, "magnetic", most=1)
    route = next(iter(routes))
    (slip,) = (slip for _, slip in route.slips)
    return slip.name, question.chain.by_name["magnetic"].kind.write(route.value)
