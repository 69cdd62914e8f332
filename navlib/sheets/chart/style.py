"""Colours of the signs that the sea chart adds to its own (`navlib.sheets.style`).

Red is darker than green and yellow the palest, so that they part in grey print; the letters that
stand under a mark or in a sector say its colour too.
"""

BUOY_RED, BUOY_GREEN, BUOY_YELLOW = "#c01f2e", "#1f9a57", "#f3c623"
BUOY_BLACK, BUOY_BLUE, BUOY_WHITE = "#14171a", "#1f5fb4", "#ffffff"
SECTOR_RED, SECTOR_GREEN, SECTOR_WHITE = BUOY_RED, BUOY_GREEN, BUOY_YELLOW
HOUSES = "#8f7747"
ROAD = "#7c663c"
FRESH_WATER, FRESH_INK = "#c5deee", "#3f6d92"
