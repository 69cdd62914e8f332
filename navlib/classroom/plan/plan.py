"""A plan of a session: what the class does, in which order, and for how long."""

from collections.abc import Mapping
from dataclasses import asdict, dataclass
from typing import Any, Literal, get_args

What = Literal["demonstrate", "work alone", "compare in pairs", "vote", "reveal", "break"]
WHATS: tuple[What, ...] = get_args(What)
"""What a class does in a segment, in the order in which a question goes through them."""
ASKING: tuple[What, ...] = ("work alone", "vote")
"""Those with a question of their own."""
AFTER: tuple[What, ...] = ("compare in pairs", "reveal")
"""Those that speak of the question asked last before them."""


@dataclass(frozen=True)
class Segment:
    """One part of a session.

    `demonstration` is a name in `demonstrations`; a segment that demonstrates without one is shown by
    hand. `kind` names the kind of question that is asked. With `own` each seat has values of its
    own, and with `tell` it is told at once whether an answer is right. `notes` are for the
    instructor alone.
    """

    what: What
    minutes: int
    title: str
    notes: str = ""
    demonstration: str | None = None
    kind: str | None = None
    own: bool = True
    tell: bool = False


@dataclass(frozen=True)
class Asked:
    """A question of a plan: its `segment`, counted from 0, and its `position`, counted from 1.

    Played in order it has this position among the questions of the session, on which own values rest.
    """

    segment: int
    position: int
    kind: str
    own: bool
    title: str


@dataclass(frozen=True)
class Plan:
    """What a session shall be.

    `name` is the file's name without its ending, `topic` one of the library's, empty where there
    are several. `length` is how many minutes there are, 0 if it does not matter; `bring` is what has
    to lie ready; `caution` is said aloud before the class does anything out of doors.
    """

    name: str
    title: str
    topic: str
    goals: tuple[str, ...]
    bring: tuple[str, ...]
    segments: tuple[Segment, ...]
    length: int = 0
    caution: str = ""

    @property
    def minutes(self) -> int:
        """Minutes of all segments together."""
        return sum(segment.minutes for segment in self.segments)

    @property
    def questions(self) -> tuple[Asked, ...]:
        """The questions in the order in which they are asked."""
        asking = [(n, one) for n, one in enumerate(self.segments) if one.kind is not None]
        return tuple(
            Asked(n, position, one.kind or "", one.own, one.title)
            for position, (n, one) in enumerate(asking, 1)
        )

    def to_plain(self) -> dict[str, Any]:
        """Return the plan as JSON can hold it."""
        plain = asdict(self)
        return {name: list(v) if isinstance(v, tuple) else v for name, v in plain.items()}

    @classmethod
    def from_plain(cls, plain: Mapping[str, Any]) -> "Plan":
        """Return the plan that `to_plain` wrote. Raises ValueError for anything else."""
        try:
            lists = {name: tuple(map(str, plain[name])) for name in ("goals", "bring")}
            segments = tuple(Segment(**one) for one in plain["segments"])
            return cls(**{**plain, **lists, "segments": segments})
        except (TypeError, KeyError) as wrong:
            raise ValueError(f"This is not the plan of a session: {wrong}.") from None
