"""Front-end files of taking part: the same in the class server's page and in a notebook."""

from pathlib import Path

from navlib.front import CHART_TABLE, TABLE_STYLE, WIDGETS

WEB = Path(__file__).parent
_CARD = ("kit.js", *CHART_TABLE, "small_table.js", "sheet.js", "answers.js")
TAKING_PART = (
    *(WIDGETS / name for name in _CARD),
    *(WEB / name for name in ("kept_here.js", "clock.js", "asked.js", "head.js", "take_part.js")),
)
"""The modules of what a learner sees; the one that is joined after them lets it be seen."""
PAGE = (*TAKING_PART, *(WEB / name for name in ("line.js", "class_seat.js", "page.js")))
"""The same as the class server's page has them."""
STYLE = (
    *(WIDGETS / name for name in ("kit.css", "sheet.css", *TABLE_STYLE, "card.css")),
    WEB / "take_part.css",
)
