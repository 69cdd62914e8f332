"""A worked example that is uncovered step by step."""

from collections.abc import Mapping
from typing import Any

import traitlets

from navlib.desk import written
from navlib.widgets.shown import CHART_TABLE, TABLE_STYLE, Shown, front


class Steps(Shown):
    """A worked example; each step is asked for before it is shown.

    `example` holds "title", "text", "steps" and, as on a card, perhaps a "picture" and a "table".
    Each step has "how" (what to do, in words) and "line" (the same with the numbers put in), and
    perhaps its own question as "ask". `shown` counts the steps uncovered so far.
    """

    _esm = front("kit.js", *CHART_TABLE, "small_table.js", "sheet.js", "steps.js")
    _css = front("kit.css", "sheet.css", *TABLE_STYLE, "steps.css")

    example = traitlets.Dict().tag(sync=True)
    shown = traitlets.Int(0).tag(sync=True)

    def __init__(self, example: Mapping[str, Any], *, shown: int = 0) -> None:
        self.words, self.pictured = written(example), bool(example.get("picture"))
        super().__init__(example=dict(example), shown=shown)

    @traitlets.validate("shown")
    def _within(self, proposal: Any) -> int:
        return min(max(proposal["value"], 0), len(self.example.get("steps", ())))
