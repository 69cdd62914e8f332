"""A blueprint: what a paper shall test, for how many marks and minutes, on which waters and sheets."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from navlib.questions.picture import Sort


@dataclass(frozen=True)
class Row:
    """One question of a blueprint: any of `kinds` (names of question types, of one topic and level).

    `marks` are all marks of the question, `working` those of them that are for working shown,
    `minutes` the time that it is meant to take.
    """

    number: int
    topic: str
    kinds: tuple[str, ...]
    marks: int
    working: int
    minutes: float


@dataclass(frozen=True)
class SheetWanted:
    """A sheet that goes with the paper: of which water, what, and at which scale and paper size.

    `paper_size` is "A4" or "A3".
    """

    water: str
    sheet: Sort
    scale: int
    paper_size: str


@dataclass(frozen=True)
class Blueprint:
    """What a paper shall test.

    `name` is the file's name without its ending; `first` and `last` are the days that questions
    with a date may lie between; `minutes` is the whole time, `pass_mark` the marks to pass.
    `notation` marks are lost once a paper, wherever a unit, north or zone is missing. `words` holds
    the other texts of the cover by name, such as "centre" or "note".
    """

    name: str
    title: str
    minutes: int
    pass_mark: int
    notation: int
    first: date
    last: date
    sheets: tuple[SheetWanted, ...]
    instruments: tuple[str, ...]
    rows: tuple[Row, ...]
    words: Mapping[str, str]

    @property
    def marks(self) -> int:
        """All marks of the paper."""
        return sum(row.marks for row in self.rows)
