import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from published import cases

from navlib import coastline, distance, geodesy, units

# NGA Pub. 9 (American Practical Navigator) and national mapping agencies; each item of the file
# names its source.
HANDBOOK = "handbook_distance.json"

NM = 1852


# Published cases ----------------------------------------------------------------------------------


@pytest.mark.parametrize("item", cases(HANDBOOK, "scale_distance"))
def test_scale_is_as_published(item):
    i, expected = item["inputs"], item["expected"]
    mm = i["map_cm"] * 10 if "map_cm" in i else i["map_inch"] * 25.4
    ((name, value),) = expected.items()
    unit = {"ground_m": "m", "ground_km": "km", "ground_statute_mile": "statute mile"}[name]
    metres = units.convert(value, unit, "m")
    assert distance.ground_m(mm, i["scale_denominator"]) == pytest.approx(metres, rel=1e-9)
    assert distance.paper_mm(metres, i["scale_denominator"]) == pytest.approx(mm, rel=1e-9)
    assert distance.scale_from(mm, metres) == pytest.approx(i["scale_denominator"], rel=1e-9)


@pytest.mark.parametrize("item", cases(HANDBOOK, "distance_of_horizon"))
def test_horizon_is_as_in_table_12(item):
    height = units.convert(item["inputs"]["height_ft"], "ft", "m")
    metres = distance.horizon_m(height, distance.HORIZON_PUB_9)
    expected, tolerance = item["expected"], item["tolerance"]
    assert metres / NM == pytest.approx(expected["nautical_miles"], abs=tolerance["nm"])
    miles = units.convert(metres, "m", "statute mile")
    assert miles == pytest.approx(expected["statute_miles"], abs=tolerance["sm"])


@pytest.mark.parametrize("item", cases(HANDBOOK, "geographic_range"))
def test_dipping_distance_is_as_in_table_12(item):
    i = item["inputs"]
    eye, light = (units.convert(i[f"height_{w}_ft"], "ft", "m") for w in ("eye", "object"))
    metres = distance.dipping_distance_m(light, eye, distance.HORIZON_PUB_9)
    assert metres / NM == pytest.approx(item["expected"]["nautical_miles"], abs=0.1)


def test_horizon_by_the_figure_in_common_use():
    # Common practice: a light of 45 m dips at 16.0 NM for an eye at 1 m; an eye at 0.8 m sees 1.9.
    assert distance.dipping_distance_m(45, 1) / NM == pytest.approx(16.0, abs=0.05)
    assert distance.horizon_m(0.8) / NM == pytest.approx(1.9, abs=0.05)
    with pytest.raises(ValueError, match="below the water"):
        distance.horizon_m(-1)


@pytest.mark.parametrize(("scale", "mm"), [(25_000, 74.1), (50_000, 37.0), (75_000, 24.7)])
def test_millimetres_to_a_mile(scale, mm):
    assert distance.mm_per_nm(scale) == pytest.approx(mm, abs=0.05)


@pytest.mark.parametrize(
    ("scale", "km", "nm"), [(25_000, 1.8, 1.0), (50_000, 3.6, 1.9), (75_000, 5.4, 2.9)]
)
def test_72_mm_on_three_sheets(scale, km, nm):
    metres = distance.ground_m(72, scale)
    assert metres / 1000 == pytest.approx(km, abs=1e-9)
    assert metres / NM == pytest.approx(nm, abs=0.05)


@pytest.mark.parametrize(("dimension", "more"), [(1.1, 7), (1.2, 15), (1.3, 23)])
def test_halving_the_step_adds_what_roughness_says(dimension, more):
    added = coastline.length_at_step(1000, 500, 250, dimension) / 1000 - 1
    assert added * 100 == pytest.approx(more, abs=0.5)


# The Mercator chart -------------------------------------------------------------------------------

lat = st.floats(-75, 75)


@given(lat=lat, rise=st.floats(0.05, 0.5))
def test_latitude_scale_level_with_the_leg_gives_its_length(lat, rise):
    """Paper between two parallels, read at the side, is the difference of their latitudes."""
    span = distance.latitude_scale_mm(lat, lat + rise, 75_000, 58.8)
    read = distance.on_latitude_scale(span, lat + rise / 2, 75_000, 58.8)
    assert read == pytest.approx(rise * 60, rel=2e-4)
    scale = distance.scale_from_latitudes(lat, lat + rise, span)
    middle = distance.mercator_scale(75_000, 58.8, lat + rise / 2)
    assert scale == pytest.approx(middle, rel=2e-4)


def test_scale_of_the_training_chart():
    # Varies by 0.5 % across the sheet and 3 % across a degree, as 1/cos lat does there.
    south, north = (distance.mercator_scale(75_000, 58.8, at) for at in (58.7, 58.9))
    assert south / north - 1 == pytest.approx(0.0057, abs=0.0005)
    one_degree = distance.mercator_scale(1, 58.3, 59.3)
    assert 1 / one_degree - 1 == pytest.approx(0.029, abs=0.001)
    assert distance.mercator_scale(75_000, 58.8, 58.8) == pytest.approx(75_000)


@given(at=lat, other=lat)
def test_cosine_rule_is_within_the_error_it_states(at, other):
    exact = distance.mercator_scale(75_000, at, other)
    assert distance.mercator_scale_by_cosine(75_000, at, other) == pytest.approx(exact, rel=0.004)


def test_longitude_scale_makes_a_leg_nearly_twice_too_long():
    side = distance.on_latitude_scale(100, 58.8, 75_000, 58.8)
    top = distance.on_longitude_scale(100, 75_000, 58.8)
    assert top / side == pytest.approx(1.93, abs=0.005)
    assert top == pytest.approx(7500 / geodesy.minute_of_longitude(58.8))


def test_a_shrunk_print_is_found_by_its_bar():
    factor = distance.print_factor(96)
    assert factor == pytest.approx(0.96)
    scale = distance.scale_after_copying(25_000, factor)
    assert distance.ground_m(96, scale) == pytest.approx(2500)


# Crooked lines ------------------------------------------------------------------------------------


def koch(level):
    """Koch's curve between 0 and 1, whose dimension is log 4 / log 3 (Mandelbrot 1967)."""
    line, turn = np.array([0, 1 + 0j]), np.exp(1j * math.pi / 3)
    for _ in range(level):
        third = np.diff(line) / 3
        parts = [line[:-1], line[:-1] + third, line[:-1] + third * (1 + turn), line[1:] - third]
        line = np.append(np.stack(parts, 1).ravel(), 1)
    return np.column_stack([line.real, line.imag])


def test_dividers_on_koch_s_curve_find_its_length_and_dimension():
    line = koch(5)
    steps = [3.0**-k for k in range(1, 5)]
    walks = [coastline.walk(line, step) for step in steps]
    assert [w.steps for w in walks] == [4, 16, 64, 256]
    assert [w.remainder for w in walks] == pytest.approx([0] * 4, abs=1e-9)
    lengths = [w.length for w in walks]
    assert lengths == pytest.approx([(4 / 3) ** k for k in range(1, 5)])
    dimension = coastline.fractal_dimension(steps, lengths)
    assert dimension == pytest.approx(math.log(4) / math.log(3))
    third = coastline.length_at_step(lengths[0], steps[0], steps[2], dimension)
    assert third == pytest.approx(lengths[2])
    assert coastline.cord_length(line) == pytest.approx((4 / 3) ** 5)


def test_dividers_step_across_a_bay_and_keep_the_remainder():
    # A square bay 3 wide and 4 deep: a step of 5 from one head reaches beyond the other.
    line = [(0, 0), (0, -4), (3, -4), (3, 0), (9, 0)]
    walked = coastline.walk(line, 5)
    assert walked.points == pytest.approx(np.array([(0, 0), (3, -4), (6, 0), (9, 0)]))
    assert (walked.steps, walked.remainder, walked.length) == (2, pytest.approx(3), 13)
    assert coastline.cord_length(line) == 17


lines = st.lists(
    st.tuples(st.floats(-1000, 1000), st.floats(-1000, 1000)), min_size=2, max_size=12, unique=True
)


@given(line=lines, step=st.floats(5, 3000))
def test_every_step_is_a_step_and_none_is_longer_than_the_cord(line, step):
    walked = coastline.walk(line, step)
    gone = distance.leg_lengths(walked.points)
    assert gone[:-1] == pytest.approx(step, rel=1e-9)
    assert gone[-1] == pytest.approx(walked.remainder)
    assert walked.remainder < step
    assert walked.length <= coastline.cord_length(line) * (1 + 1e-9)


@given(step=st.floats(1, 100), steps=st.integers(1, 60))
def test_a_straight_line_has_its_length_at_any_step(step, steps):
    walked = coastline.walk([(0, 0), (0.6 * step * steps, 0.8 * step * steps)], step)
    assert walked.length == pytest.approx(step * steps)


def test_useless_questions_are_refused_in_words():
    for wrong, words in [
        (lambda: coastline.walk([(0, 0), (1, 1)], 0), "leads nowhere"),
        (lambda: coastline.walk([(0, 0)], 1), "at least two points"),
        (lambda: coastline.fractal_dimension([5, 5], [1, 2]), "two steps"),
        (lambda: distance.line_length([1, 2, 3]), "at least two points"),
    ]:
        with pytest.raises(ValueError, match=words):
            wrong()


def test_legs_add_up():
    legs = [(0, 0), (300, 400), (300, 1000)]
    assert distance.leg_lengths(legs) == pytest.approx([500, 600])
    assert distance.line_length(legs) == 1100
