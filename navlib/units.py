"""Units of length and speed that charts, maps and old books use, and changing one into another."""

from typing import Any, TypeAlias

Floats: TypeAlias = Any
"""A float, or a numpy array of floats; a float in gives a float out."""


NM = 1852.0
"""Metres in a nautical mile, exactly (International Hydrographic Conference, Monaco 1929)."""

FOOT = 0.3048
"""Metres in an international foot, exactly (international yard and pound agreement, 1959)."""

LENGTHS = {
    "m": 1.0,
    "km": 1000.0,
    "NM": NM,
    "cable": NM / 10,  # common practice: a tenth of a nautical mile
    "statute mile": 5280 * FOOT,
    "ft": FOOT,
    "yd": 3 * FOOT,
    "fathom": 6 * FOOT,
    "chain": 66 * FOOT,
    # Found in old books and on old charts only:
    "UK nautical mile": 6080 * FOOT,
    "cable (Admiralty)": 608 * FOOT,
    "cable (US Navy)": 720 * FOOT,
    "US survey foot": 1200 / 3937,
    "US survey mile": 5280 * 1200 / 3937,
}
"""Metres in one of each; all exact. EPSG dataset 11.022, BIPM SI brochure."""

SPEEDS = {
    "m/s": 1.0,
    "kn": NM / 3600,
    "km/h": 1000 / 3600,
    "mph": 5280 * FOOT / 3600,
}
"""Metres a second in one of each; a knot is a nautical mile an hour."""


def convert(value: Floats, unit: str, to: str) -> Floats:
    """Return `value`, a number of `unit`, as a number of `to`.

    Both are names from `LENGTHS`, or both from `SPEEDS`; raises ValueError for another name, or
    for a length with a speed.
    """
    for table in (LENGTHS, SPEEDS):
        if unit in table and to in table:
            return value * table[unit] / table[to]
    raise ValueError(
        f"cannot change “{unit}” into “{to}”: give two lengths ({', '.join(LENGTHS)}) "
        f"or two speeds ({', '.join(SPEEDS)}), such as convert(2.5, 'NM', 'km')"
    )


def km_to_nm_in_the_head(km: Floats) -> Floats:
    """Return nautical miles as worked in the head: half the kilometres and 8 % more.

    Common practice; 0.54 for 0.53996, so 0.01 % long.
    """
    return km / 2 * 1.08


def nm_to_km_in_the_head(nm: Floats) -> Floats:
    """Return kilometres as worked in the head: twice the nautical miles less 7½ %.

    Common practice; 1.85 for 1.852, so 0.1 % short.
    """
    return nm * 2 * 0.925
