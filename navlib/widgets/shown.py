"""What all widgets share: their module's text, and what is read where no kernel runs."""

import json
from pathlib import Path
from typing import Any

import anywidget

from navlib.language import translations
from navlib.language.scripts import said

_HERE = Path(__file__).parent

CHART_TABLE = tuple(
    f"table/{name}.js"
    for name in (
        "stage",
        "pen",
        "hand",
        "ring",
        "protractor",
        "soft",
        "dividers",
        "rule",
        "ruler",
        "romer",
        "cord",
        "knots",
        "thumb",
        "pencil",
        "lines",
        "marks",
        "circles",
        "tools",
        "glide",
        "tray",
        "deck",
    )
)
"""The modules of the chart table, in the order in which they are joined."""
TABLE_STYLE = ("table/table.css", "table/instruments.css")


def front(*names: str) -> str:
    """Return the front-end files `names` joined in order; the last one exports `render`.

    Files before the last hold plain functions that the ones after them call.
    """
    joined = "\n".join((_HERE / name).read_text(encoding="utf-8") for name in names)
    if not names[-1].endswith(".js"):
        return joined
    known = translations()
    texts = {text: known[text] for _, text in said(joined) if text in known}
    written = json.dumps(texts, ensure_ascii=False)
    return f"/** @type {{Record<string, string>}} */ const TEXTS = {written};\n\n{joined}"


class Shown(anywidget.AnyWidget):
    """A widget that also says something where no kernel runs: in print, on a host of code.

    `words` are Markdown, the same each time, so that notebooks compare equal. `pictured` means that
    words alone are not enough: a picture is then stored beside them (tests/refresh_notebooks.py).
    """

    words: str = ""
    pictured: bool = False

    def __repr__(self) -> str:
        """Return the words for readers without a kernel."""
        return self.words or f"<{type(self).__name__}>"

    def _repr_mimebundle_(self, **kwargs: Any) -> Any:
        shown = super()._repr_mimebundle_(**kwargs)
        if shown is None or self.pictured:
            return shown
        data, metadata = shown
        return {**data, "text/markdown": repr(self)}, metadata
