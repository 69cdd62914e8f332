"""What a kind of answer knows: how it is written and read, rounded, and how far apart two are."""

from abc import ABC, abstractmethod
from dataclasses import dataclass
from enum import Enum
from typing import Generic, TypeVar

from navlib.language import say
from navlib.notation import Misread, Unclear

V = TypeVar("V")


class Verdict(Enum):
    """What became of a written answer when it was read (before anyone asks whether it is right)."""

    ACCEPT = "accept"
    NOTE = "note"  # the value is plain; a habit of writing could be better
    QUERY = "query"  # could mean more than one thing: ask
    REJECT = "reject"  # cannot be an answer of this kind


@dataclass(frozen=True)
class Reading(Generic[V]):
    """A written answer as read: `value` is None unless the verdict is ACCEPT or NOTE.

    `says` holds whole sentences for the person who wrote it: the notes, the question, or what was
    not understood with an example.
    """

    verdict: Verdict
    value: V | None = None
    says: tuple[str, ...] = ()


class Kind(ABC, Generic[V]):
    """A kind of answer, as a frozen dataclass; `rounding` and `apart` share one measure.

    `unit` is what stands after the number (may be empty), `rounding` the last digit that
    practitioners write, `example` a well-written answer of this kind.
    """

    unit: str
    rounding: float
    example: str

    @abstractmethod
    def parse(self, text: str) -> tuple[V, tuple[str, ...]]:
        """Return the value written in `text`, and notes on habits; raise Misread if it has none."""

    @abstractmethod
    def write(self, value: V) -> str:
        """Return `value` as a practitioner writes it, rounded, with its unit."""

    @abstractmethod
    def apart(self, one: V, other: V) -> float:
        """Return how far `one` is from `other`; signed where that has a meaning."""

    @abstractmethod
    def shift(self, value: V, by: float) -> V:
        """Return `value` moved by `by`, so that apart(shift(v, by), v) is `by` if `by` is small."""

    def read(self, text: str) -> Reading[V]:
        """Read a written answer; never raises, whatever was typed."""
        if not text.strip():
            return Reading(
                Verdict.QUERY,
                None,
                (
                    say(
                        "Nothing is written here yet. Write it like this: {example}.",
                        {"example": self.example},
                    ),
                ),
            )
        try:
            value, notes = self.parse(text)
        except Unclear as unclear:
            return Reading(Verdict.QUERY, None, (str(unclear),))
        except Misread as misread:
            return Reading(Verdict.REJECT, None, (str(misread),))
        return Reading(Verdict.NOTE if notes else Verdict.ACCEPT, value, notes)

    def write_width(self, width: float) -> str:
        """Return a width of tolerance in this kind's measure, with its unit: ± this much."""
        return f"{width:g} {self.unit}".strip()

    def nearest(self, value: V, other: V) -> V:
        """Return the reading of `value` that lies nearest `other`, if it can be read in several."""
        return value

    def quoted(self, text: str, value: V) -> str:
        """Return how an answer is quoted back to who wrote `text`: in its own words."""
        return text.strip()

    def left_out(self, value: V, key: V) -> str:
        """Return a sentence on what `value` leaves out of what is asked; empty if nothing."""
        return ""

    def rounded(self, value: V) -> V:
        """Return `value` as it would be read back after writing it down."""
        return self.parse(self.write(value))[0]
