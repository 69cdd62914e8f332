"""What an instructor does with sessions, on the class's database: no network, no screen."""

from collections.abc import Callable, Iterable
from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING, Any, Protocol

from navlib import questions
from navlib.chain.question import Question
from navlib.classroom.board import board
from navlib.classroom.faces import words, working
from navlib.classroom.judging import question_of, seed_of
from navlib.classroom.refusals import Missing, Refused
from navlib.language import say
from navlib.pictures.drawn import draw

if TYPE_CHECKING:
    from navlib.classroom.people import People
    from navlib.classroom.store import Store

Found = dict[str, Any]


class Classroom(Protocol):
    """A class, as its instructor deals with it: on a server, or in a folder without one.

    What stands in each dict says `API.md`. All raise `Missing` for what is not there, `Refused` for
    what cannot be done as things stand, and `Down` if the class server cannot be reached.
    """

    def sessions(self) -> list[Found]:
        """Return all sessions, the latest first."""

    def session(self, number: int) -> Found:
        """Return a session with its `questions`, how many `joined` and the `word` they came in with."""

    def begin(self, title: str, number: int | None = None, plan: Any = None) -> Found:
        """Begin a session and return it; with the number of an earlier one it has its values."""

    def change(self, number: int, **changes: Any) -> Found:
        """Change `title`, `plan` or parts of the `stage` of a session, or end it by `ended=True`."""

    def drop(self, number: int) -> int:
        """Delete a session with its answers; return how many sessions that was."""

    def ask(
        self,
        session: int,
        kind: str,
        own: bool = True,
        tell: bool = False,
        segment: int | None = None,
        number: int | None = None,
        open: bool = False,
    ) -> Found:
        """Put a question on a session's list, and open it if that is asked for; return it."""

    def move(self, question: int, state: str) -> Found:
        """Make a question `open`, `closed` or `revealed`; return it."""

    def board(self, question: int, names: bool = False) -> Found:
        """Return the board of a question; nothing in it names a learner without `names`."""

    def working(self, question: int, seat: int | None = None) -> Found:
        """Return `text`, `working` and `parts` for a seat, or of the one for all."""

    def shown(self, question: int, seat: int | None = None) -> Found:
        """Return `title`, `text`, `table`, `parts` and `picture` for a seat, or of the one for all.

        Where each seat has own values and no seat is given, they are an example that nobody has.
        """

    def record(self, session: int) -> Found:
        """Return who was there and what each answered, with names."""

    def people(self) -> list[Found]:
        """Return the class list."""

    def confirm(self, name: str) -> None:
        """Note that a PIN was set by its owner."""

    def clear(self, name: str) -> None:
        """Forget a PIN, so that its owner can set a new one."""

    def forget(self, name: str) -> None:
        """Delete a learner with all that is kept about them."""

    def retention(self) -> int | None:
        """Return how many days sessions are kept after they ended; None for good."""

    def keep_days(self, days: int | None) -> int:
        """Keep sessions for so many days; delete those that ended before, and return how many.

        From then on older ones go whenever a session begins.
        """

    def unread(self) -> list[Found]:
        """Return what was handed in and could not be taken, each with `file` and `why`."""


LONGEST_KEPT = 36_500
"""Days that sessions can be kept at most."""


class Teaching:
    """A class in a database: a `Classroom`.

    `owner` is whose the sessions are that it begins, `word` what its learners come in with.
    """

    def __init__(
        self, store: "Store", people: "People", owner: str = "instructor", word: str = ""
    ) -> None:
        self.store = store
        self.class_list = people
        self.owner = owner
        self.word = word

    def sessions(self) -> list[Found]:
        """Return all sessions, the latest first."""
        return self.store.sessions()

    def session(self, number: int) -> Found:
        """Return a session with its questions and who sits in it."""
        session = self.store.session(number)
        seated = self._seated(number)
        return {
            **session,
            "word": self.word,
            "joined": len(seated),
            "people": seated,
            "questions": [_entry(row) for row in self.store.questions(number)],
        }

    def begin(self, title: str, number: int | None = None, plan: Any = None) -> Found:
        """Begin a session and return it; those that are kept no longer go."""
        self.drop_old()
        return self.store.begin(title, self.owner, number, plan)

    def change(self, number: int, **changes: Any) -> Found:
        """Change title, plan, stage; `ended=True` ends it."""
        return self.store.change_session(number, **changes)

    def drop(self, number: int) -> int:
        """Delete a session with its answers; return how many sessions that was."""
        return self.store.drop_session(number)

    def ask(
        self,
        session: int,
        kind: str,
        own: bool = True,
        tell: bool = False,
        segment: int | None = None,
        number: int | None = None,
        open: bool = False,
    ) -> Found:
        """Put a question on a session's list, and open it if that is asked for; return it."""
        asked = self.store.ask(session, kind, own, tell, segment, number)
        return self.store.move(asked["id"], "open") if open else asked

    def move(self, question: int, state: str) -> Found:
        """Open, close or reveal a question; return it."""
        return self.store.move(question, state)

    def board(self, question: int, names: bool = False) -> Found:
        """Return the board of a question."""
        asked = self.store.question(question)
        session = self.store.session(asked["session"])
        return board(
            asked,
            self.store.seats(session["id"]),
            self.store.answers(question),
            lambda seat: question_of(asked, session["number"], seat),
            self.class_list.all() if names else None,
        )

    def question_for(self, question: int, seat: int | None = None) -> Question:
        """Return the question as a seat has it, or the one for all."""
        asked = self.store.question(question)
        return question_of(asked, self.store.session(asked["session"])["number"], seat)

    def working(self, question: int, seat: int | None = None) -> Found:
        """Return text, working and answers for a seat, or of the one for all."""
        made = self.question_for(question, seat)
        return {"text": made.text, **working(made)}

    def shown(self, question: int, seat: int | None = None) -> Found:
        """Return a question as the projector shows it, its picture drawn here if it is not kept."""
        made = self.question_for(question, seat)
        return {**words(made), "picture": draw(made.picture)}

    def to_be_drawn(self, question: int, most: int) -> list[Question]:
        """Return the questions that are shown once this one is opened: of `most` seats at most."""
        asked = self.store.question(question)
        taken = self.store.seats(asked["session"])[:most]
        seats = [row["seat"] for row in taken] if asked["own"] else [None]
        return [self.question_for(question, seat) for seat in seats]

    def record(self, session: int) -> Found:
        """Return who was there and what each answered, with names."""
        row = self.store.session(session)
        shown = ("question", "position", "kind", "seat", "at", "given", "counted", "answers")
        judged = ("outcomes", "marks", "out_of", "slips")
        return {
            "session": row,
            "people": self._seated(session),
            "answers": [
                {"name": one["learner"], "seed": seed_of(one, row["number"], one["seat"])}
                | {name: one[name] for name in (*shown, *judged)}
                for one in self.store.answers(session=session)
            ],
        }

    def people(self) -> list[Found]:
        """Return the class list, without PINs."""
        shown = ("name", "shown", "role", "claimed", "confirmed")
        return [{name: one[name] for name in shown} for one in self.class_list.all().values()]

    def confirm(self, name: str) -> None:
        """Note that a PIN was set by its owner."""
        self._known(name, self.class_list.confirm)

    def clear(self, name: str) -> None:
        """Forget a PIN, so that its owner can set a new one."""
        self._known(name, self.class_list.clear)

    def forget(self, name: str) -> None:
        """Delete a learner with all that is kept about them."""
        self.store.forget(name)  # first, so that a deletion cut short can be asked for again
        self._known(name, self.class_list.forget)

    def retention(self) -> int | None:
        """Return how many days sessions are kept after they ended; None for good."""
        return self.store.retention()

    def keep_days(self, days: int | None) -> int:
        """Keep sessions for so many days; delete those that ended before, and return how many."""
        if days is not None and not 0 <= days <= LONGEST_KEPT:
            raise Refused(say("Sessions can be kept for 0 to {most} days.", {"most": LONGEST_KEPT}))
        self.store.set_retention(days)
        return self.drop_old()

    def drop_old(self) -> int:
        """Delete sessions that ended longer ago than they are kept; return how many."""
        days = self.store.retention()
        gone = [] if days is None else ended_before(self.store.sessions(), days)
        return sum(self.drop(one["id"]) for one in gone)

    def unread(self) -> list[Found]:
        """Return nothing: what is handed in here is taken or refused at once."""
        return []

    def _seated(self, session: int) -> list[Found]:
        people = self.class_list.all()
        return [
            {
                "name": row["learner"],
                "shown": people.get(row["learner"], {}).get("shown", row["learner"]),
                **{name: row[name] for name in ("seat", "at")},
            }
            for row in self.store.seats(session)
        ]

    def _known(self, name: str, deed: Callable[[str], bool]) -> None:
        if not deed(name):
            raise Missing(say("There is nobody called {name} on the class list.", {"name": name}))


def _entry(row: Found) -> Found:
    """Return a question as it stands on a session's list."""
    shown = ("id", "position", "kind", "segment", "number", "state")
    return {
        **{name: row[name] for name in (*shown, "opened", "closed", "revealed", "answers")},
        **{name: bool(row[name]) for name in ("own", "tell")},
        "title": questions.question_type(row["kind"]).title,
    }


def ended_before(sessions: Iterable[Found], days: int) -> list[Found]:
    """Return the sessions that ended more than so many days ago, in the order given."""
    day = (datetime.now(UTC) - timedelta(days=days)).isoformat()
    return [one for one in sessions if one["ended"] and one["ended"] < day]
