"""Variants of a paper: equal in difficulty, unlike their neighbours, and right by another route."""

import itertools
import math
import os
import re
from collections import Counter
from dataclasses import replace
from datetime import date
from functools import cache

import pytest
from pyproj import Geod, Transformer

from navlib.paper import frames, lots
from navlib.paper.blueprint import SheetWanted
from navlib.paper.building import build
from navlib.paper.choosing import measured, numbers
from navlib.paper.draft import APART_MM
from navlib.paper.features import features
from navlib.paper.filling import CannotFill
from navlib.paper.moderating import difficulty, table
from navlib.paper.reading import read, ready_made
from navlib.paper.scheme import item_scheme
from navlib.questions.picture import SheetWindow, TidePage

COUNT = int(os.environ.get("NAVLIB_VARIANTS", "6"))
"""Variants of each ready-made blueprint; 200 of them were built so before a release."""


@cache
def papers(name, secret=b"a secret", sitting="first"):
    return build(read(name), secret, COUNT, sitting)


def by_row(name, **which):
    """Return the questions of a sitting, a tuple of variants for each row."""
    return tuple(zip(*(paper.items for paper in papers(name, **which)), strict=True))


@pytest.mark.parametrize("name", ready_made())
def test_variants_are_held_to_one_difficulty(name):
    rows = difficulty(papers(name))
    assert all(row.held for row in rows), [row for row in rows if not row.held]
    for items in by_row(name):
        assert len({(item.question.kind, item.question.level) for item in items}) == 1
        assert [item.row for item in items] == [items[0].row] * COUNT
    assert len({len(paper.extracts) for paper in papers(name)}) == 1


@pytest.mark.parametrize("name", ready_made())
def test_no_two_papers_have_the_same_answers_and_neighbours_share_none(name):
    made = papers(name)
    answers = [tuple(tuple(i.question.answers.items()) for i in paper.items) for paper in made]
    assert len(set(answers)) == len({paper.code for paper in made}) == COUNT
    for items in by_row(name):
        few = measured(items[0].question.kind, read(name)).few
        for one, other in itertools.pairwise(items):
            mine, others = one.question.answers, other.question.answers
            assert mine != others
            assert not [part for part in mine if mine[part] == others[part] and part not in few]


@pytest.mark.parametrize("name", ready_made())
def test_no_slip_is_rounded_into_half_marks(name):
    """By the marker itself: what each slip writes down is never near the key by luck."""
    for items in by_row(name):
        for item in items:
            answers = [(s.slip, a) for s in item_scheme(item).slips for a in s.answers]
            assert not [told for told in answers if told[1].outcome == "near"], item.question.kind


@pytest.mark.parametrize("name", ["bearings-and-variation", "tides", "warm-up"])
def test_a_resit_asks_nothing_that_was_asked(name):
    first, resit = by_row(name), by_row(name, sitting="resit")
    asked = {(i.number, numbers(i.question)) for items in first for i in items}
    again = [i for items in resit for i in items if (i.number, numbers(i.question)) in asked]
    scarce = [i for i in again if measured(i.question.kind, read(name)).scarce]
    assert not scarce
    for mine, others in zip(first, resit, strict=True):
        for one, other in zip(mine, others, strict=True):
            same = one.question.kind == other.question.kind
            assert not same or one.question.answers != other.question.answers
    codes = {p.code for p in papers(name)} | {p.code for p in papers(name, sitting="resit")}
    assert len(codes) == 2 * COUNT


def test_a_secret_gives_its_papers_and_no_other_gives_them():
    plan, known = read("warm-up"), papers("warm-up")
    assert build(plan, b"a secret", COUNT) == known
    assert build(plan, b"a secret", 2) == known[:2]
    other = papers("warm-up", secret=b"another")
    assert not {paper.code for paper in known} & {paper.code for paper in other}
    texts = [{i.question.text for paper in made for i in paper.items} for made in (known, other)]
    assert len(texts[0] & texts[1]) <= COUNT  # small sums come up again by chance


def test_a_mended_word_changes_no_paper():
    plan = read("warm-up")
    mended = replace(plan, title="Before we start", words={"note": "Good luck."}, minutes=20)
    numbers_of = [[item.question.text for item in p.items] for p in build(mended, b"a secret", 2)]
    assert numbers_of == [[i.question.text for i in p.items] for p in papers("warm-up")[:2]]


def test_a_code_that_was_misread_is_noticed():
    code = papers("warm-up")[0].code
    assert not set("0O1I") & set(lots.LETTERS)
    assert lots.read_code(code.lower().replace("-", " ")) == code
    bare = code.replace("-", "")
    for k, letter in enumerate(bare):
        for wrong in set(lots.LETTERS) - {letter}:
            assert lots.read_code(bare[:k] + wrong + bare[k + 1 :]) is None
        if k and bare[k - 1] != letter:
            assert lots.read_code(bare[: k - 1] + letter + bare[k - 1] + bare[k + 1 :]) is None


def test_codes_tell_nothing_and_do_not_run_on():
    codes = [lots.code(b"key", "mine", k) for k in range(3000)]
    assert len(set(codes)) == 3000
    first = Counter(code[0] for code in codes)
    # Each of 29 letters is met about 103 times; five standard deviations are 50.
    assert max(first.values()) < 160
    assert min(first.values()) > 50


# Sheets -----------------------------------------------------------------------------------------

MARKED = ("bearings-and-variation", "chart-work", "far-away-waters", "whole-coast")


@pytest.mark.parametrize("name", MARKED)
def test_marks_lie_well_on_the_sheet_and_apart(name):
    for paper in papers(name):
        assert [extract.number for extract in paper.extracts] == [
            *range(1, len(paper.extracts) + 1)
        ]
        for extract in paper.extracts:
            if not isinstance(extract.base, SheetWindow):
                continue
            assert not extract.base.spots
            window = frames.on_paper(extract.base)
            at = {m.label: window.place(m.easting, m.northing) for m in extract.marks}
            assert len(at) == len(extract.marks)
            assert all(window.frame.holds(x, y, frames.INSET_MM) for x, y in at.values())
            for one, here in at.items():
                for other, there in at.items():
                    if one[:-1] != other[:-1]:  # of another question
                        assert math.dist(here, there) >= APART_MM
        for item in paper.items:
            if isinstance(item.question.picture, SheetWindow) and item.labels:
                extract = paper.extracts[item.extract - 1]
                marks = {(m.easting, m.northing, m.label) for m in extract.marks}
                for spot in item.question.picture.spots:
                    assert (spot.easting, spot.northing, item.labels[spot.label]) in marks
                assert item.question.picture.centre == extract.base.centre


def test_neighbours_work_on_other_pieces_of_the_sheet():
    made = papers("bearings-and-variation")
    bases = [paper.extracts[0].base for paper in made]
    assert all(one != other for one, other in itertools.pairwise(bases))


def test_all_papers_share_one_months_table():
    made = papers("tides")
    pages = [e.base for paper in made for e in paper.extracts if isinstance(e.base, TidePage)]
    tables = {page for page in pages if page.page == "table"}
    assert len(tables) == 1
    assert next(iter(tables)).day == date(2027, 6, 1)
    assert len(set(pages)) <= 5


@pytest.mark.parametrize("size", ["A4", "A3"])
@pytest.mark.parametrize(
    "sheet", [("kessoray", "land map", 50_000), ("kessoray", "sea chart", 75_000)]
)
def test_a_sheet_fits_its_paper(sheet, size):
    wanted = SheetWanted(*sheet, size)
    whole = frames.page_mm(wanted, frames.frame_mm(wanted))
    room = frames.room_mm(size)
    assert any(whole[0] <= w and whole[1] <= h for w, h in room)
    assert math.prod(whole) > 0.8 * math.prod(room[0])


def test_a_row_that_cannot_be_filled_says_why():
    plan = read("bearings-and-variation")
    without = replace(plan, sheets=())
    with pytest.raises(CannotFill, match=r"Question 1 \(bearings\): none of its kinds"):
        build(without, b"a secret", 1)
    # One day has two high waters: not enough for neighbours to differ for long.
    one = replace(read("tides"), first=date(2027, 6, 2), last=date(2027, 6, 2))
    one = replace(one, rows=one.rows[1:2], pass_mark=1)
    with pytest.raises(CannotFill, match=r"Question 2 \(tides.range\) finds no more questions"):
        build(one, b"a secret", 12)


def test_what_the_moderator_sees():
    heads, *rows = table(papers("warm-up"))
    assert heads == ("Question", "Title", "Feature", "Band", *(str(k + 1) for k in range(COUNT)))
    assert {len(row) for row in rows} == {4 + COUNT}
    assert "slips that can be made" in {row[2] for row in rows}


def test_features_of_a_question_worked_out_by_hand():
    """To add 14 W to 355 passes 000; a watch from 2231 over 1 h 40 passes an hour and midnight."""
    from navlib.questions import question_type

    sum_over_nought = question_type("bearings.true-to-magnetic").with_givens(
        {
            **question_type("bearings.true-to-magnetic").make(1).givens,
            "true": 355.0,
            "variation": -14,
        }
    )
    found = features(sum_over_nought)
    assert (found.parts, found.steps, found.wraps, found.angle) == (1, 1, 1, 9.0)
    late = question_type("speed.eta").make(1)
    givens = {**late.givens, "distance": 1852.0 * 5, "speed": 3.0}
    givens["departure"] = givens["departure"].replace(hour=22, minute=31)
    found = features(question_type("speed.eta").with_givens(givens))
    assert (found.parts, found.midnights, found.carries, found.size) == (3, 1, 1, 100.0)


# Solved by another route ------------------------------------------------------------------------

EARTH = Geod(ellps="WGS84")
NATIONAL = Transformer.from_crs("EPSG:27700", "EPSG:4326", always_xy=True)
SOUTHERN = Transformer.from_crs("EPSG:32702", "EPSG:4326", always_xy=True)
MERCATOR = Transformer.from_crs("EPSG:4326", "EPSG:3395", always_xy=True)
LETTERS = "ABCDEFGHJKLMNOPQRSTUVWXYZ"


def asked(kind, *names):
    """Yield the papers and items of a kind of question, of these ready-made papers."""
    found = [(p, i) for name in names for p in papers(name) for i in p.items]
    found = [(paper, item) for paper, item in found if item.question.kind == kind]
    assert len(found) >= COUNT
    return found


def marked(paper, item):
    """Return easting and northing of a question's marks as printed, in the order of its letters."""
    at = {m.label: (m.easting, m.northing) for m in paper.extracts[item.extract - 1].marks}
    return [at[label] for _, label in sorted(item.labels.items())]


def lon_lat(paper, item):
    water = paper.extracts[item.extract - 1].base.water
    grid = NATIONAL if water == "kessoray" else SOUTHERN
    return [grid.transform(*place) for place in marked(paper, item)]


def east(angle):
    """Return an angle such as 7°W or 8°30'E, east positive."""
    degrees, minutes, side = re.match(r"(\d+)°(?:(\d+)')?([EW])", angle).groups()
    return (int(degrees) + int(minutes or 0) / 60) * (1 if side == "E" else -1)


def apart(one, other):
    return abs((one - other + 180) % 360 - 180)


def bearing(text):
    return float(text[:3])


def minutes(text):
    hours, rest = re.match(r"(?:(\d+) h )?(\d+)", text).groups()
    return 60 * int(hours or 0) + int(rest)


def test_grid_bearings_from_the_printed_marks():
    for kind in ("bearings.measure", "bearings.map-to-compass"):
        for paper, item in asked(kind, "bearings-and-variation"):
            (e1, n1), (e2, n2) = marked(paper, item)
            line, answers = math.degrees(math.atan2(e2 - e1, n2 - n1)), item.question.answers
            assert apart(bearing(answers["grid"]), line) <= 0.5 + 1e-6
            if kind == "bearings.measure":
                assert apart(bearing(answers["back"]), line + 180) <= 0.5 + 1e-6
            else:
                gma = east(re.search(r"angle of (\S+)\.", item.question.text)[1])
                assert apart(bearing(answers["magnetic"]), bearing(answers["grid"]) - gma) < 1e-6


def test_true_bearings_and_distances_on_the_charts():
    """A straight line on EPSG:3395, ellipsoidal Mercator; lengths by the geodesic, by PROJ."""
    for paper, item in asked("variation.chart-to-compass", "chart-work", "far-away-waters"):
        (x1, y1), (x2, y2) = (MERCATOR.transform(*place) for place in lon_lat(paper, item))
        answers = item.question.answers
        assert apart(bearing(answers["true"]), math.degrees(math.atan2(x2 - x1, y2 - y1))) < 0.51
        turned = bearing(answers["true"]) - bearing(answers["magnetic"])
        legend = re.match(r"(\S+) (\d+) \((\d+)'([EW])\)", item.question.written["legend"])
        years = item.question.givens["now"] - int(legend[2])
        yearly = int(legend[3]) * (1 if legend[4] == "E" else -1)
        assert apart(turned, east(legend[1]) + years * yearly / 60) <= 1.0
    for kind in ("distance.by-latitude", "distance.round-the-head"):
        for paper, item in asked(kind, "chart-work", "far-away-waters", "whole-coast"):
            way = lon_lat(paper, item)
            legs = itertools.pairwise(way)
            metres = sum(EARTH.inv(*here, *there)[2] for here, there in legs)
            lat = sum(place[1] for place in way) / len(way)
            mile = EARTH.inv(0, lat - 1 / 120, 0, lat + 1 / 120)[2]
            digit = 0.05 if kind == "distance.by-latitude" else 0.1
            answer = float(item.question.answers["distance"].split()[0])
            assert answer == pytest.approx(metres / mile, abs=digit / 2 + 0.01)


def test_positions_and_references_from_the_printed_marks():
    for paper, item in asked("position.at-the-border", "chart-work", "far-away-waters"):
        (place,) = lon_lat(paper, item)
        parts = re.findall(r"(\d+)°(\d+\.\d)'([NSEW])", item.question.answers["position"])
        lat, lon = ((int(d) + float(m) / 60) * (1 if side in "NE" else -1) for d, m, side in parts)
        assert lat * 60 == pytest.approx(place[1] * 60, abs=0.06)
        assert lon * 60 == pytest.approx(place[0] * 60, abs=0.06)
    for paper, item in asked("position.six-figures", "whole-coast", "map-and-distance"):
        ((e, n),) = marked(paper, item)
        # The lettering of the National Grid, as in Ordnance Survey, A guide to coordinate systems
        # in Great Britain: squares of 500 km, then of 100 km, from the north-west, without an I.
        e100, n100 = int(e // 100_000), int(n // 100_000)
        first = (19 - n100) - (19 - n100) % 5 + (e100 + 10) // 5
        second = (19 - n100) * 5 % 25 + e100 % 5
        figures = f"{e % 100_000 // 100:03.0f} {n % 100_000 // 100:03.0f}"
        assert item.question.answers["reference"] == (
            f"{LETTERS[first]}{LETTERS[second]} {figures}"
        )
    for paper, item in asked("position.world-grid", "far-away-waters"):
        ((e, n),) = marked(paper, item)
        figures = f"{e % 100_000 // 100:03.0f} {n % 100_000 // 100:03.0f}"
        assert item.question.answers["reference"].endswith(figures)


def test_sums_of_time_and_speed_from_the_words_alone():
    for _, item in asked("speed.time", "warm-up"):
        knots, miles = map(float, re.findall(r"(\d+\.\d) (?:kn|NM)", item.question.text))
        assert minutes(item.question.answers["time"]) == pytest.approx(60 * miles / knots, abs=0.5)
    for _, item in asked("speed.rests", "whole-coast"):
        text, answers = item.question.text, item.question.answers
        knots, miles = map(float, re.findall(r"(\d+\.\d) (?:kn|NM)", text))
        rest, moving = int(re.search(r"rest of (\d+) min", text)[1]), 60 * miles / knots
        assert minutes(answers["moving"]) == pytest.approx(moving, abs=0.5)
        whole = round(moving)
        landings = (whole - 1) // 60  # none when one is there
        assert minutes(answers["total"]) == whole + landings * rest
    for _, item in asked("speed.latest-departure", "whole-coast"):
        text, answers = item.question.text, item.question.answers
        miles, knots = map(float, re.findall(r"(\d+\.\d) (?:NM|kn)", text))
        share = {"quarter": 4, "third": 3, "half": 2, "fifth": 5}
        part = next(share[word] for word in share if word in text)
        needed = 60 * miles / knots * (1 + 1 / part)
        assert minutes(answers["needed"]) == pytest.approx(needed, abs=0.5)
        clock = re.search(r"by (\d\d)(\d\d) UT", text)
        leave = (60 * int(clock[1]) + int(clock[2]) - minutes(answers["needed"])) % 1440
        assert answers["leave"] == f"{leave // 60:02d}{leave % 60:02d} UT"


def test_sums_of_angles_from_the_words_alone():
    for _, item in asked("variation.compass-error", "warm-up"):
        text, answers = item.question.text, item.question.answers
        variation, deviation = map(east, re.findall(r"\d+°[EW]", text))
        compass = float(re.search(r"(\d{3})°C", text)[1])
        assert east(answers["error"]) == variation + deviation
        assert apart(bearing(answers["true"]), compass + variation + deviation) == 0
    for _, item in asked("variation.rose-to-date", "bearings-and-variation", "whole-coast"):
        text = item.question.text
        start, year, change, side, now = re.search(
            r"reads (\S+) (\d+) \((\d+)'([EW])\).*in (\d{4})\?", text, re.DOTALL
        ).groups()
        yearly = int(change) * (1 if side == "E" else -1)
        key = east(start) + (int(now) - int(year)) * yearly / 60
        assert east(item.question.answers["variation"]) == pytest.approx(key, abs=1e-6)
