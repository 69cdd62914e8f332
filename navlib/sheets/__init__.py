"""Sheets of a piece of water at a true scale."""

from navlib.sheets.chart.seachart import sea_chart
from navlib.sheets.land.landmap import land_map
from navlib.sheets.own import own_extract
from navlib.sheets.paper import Page, Sheet
from navlib.sheets.pencil import Cross, PencilLine

__all__ = ["Cross", "Page", "PencilLine", "Sheet", "land_map", "own_extract", "sea_chart"]
