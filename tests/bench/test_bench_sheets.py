"""A sheet, planned and drawn, against bare matplotlib drawing the same artists; loading its data."""

import io
import json
from functools import partial
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

import navlib.waters as waters
from navlib.sheets import land_map, sea_chart

WATER = waters.load()
CENTRE = (94_500, 999_300)
DATA = Path(waters.__file__).parent / "data"
SHEETS = {
    "land map 1:25 000, an extract": partial(land_map, WATER, CENTRE, scale=25_000),
    "land map 1:50 000, an extract": partial(land_map, WATER, CENTRE, scale=50_000),
    "land map 1:50 000, whole": partial(land_map, WATER, bounds=WATER.bounds, scale=50_000),
    "sea chart 1:25 000, an extract": partial(
        sea_chart, WATER, CENTRE, scale=25_000, size_mm=(150, 130)
    ),
    "sea chart 1:75 000, whole": partial(sea_chart, WATER),
}
"""Each is cut anew: only the water's own data is in memory."""


def pytest_generate_tests(metafunc):
    metafunc.parametrize(
        "name", [pytest.param(n, marks=pytest.mark.benchmark(group=n)) for n in metafunc.cls.NAMES]
    )


class TestSheets:
    NAMES = tuple(SHEETS)

    def test_bare(self, benchmark, name):
        figure = SHEETS[name]()._figure
        benchmark(lambda: figure.savefig(io.BytesIO(), format="png", dpi=100))

    def test_sheet(self, benchmark, name):
        benchmark(lambda: SHEETS[name]().png(100))


class TestLoading:
    NAMES = waters.shipped()

    def test_bare(self, benchmark, name):
        benchmark(read_only, DATA / name)

    def test_water(self, benchmark, name):
        benchmark(load_anew, name)


def read_only(folder):
    """Read the same files without looking at what is in them."""
    for file in folder.iterdir():
        if file.suffix == ".png":
            with Image.open(file) as picture:
                np.asarray(picture)
        else:
            json.loads(file.read_text("utf-8"))


def load_anew(name):
    waters.load.cache_clear()
    return waters.load(name).tides.standard
