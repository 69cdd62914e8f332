"""Sheets of a piece of water at a true scale.

What draws is brought in when it is first asked for: a lesson whose pictures are kept draws nothing,
and opens sooner without the drawing library.
"""

from importlib import import_module
from typing import TYPE_CHECKING, Any

from navlib.sheets.marks import Cross, PencilLine

if TYPE_CHECKING:
    from navlib.sheets.chart.seachart import sea_chart
    from navlib.sheets.land.landmap import land_map
    from navlib.sheets.own import own_extract
    from navlib.sheets.paper import Page, Sheet

__all__ = ["Cross", "Page", "PencilLine", "Sheet", "land_map", "own_extract", "sea_chart"]

_FROM = {
    "Page": "paper",
    "Sheet": "paper",
    "land_map": "land.landmap",
    "own_extract": "own",
    "sea_chart": "chart.seachart",
}


def __getattr__(name: str) -> Any:
    if name not in _FROM:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    found = getattr(import_module(f"{__name__}.{_FROM[name]}"), name)
    globals()[name] = found
    return found
