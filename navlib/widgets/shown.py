"""What all widgets share: their module's text, a fixed name, a still picture for no kernel."""

from base64 import b64encode
from pathlib import Path
from typing import Any

import anywidget

_HERE = Path(__file__).parent

CHART_TABLE = tuple(
    f"table/{name}.js"
    for name in (
        "stage",
        "hand",
        "ring",
        "protractor",
        "dividers",
        "rule",
        "ruler",
        "romer",
        "cord",
        "pencil",
        "lines",
        "marks",
        "tools",
        "glide",
        "tray",
    )
)
"""The modules of the chart table, in the order in which they are joined."""
TABLE_STYLE = ("table/table.css", "table/instruments.css")


def front(*names: str) -> str:
    """Return the front-end files `names` joined in order; the last one exports `render`.

    Files before the last hold plain functions that the ones after them call.
    """
    texts = "/** @type {Record<string, string>} */ const TEXTS = {};\n"
    parts = [(_HERE / name).read_text(encoding="utf-8") for name in names]
    return "\n".join([texts, *parts] if names[-1].endswith(".js") else parts)


class Shown(anywidget.AnyWidget):
    """A widget that also shows something where no kernel runs.

    `still` is a PNG picture for readers without a kernel, `words` what it says to them; both are
    the same each time, so that notebooks compare equal.
    """

    still: bytes | None = None
    words: str = ""

    def __repr__(self) -> str:
        """Return the words for readers without a kernel."""
        return self.words or f"<{type(self).__name__}>"

    def _repr_mimebundle_(self, **kwargs: Any) -> Any:
        shown = super()._repr_mimebundle_(**kwargs)
        if shown is None or self.still is None:
            return shown
        data, metadata = shown
        return {**data, "image/png": b64encode(self.still).decode("ascii")}, metadata
