"""Ports for the tide tests: published constants, and an invented port."""

import json
from pathlib import Path

from navlib.tides import Port

DATA = Path(__file__).parent / "data"
STATIONS = json.loads((DATA / "stations.json").read_text())["stations"]


def published_port(key, **fields):
    """NOAA CO-OPS published constants of a station (its source stands in the data)."""
    station = STATIONS[key]
    constants = {name: tuple(pair) for name, pair in station["constituents"].items()}
    return Port(station["z0_m"], constants, station["name"], station["source"], **fields)


INVENTED = Port(
    2.79,
    {
        "M2": (1.46, 176),
        "S2": (0.59, 212),
        "N2": (0.32, 154),
        "K2": (0.17, 210),
        "K1": (0.12, 60),
        "O1": (0.10, 250),
        "M4": (0.07, 200),
    },
    name="invented port",
    zone="Europe/London",
)
