"""What all widgets share: their module's text, and what is read where no kernel runs."""

from typing import Any

import anywidget

from navlib.front import CHART_TABLE, TABLE_STYLE, WIDGETS, joined

__all__ = ["CHART_TABLE", "TABLE_STYLE", "Shown", "front"]


def front(*names: str) -> str:
    """Return the widgets' files `names` joined in order; the last one exports `render`."""
    return joined(*(WIDGETS / name for name in names))


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
