"""Tide pages: A4 sheets of tables, curves, differences, streams and slack times, at true size."""

from navlib.sheets.pages.atlas import stream_atlas
from navlib.sheets.pages.curves import tide_curve
from navlib.sheets.pages.day import day_curve
from navlib.sheets.pages.diamonds import diamonds_page
from navlib.sheets.pages.differences import differences_page
from navlib.sheets.pages.gate import gate_page
from navlib.sheets.pages.table import tide_table

__all__ = [
    "day_curve",
    "diamonds_page",
    "differences_page",
    "gate_page",
    "stream_atlas",
    "tide_curve",
    "tide_table",
]
