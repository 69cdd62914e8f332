"""Demonstrations of the lesson on tides.

Heights in metres above chart datum, clock times in minutes from midnight, rates in knots.
"""

from typing import Any

import traitlets

from navlib.clock import DAY
from navlib.widgets.demos import tide_data
from navlib.widgets.demos.demonstration import Demonstration
from navlib.widgets.shown import front


def _front_of(*names: str) -> str:
    """Return the front-end modules `names`, with what they build on; the last one renders."""
    shared = ("controls", "quantities", "timeline", "tide_parts")
    return front("kit.js", *(f"demos/{one}.js" for one in (*shared, *names)))


class OfTides(Demonstration):
    """A figure of water that rises, falls or runs; `data` is what the models gave it."""

    _css = front("kit.css", "sheet.css", "demos/demo.css", "demos/speed.css", "demos/tides.css")

    data = traitlets.Dict().tag(sync=True)


class TideByRule(OfTides):
    """A day's tide by the rule of twelfths, beside what the water does.

    With `find` "height" it is read at `clock`, minutes from midnight UT; with "times" it is found
    when the water lies below `level`, a drying height.
    """

    words = (
        "A figure to move: a day’s tide by the rule of twelfths, at springs, at neaps, and mixed."
    )
    _esm = _front_of("tide_day", "tide_by_rule")

    find = traitlets.Enum(("height", "times"), "height").tag(sync=True)
    day = traitlets.Enum(tuple(tide_data.DAYS), "springs").tag(sync=True)
    clock = traitlets.Int(9 * 60 + 20, min=0, max=DAY - 1).tag(sync=True)
    level = traitlets.Float(3.4, min=0, max=5).tag(sync=True)

    def __init__(self, **traits: Any) -> None:
        super().__init__(data={name: tide_data.day_of(name) for name in tide_data.DAYS}, **traits)


class TideAndChart(OfTides):
    """Water over a bottom and under a bridge, for a boat of some draught and mast.

    `dries` is how far the bottom stands above chart datum, negative for a charted depth.
    """

    words = "A figure to move: depth, water under the keel and air over the mast as the tide rises."
    _esm = _front_of("tide_section", "tide_and_chart")

    tide = traitlets.Float(4.0, min=0, max=5.4).tag(sync=True)
    dries = traitlets.Float(0.9, min=-2, max=3.4).tag(sync=True)
    draught = traitlets.Float(1.4, min=0.1, max=2).tag(sync=True)
    mast = traitlets.Float(8.0, min=0.8, max=11).tag(sync=True)

    def __init__(self, **traits: Any) -> None:
        data = {"levels": tide_data.levels_shown(), "clearance": tide_data.clearance()}
        super().__init__(data=data, **traits)


class SecondaryTide(OfTides):
    """A secondary port's differences, in step between the columns for today's high or low water.

    `clock` is the standard port's time in minutes from midnight UT, `height` its height in metres.
    """

    words = "A figure to move: a secondary port’s time and height differences between the columns."
    _esm = _front_of("difference_graphs", "secondary_tide")

    port = traitlets.Int(0, min=0).tag(sync=True)
    water = traitlets.Enum(("high", "low"), "high").tag(sync=True)
    clock = traitlets.Int(10 * 60 + 23, min=0, max=DAY - 1).tag(sync=True)
    height = traitlets.Float(4.5, min=0, max=5.4).tag(sync=True)

    def __init__(self, **traits: Any) -> None:
        super().__init__(data={"ports": tide_data.secondary_ports()}, **traits)

    @traitlets.validate("port")
    def _known(self, proposal: Any) -> int:
        return int(min(proposal["value"], len(self.data["ports"]) - 1))


class SlackToSlack(OfTides):
    """A stream from slack to slack on each day of a fortnight, by thirds and by 50 and 90 per cent.

    `day` counts from the first day of the fortnight, `minutes` from slack.
    """

    words = (
        "A figure to move: a stream from slack to slack, through two weeks of springs and neaps."
    )
    _esm = _front_of("slack_to_slack")

    day = traitlets.Int(2, min=0, max=tide_data.FORTNIGHT[1] - 1).tag(sync=True)
    minutes = traitlets.Int(120, min=0, max=360).tag(sync=True)

    def __init__(self, **traits: Any) -> None:
        super().__init__(data=tide_data.fortnight(), **traits)


class TidalDiamond(OfTides):
    """A tidal diamond's row for the time on a watch: set, and today's rate.

    `high` is high water at the standard port in minutes from midnight UT, `watch` a clock time
    ashore in minutes from the same midnight, an hour ahead of UT if `summer`. `range` is today's.
    """

    words = "A figure to move: the stream at a tidal diamond by the hours from high water."
    _esm = _front_of("chart_streams", "tidal_diamond")

    letter = traitlets.Enum(tuple("ABCDE"), "A").tag(sync=True)
    high = traitlets.Int(12 * 60 + 10, min=0, max=DAY - 1).tag(sync=True)
    watch = traitlets.Int(14 * 60, min=-6 * 60, max=DAY + 8 * 60).tag(sync=True)
    summer = traitlets.Bool(True).tag(sync=True)
    range = traitlets.Float(3.5, min=1.2, max=4.6).tag(sync=True)

    def __init__(self, **traits: Any) -> None:
        super().__init__(data=tide_data.chart(), **traits)
