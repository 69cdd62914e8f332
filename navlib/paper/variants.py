"""Variants of a paper: the same blueprint, other numbers and places, equal in difficulty."""

from collections.abc import Mapping
from dataclasses import dataclass

from navlib.chain.question import Question
from navlib.paper.blueprint import Blueprint, Row
from navlib.questions.picture import SheetWindow, TidePage


@dataclass(frozen=True)
class Mark:
    """A cross on a printed sheet, in grid metres, with its label there, such as 2A."""

    easting: float
    northing: float
    label: str


@dataclass(frozen=True)
class Extract:
    """A sheet or page of tides that goes with a paper: “Sheet 1”, and the marks laid over it.

    `base` is drawn once for all papers that share it, so it has no spots of its own. `lines` are
    pencil lines printed between two marks, by their labels.
    """

    number: int
    base: SheetWindow | TidePage
    marks: tuple[Mark, ...] = ()
    lines: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True)
class Item:
    """One question of a paper: its row of the blueprint, the question, and the sheet it needs.

    `extract` is the number of its sheet, 0 for none; `labels` maps the letter of a spot in the
    question's words to its label on the sheet, where the two differ.
    """

    row: Row
    question: Question
    extract: int
    labels: Mapping[str, str]

    @property
    def number(self) -> int:
        """The number of the question on the paper, from 1."""
        return self.row.number


@dataclass(frozen=True)
class Paper:
    """One variant, whole: `code` is printed on every page, and nothing can be told from it.

    `variant` counts from 1; `sitting` tells a first sitting from a resit.
    """

    blueprint: Blueprint
    sitting: str
    variant: int
    code: str
    items: tuple[Item, ...]
    extracts: tuple[Extract, ...]
