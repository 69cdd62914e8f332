"""What all demonstrations share: figures that answer in the same instant, in the browser.

The learner's moves reach Python when a movement ends; every trait can be set from Python too.
Angles in degrees, bearings in [0, 360), east positive.
"""

from typing import Any

import traitlets

from navlib.angles import wrap
from navlib.widgets.shown import Shown, front


def front_of(name: str, *also: str) -> str:
    """Return the front-end module of the demonstration `name`, with what it builds on."""
    shared = (f"demos/{one}.js" for one in ("controls", *also))
    return front("kit.js", "table/ring.js", *shared, f"demos/{name}.js")


class Demonstration(Shown):
    """A figure to move."""

    pictured = True
    _css = front("kit.css", "sheet.css", "demos/demo.css")

    @traitlets.validate("bearing", "heading", "mark")
    def _round_the_circle(self, proposal: Any) -> float:
        return wrap(proposal["value"])
