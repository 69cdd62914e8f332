"""The 37 harmonic constituents that NOAA publishes: what each follows, hence its speed and phase.

A simple constituent is a row of whole numbers: how many times it takes the hour angle of the mean
sun T and the mean longitudes s, h, p, p1; a constant angle; and whose node correction it shares.
A compound (shallow-water) constituent is a sum of others and takes everything from them.
Source: SP 98 (see `astronomy`), table 2. Speeds follow from the rows; they are not typed again.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache

import numpy as np

from navlib.tides.astronomy import longitude, speed
from navlib.tides.moments import Floats, Moments
from navlib.tides.nodes import node_corrections


@dataclass(frozen=True)
class Constituent:
    """One harmonic constituent.

    `turns` multiplies (T, s, h, p, p1), `constant` is in degrees, `nodes` says whose node
    corrections it has and how many times over. `drift` in degrees per hour is what its node angle
    gains on average, which NOAA counts into the speed (M1 alone).
    """

    turns: tuple[int, ...]
    constant: float
    nodes: Mapping[str, float]
    drift: float = 0.0

    @property
    def speed(self) -> float:
        """Speed in degrees per hour."""
        rates = (15.0, *(speed(element) for element in ("s", "h", "p", "p1")))
        return float(np.dot(self.turns, rates)) + self.drift


# T is counted from the mean sun's upper transit: 15 degrees an hour, 180 at midnight.
#  name    T   s  h   p  p1 constant  nodes
_SIMPLE: tuple[tuple[str, int, int, int, int, int, float, Mapping[str, float]], ...] = (
    ("SA", 0, 0, 1, 0, 0, 0, {}),
    ("SSA", 0, 0, 2, 0, 0, 0, {}),
    ("MM", 0, 1, 0, -1, 0, 0, {"MM": 1}),
    ("MF", 0, 2, 0, 0, 0, 0, {"MF": 1}),
    ("2Q1", 1, -4, 1, 2, 0, 90, {"O1": 1}),
    ("Q1", 1, -3, 1, 1, 0, 90, {"O1": 1}),
    ("RHO", 1, -3, 3, -1, 0, 90, {"O1": 1}),
    ("O1", 1, -2, 1, 0, 0, 90, {"O1": 1}),
    ("M1", 1, -1, 1, 0, 0, -90, {"M1": 1}),
    ("P1", 1, 0, -1, 0, 0, 90, {}),
    ("S1", 1, 0, 0, 0, 0, 0, {}),
    ("K1", 1, 0, 1, 0, 0, -90, {"K1": 1}),
    ("J1", 1, 1, 1, -1, 0, -90, {"J1": 1}),
    ("OO1", 1, 2, 1, 0, 0, -90, {"OO1": 1}),
    ("2N2", 2, -4, 2, 2, 0, 0, {"M2": 1}),
    ("MU2", 2, -4, 4, 0, 0, 0, {"M2": 1}),
    ("N2", 2, -3, 2, 1, 0, 0, {"M2": 1}),
    ("NU2", 2, -3, 4, -1, 0, 0, {"M2": 1}),
    ("M2", 2, -2, 2, 0, 0, 0, {"M2": 1}),
    ("LAM2", 2, -1, 0, 1, 0, 180, {"M2": 1}),
    ("L2", 2, -1, 2, -1, 0, 180, {"L2": 1}),
    ("T2", 2, 0, -1, 0, 1, 0, {}),
    ("S2", 2, 0, 0, 0, 0, 0, {}),
    ("R2", 2, 0, 1, 0, -1, 180, {}),
    ("K2", 2, 0, 2, 0, 0, 0, {"K2": 1}),
    ("M3", 3, -3, 3, 0, 0, 0, {"M2": 1.5}),  # cos^6 against cos^4 of I/2: formula 149
)

_COMPOUND: Mapping[str, Mapping[str, int]] = {
    "MSF": {"S2": 1, "M2": -1},
    "2SM2": {"S2": 2, "M2": -1},
    "MK3": {"M2": 1, "K1": 1},
    "2MK3": {"M2": 2, "K1": -1},
    "MN4": {"M2": 1, "N2": 1},
    "M4": {"M2": 2},
    "MS4": {"M2": 1, "S2": 1},
    "S4": {"S2": 2},
    "M6": {"M2": 3},
    "S6": {"S2": 3},
    "M8": {"M2": 4},
}


def _compound(parts: Mapping[str, int], simple: Mapping[str, Constituent]) -> Constituent:
    nodes: dict[str, float] = {}
    for part, times in parts.items():
        for rule, weight in simple[part].nodes.items():
            nodes[rule] = nodes.get(rule, 0) + times * weight
    turns = np.sum([times * np.array(simple[part].turns) for part, times in parts.items()], axis=0)
    constant = sum(times * simple[part].constant for part, times in parts.items())
    return Constituent(tuple(int(n) for n in turns), constant, nodes)


def _all() -> dict[str, Constituent]:
    simple = {
        name: Constituent(tuple(turns), constant, nodes, speed("p") if name == "M1" else 0.0)
        for name, *turns, constant, nodes in _SIMPLE
    }
    return simple | {name: _compound(parts, simple) for name, parts in _COMPOUND.items()}


CONSTITUENTS: Mapping[str, Constituent] = _all()
"""Every constituent known here, by the name NOAA gives it."""


def arguments(names: Sequence[str], times: Moments) -> Floats:
    """Return the equilibrium arguments V in degrees, without node angles.

    `times` datetime64 UTC of any shape; the answer has one more axis, one entry a name.
    """
    hour_angle = (times - times.astype("datetime64[D]")) / np.timedelta64(1, "h") * 15 + 180
    angles = [hour_angle, *(longitude(element, times) for element in ("s", "h", "p", "p1"))]
    turns = np.array([CONSTITUENTS[name].turns for name in names], float).reshape(-1, 5)
    constants = np.array([CONSTITUENTS[name].constant for name in names], float)
    return np.stack(angles, axis=-1) @ turns.T + constants


def factors(names: Sequence[str], times: Moments) -> tuple[Floats, Floats]:
    """Return node factors f and node angles u in degrees, shaped as `arguments` shapes V.

    A compound has the product of its parts' f and the sum of their u; taking a part away takes u
    away but still multiplies f (SP 98, on compound tides).
    """
    rules = node_corrections(times)
    f = np.ones((*times.shape, len(names)))
    u = np.zeros((*times.shape, len(names)))
    for k, name in enumerate(names):
        for rule, weight in CONSTITUENTS[name].nodes.items():
            f[..., k] *= rules[rule][0] ** abs(weight)
            u[..., k] += rules[rule][1] * weight
    return f, u


@cache
def year_start(names: tuple[str, ...], year: int) -> tuple[Floats, Floats]:
    """Return (f, V0 + u in degrees) for a calendar year, one entry a name.

    The convention of NOAA and of SP 98, tables 14 and 15: node corrections of the middle of the
    year, V0 at 1 January 0000 UTC.
    """
    start, next_year = (np.datetime64(f"{y:04d}-01-01", "us") for y in (year, year + 1))
    f, u = factors(names, np.asarray(start + (next_year - start) // 2))
    return f, (arguments(names, np.asarray(start)) + u) % 360
