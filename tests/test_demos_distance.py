"""The lesson on scale and distance: its exercises and what its demonstrations hand to the browser."""

from pathlib import Path

import numpy as np
import pytest

import navlib
from navlib.geodesy import meridional_parts
from navlib.widgets import demos

ROOT = Path(navlib.__file__).parent.parent
FRONT = Path(demos.__file__).parent


def test_every_step_of_the_coast_stands_on_the_coast():
    coast = demos.coast_in_steps().coast
    ends = [coast["line"][0], coast["line"][-1]]
    for walked in coast["walks"]:
        points = np.array(walked["points"])
        assert [list(points[0]), list(points[-1])] == ends
        steps = np.hypot(*np.diff(points, axis=0).T)
        assert np.allclose(steps[:-1], walked["step"], atol=1.5)  # points are whole metres
        assert abs(steps[-1] - walked["rest"]) < 1.5
        assert len(steps) == walked["steps"] + 1


def test_the_chart_is_as_tall_as_a_mercator_chart():
    border = demos.latitude_border()
    tenth = len(border.parts) - 1
    top = meridional_parts(border.south + tenth / 6) - meridional_parts(border.south)
    assert border.parts[-1] == pytest.approx(top, abs=0.001)
