"""Numbers held to some days, waters and one printed sheet; a plain source of numbers is held to nothing.

A question type draws from a `random.Random`. Where it chooses a day, a water, a scale or a place, it
asks here, so that one who sets a paper can have all questions on one month's tables and one sheet.
With a plain source the choice is the plain one, and each seed gives what it always gave.
"""

import random
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from datetime import date
from typing import TypeVar

from navlib.chain.question import NoFairNumbers
from navlib.questions.picture import Sort
from navlib.waters import Place

T = TypeVar("T")
Days = tuple[date, date]


class NothingHeld(NoFairNumbers):
    """Nothing that this question needs lies within what it is held to."""


@dataclass(frozen=True)
class View:
    """A sheet that a question is to be worked on: of which water, what, its scale and its middle.

    `holds` says whether a place (grid metres) lies well inside it, `keeps` whether a choice may be
    taken, by its first and its last place; `area` is west, south, east and north of what it shows,
    in grid metres.
    """

    water: str
    sheet: Sort
    scale: int
    centre: Place
    area: tuple[float, float, float, float]
    holds: Callable[[Place], bool]
    keeps: Callable[[Place, Place], bool]
    _fitting: dict[int, tuple[Sequence[object], list[object]]] = field(
        default_factory=dict, compare=False, repr=False
    )

    def fitting(self, options: Sequence[T], places: Callable[[T], Sequence[Place]]) -> list[T]:
        """Return the options that may be taken, whose places all lie on this sheet.

        What was found is kept for as long as the view is, so `options` must not change.
        """
        if id(options) not in self._fitting:
            each = ((one, places(one)) for one in options)
            on_it = [(one, at) for one, at in each if all(map(self.holds, at))]
            found = [one for one, at in on_it if self.keeps(at[0], at[-1])]
            self._fitting[id(options)] = options, list(found)
        return self._fitting[id(options)][1]  # type: ignore[return-value]


class Held(random.Random):
    """A seeded source held to `days` (first and last), to `waters`, and to the sheet `view`.

    What is None or empty does not hold it. `free` says which places of the sheet may be marked;
    `options` is how many there were at the narrowest choice of places so far.
    """

    days: Days | None = None
    waters: tuple[str, ...] = ()
    view: View | None = None
    free: Callable[[Place], bool] | None = None
    options: int | None = None


def held(
    seed: str,
    days: Days | None = None,
    waters: tuple[str, ...] = (),
    view: View | None = None,
    free: Callable[[Place], bool] | None = None,
) -> Held:
    """Return a source of numbers from `seed` that is held so."""
    source = Held(seed)
    source.days, source.waters, source.view, source.free = days, waters, view, free
    return source


def view_of(source: random.Random) -> View | None:
    """Return the sheet that a source is held to, if it is."""
    return source.view if isinstance(source, Held) else None


def days(source: random.Random, first: date, last: date) -> Days:
    """Return the first and the last day of `first` to `last` that a source may give."""
    if not isinstance(source, Held) or source.days is None:
        return first, last
    return max(first, source.days[0]), min(last, source.days[1])


def choose_water(source: random.Random, names: Sequence[str]) -> str:
    """Return one of these waters: that of the sheet held to, or one of the waters held to.

    Where there is only one, nothing is drawn for it.
    """
    if view := view_of(source):
        return _the(view.water, names)
    return _one(source, [name for name in names if within(source, name)])


def choose_scale(source: random.Random, scales: Sequence[int]) -> int:
    """Return one of these scales, that of the sheet held to; nothing is drawn for a single one."""
    view = view_of(source)
    return _the(view.scale, scales) if view else _one(source, scales)


def choose_sheet(
    source: random.Random,
    sheets: Sequence[tuple[str, int]],
    weights: Sequence[float] | None = None,
) -> tuple[str, int]:
    """Return one of these sheets, each a water and a scale: the one held to, or of a water held to."""
    if view := view_of(source):
        return _the((view.water, view.scale), sheets)
    if weights is None:
        return _one(source, [sheet for sheet in sheets if within(source, sheet[0])])
    held_to = [w * within(source, sheet[0]) for sheet, w in zip(sheets, weights, strict=True)]
    if not any(held_to):
        raise NothingHeld("none of these waters")
    return source.choices(sheets, held_to)[0]


def choose(
    source: random.Random, options: Sequence[T], places: Callable[[T], Sequence[Place]]
) -> T:
    """Return one of the options, one whose places lie on the sheet held to.

    `options` must be kept by the caller and never change.
    """
    view = view_of(source)
    if view is None:
        return source.choice(options)
    fitting = view.fitting(options, places)
    assert isinstance(source, Held)
    if source.free is not None:
        fitting = [one for one in fitting if all(map(source.free, places(one)))]
    source.options = min(len(fitting), source.options or len(fitting))
    if not fitting:
        raise NothingHeld("no such places on this sheet")
    return source.choice(fitting)


def within(source: random.Random, water: str) -> bool:
    """Return whether a source may give this water."""
    return not (isinstance(source, Held) and source.waters and water not in source.waters)


def _one(source: random.Random, options: Sequence[T]) -> T:
    if not options:
        raise NothingHeld("none of these waters")
    return options[0] if len(options) == 1 else source.choice(options)


def _the(wanted: T, options: Sequence[T]) -> T:
    if wanted not in options:
        raise NothingHeld(f"{wanted} is none of {options}")
    return wanted
