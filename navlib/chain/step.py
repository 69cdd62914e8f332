"""The links of a chain: givens, steps, the errors of instruments and the slips of people."""

import inspect
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from functools import cache, cached_property
from typing import Any

from navlib.chain.kind import Kind

Work = Callable[..., Any]
"""A pure function whose parameters carry the names of givens or of earlier steps."""


@cache
def needs(work: Work) -> tuple[str, ...]:
    """Return the names of the givens and steps that `work` takes."""
    return tuple(inspect.signature(work).parameters)


def taking(work: Work, *names: str) -> Work:
    """Return `work` as one that takes the givens or steps of these names, in this order.

    For a step or slip that chains share under other names.
    """

    def named(**values: Any) -> Any:
        return work(*(values[name] for name in names))

    kind = inspect.Parameter.KEYWORD_ONLY
    taken = [inspect.Parameter(name, kind) for name in dict.fromkeys(names)]
    named.__signature__ = inspect.Signature(taken)  # type: ignore[attr-defined]
    return named


@dataclass(frozen=True)
class Error:
    """One independent source of error, as its standard deviation in the measure of the step's kind.

    `sigma` is a number, or a function of givens and earlier steps (the error of a bearing depends
    on how long the line is). `push` moves a value by an error where `Kind.shift` is not the way,
    such as along one axis of a position. `others` holds what `sigma` is with other sets of
    instruments, by the set's name.
    """

    name: str
    sigma: float | Work
    push: Callable[[Any, float], Any] | None = None
    others: Mapping[str, float | Work] = field(default_factory=dict, hash=False)

    def by(self, instruments: str) -> "Error":
        """Return this error as that set of instruments makes it; the same if it is no other."""
        return replace(self, sigma=self.others.get(instruments, self.sigma))


@dataclass(frozen=True)
class Slip:
    """What someone does in place of a step, and what a good instructor would say about it.

    `route` stands in for the step's `work`; it returns None where the slip cannot be made with
    these numbers. `says` is evidence, reason and a check to do, one sentence each; names in braces
    are written out with the question's own values, `{yours}` is the learner's answer. `weight` is
    how common the slip is beside the others of its chain.
    """

    name: str
    route: Work
    says: str
    weight: float = 1.0

    @cached_property
    def needs(self) -> tuple[str, ...]:
        """Names of what the route takes."""
        return needs(self.route)


@dataclass(frozen=True)
class Step:
    """One named step from givens and earlier steps to a value.

    `how` says in words what is done, without numbers; `line` is the worked line, with names in
    braces; `check` is what a learner can do to see that the step is right, `nearly` what the last hint
    shows where the line would give the answer away. `read_off` means the value is read off an
    instrument or a table, so it goes on rounded as it would be written down.
    """

    name: str
    kind: Kind[Any]
    work: Work
    how: str
    line: str
    check: str = ""
    slips: tuple[Slip, ...] = ()
    errors: tuple[Error, ...] = ()
    read_off: bool = False
    nearly: str = ""

    @cached_property
    def needs(self) -> tuple[str, ...]:
        """Names of what the work takes."""
        return needs(self.work)

    def by(self, instruments: str) -> "Step":
        """Return this step with the errors that another set of instruments makes."""
        return replace(self, errors=tuple(error.by(instruments) for error in self.errors))

    def without(self, *slips: str) -> "Step":
        """Return this step without the slips of these names.

        For a chain in which another slip ends at the same place, whatever the numbers.
        """
        return replace(self, slips=tuple(slip for slip in self.slips if slip.name not in slips))


@dataclass(frozen=True)
class Route:
    """One way through a chain: the slips made on it (none: the right way) and where it ends.

    `sigma` is the standard deviation of the end by the errors of the instruments on this way.
    """

    slips: tuple[tuple[str, Slip], ...]
    value: Any
    sigma: float
    weight: float = 1.0
