"""The lesson on variation: its exercises and what its demonstrations are handed."""

from pathlib import Path

import navlib
from navlib.questions.variation.causes import DEVIATION, HAND, ROCK, VARIATION
from navlib.widgets import demos
from navlib.widgets.demos.variation import HEADING_STEP, checks

ROOT = Path(navlib.__file__).parent.parent


def test_the_checks_show_their_cause_and_nothing_else():
    """A scatter of a degree or two must not hide which boat, heading or place is out."""
    found = checks()
    assert all(len(rows) * HEADING_STEP == 360 for rows in found.values())
    assert all(abs(out) >= 6 for row in found[VARIATION] for out in row)
    assert all(abs(out) >= 6 for row in found[ROCK] for out in row[:2])
    rest = [out for row in found[ROCK] for out in row[2:]]
    rest += [out for row in found[DEVIATION] for out in row[1::2]]
    rest += [out for row in found[HAND] for out in row]
    assert max(map(abs, rest)) <= 2
    by_heading = [row[0] for row in found[DEVIATION]]
    assert max(by_heading) > 5
    assert min(by_heading) < -5


def test_the_waters_have_the_norths_of_the_sheets():
    # By the model and the grids, subject to half a degree: 2.4 W and 4.5 W; 23.2 E and 0.7 E.
    assert demos.wrong_way().waters == [["Kessoray", -2.5, -4.5], ["Orrimer", 23.0, 0.5]]
    # 7.25 W is 5¼° west of the National Grid's middle meridian, 1¾° east of UTM zone 29's.
    assert [place["apart"] for place in demos.grid_lean().places] == [-5.25, 1.75, -1.25]
