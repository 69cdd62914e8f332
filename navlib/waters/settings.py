"""The settings of a piece of water: its title, datum, grids, levels, clock, roses and scales."""

import json
import re
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

from navlib import gridref
from navlib.gridref import Letters
from navlib.grids import IRISH, IRISH_TM, NATIONAL, Grid, utm
from navlib.magnetism import Rose
from navlib.tides import Levels
from navlib.waters.errors import WatersError

_GRIDS = {grid.name: grid for grid in (NATIONAL, IRISH, IRISH_TM)}
_LETTERS: dict[str, Letters] = {NATIONAL.name: gridref.NATIONAL, IRISH.name: gridref.IRISH}


@dataclass(frozen=True)
class Datum:
    """What positions and heights are measured from, in words."""

    horizontal: str
    land_heights: str
    sea_heights: str


@dataclass(frozen=True)
class Scales:
    """Scale denominators of each sheet, the usual one first."""

    land_map: tuple[int, ...]
    sea_chart: tuple[int, ...]


@dataclass(frozen=True)
class Settings:
    """What a sheet of this water says in its margin; `sheet_date` is the day it is drawn for."""

    title: str
    about: str
    invented: bool
    grid: Grid
    letters: Letters | None
    second_grid: Grid | None
    datum: Datum
    levels: Levels
    clock: str
    sheet_date: date
    training_roses: tuple[Rose, ...]
    scales: Scales


def read_settings(path: Path) -> tuple[Settings, dict[str, Any]]:
    """Return the settings in a JSON file, and what it says of the height picture.

    Raises WatersError naming what is missing or of the wrong sort.
    """
    try:
        given = json.loads(path.read_text(encoding="utf-8"))
    except ValueError as fault:
        raise WatersError(f"{path.name} is not JSON: {fault}.") from None
    need = _Needs(path.name, given)
    levels = Levels(**{n: need.number(f"levels.{n}") for n in Levels.__dataclass_fields__})
    in_order = [levels.lat, levels.mlws, levels.mlwn, levels.msl, levels.mhwn, levels.mhws]
    if in_order != sorted(in_order) or levels.hat < levels.mhws:
        raise WatersError(
            f"{path.name}: tide levels should rise in the order lat, mlws, mlwn, msl, mhwn, "
            "mhws, hat."
        )
    settings = Settings(
        title=need.text("title"),
        about=need.text("about"),
        invented=need.of("invented", bool, "true or false"),
        grid=need.grid("grid"),
        letters=_LETTERS.get(need.text("grid")),
        second_grid=need.grid("second_grid") if "second_grid" in given else None,
        datum=Datum(**{n: need.text(f"datum.{n}") for n in Datum.__dataclass_fields__}),
        levels=levels,
        clock=need.clock("clock"),
        sheet_date=need.date("sheet_date"),
        training_roses=tuple(
            need.rose(f"training_roses.{i}")
            for i in range(len(need.of("training_roses", list, "a list")))
        ),
        scales=Scales(need.scales("scales.land_map"), need.scales("scales.sea_chart")),
    )
    numbers = ("west", "south", "spacing", "zero", "step")
    heights = {n: need.number(f"heights.{n}") for n in numbers}
    if heights["spacing"] <= 0 or heights["step"] <= 0:
        raise WatersError(f"{path.name}: heights.spacing and heights.step should be above zero.")
    return settings, {"file": need.text("heights.file"), **heights}


class _Needs:
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
        return str(self.of(name, str, "text"))

    def number(self, name: str) -> float:
        return float(self.of(name, (int, float), "a number"))

    def scales(self, name: str) -> tuple[int, ...]:
        value = self.of(name, list, "a list of scales such as [25000, 50000]")
        if not value or not all(isinstance(s, int) and s > 0 for s in value):
            raise WatersError(f"{self.file}: “{name}” should be a list such as [25000, 50000].")
        return tuple(value)

    def date(self, name: str) -> date:
        value = self.text(name)
        try:
            return date.fromisoformat(value)
        except ValueError:
            raise WatersError(
                f"{self.file}: “{name}” should be a date such as 2026-11-01, but is {value!r}."
            ) from None

    def clock(self, name: str) -> str:
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
