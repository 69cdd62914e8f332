"""A numbered exercise: the same for everyone, so that a class can talk about it."""

from navlib import questions
from navlib.desk.aboard import Aboard
from navlib.desk.sitting import another
from navlib.language import say
from navlib.record import Record


class Exercise(Aboard):
    """Set exercise `number` (from 1) of a lesson; other numbers of its kind can be asked for."""

    def __init__(self, lesson: str, number: int, record: Record) -> None:
        super().__init__(record)
        self.lesson, self.number = lesson, number
        self.place = f"{lesson}/exercise/{number}"
        self.do_back()

    @property
    def title(self) -> str:
        """Return the heading of the card."""
        put = {"number": self.number, "title": self.question.title}
        if self.is_set:
            return say("Exercise {number}: {title}", put)
        return say("Exercise {number}, other numbers: {title}", put)

    @property
    def is_set(self) -> bool:
        """Whether the set question is on the desk, not one with other numbers."""
        return self.question.seed == questions.exercise(self.lesson, self.number).seed

    def onward(self) -> tuple[str, str]:
        """Return the button for other numbers, or back to the set ones."""
        if self.over or self.is_set:
            return "again", say("Other numbers")
        return "back", say("Set numbers")

    def do_again(self) -> None:
        """Lay a question of the same kind with other numbers."""
        self.lay(another(self.question))

    def do_back(self) -> None:
        """Lay the set question again."""
        self.lay(questions.exercise(self.lesson, self.number))
