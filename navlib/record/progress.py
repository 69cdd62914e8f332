"""What a learner can do already: by kind of question, by slip, by checkpoint.

Everything here follows from the attempts kept and from what day it is; nothing else is remembered.
"""

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date, datetime, tzinfo

from navlib.record.spacing import NEW, Spacing
from navlib.record.store import Attempt

SURE_AFTER = 2
"""Right answers running, each at the first try and without a hint, from which a kind is sure."""

SETTLED = 4
"""Box from which a slip is settled: it stayed away over a week."""


@dataclass(frozen=True)
class Entry:
    """One kind of question that can be asked: its level, 1 the easiest, and the slips it allows."""

    topic: str
    level: int
    slips: frozenset[str] = frozenset()


Syllabus = Mapping[str, Entry]
"""Every kind of question that can be asked, by name."""


@dataclass(frozen=True)
class Tried:
    """One question answered, in one or more tries: `clean` if right at the first, without a hint.

    `told` are the slips named in any of its tries, `chances` those that its numbers gave a chance
    to; `day` and `at` are those of the last try, in the learner's zone.
    """

    place: str
    kind: str
    seed: int
    at: datetime
    right: bool
    clean: bool
    told: frozenset[str]
    chances: frozenset[str] | None

    @property
    def day(self) -> date:
        """Return the day of the last try."""
        return self.at.date()


@dataclass(frozen=True)
class Standing:
    """How one kind of question stands: questions tried, right in the end, right first time running."""

    tried: int = 0
    right: int = 0
    running: int = 0
    last: datetime | None = None
    spacing: Spacing = NEW

    @property
    def sure(self) -> bool:
        """Whether it has become sure."""
        return self.running >= SURE_AFTER

    def is_due(self, today: date) -> bool:
        """Return whether it was known once and should come back today."""
        return self.spacing.box > 0 and self.spacing.is_due(today)


@dataclass(frozen=True)
class SlipStanding:
    """How one slip stands: in how many questions of which kinds it was told, and when last.

    `right_since` is when a question that gave a chance to it was last right at the first try, None
    if there was none since it was told last.
    """

    name: str
    kinds: Mapping[str, int]
    last_told: datetime
    right_since: datetime | None = None
    spacing: Spacing = NEW

    @property
    def told(self) -> int:
        """Return in how many questions it was told."""
        return sum(self.kinds.values())

    @property
    def settled(self) -> bool:
        """Whether it stayed away for so long that there is no need to speak of it."""
        return self.spacing.box >= SETTLED


@dataclass(frozen=True)
class Progress:
    """How everything stands `now`: kinds and slips by name, and the questions behind it in order.

    `probed` are the slips that some question so far gave a chance to.
    """

    now: datetime
    questions: tuple[Tried, ...] = ()
    kinds: Mapping[str, Standing] = field(default_factory=dict)
    slips: Mapping[str, SlipStanding] = field(default_factory=dict)
    probed: frozenset[str] = frozenset()

    @property
    def today(self) -> date:
        """Return the day it is for the learner."""
        return self.now.date()

    def kind(self, name: str) -> Standing:
        """Return how a kind stands, tried or not."""
        return self.kinds.get(name, Standing())

    def last_day(self, kind: str) -> date:
        """Return the day a kind was tried last, today if never."""
        return (self.kind(kind).last or self.now).date()


@dataclass(frozen=True)
class CheckpointResult:
    """One checkpoint: how many questions were answered and right, and the day of the last one."""

    run: str
    answered: int
    right: int
    day: date


def questions_tried(attempts: Iterable[Attempt], zone: tzinfo | None) -> list[Tried]:
    """Return the questions answered, by the time of their first try, each with what came of it.

    Attempts that could not be read, or are not judged yet, count as none.
    """
    together: dict[tuple[str, str, int], list[Attempt]] = {}
    for attempt in sorted(attempts, key=lambda attempt: attempt.at):
        if attempt.outcomes and "unread" not in attempt.outcomes.values():
            key = (attempt.place, attempt.kind, attempt.seed)
            together.setdefault(key, []).append(attempt)
    return [_tried(tries, zone) for tries in together.values()]


def progress(attempts: Iterable[Attempt], now: datetime, syllabus: Syllabus) -> Progress:
    """Return how everything stands; `now` has the learner's zone, in which days are counted."""
    questions = questions_tried(attempts, now.tzinfo)
    kinds: dict[str, Standing] = {}
    slips: dict[str, SlipStanding] = {}
    probed: set[str] = set()
    for question in questions:
        kinds[question.kind] = _after(kinds.get(question.kind, Standing()), question)
        entry = syllabus.get(question.kind)
        chances = question.chances
        if chances is None:
            chances = entry.slips if entry else frozenset()
        probed |= chances
        for name in question.told:
            slips[name] = _told(slips.get(name), name, question)
        if question.clean:
            for name in chances & slips.keys():
                spacing = slips[name].spacing.right(question.day)
                slips[name] = replace(slips[name], right_since=question.at, spacing=spacing)
    return Progress(now, tuple(questions), kinds, slips, frozenset(probed))


def checkpoint_results(
    questions: Iterable[Tried], topic: str, length: int
) -> list[CheckpointResult]:
    """Return the results of the checkpoints of a topic that were gone through to the end."""
    runs: dict[str, list[Tried]] = {}
    for question in questions:
        where, _, run = question.place.rpartition("/")
        if where == f"{topic}/checkpoint":
            runs.setdefault(run, []).append(question)
    return [
        CheckpointResult(run, len(asked), sum(q.right for q in asked), asked[-1].day)
        for run, asked in runs.items()
        if len(asked) >= length
    ]


def _tried(tries: list[Attempt], zone: tzinfo | None) -> Tried:
    first, last = tries[0], tries[-1]
    return Tried(
        last.place,
        last.kind,
        last.seed,
        datetime.fromisoformat(last.at).astimezone(zone),
        any(attempt.right for attempt in tries),
        first.right and not first.hints,
        frozenset(name for attempt in tries for name in attempt.slips),
        None if first.chances is None else frozenset(first.chances),
    )


def _after(was: Standing, question: Tried) -> Standing:
    spacing = was.spacing.right if question.clean else was.spacing.wrong
    return Standing(
        was.tried + 1,
        was.right + question.right,
        was.running + 1 if question.clean else 0,
        question.at,
        spacing(question.day),
    )


def _told(was: SlipStanding | None, name: str, question: Tried) -> SlipStanding:
    kinds = Counter(was.kinds if was else {})
    kinds[question.kind] += 1
    return SlipStanding(name, dict(kinds), question.at, None, NEW.wrong(question.day))
