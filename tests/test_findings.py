"""What one instrument tells by where it lies, and how that is told beside a slip that was guessed."""

import math
from dataclasses import replace

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from navlib import questions
from navlib.angles import signed, wrap
from navlib.desk import handling
from navlib.desk.evidence.dividers import of_dividers
from navlib.desk.evidence.finding import figures, towards
from navlib.desk.evidence.laid_off import of_laying_off
from navlib.desk.evidence.norths import Norths
from navlib.desk.evidence.others import of_cord, of_line, of_romer, of_ruler
from navlib.desk.evidence.protractor import Laid, of_protractor
from navlib.desk.evidence.rule import Stood, Walked, of_rule, of_rule_laid_off
from navlib.desk.sitting import judge
from navlib.instruments import (
    Dividers,
    ParallelRule,
    PencilLine,
    Protractor,
    on_paper,
)
from navlib.magnetism import Rose
from navlib.marking import Outcome, mark
from navlib.pictures.drawn import window
from navlib.pictures.pencilled import drawn_answers, key_lies

PLOTTED = [kind for kind in questions.kinds() if ".plot-" in kind]
MEASURED = questions.make("bearings.measure", 3)
ON_CHART = questions.make("distance.by-latitude", 2)


# What instruments tell ----------------------------------------------------------------------------

NORTHS = Norths({"G": 0.0, "T": 4.5, "M": 352.0})
ANGLES = st.floats(0, 359.9)


def bearing_laid(line: float, turn: float = 0.0, off_mm: float = 0.0, astray: float = 0.0) -> Laid:
    """Return a protractor on a line of 80 mm that runs so."""
    a, t = (70.0, 60.0), math.radians(line)
    b = (a[0] + 80 * math.sin(t), a[1] - 80 * math.cos(t))
    hub = (a[0] + off_mm * math.cos(t), a[1] + off_mm * math.sin(t))
    return Laid(hub, turn, wrap(line + astray - turn), a, b, NORTHS, "G")


@given(ANGLES)
def test_a_protractor_that_lies_right_shows_the_bearing_and_accuses_nobody(line):
    laid = bearing_laid(line)
    assert abs(signed(laid.shown - line)) < 1e-6
    assert all(found.good for found in of_protractor(laid, line))


@given(ANGLES, st.sampled_from([4.5, 352.0]))
def test_a_protractor_on_another_north_is_told_with_the_line_right(line, turn):
    laid = bearing_laid(line, turn)
    (found,) = of_protractor(laid, laid.shown)
    assert found.says.startswith("Your line is right, but the protractor stands on ")
    assert found.explains
    assert not next(iter(of_protractor(laid, wrap(line + 60)))).explains


@given(ANGLES, st.floats(2, 40).map(lambda x: x + 8) | st.floats(-60, -14))
def test_a_turned_protractor_is_out_by_what_it_is_turned(line, turn):
    (found,) = of_protractor(bearing_laid(line, wrap(turn)), None)
    assert f" {abs(turn):.0f}°" in found.says


@given(ANGLES, st.integers(2, 14), st.sampled_from([0.0, 5.0, -5.0]))
def test_a_middle_beside_the_line_is_told_in_millimetres(line, off, astray):
    laid = bearing_laid(line, off_mm=off, astray=astray)
    laid = laid if astray else replace(laid, arm=0.0)  # read where the line crosses the ring
    (found,) = of_protractor(laid, None)
    assert f"middle lies {off} mm from the line" in found.says
    assert list(of_protractor(bearing_laid(line, turn=30, off_mm=off + 16), line)) == []  # not used


@given(ANGLES.filter(lambda a: min(abs(signed(2 * a)), abs(abs(signed(2 * a)) - 10)) > 4))
def test_a_misreading_is_told_from_a_thinking_error(line):
    laid = bearing_laid(line)
    (mirror,) = of_protractor(laid, wrap(-line))
    assert "mirror" in mirror.fits
    (ten,) = of_protractor(laid, wrap(line + 10))
    assert "A ten was miscounted" in ten.says
    assume(abs(signed(2 * line + 75)) > 3)
    (other,) = of_protractor(laid, wrap(line + 75))
    assert other.explains == ("changed places" in other.says)
    assert "opposite" in other.rules_out


START = (70.0, 60.0)


@given(ANGLES, st.sampled_from([(4.5, "true north"), (352.0, "magnetic north")]))
def test_a_bearing_laid_off_from_another_north_is_told(figure, other):
    turn, name = other
    laid = bearing_laid(wrap(figure + turn), turn)  # the right figure, and the line along the arm
    assume(laid.swung)
    (found,) = of_laying_off(laid, START, figure, None)
    assert found.says.startswith(
        f"The arm shows {figures(figure)} on the ring, which is right, but the "
    )
    assert f"stands on {name}, not on the grid lines" in found.says
    assert found.explains


@given(ANGLES, st.sampled_from([-12.0, 9.0]))
def test_the_compass_figure_laid_off_unchanged_is_told(compass, turn):
    laid = bearing_laid(compass)
    assume(laid.swung)
    (found,) = of_laying_off(laid, START, wrap(compass + turn), compass)
    assert found.explains
    assert "variation-forgotten" in found.fits
    assert list(of_laying_off(laid, START, compass, wrap(compass + turn))) == []  # all is right
    assert list(of_laying_off(laid, (START[0] + 40, START[1]), 0.0, compass)) == []  # not used


@given(st.floats(4, 14), st.integers(1, 7))
def test_a_cord_is_told_where_it_leaves_the_coast(away, bay):
    coast = [(20.0 + 10 * k, 50.0) for k in range(9)]
    cord = [(x, y + (away if k == bay else 0)) for k, (x, y) in enumerate(coast)]
    (found,) = of_cord(coast, cord, ("A", "B"))
    assert f"leaves the coast by {away:.0f} mm" in found.says
    assert [one.good for one in of_cord(coast, coast, ("A", "B"))] == [True]
    assert list(of_cord([(x, y + 60) for x, y in coast], coast, ("A", "B"))) == []


@pytest.mark.parametrize(
    ("corner", "scale", "turn", "told"),
    [
        ((60, 60), 25_000, 0, ""),
        ((60, 60), 50_000, 0, "corner for 1:50"),
        ((60, 60), 25_000, 353, "turned 7°"),
        ((63, 60), 25_000, 0, "lies 3 mm from A"),
        ((90, 60), 50_000, 180, ""),  # laid aside
    ],
)
def test_a_romer_tells_its_scale_its_turn_and_its_corner(corner, scale, turn, told):
    on_sheet = window(questions.make("position.eight-figures", 1).picture)
    says = " ".join(f.says for f in of_romer(corner, scale, turn, on_sheet, (60, 60), "A"))
    assert told in says
    assert bool(told) == bool(says)


def test_a_ruler_and_a_pencil_line_tell_by_how_much_they_miss():
    a, b = (20.0, 60.0), (100.0, 60.0)
    assert "zero lies 4 mm" in next(of_ruler((16.0, 60.0), 90.0, a, b)).says
    assert list(of_ruler(a, 90.0, a, b)) == []
    assert "misses B by 5 mm" in next(of_line((a, (100.0, 65.0)), a, b, ("A", "B"))).says
    assert list(of_line((a, b), a, b, ("A", "B"))) == []


# From the sheet to the feedback -------------------------------------------------------------------


def rule_walked(line: float, astray: float = 0.0, away: float = 90.0) -> Walked:
    """Return a rule taken from a line of 80 mm, its bar 1 by so many millimetres to the side."""
    laid = bearing_laid(line, off_mm=away)
    return Walked(laid.hub, wrap(line + astray + 180), 20.0, laid.a, laid.b)


def roses_by(walked: Walked, past_mm: float = 0.0) -> list[Stood]:
    """Return a real and a training rose that the rule's bar 1 passes so far right of the middle."""
    t, (x, y) = math.radians(walked.line), walked.middle
    middle = (x - past_mm * math.cos(t), y - past_mm * math.sin(t))
    roses = Rose(-2.65, 2026, 14.0), Rose(-8.0, 2019, 12.0, "training rose")
    return [Stood(rose, middle, 18.0) for rose in roses]


@given(ANGLES)
def test_a_rule_that_kept_its_line_accuses_nobody_and_tells_which_ring_was_read(line):
    walked = rule_walked(line)
    roses = roses_by(walked)
    assert [found.good for found in of_rule(walked, line, roses)] == [True]
    for stood, whose in zip(roses, ("the chart’s own rose", "the training rose"), strict=True):
        (inner,) = of_rule(walked, wrap(line - stood.rose.printed), roses)
        assert inner.explains
        assert f"the inner ring of {whose}" in inner.says
    (tail,) = of_rule(walked, wrap(line + 180), roses)
    assert "opposite" in tail.fits
    (thought,) = of_rule(walked, wrap(line + 70), roses)
    assert not thought.explains
    assert "it is not the rule" in thought.says


@given(ANGLES, st.sampled_from([2, 5, 12, -3, -9]))
def test_a_rule_short_of_the_middle_of_a_rose_is_told_if_it_gives_what_was_read(line, past):
    walked = rule_walked(line)
    roses = roses_by(walked, past)[:1]
    out = math.degrees(math.asin(past / 18))
    (beside,) = of_rule(walked, wrap(line + out), roses)
    assert beside.explains
    assert f"the middle of the rose at {abs(past):.0f} mm" in beside.says
    assert list(of_rule(walked, wrap(line + out + 100), roses)) == []  # it may have come back
    assert [found.good for found in of_rule(walked, line, roses)] == [True]


@given(ANGLES, st.integers(3, 25) | st.integers(-25, -3))
def test_a_rule_that_lies_nowhere_is_not_held_against_anyone(line, astray):
    far = roses_by(rule_walked(line), past_mm=500)
    assert list(of_rule(rule_walked(line), wrap(line + 10), far)) == []
    assert list(of_rule(rule_walked(line, astray), wrap(line + 60), far)) == []
    at_line = rule_walked(line, away=0)
    (ten,) = of_rule(at_line, wrap(line + 10), far)
    assert "ten-out" in ten.fits


@given(ANGLES, st.integers(3, 25) | st.integers(-25, -3))
def test_a_rule_that_slewed_is_told_by_how_much(line, astray):
    (slewed,) = of_rule(rule_walked(line, astray), wrap(line + astray), [])
    assert "slewed on the way" in slewed.says
    assert f" {abs(astray):.0f}° to the {'right' if astray > 0 else 'left'}" in slewed.says
    assert slewed.explains
    (laid,) = of_rule(replace(rule_walked(line, astray, away=0), gap_mm=13.0), None, [])
    assert "must cover both places" in laid.says
    assert list(of_rule(rule_walked(line, 50), line, [])) == []  # not used for it


def test_a_rule_just_taken_from_the_tray_tells_nothing():
    untouched = Walked((75.0, 60.0), 90.0, 13.0, (40.0, 50.0), (110.0, 60.0))
    assert list(of_rule(untouched, 93, [])) == []
    assert list(of_rule_laid_off(untouched, 93, 101)) == []


@given(ANGLES, st.sampled_from([-12.0, 9.0]))
def test_a_line_along_a_rule_set_wrong_is_told_from_one_drawn_beside_it(figure, turn):
    right, by_compass = rule_walked(figure, away=0), wrap(figure + turn)
    assert list(of_rule_laid_off(right, figure, by_compass)) == []
    beside = replace(rule_walked(wrap(figure + 8), away=0), direction=figure)
    (drawn,) = of_rule_laid_off(beside, figure, by_compass)
    assert "So it is the drawing" in drawn.says
    (unchanged,) = of_rule_laid_off(rule_walked(by_compass, away=0), figure, by_compass)
    assert unchanged.explains
    assert "variation-forgotten" in unchanged.fits
    (slewed,) = of_rule_laid_off(rule_walked(wrap(figure + 5), away=0), figure, by_compass)
    assert "slewed on the way" in slewed.says


COURSE = questions.make("bearings.plot-course", 3)


def test_a_course_drawn_along_a_rule_that_slewed_is_told_on_the_desk():
    on_sheet = window(COURSE.picture)
    key = key_lies(COURSE)["pencil line"][0]
    start, way = (key["x1"], key["y1"]), COURSE.values["true"] + 12
    t = math.radians(way)
    end = (start[0] + 60 * math.sin(t), start[1] - 60 * math.cos(t))
    line = PencilLine(on_sheet.grid_at(*start), on_sheet.grid_at(*end))
    rule = ParallelRule(on_sheet.grid_at(*start), wrap(way), 20.0)
    lies = on_paper([rule, line], on_sheet)
    part = judge(COURSE, {**COURSE.answers, **drawn_answers(COURSE, lies)}, lies).parts[-1]
    assert part.outcome is Outcome.WRONG
    assert any("slewed on the way" in said for said in part.says)


def measured(turn: float = 0.0, answer: str | None = None, astray: float = 0.0):
    """Return the set question on a measured line judged with a protractor on it."""
    on_sheet = window(MEASURED.picture)
    places = [(s.easting, s.northing) for s in MEASURED.picture.spots]
    a, b = (tuple(map(float, on_sheet.place(*p))) for p in places)
    along = towards(a, b)
    tool = Protractor(places[0], wrap(turn), wrap(along + astray - turn))
    written = answer or f"{tool.arm:03.0f} G"
    given_ = {**MEASURED.answers, "grid": written}
    return judge(MEASURED, given_, on_paper([tool], on_sheet)).parts[0]


def test_the_protractor_on_true_north_is_told_instead_of_a_guess():
    part = measured(turn=4.5 + 4)  # past the tolerance
    assert part.outcome is Outcome.WRONG
    assert (
        "Your line is right, but the protractor is turned 8°" in part.says[0]
        or "9°" in part.says[0]
    )
    assert not part.diagnosis.ways


def test_the_number_right_and_the_instrument_wrong_costs_nothing_and_is_told():
    part = measured(turn=20, answer=MEASURED.answers["grid"])
    assert part.outcome is Outcome.RIGHT
    assert "costs nothing" in part.says[-1]
    assert "turned 20°" in part.says[-1]


def test_a_guess_among_slips_gives_way_to_where_the_protractor_lies():
    key = MEASURED.values["grid"]
    quarter = f"{wrap(key - 90):03.0f} G"
    alone = mark(MEASURED, {**MEASURED.answers, "grid": quarter}).parts[0]
    assert alone.diagnosis.slips == ("laid-on-the-easting",)
    part = measured(answer=quarter)  # but north on the protractor lies along the grid
    assert part.diagnosis.slips == ()
    assert "lies right" in part.says[0]
    agreed = measured(turn=90)
    assert agreed.diagnosis.slips == ("laid-on-the-easting",)
    assert "runs east and west. Yours, " in agreed.says[0]


def test_nothing_is_said_of_a_protractor_that_lies_aside():
    on_sheet = window(MEASURED.picture)
    aside = on_paper([Protractor(on_sheet.grid_at(140, 125), 33, 0)], on_sheet)
    wrong = {**MEASURED.answers, "grid": "001 G"}
    assert judge(MEASURED, wrong, aside) == mark(MEASURED, wrong)
    assert judge(MEASURED, wrong, {}) == mark(MEASURED, wrong)
    assert handling.told(questions.exercise("speed", 1), mark(MEASURED, wrong), aside).parts


def test_dividers_on_the_top_border_are_told():
    on_sheet = window(ON_CHART.picture)
    leg, frame = ON_CHART.givens["length_mm"], on_sheet.frame
    ends = [(frame.left + 20, frame.top - 1), (frame.left + 20 + leg, frame.top - 1)]
    (found,) = of_dividers(ends, on_sheet, None, leg)
    assert "The dividers stand on the top border" in found.says
    points = tuple(on_sheet.grid_at(*end) for end in ends)
    west, east = (float(on_sheet.lat_lon_at(*end)[1]) for end in ends)
    minutes = 60 * (east - west)
    lies = on_paper([Dividers(points)], on_sheet)
    part = judge(ON_CHART, {"distance": f"{minutes:.2f} NM"}, lies).parts[0]
    assert part.outcome is Outcome.WRONG
    assert any("top border" in said for said in part.says)
    right = judge(ON_CHART, ON_CHART.answers, lies).parts[0]
    assert right.outcome is Outcome.RIGHT
    assert "costs nothing" in right.says[-1]


@given(st.floats(25, 90), st.floats(0, 10))
def test_dividers_on_the_side_show_the_miles(leg, shift):
    on_sheet = window(ON_CHART.picture)
    frame = on_sheet.frame
    ends = [(frame.left, frame.top + shift), (frame.left, frame.top + shift + leg)]
    (a, b) = (on_sheet.lat_lon_at(*end) for end in ends)
    metres = 1852 * 60 * abs(float(a[0] - b[0]))
    (found,) = of_dividers(ends, on_sheet, metres, leg)
    assert found.good
    (wrong,) = of_dividers(ends, on_sheet, metres + 1852, leg)
    assert "A whole minute was miscounted" in wrong.says
    (moved_,) = of_dividers(ends, on_sheet, metres, leg + 4)
    assert moved_.explains
