"""The same question at the table or on deck, as the learner likes."""

from typing import Any

from navlib.chain.question import Question
from navlib.desk.sitting import Face, Sitting
from navlib.language import say
from navlib.pictures.deck import on_deck as folded
from navlib.pictures.drawn import window
from navlib.pictures.pencilled import key_lies
from navlib.questions.deck import DECK, on_deck


class Aboard(Sitting):
    """A sitting in which a question on a sheet can be worked on deck.

    There its instruments are few and its bands wider. What the learner chose is kept for the next
    time, and attempts on deck stand in the record at a place of their own below this one.
    """

    table_form: Question
    """The question as it is worked at the table; `question` may be its form on deck."""

    @property
    def wants_deck(self) -> bool:
        """Whether the learner chose to work on deck here."""
        return self.record.recall(f"{self.place}/{DECK}") == "yes"

    @property
    def aboard(self) -> bool:
        """Whether the question on the desk is worked on deck now."""
        return self.question is not self.table_form

    @property
    def where(self) -> str:
        """Return the place in the record of attempts at the question on the desk."""
        return f"{self.place}/{DECK}" if self.aboard else self.place

    def lay(self, question: Question) -> None:
        """Put a question on the desk, in its form on deck if the learner works there."""
        self.table_form, self.deck_form = question, on_deck(question)
        # `where`, and so what was answered last, depends on which form lies on the desk.
        self.question = self.deck_form if self.deck_form and self.wants_deck else question
        super().lay(self.question)

    def do_deck(self) -> None:
        """Take the question to the deck."""
        self._choose("yes")

    def do_table(self) -> None:
        """Take the question back to the table."""
        self._choose("no")

    def actions(self) -> list[tuple[str, str]]:
        """Return the buttons to show, with the way to the deck or back where there is one."""
        if self.deck_form is None:
            return super().actions()
        way = ("table", say("At the table")) if self.aboard else ("deck", say("On deck"))
        return [*super().actions(), way]

    def face(self) -> Face:
        """Return what is to be shown now."""
        shown, asked = super().face(), self.question
        if self.aboard:
            seed, pencils = f"{asked.kind}/{asked.seed}", tuple(key_lies(asked))
            spot = _in_sight(asked)
            shown["picture"] = folded(shown["picture"], seed, shown=spot, pencils=pencils)
        return shown

    def _part(self, name: str) -> Face:
        part: dict[str, Any] = super()._part(name)
        width = self.question.band_written(name) if self.aboard else ""
        return (
            {
                **part,
                "prompt": say(
                    "{prompt} (on deck: within\N{NO-BREAK SPACE}{width})",
                    {"prompt": part["prompt"], "width": width},
                ),
            }
            if width
            else part
        )

    def _choose(self, deck: str) -> None:
        self.record.remember(f"{self.place}/{DECK}", deck)
        self.lay(self.table_form)


def _in_sight(question: Question) -> tuple[float, float]:
    """Return a spot of the sheet, mm, that the fold must not hide: what is marked, or is to be."""
    if question.picture.spots:
        spot = question.picture.spots[0]
        x, y = window(question.picture).place(spot.easting, spot.northing)
        return float(x), float(y)
    (drawn,) = next(iter(key_lies(question).values()))
    return float(drawn["x"]), float(drawn["y"])
