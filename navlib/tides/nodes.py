"""Node factors f and node angles u: how the moon's leaning orbit makes lunar tides wax and wane.

Source: SP 98 (see `astronomy`), formula numbers beside each line. The divisors are the means of
the numerators over the 18.6-year round, so that f averages about one.
"""

from collections.abc import Callable, Mapping

import numpy as np

from navlib.tides.astronomy import Orbit, orbit
from navlib.tides.moments import Floats, Moments


def _sin(degrees: Floats) -> Floats:
    return np.sin(np.radians(degrees))


def _cos(degrees: Floats) -> Floats:
    return np.cos(np.radians(degrees))


def _tan(degrees: Floats) -> Floats:
    return np.tan(np.radians(degrees))


def _mm(o: Orbit) -> tuple[Floats, Floats]:
    return (2 / 3 - _sin(o.inclination) ** 2) / 0.5021, 0 * o.nu  # 73


def _mf(o: Orbit) -> tuple[Floats, Floats]:
    return _sin(o.inclination) ** 2 / 0.1578, -2 * o.xi  # 74


def _o1(o: Orbit) -> tuple[Floats, Floats]:
    f = _sin(o.inclination) * _cos(o.inclination / 2) ** 2 / 0.3800  # 75
    return f, 2 * o.xi - o.nu


def _j1(o: Orbit) -> tuple[Floats, Floats]:
    return _sin(2 * o.inclination) / 0.7214, -o.nu  # 76


def _oo1(o: Orbit) -> tuple[Floats, Floats]:
    f = _sin(o.inclination) * _sin(o.inclination / 2) ** 2 / 0.0164  # 77
    return f, -2 * o.xi - o.nu


def _m2(o: Orbit) -> tuple[Floats, Floats]:
    return _cos(o.inclination / 2) ** 4 / 0.9154, 2 * o.xi - 2 * o.nu  # 78


def _m1(o: Orbit) -> tuple[Floats, Floats]:
    """M1 is two waves close together; one of them follows the perigee."""
    two_waves = np.sqrt(2.310 + 1.435 * _cos(2 * o.perigee))
    lean = (5 * _cos(o.inclination) - 1) / (7 * _cos(o.inclination) + 1)
    q = np.degrees(np.arctan2(lean * _sin(o.perigee), _cos(o.perigee)))
    return _o1(o)[0] * two_waves, o.xi - o.nu + q  # 197 to 207


def _l2(o: Orbit) -> tuple[Floats, Floats]:
    """L2 is two waves close together; one of them follows the perigee."""
    tangent = _tan(o.inclination / 2) ** 2
    two_waves = np.sqrt(1 - 12 * tangent * _cos(2 * o.perigee) + 36 * tangent**2)  # 213
    r = np.degrees(np.arctan2(_sin(2 * o.perigee), 1 / (6 * tangent) - _cos(2 * o.perigee)))  # 214
    f, u = _m2(o)
    return f * two_waves, u - r  # 215


def _k1(o: Orbit) -> tuple[Floats, Floats]:
    double = _sin(2 * o.inclination)
    f = np.sqrt(0.8965 * double**2 + 0.6001 * double * _cos(o.nu) + 0.1006)  # 227
    return f, -o.nu_prime


def _k2(o: Orbit) -> tuple[Floats, Floats]:
    square = _sin(o.inclination) ** 2
    f = np.sqrt(19.0444 * square**2 + 2.7702 * square * _cos(2 * o.nu) + 0.0981)  # 235
    return f, -o.two_nu_second


_RULES: Mapping[str, Callable[[Orbit], tuple[Floats, Floats]]] = {
    "MM": _mm, "MF": _mf, "O1": _o1, "J1": _j1, "OO1": _oo1, "M2": _m2,
    "M1": _m1, "L2": _l2, "K1": _k1, "K2": _k2,
}  # fmt: skip


def node_corrections(times: Moments) -> dict[str, tuple[Floats, Floats]]:
    """Return (f, u in degrees) for each rule of SP 98 at `times` (datetime64, UTC; any shape)."""
    moon = orbit(times)
    return {name: rule(moon) for name, rule in _RULES.items()}
