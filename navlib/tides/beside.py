"""Each shortcut beside the harmonic prediction, so that its error shows."""

from dataclasses import replace
from datetime import datetime

from navlib.tides.curves import mean_curves
from navlib.tides.port import Port
from navlib.tides.shortcuts import COSINE, STRAIGHT_LINE, TWELFTHS, Method
from navlib.tides.turns import tide_at
from navlib.tides.windows import tidal_windows

HARMONIC = "harmonic prediction"


def methods(port: Port) -> tuple[Method, ...]:
    """Return the shortcuts that can be laid beside a port's harmonic prediction."""
    curves = mean_curves(port)
    return (TWELFTHS, COSINE, STRAIGHT_LINE, curves, replace(curves, fitted=True))


def heights_beside(port: Port, when: datetime) -> dict[str, float]:
    """Return the height in metres at `when` by each method and by harmonic prediction, by name."""
    tide = tide_at(port, when)
    by_rule = {method.name: float(method.height(tide, when)) for method in methods(port)}
    return by_rule | {HARMONIC: port.heights(when)}


def times_beside(port: Port, height: float, when: datetime) -> dict[str, datetime]:
    """Return the UTC time at which the tide running at `when` passes `height` metres, by name.

    Raises ValueError if that tide does not pass it.
    """
    tide = tide_at(port, when)
    by_rule = {method.name: method.time(tide, height) for method in methods(port)}
    level = {"above": height} if tide.rising else {"below": height}
    reached = tidal_windows(port.heights, tide.start.time, tide.end.time, **level)
    return by_rule | {HARMONIC: reached[0].start if reached else tide.end.time}
