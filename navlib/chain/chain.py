"""The chain itself: run rightly, with slips, with errors pushed through it, from any step on."""

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property, lru_cache
from itertools import combinations
from typing import Any

from navlib.chain.kind import Kind
from navlib.chain.step import Error, Route, Slip, Step, Work, needs

NOTHING: Mapping[str, Any] = {}


@dataclass(frozen=True)
class Band:
    """How far an answer may lie from the key for `full` marks and for `part` of them.

    Both are in the measure of the answer's kind, whole multiples of its rounding.
    """

    full: float
    part: float


def band(sigma: float, rounding: float) -> Band:
    """Return the bands for an answer whose instruments scatter it by `sigma`.

    Two standard deviations and half a rounding unit, independent of each other, to the nearest
    rounding unit and never below one; the part band is twice the full one. Common practice.
    """
    width = math.hypot(2 * sigma, rounding / 2)
    full = max(1, math.floor(width / rounding + 0.5)) * rounding
    return Band(full, 2 * full)


@dataclass(frozen=True)
class Chain:
    """Named steps from givens to answers; every later use of a question derives from this.

    `givens` maps the name of each given to its kind (None for words, such as a place's name).
    Raises ValueError at once if a step or a slip takes something that does not come before it.
    """

    givens: Mapping[str, Kind[Any] | None]
    steps: tuple[Step, ...]

    def __post_init__(self) -> None:
        known = set(self.givens)
        for step in self.steps:
            if step.name in known:
                raise ValueError(f"the name “{step.name}” is used twice; rename this step")
            works = [("work", step.work)]
            works += [(f"slip “{slip.name}”", slip.route) for slip in step.slips]
            works += [(f"error “{e.name}”", e.sigma) for e in step.errors if callable(e.sigma)]
            for what, work in works:
                if missing := ", ".join(name for name in needs(work) if name not in known):
                    raise ValueError(
                        f"step “{step.name}”: its {what} takes {missing}, which no given or "
                        f"earlier step is called; known here: {', '.join(sorted(known))}"
                    )
            known.add(step.name)

    @cached_property
    def by_name(self) -> dict[str, Step]:
        """Return the steps by name."""
        return {step.name: step for step in self.steps}

    def by(self, instruments: str) -> "Chain":
        """Return this chain with the errors that another set of instruments makes."""
        return Chain(self.givens, tuple(step.by(instruments) for step in self.steps))

    def kind(self, name: str) -> Kind[Any] | None:
        """Return the kind of a given or step."""
        return self.by_name[name].kind if name in self.by_name else self.givens[name]

    def run(
        self,
        givens: Mapping[str, Any],
        slips: Mapping[str, Slip] = NOTHING,
        pushes: Mapping[str, tuple[Error, float]] = NOTHING,
        fixed: Mapping[str, Any] = NOTHING,
    ) -> dict[str, Any]:
        """Return the value of every given and step.

        `slips` and `pushes` name a step each: the slip made there, the error met there and its
        size in standard deviations. `fixed` holds a learner's own answers to earlier steps, from
        which the rest follows.
        """
        values = dict(givens)
        for step in self.steps:
            if step.name in fixed:
                values[step.name] = fixed[step.name]
                continue
            slip = slips.get(step.name)
            value = _call(slip.route if slip else step.work, values)
            if value is not None and step.read_off:
                value = _read_off(step.kind, value)
            if value is not None and step.name in pushes:
                error, times = pushes[step.name]
                by = times * _sigma(error, values)
                value = (error.push or step.kind.shift)(value, by)
            values[step.name] = value
        return values

    def sigma(
        self,
        givens: Mapping[str, Any],
        asked: str,
        slips: Mapping[str, Slip] = NOTHING,
        fixed: Mapping[str, Any] = NOTHING,
    ) -> float:
        """Return the standard deviation of step `asked` by every error on the way to it.

        Each error is pushed through the chain one standard deviation either way and the responses
        add as independent errors do (root sum of squares).
        """
        kind, total = self.by_name[asked].kind, 0.0
        steps = [step for step in self.upstream(asked, fixed) if step.errors]
        if not steps:
            return 0.0
        middle, order = self.run(givens, slips, fixed=fixed), [step.name for step in self.steps]
        for step in steps:
            same = {name: middle[name] for name in order[: order.index(step.name)]}
            for error in step.errors:
                for way in (1, -1):
                    pushes = {step.name: (error, way)}
                    end = self.run(givens, slips, pushes, {**same, **fixed})[asked]
                    if end is not None:
                        total += kind.apart(end, middle[asked]) ** 2 / 2
        return math.sqrt(total)

    def band(
        self, givens: Mapping[str, Any], asked: str, fixed: Mapping[str, Any] = NOTHING
    ) -> Band:
        """Return how far an answer to step `asked` may lie from the key."""
        return band(self.sigma(givens, asked, fixed=fixed), self.by_name[asked].kind.rounding)

    def upstream(self, asked: str, fixed: Mapping[str, Any] = NOTHING) -> list[Step]:
        """Return the steps that `asked` rests on, itself last, none at or behind a fixed one."""
        wanted, found = {asked}, []
        for step in reversed(self.steps):
            if step.name in wanted and step.name not in fixed:
                found.append(step)
                wanted.update(step.needs)
                for slip in step.slips:
                    wanted.update(slip.needs)
        return found[::-1]

    def routes(
        self,
        givens: Mapping[str, Any],
        asked: str,
        fixed: Mapping[str, Any] = NOTHING,
        most: int = 2,
    ) -> Iterator[Route]:
        """Yield the wrong ways to `asked`: each slip alone, then each pair in different steps.

        A way that cannot be gone with these numbers is left out, and so is a pair that ends where
        one of its slips alone ends, which explains as much with less. Where the right way leads
        nowhere from a learner's own answers, such as a speed of 0, no wrong one is looked for.
        """
        if self.run(givens, fixed=fixed)[asked] is None:
            return
        slips = [(s.name, slip) for s in self.upstream(asked, fixed) for slip in s.slips]
        apart, least = self.by_name[asked].kind.apart, self.by_name[asked].kind.rounding / 100
        alone: dict[tuple[str, Slip], Any] = {}
        for count in range(1, most + 1):
            for together in combinations(slips, count):
                made = dict(together)
                value = self.run(givens, made, fixed=fixed)[asked] if len(made) == count else None
                if value is None:
                    continue
                if count == 1:
                    alone[together[0]] = value
                elif any(abs(apart(value, alone[s])) < least for s in together if s in alone):
                    continue
                sigma = self.sigma(givens, asked, made, fixed)
                weight = math.prod(slip.weight for _, slip in together)
                yield Route(together, value, sigma, weight)

    def separable(
        self, givens: Mapping[str, Any], asked: str, fixed: Mapping[str, Any] = NOTHING
    ) -> bool:
        """Return whether each slip ends beyond the part band from the key and every other slip.

        Otherwise a lucky slip would earn marks, or a neat worker be accused of the wrong slip.
        """
        apart = self._ends(givens, asked, fixed)
        ends: list[Any] = []
        kind = self.by_name[asked].kind
        narrowest = band(0.0, kind.rounding).part  # no need to push errors where this tells already
        for _, end in apart:
            if any(abs(kind.apart(end, other)) <= narrowest for other in ends):
                return False
            ends.append(end)
        return self._least_apart(givens, asked, fixed, apart) > 1

    def separation(
        self, givens: Mapping[str, Any], asked: str, fixed: Mapping[str, Any] = NOTHING
    ) -> float:
        """Return how far apart the two nearest ends of `separable` lie, in part bands.

        Infinite where no slip can be made.
        """
        return self._least_apart(givens, asked, fixed, self._ends(givens, asked, fixed))

    def _ends(
        self, givens: Mapping[str, Any], asked: str, fixed: Mapping[str, Any]
    ) -> list[tuple[dict[str, Slip], Any]]:
        """Return the right way to `asked` and those with one slip, each with its end."""
        right = self.run(givens, fixed=fixed)
        if right[asked] is None:
            return []
        found: list[tuple[dict[str, Slip], Any]] = [({}, right[asked])]
        steps = self.upstream(asked, fixed)
        for k, step in enumerate(steps):
            later = {s.name for s in steps[k:]}
            same = {s.name: right[s.name] for s in self.steps if s.name not in later}
            for slip in step.slips:
                way = {step.name: slip}
                if (end := self.run(givens, way, fixed=same)[asked]) is not None:
                    found.append((way, end))
        return found

    def _least_apart(
        self,
        givens: Mapping[str, Any],
        asked: str,
        fixed: Mapping[str, Any],
        ends: list[tuple[dict[str, Slip], Any]],
    ) -> float:
        kind, least = self.by_name[asked].kind, math.inf
        known = [(end, self.sigma(givens, asked, way, fixed)) for way, end in ends]
        for (one, sigma), (other, sigma2) in combinations(known, 2):
            part = band(max(sigma, sigma2), kind.rounding).part
            least = min(least, abs(kind.apart(one, other)) / part)
        return least


def _call(work: Work, values: Mapping[str, Any]) -> Any:
    """Return what `work` makes of the values it names; None if one of them could not be had."""
    taken = {}
    for name in needs(work):
        value = values[name]
        if value is None:
            return None
        taken[name] = value
    return work(**taken)


@lru_cache(maxsize=4096)
def _read_off(kind: Kind[Any], value: Any) -> Any:
    """Return a value as it is read off: the same one comes up for each slip and error behind it."""
    return kind.rounded(value)


def _sigma(error: Error, values: Mapping[str, Any]) -> float:
    return float(_call(error.sigma, values)) if callable(error.sigma) else error.sigma
