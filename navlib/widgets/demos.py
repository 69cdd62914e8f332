"""Demonstrations: figures that answer in the same instant, in the browser.

The learner's moves reach Python when a movement ends; every trait can be set from Python too.
Angles in degrees, bearings in [0, 360), east positive.
"""

from collections.abc import Mapping
from typing import Any

import traitlets

from navlib.angles import wrap
from navlib.deviation import DeviationCard
from navlib.widgets.shown import Shown, front


def _demo(name: str) -> str:
    return front("kit.js", "protractor.js", "controls.js", name)


_STYLE = front("kit.css", "sheet.css", "demo.css")


class _Demonstration(Shown):
    _css = _STYLE

    @traitlets.validate("bearing", "heading", "mark")
    def _round_the_circle(self, proposal: Any) -> float:
        return wrap(proposal["value"])


class ThreeNorths(_Demonstration):
    """One line counted from true, grid and magnetic north.

    `bearing` is the line's true bearing; `times` how many times as large the angles between the
    norths are drawn, 1 or 3.
    """

    words = "A figure to move: one direction counted from true, grid and magnetic north."
    _esm = _demo("norths.js")

    variation = traitlets.Float(-8.0, min=-30, max=30).tag(sync=True)
    convergence = traitlets.Float(-4.5, min=-6, max=6).tag(sync=True)
    bearing = traitlets.Float(100.0).tag(sync=True)
    times = traitlets.Enum((1, 3), 3).tag(sync=True)


class ThereAndBack(_Demonstration):
    """A bearing and its back bearing on one ring; `north` is the letter written after both."""

    words = "A figure to move: the bearing from A to B, and the bearing back."
    _esm = _demo("there_and_back.js")

    bearing = traitlets.Float(60.0).tag(sync=True)
    north = traitlets.Enum(("T", "M", "G"), "T").tag(sync=True)


class DeviationByHeading(_Demonstration):
    """A turning boat and its deviation card: deviation goes with the heading, not with the mark.

    `deviations` maps headings to deviations, or is a DeviationCard; `heading` is counted as the
    card counts, `mark` is the magnetic bearing of what is looked at.
    """

    words = "A figure to move: a boat's deviation changes as the boat turns."
    _esm = _demo("deviation.js")

    card: traitlets.List[list[float]] = traitlets.List().tag(sync=True)
    by = traitlets.Unicode("C").tag(sync=True)
    heading = traitlets.Float(300.0).tag(sync=True)
    mark = traitlets.Float(75.0).tag(sync=True)
    variation = traitlets.Float(-8.0).tag(sync=True)

    def __init__(self, deviations: Mapping[float, float] | DeviationCard, **traits: float) -> None:
        if not isinstance(deviations, DeviationCard):
            headings = sorted(deviations)
            deviations = DeviationCard(
                headings, [deviations[at] for at in headings], "given to the demonstration"
            )
        pairs = [
            list(pair) for pair in zip(deviations.headings, deviations.deviations, strict=True)
        ]
        super().__init__(card=pairs, by=deviations.by, **traits)
