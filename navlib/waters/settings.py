"""The settings of a piece of water: its title, datum, grids, levels, clock, roses and scales."""

import json
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

from navlib import gridref, mgrs
from navlib.gridref import Letters
from navlib.grids import IRISH, NATIONAL, Grid, from_grid
from navlib.magnetism import Rose
from navlib.tides import Levels
from navlib.waters.errors import WatersError
from navlib.waters.needs import Needs

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
    """What a sheet of this water says in its margin; `sheet_date` is the day it is drawn for.

    `area` is the part that is taught on: west, south, east and north in grid metres. The height
    field may run on beyond it; without it, all of the height field is taught on.
    """

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
    area: tuple[float, float, float, float] | None = None


def read_settings(path: Path) -> tuple[Settings, dict[str, Any]]:
    """Return the settings in a JSON file, and what it says of the height picture.

    Raises WatersError naming what is missing or of the wrong sort.
    """
    try:
        given = json.loads(path.read_text(encoding="utf-8"))
    except ValueError as fault:
        raise WatersError(f"{path.name} is not JSON: {fault}.") from None
    need = Needs(path.name, given)
    levels = Levels(**{n: need.number(f"levels.{n}") for n in Levels.__dataclass_fields__})
    in_order = [levels.lat, levels.mlws, levels.mlwn, levels.msl, levels.mhwn, levels.mhws]
    if in_order != sorted(in_order) or levels.hat < levels.mhws:
        raise WatersError(
            f"{path.name}: tide levels should rise in the order lat, mlws, mlwn, msl, mhwn, "
            "mhws, hat."
        )
    numbers = ("west", "south", "spacing", "zero", "step")
    heights = {n: need.number(f"heights.{n}") for n in numbers}
    if heights["spacing"] <= 0 or heights["step"] <= 0:
        raise WatersError(f"{path.name}: heights.spacing and heights.step should be above zero.")
    grid = need.grid("grid")
    settings = Settings(
        title=need.text("title"),
        about=need.text("about"),
        invented=need.of("invented", bool, "true or false"),
        grid=grid,
        letters=_letters(grid, heights["west"], heights["south"]),
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
        area=need.area("area") if "area" in given else None,
    )
    return settings, {"file": need.text("heights.file"), **heights}


def _letters(grid: Grid, easting: float, northing: float) -> Letters | None:
    """Return how the squares about a place are lettered; None for a grid without letters."""
    if grid.name in _LETTERS or not grid.name.startswith("UTM"):
        return _LETTERS.get(grid.name)
    found = mgrs.letters_at(*from_grid(easting, northing, grid))
    return found if found.grid == grid else None
