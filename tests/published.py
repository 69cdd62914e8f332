"""Published cases, kept in tests/data with their sources: the table that the tests stand on."""

import json
from pathlib import Path

import pytest

DATA = Path(__file__).parent / "data"


def items(name):
    return json.loads((DATA / name).read_text())


def cases(name, *ops):
    """The items of a file for these operations, as parameters named by their id."""
    return [pytest.param(i, id=i["id"]) for i in items(name) if i["inputs"]["op"] in ops]


def item(name, id):
    return next(i for i in items(name) if i["id"] == id)


def at(values):
    return values["lat_deg"], values["lon_deg"]


def ends(values):
    return values["lat1"], values["lon1"], values["lat2"], values["lon2"]
