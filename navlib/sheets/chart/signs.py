"""The front door to all signs of the sea chart: single things, lines and areas, sectors, names."""

from navlib.sheets.chart.labels import wishes
from navlib.sheets.chart.lights import draw_sectors
from navlib.sheets.chart.lines import clutter, draw_line_features
from navlib.sheets.chart.standing import Standing, draw_signs, sign_box, signed_features

__all__ = [
    "Standing",
    "clutter",
    "draw_line_features",
    "draw_sectors",
    "draw_signs",
    "sign_box",
    "signed_features",
    "wishes",
]
