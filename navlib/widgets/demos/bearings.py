"""Demonstrations of the bearings lesson: the way back, the three norths, deviation."""

from collections.abc import Mapping

import traitlets

from navlib.deviation import DeviationCard
from navlib.questions.bearings.compass import training_card
from navlib.widgets.demos.demonstration import Demonstration, front_of


class ThreeNorths(Demonstration):
    """One line counted from true, grid and magnetic north.

    `bearing` is the line's true bearing; `times` how many times as large the angles between the
    norths are drawn, 1 or 3.
    """

    words = "A figure to move: one direction counted from true, grid and magnetic north."
    _esm = front_of("norths", "north_arrows")

    variation = traitlets.Float(-8.0, min=-30, max=30).tag(sync=True)
    convergence = traitlets.Float(-4.5, min=-6, max=6).tag(sync=True)
    bearing = traitlets.Float(100.0).tag(sync=True)
    times = traitlets.Enum((1, 3), 3).tag(sync=True)


class ThereAndBack(Demonstration):
    """A bearing and its back bearing on one ring; `north` is the letter written after both."""

    words = "A figure to move: the bearing from A to B, and the bearing back."
    _esm = front_of("there_and_back")

    bearing = traitlets.Float(60.0).tag(sync=True)
    north = traitlets.Enum(("T", "M", "G"), "T").tag(sync=True)


class DeviationByHeading(Demonstration):
    """A turning boat and its deviation card: deviation goes with the heading, not with the mark.

    `deviations` maps headings to deviations, or is a DeviationCard; `heading` is counted as the
    card counts, `mark` is the magnetic bearing of what is looked at.
    """

    words = "A figure to move: a boat’s deviation changes as the boat turns."
    _esm = front_of("deviation")

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


def deviation() -> DeviationByHeading:
    """Return the demonstration of deviation by heading, with the training boat's card."""
    return DeviationByHeading(training_card(1))
