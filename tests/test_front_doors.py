"""The names that other things lean on, each called as they call it."""

import itertools
from datetime import UTC, date, datetime, timedelta

import pytest

from navlib import geodesy, gridref, magnetism, marking, questions, speed, units
from navlib.tides import TWELFTHS, Port, tide_at


def test_variation_takes_a_date_or_a_decimal_year():
    # The training waters, by the model: 2.4 W late in 2026.
    by_date = magnetism.variation(58.8, -7.25, date(2026, 11, 25))
    assert by_date == pytest.approx(-2.4, abs=0.05)
    assert magnetism.variation(58.8, -7.25, 2026.9, height_m=0) == pytest.approx(by_date, abs=0.01)
    with pytest.raises(ValueError, match=r"2025.*2030"):
        magnetism.variation(58.8, -7.25, 2031.0)


def test_grid_reference_there_and_back():
    # Cut off, never rounded: worked by hand from the definition.
    assert gridref.format(96_580, 1_002_347, figures=6) == "HV 965 023"
    easting, northing = gridref.parse("HV965023")
    assert (easting, northing) == (96_500, 1_002_300)


def test_geodesic_and_rhumb_give_metres_and_initial_true_bearing():
    for way in (geodesy.geodesic, geodesy.rhumb):
        distance, bearing = way(58.0, -7.0, 59.0, -7.0)
        assert distance == pytest.approx(111_400, abs=50)  # a degree of latitude at 58½ N
        assert bearing == pytest.approx(0)


def test_port_predicts_heights_and_extremes():
    port = Port(2.8, {"M2": (1.5, 180.0), "S2": (0.6, 212.0)})
    start = datetime(2026, 11, 25, tzinfo=UTC)
    turns = port.extremes(start, start + timedelta(days=1))
    assert 3 <= len(turns) <= 4
    for turn in turns:
        assert port.heights(turn.time) == pytest.approx(turn.height, abs=0.001)
    assert port.heights([start, turns[0].time]).shape == (2,)


def test_question_is_made_and_marked():
    question = questions.make(questions.kinds()[0], 7)
    assert marking.mark(question, question.answers).right


def test_facts_of_the_trade():
    """Common practice, no source: what every paddler carries in the head."""
    assert units.convert(6, "NM", "km") == pytest.approx(11, abs=0.2)
    assert units.convert(6, "km", "NM") == pytest.approx(3, abs=0.3)
    steady_kn = units.convert(6, "km/h", "kn")
    assert speed.time_taken(6000, steady_kn) == pytest.approx(60)
    assert speed.time_taken(11_000, steady_kn) == pytest.approx(105, abs=10)
    port = Port(3.0, {"M2": (2.0, 0.0)})
    tide = tide_at(port, datetime(2026, 11, 25, 12, tzinfo=UTC))
    sixths = [tide.start.time + n * (tide.end.time - tide.start.time) / 6 for n in range(7)]
    heights = [TWELFTHS.height(tide, when) for when in sixths]
    twelfth = (tide.end.height - tide.start.height) / 12
    steps = [(b - a) / twelfth for a, b in itertools.pairwise(heights)]
    assert steps == pytest.approx([1, 2, 3, 3, 2, 1], abs=0.01)
