"""What a browser gets: front-end files of one purpose each, joined to one module or one style.

The files stand beside the Python that they belong to. Those in `WIDGETS` are shared by all that is
shown, in a notebook and on the class server's page alike.
"""

import json
from pathlib import Path

from navlib.language import translations
from navlib.language.scripts import said

_ROOT = Path(__file__).parent
WIDGETS = _ROOT / "widgets"
PALETTE = _ROOT / "lab/labextensions/navlib-lesson/static/palette.css"
"""The colours and type of lessons, for a page of its own."""

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
"""The modules of the chart table in `WIDGETS`, in the order in which they are joined."""
TABLE_STYLE = ("table/table.css", "table/instruments.css")


def joined(*files: Path) -> str:
    """Return front-end files joined in order: scripts with the texts that they say, or styles.

    Scripts before the last hold plain functions that the ones after them call.
    """
    whole = "\n".join(file.read_text(encoding="utf-8") for file in files)
    if files[-1].suffix != ".js":
        return whole
    known = translations()
    texts = {text: known[text] for _, text in said(whole) if text in known}
    written = json.dumps(texts, ensure_ascii=False)
    return f"/** @type {{Record<string, string>}} */ const TEXTS = {written};\n\n{whole}"
