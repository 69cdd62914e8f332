"""Sheets of a piece of water at a true scale."""

from navlib.sheets.land.landmap import land_map
from navlib.sheets.paper import Sheet
from navlib.sheets.pencil import Cross, PencilLine

__all__ = ["Cross", "PencilLine", "Sheet", "land_map"]
