"""A chart sheet, planned and drawn, against bare matplotlib drawing the same artists."""

import io

import pytest

import navlib.waters as waters
from navlib.sheets import land_map

WATER = waters.load()
CENTRE = (94_500, 999_300)


def planned_and_drawn(scale):
    land_map(WATER, CENTRE, scale=scale).png(100)


def drawn(figure):
    figure.savefig(io.BytesIO(), format="png", dpi=100)


@pytest.mark.parametrize("scale", [25_000, 50_000])
@pytest.mark.benchmark(group="land map", min_rounds=5)
def test_bare(benchmark, scale):
    benchmark(drawn, land_map(WATER, CENTRE, scale=scale)._figure)


@pytest.mark.parametrize("scale", [25_000, 50_000])
@pytest.mark.benchmark(group="land map", min_rounds=5)
def test_sheet(benchmark, scale):
    benchmark(planned_and_drawn, scale)
