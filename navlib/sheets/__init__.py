"""Sheets of a piece of water at a true scale; so far the land map."""

from navlib.sheets.landmap import extract
from navlib.sheets.paper import Cross, PencilLine, Sheet

__all__ = ["Cross", "PencilLine", "Sheet", "extract"]
