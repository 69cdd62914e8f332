"""Fetches what a file of a piece of water must say, and says in words what is missing or wrong."""

import re
from datetime import date
from typing import Any
from zoneinfo import ZoneInfo

from navlib.grids import IRISH, IRISH_TM, NATIONAL, Grid, utm
from navlib.magnetism import Rose
from navlib.waters.errors import WatersError

_GRIDS = {grid.name: grid for grid in (NATIONAL, IRISH, IRISH_TM)}


class Needs:
    """Fetches settings by dotted names and says what is wrong with one in whole sentences."""

    def __init__(self, file: str, given: Any) -> None:
        self.file, self.given = file, given

    def rose(self, name: str) -> Rose:
        """Return a training rose; WatersError for figures that no rose can have."""
        names = ("variation", "year", "yearly_change_minutes")
        printed, year, change = (self.number(f"{name}.{n}") for n in names)
        try:
            return Rose(printed, year, change, "training rose")
        except ValueError as fault:
            raise WatersError(f"{self.file}: “{name}”: {fault}.") from None

    def of(self, name: str, sort: type | tuple[type, ...], in_words: str) -> Any:
        """Return a setting of one `sort`; `in_words` says what it should be."""
        value = self.given
        for step in name.split("."):
            try:
                value = value[int(step) if isinstance(value, list) else step]
            except (KeyError, TypeError, IndexError, ValueError):
                raise WatersError(
                    f"{self.file}: “{name}” is missing; it should be {in_words}."
                ) from None
        sorts = sort if isinstance(sort, tuple) else (sort,)
        if not isinstance(value, sorts) or (isinstance(value, bool) and bool not in sorts):
            raise WatersError(f"{self.file}: “{name}” should be {in_words}, but is {value!r}.")
        return value

    def text(self, name: str) -> str:
        """Return a text."""
        return str(self.of(name, str, "text"))

    def number(self, name: str) -> float:
        """Return a number."""
        return float(self.of(name, (int, float), "a number"))

    def scales(self, name: str) -> tuple[int, ...]:
        """Return scale denominators."""
        value = self.of(name, list, "a list of scales such as [25000, 50000]")
        if not value or not all(isinstance(s, int) and s > 0 for s in value):
            raise WatersError(f"{self.file}: “{name}” should be a list such as [25000, 50000].")
        return tuple(value)

    def area(self, name: str) -> tuple[float, float, float, float]:
        """Return west, south, east and north limits in metres."""
        west, south, east, north = (
            self.number(f"{name}.{side}") for side in ("west", "south", "east", "north")
        )
        if west >= east or south >= north:
            raise WatersError(
                f"{self.file}: “{name}” should run from west to east, south to north."
            )
        return west, south, east, north

    def date(self, name: str) -> date:
        """Return a date."""
        value = self.text(name)
        try:
            return date.fromisoformat(value)
        except ValueError:
            raise WatersError(
                f"{self.file}: “{name}” should be a date such as 2026-11-01, but is {value!r}."
            ) from None

    def clock(self, name: str) -> str:
        """Return the name of a time zone."""
        value = self.text(name)
        try:
            ZoneInfo(value)
        except (KeyError, ValueError, OSError):
            raise WatersError(
                f"{self.file}: “{name}” should name a time zone such as Europe/London, "
                f"but is {value!r}."
            ) from None
        return value

    def grid(self, name: str) -> Grid:
        """Return a grid by its name."""
        value = self.text(name)
        zone = re.fullmatch(r"UTM zone (\d{1,2})([NS])", value)
        if zone and 1 <= int(zone[1]) <= 60:
            return utm(int(zone[1]), zone[2] == "N")
        if value not in _GRIDS:
            raise WatersError(
                f"{self.file}: “{name}” should be {', '.join(_GRIDS)} or such as UTM zone 29N, "
                f"but is {value!r}."
            )
        return _GRIDS[value]
