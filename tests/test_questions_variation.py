"""Questions on variation: published cases marked right, their slips named, sheets as the key says."""

import math

import pytest
from published import cases, item

from navlib import questions, waters
from navlib.kinds.angles import EastWest
from navlib.magnetism import parse_rose
from navlib.marking import Outcome, mark
from navlib.pictures import drawn
from navlib.questions.bearings.words import variation_words
from navlib.questions.variation.roses import rose_words
from navlib.sheets.land.margin import norths

DEGREE = EastWest(1.0)


def of_kind(kind, **givens):
    """Return a question of this kind; words that its text does not need are left empty."""
    kind = questions.question_type(f"variation.{kind}")
    return kind.with_givens({**dict.fromkeys(kind.chain.givens, ""), **givens})


def rose(text, now):
    return rose_words(parse_rose(text), now)


@pytest.mark.parametrize("case", cases("compass_error.json", "compass_error"))
def test_compass_error_as_published(case):
    variation, deviation = (
        DEGREE.parse(case["inputs"][name])[0] for name in ("variation", "deviation")
    )
    error = DEGREE.parse(case["expected"]["error"])[0]
    question = of_kind("compass-error", variation=variation, deviation=deviation, compass=100.0)
    right = {"error": case["expected"]["error"], "true": f"{100 + error:03.0f} T"}
    assert mark(question, right).right
    # The sizes added, and the right size with the wrong letter: its usual wrong answers.
    assert mark(question, {**right, "error": "15 W"}).slips == ("letters-ignored",)
    assert mark(question, {**right, "error": "5 E"}).slips[0] == "error-reversed"


def test_convergence_as_published_south_of_the_equator():
    # 40 S 178 E on New Zealand's grid (middle meridian 173 E): 3.219° west; the item has its source.
    published = item("national_grid.json", "conv-nztm")
    found = f"{abs(published['expected']['convergence_deg']):.1f}"
    question = of_kind(
        "convergence",
        **{"lat": published["inputs"]["lat_deg"], "lon": published["inputs"]["lon_deg"]},
        meridian=173.0,
        variation=20.0,
    )
    assert mark(question, {"convergence": f"{found} W", "gma": "23.2 E"}).right
    for wrong, slip in {
        f"{found} E": "convergence-reversed",
        "5 E": "sine-forgotten",
        "3.8 E": "cosine-for-sine",
    }.items():
        assert mark(question, {"convergence": wrong}).slips == (slip,)


# By hand, from D = D0 + a t / 60: 7 years of 14' are 98', that is 1°38', east.
@pytest.mark.parametrize(
    ("text", "slip"),
    [
        ("5°38'W", "change-wrong-way"),
        ("3°01'W", "minutes-as-decimals"),  # 98' taken for 0.98°, which is 59'
        ("3°46'W", "one-year-only"),
        ("4°00'W", "change-forgotten"),
        ("2°50'W", "years-from-edition"),  # five years, from 2022
    ],
)
def test_rose_of_2020_brought_to_2027(text, slip):
    question = of_kind("rose-to-date", **rose("4°00'W 2020 (14'E)", 2027), edition=2022)
    for right in ("2°22'W", "2 22 W", "-2°22'", "2.37°W"):
        assert mark(question, right).right
    assert mark(question, text).slips == (slip,)


def test_degree_of_a_hundred_minutes_is_named_where_something_is_borrowed():
    # 6°05' less 1°48' is 4°17'; with a hundred minutes borrowed it is 4°57'.
    question = of_kind("rose-to-date", **rose("6°05'W 2015 (9'E)", 2027), edition=2015)
    assert mark(question, "4°17'W").right
    assert mark(question, "4°57'W").slips == ("hundred-minute-degree",)


@pytest.mark.parametrize(
    ("text", "now", "right", "wrong", "slip"),
    [
        ("4°W 2000 (12'E)", 2026, "c", "b", "zero-not-passed"),  # 5°12' of change
        ("4°W 2010 (12'E)", 2026, "b", "c", "zero-passed-too-soon"),  # 3°12'
        ("4°W 2010 (12'E)", 2026, "b", "a", "change-always-added"),
        ("4°E 2010 (12'E)", 2026, "a", "b", "change-always-taken-off"),
        ("4°E 2010 (12'E)", 2026, "a", "d", "change-overlooked"),
    ],
)
def test_what_becomes_of_a_rose(text, now, right, wrong, slip):
    question = of_kind("which-way", **rose(text, now))
    assert mark(question, right).right
    assert mark(question, wrong).slips == (slip,)


# One rock on one day, 58°48'N 7°15'W in late 2026: variation 2½° W, National Grid 4½° W of true,
# UTM zone 29 1½° E. Worked by hand: the two grid magnetic angles have opposite letters.
@pytest.mark.parametrize(
    ("convergence", "gma", "magnetic"), [(-4.5, "2 E", "098 M"), (1.5, "4 W", "104 M")]
)
def test_two_grids_on_one_rock(convergence, gma, magnetic):
    norths = {"variation": -2.5, "convergence": convergence, "grid": 100.0}
    question = of_kind("grid-magnetic-angle", **norths)
    assert mark(question, {"gma": gma, "magnetic": magnetic}).right
    assert mark(question, {"gma": "2.5 W"}).slips == ("variation-for-gma",)
    leg = of_kind("chart-and-map", true=100 + convergence, variation=-2.5, convergence=convergence)
    assert mark(leg, {"grid": "100 G", "magnetic": magnetic}).right


def test_order_of_three_norths():
    question = of_kind("order-of-norths", variation=-2.5, convergence=-4.5)
    assert mark(question, "g m t").right
    assert mark(question, "t m g").slips == ("from-east-to-west",)


def test_old_rose_leads_to_the_side_that_the_needle_went():
    # 20 years of 15' east: 5°. Over 6 NM that is 6 × 5 / 60 = 0.5 NM. Steered by the old figure the
    # boat turns east with the needle: to the right.
    question = of_kind("old-rose", **rose("9°W 2006 (15'E)", 2026), run=6 * 1852.0)
    assert mark(question, {"degrees": "5°", "off": "5 cables", "side": "right"}).right
    assert mark(question, {"degrees": "5°", "off": "0.5 NM", "side": "left"}).slips == (
        "side-reversed",
    )


def test_bearing_from_an_old_book():
    # 040 M with 12 W is 028 T; with 3 W it reads 031 M.
    question = of_kind("old-directions", old=40.0, old_variation=-12.0, variation=-3.0)
    assert mark(question, "031 M").right
    assert mark(question, "040 M").slips == ("old-bearing-kept",)
    assert mark(question, "055 M").slips == ("old-variation-sign",)


# What the sheets show is what the key says --------------------------------------------------------


@pytest.mark.parametrize("seed", [0, 1])  # one in each water
def test_leg_on_the_chart_is_drawn_as_the_key_has_it_beside_its_rose(seed):
    question = questions.make("variation.chart-to-compass", seed)
    sheet = drawn.sheet(question.picture)
    a, b = (sheet.window.place(spot.easting, spot.northing) for spot in question.picture.spots)
    course = math.degrees(math.atan2(b[0] - a[0], a[1] - b[1])) % 360
    assert course == pytest.approx(question.givens["line"], abs=0.1)
    named = "training-rose-1-true" if "training" in question.givens["called"] else '"rose-true'
    assert named in sheet.svg()


@pytest.mark.parametrize("seed", range(3))
def test_margin_of_the_land_map_prints_what_is_asked(seed):
    question = questions.make("variation.map-margin", seed)
    sheet = drawn.sheet(question.picture)
    printed = norths(waters.load(question.picture.water), sheet.window)
    expected = [question.givens[name] for name in ("convergence", "variation")]
    assert printed[:2] == pytest.approx(expected, abs=0.01)
    assert question.givens["gma_printed"] == f"{printed[2]:.1f}° E"


def test_blame_follows_from_the_table_alone():
    """The cause can be found from the figures, without knowing how they were drawn."""
    for seed in range(60):
        question = questions.make("variation.what-is-to-blame", seed)
        checks = [[DEGREE.parse(cell)[0] for cell in row[2:]] for row in question.picture.rows]
        here, there = checks[:2], checks[2:]
        boats = [[row[i] for row in checks] for i in (0, 1)]
        big = [max(map(abs, boat)) > 3 for boat in boats]
        if not any(big):
            cause = "scatter"
        elif big.count(True) == 1:
            cause = "deviation"
        else:
            still = min(max(abs(x) for row in rows for x in row) for rows in (here, there))
            cause = "rock" if still < 3 else "variation"
        assert mark(question, cause).right, seed


def test_faulty_working_never_tells_by_its_words():
    """“Add it” goes with the right figures, so it may not stand in a line with wrong ones."""
    for seed in range(20):
        lines = questions.make("variation.find-the-fault", seed).givens["fault"].lines
        assert not any("add it" in line or "take it" in line for line in lines)


def test_later_part_follows_from_a_wrong_grid_magnetic_angle():
    norths = {"variation": -10.0, "convergence": 3.0, "grid": 50.0}
    words = variation_words(-13.0)
    question = of_kind("grid-magnetic-angle", **norths, **words)
    marked = mark(question, {"gma": "7 W", "magnetic": "057 M"})
    assert [part.outcome for part in marked.parts] == [Outcome.WRONG, Outcome.CARRIED]
    assert marked.slips == ("convergence-sign",)
