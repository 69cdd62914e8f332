"""An evening in a class without a server: a plan, a folder, and learners who hand in files."""

import os
from collections.abc import Mapping
from pathlib import Path

from navlib import questions
from navlib.chain.question import Question
from navlib.classroom import seeds
from navlib.classroom.filed import Filed
from navlib.classroom.handing import Seat
from navlib.classroom.plan.plan import Plan, Segment

KIND = "bearings.true-to-magnetic"
VOTE = "variation.which-way"
NAMES = (
    *("Ina Skarp", "Oskar Lund", "Mira Holt", "Jory Vane"),
    *("Åse O’Hale", "Toke Brandt", "Runa Fell", "Sil Orme"),
)
PLAN = Plan(
    "evening",
    "An evening",
    "bearings",
    goals=("Turn a true bearing into a magnetic one",),
    bring=(),
    segments=(
        Segment("demonstrate", 10, "The three norths", "Let them guess first.", "three_norths"),
        Segment("work alone", 15, "Own figures", kind=KIND),
        Segment("compare in pairs", 5, "With your neighbour"),
        Segment("vote", 5, "Which way?", kind=VOTE, own=False),
        Segment("reveal", 5, "And it was"),
        Segment("break", 10, "Tea"),
    ),
)


class Learner:
    """Somebody with a notebook of their own, who drops a file into the class's folder."""

    def __init__(self, offered: Path, name: str, seat: int, home: Path) -> None:
        self.offered, self.home = offered, home
        self.seat = Seat(offered.read_text("utf-8"), name, seat, home)

    def hand_in(self, position: int, answers: Mapping[str, str]) -> Path:
        """Answer a question and drop the file; return where it lies."""
        self.seat.hand_in(position, answers)
        return self.drop()

    def drop(self) -> Path:
        name, content = self.seat.to_file()
        path = self.offered.parent / "from learners" / name
        path.parent.mkdir(exist_ok=True)
        path.write_bytes(content)
        return path


def learners(classes: Filed, session: int, home: Path, count: int = len(NAMES)) -> list[Learner]:
    offered = classes.offer(session)
    names = NAMES[:count]
    return [Learner(offered, name, n, home / str(n)) for n, name in enumerate(names, 1)]


def own_question(number: int, position: int, seat: int | None, kind: str = KIND) -> Question:
    return questions.make(kind, seeds.seed(number, position, seat))


def slipped(question: Question, slip: str) -> dict[str, str]:
    """Return the answer of who makes a slip and no other."""
    for route in question.chain.routes(question.givens, "magnetic", most=1):
        if [made.name for _, made in route.slips] == [slip]:
            return {"magnetic": question.chain.by_name["magnetic"].kind.write(route.value)}
    raise AssertionError(f"{slip} is not made in {question.kind}")


def touched(path: Path) -> None:
    """Have a file look changed, however coarse the disk's clock is."""
    about = path.stat()
    os.utime(path, ns=(about.st_atime_ns, about.st_mtime_ns + 10_000_000))
