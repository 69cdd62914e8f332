"""Plotting questions on a paper: the solution lies true on the sheet, and is marked by eye."""

import io
import math
from dataclasses import replace
from functools import cache

import numpy as np
import pdfplumber
import pikepdf
import pytest
from pyproj import Geod, Proj, Transformer
from test_paper_print import MM

from navlib import waters
from navlib.kinds.marks import Pencilled
from navlib.paper.awards import award
from navlib.paper.blueprint import Row, SheetWanted
from navlib.paper.building import build
from navlib.paper.by_eye import drawn_spots, slip_ends
from navlib.paper.coach.marking import form
from navlib.paper.feedback import feedback
from navlib.paper.forms import take_in, write_form
from navlib.paper.frames import INSET_MM
from navlib.paper.reading import read
from navlib.paper.reasons import band_of
from navlib.paper.results import class_list, item_findings
from navlib.paper.scheme import item_scheme, scheme_pdf
from navlib.paper.sitting import Sitting
from navlib.paper.solutions import solved
from navlib.pictures import drawn
from navlib.sheets.chart.frame import true_latitude
from navlib.sheets.lettering import size_of
from navlib.sheets.window import Box

CHART = ("kessoray", "sea chart", 75_000, "A4")
ON_CHART = ("bearings.plot-course", "distance.plot-circle", "position.plot-report")
MAP = ("kessoray", "land map", 50_000, "A4")
ON_MAP = ("position.plot-reference", "bearings.plot-position-line")
SHEETS = {CHART: ON_CHART, MAP: ON_MAP}
EARTH = Geod(ellps="WGS84")
NATIONAL = Transformer.from_crs("EPSG:4326", "EPSG:27700", always_xy=True)


def plan(sheet):
    rows = tuple(
        Row(number, kind.split(".")[0], (kind,), 3, 0, 4.0)
        for number, kind in enumerate(SHEETS[sheet], 1)
    )
    wanted = (SheetWanted(*sheet),)
    return replace(read("chart-work"), name="plotted", rows=rows, sheets=wanted, pass_mark=4)


@cache
def papers(sheet):
    return build(plan(sheet), b"a secret", 3)


def items():
    return [pytest.param(i, id=i.question.kind) for sheet in SHEETS for i in papers(sheet)[0].items]


def on_page(base, places):
    """Millimetres that places lie east and south of the first, by pyproj alone."""
    lat, lon = np.array(places).T
    if base.sheet == "land map":
        spots = np.array(NATIONAL.transform(lon, lat)).T
    else:
        mercator = Proj(proj="merc", lat_ts=true_latitude(waters.load(base.water)), ellps="WGS84")
        spots = np.array(mercator(lon, lat)).T
    spots = spots * 1000 / base.scale
    return (spots - spots[0]) * (1, -1)


@cache
def heavy(sheet):
    """The heavy strokes of the solved sheet, in millimetres, by the PDF's own coordinates."""
    with pikepdf.open(io.BytesIO(scheme_pdf(papers(sheet)[0]))) as document:
        for page in document.pages:
            if "/XObject" in page.Resources:
                del page.Resources["/XObject"]
        document.save(out := io.BytesIO())
    with pdfplumber.open(out) as document:
        page = document.pages[-1]
        strokes = [x for x in (*page.lines, *page.curves) if not x["fill"]]
        return [
            np.array(x["pts"], float) / MM
            for x in strokes
            if abs(x["linewidth"] / MM - 0.55) < 0.01
        ]


@pytest.mark.parametrize("sheet", SHEETS, ids=["sea chart", "land map"])
def test_solutions_lie_true_on_the_sheet(sheet):
    """Each answer worked by pyproj from the words, beside those of the sheet's other questions."""
    paper = papers(sheet)[0]
    base, found = paper.extracts[0].base, heavy(sheet)
    middles = []
    for item in paper.items:
        givens = item.question.givens
        match item.question.kind:
            case "bearings.plot-course":
                true = math.radians((givens["magnetic"] + givens["variation"]) % 360)
                (line,) = [x for x in found if len(x) == 2 and np.hypot(*(x[1] - x[0])) > 30]
                assert math.atan2(*((line[1] - line[0]) * (1, -1))) % math.tau == pytest.approx(
                    true, abs=0.2 / 60
                )
                middles.append((givens["start"], line[0]))
            case "bearings.plot-position-line":
                grid = math.radians((givens["magnetic"] + givens["gma"] + 180) % 360)
                (line,) = [x for x in found if len(x) == 2 and np.hypot(*(x[1] - x[0])) > 30]
                assert math.atan2(*((line[1] - line[0]) * (1, -1))) % math.tau == pytest.approx(
                    grid, abs=0.2 / 60
                )
                middles.append((givens["start"], line[0]))
            case "distance.plot-circle":
                (rim,) = [x for x in found if len(x) > 20]
                middle = (rim.min(axis=0) + rim.max(axis=0)) / 2
                east = EARTH.fwd(givens["start"].lon, givens["start"].lat, 90, givens["metres"])
                right = on_page(base, [givens["start"], (east[1], east[0])])[1][0]
                assert np.ptp(rim[:, 0]) / 2 == pytest.approx(right, abs=0.2)
                middles.append((givens["start"], middle))
            case _:
                short = [x for x in found if len(x) == 2 and np.hypot(*(x[1] - x[0])) < 30]
                assert len(short) == 2
                if "metres" in givens:
                    lon, lat, _ = EARTH.fwd(
                        givens["start"].lon, givens["start"].lat, givens["true"], givens["metres"]
                    )
                else:
                    corner = np.array(givens["reference"][:2]) + 5
                    lon, lat = NATIONAL.transform(*corner, direction="INVERSE")
                middles.append(((lat, lon), np.mean(short, axis=(0, 1))))
    places, spots = zip(*middles, strict=True)
    assert np.array(spots) - spots[0] == pytest.approx(on_page(base, places), abs=0.2)


def test_words_on_a_crowded_sheet_hide_no_answer_and_lead_to_what_they_speak_of():
    """Four drawings on one chart, with twenty slips between them."""
    kinds = ("plot-course", "plot-fix"), ("plot-report",), ("plot-circle",)
    named = zip(("bearings", "position", "distance"), kinds, strict=True)
    asked = [f"{topic}.{kind}" for topic, each in named for kind in each]
    rows = tuple(Row(n, k.split(".")[0], (k,), 3, 0, 4.0) for n, k in enumerate(asked, 1))
    (paper,) = build(replace(plan(CHART), name="crowded", rows=rows), b"s", 1)
    (sheet,) = solved(paper)
    shown = sheet["solution"]
    boxes = []
    for word in shown["words"]:
        width, height, _ = size_of(word["text"], "pencil")
        boxes.append(Box(word["left"], word["top"], word["left"] + width, word["top"] + height))
    marks = [np.mean(line, axis=0) for line in shown["lines"] if math.dist(*line[:2]) < 6]
    assert len(boxes) > 20
    assert len(marks) > 3
    assert not [at for at in marks for box in boxes if box.holds(*at)]
    assert not [b for k, b in enumerate(boxes) for other in boxes[:k] if b.overlaps(other)]
    for start, _ in shown["leaders"]:
        assert any(box.holds(*start, -1.0) for box in boxes)


def earned(item, text):
    (part,) = award(item, {item.question.asks[0]: text}).parts
    return part


@pytest.mark.parametrize("item", items())
def test_what_is_seen_by_eye_is_marked_as_what_is_drawn(item):
    name = item.question.asks[0]
    band = band_of(item.question, name)
    assert [earned(item, text).marks for text in ("right", " RIGHT ", "0 mm", "0")] == [3] * 4
    off = (band.full, band.full + 0.1, band.part, band.part + 0.1)
    assert [earned(item, f"{mm:g} mm").marks for mm in off] == [3, 1.5, 1.5, 0]
    assert earned(item, f"{band.part / 10 + 1:g} cm".replace(".", ",")).outcome == "wrong"
    far = earned(item, "40 mm")  # which way is not known, so no slip is
    assert (far.outcome, far.slips) == ("wrong", ())
    assert "cannot be seen" in far.says[0]
    for text in ("-", "none", "Nothing"):
        nothing = earned(item, text)
        assert (nothing.marks, nothing.decide) == (0, False)
        assert nothing.says == ("Nothing is drawn on the sheet.",)
    kind = item.question.chain.by_name[name].kind
    assert earned(item, kind.exactly(item.question.values[name])).outcome == "right"


@pytest.mark.parametrize("item", items())
def test_a_letter_is_the_slip_that_the_scheme_prints(item):
    ends, rows = slip_ends(item.question), item_scheme(item).slips
    assert [one.letter for one in ends] == [row.answers[0].text for row in rows]
    for one, row in zip(ends, rows, strict=True):
        part = earned(item, one.letter.upper())
        assert part.slips == (one.slip.name,) == (row.slip,)
        assert (part.outcome, part.marks) == (row.answers[0].outcome, row.answers[0].marks)
        kind = item.question.chain.by_name[part.name].kind
        assert isinstance(one.end, Pencilled)
        assert (
            kind.apart(one.end, item.question.values[part.name])
            > band_of(item.question, part.name).part
        )


@pytest.mark.parametrize("bad", ["z", "-2 mm", "2 miles", "half a thumb", "<b>"])
def test_what_cannot_be_read_is_told_with_an_example(bad):
    for item in papers(CHART)[0].items:
        part = earned(item, bad)
        assert (part.outcome, part.marks, part.decide) == ("unread", 0, True)
        assert f"“{bad}”" in part.says[0]
        assert "2 mm" in part.says[0]
        assert "right" in part.says[0]


def test_a_paper_keeps_what_is_drawn_on_its_sheet_and_neighbours_differ():
    for sheet in SHEETS:
        made = papers(sheet)
        for paper in made:
            where = drawn.window(paper.extracts[0].base)
            assert len(paper.extracts) == 1
            for item in paper.items:
                assert item.question.picture.centre == paper.extracts[0].base.centre
                assert item.question.fair
                spots = [where.place(*place) for place in drawn_spots(item.question)]
                assert all(where.frame.holds(x, y, INSET_MM) for x, y in spots)
        keys = [tuple(i.question.text for i in paper.items) for paper in made]
        assert len(set(keys)) == len(made)


def test_a_sitting_with_plotting_is_entered_and_given_back(tmp_path):
    sitting = Sitting.new(tmp_path / "june", plan(CHART), 3, b"a secret", papers=papers(CHART))
    code = papers(CHART)[0].code
    sitting.enter("01", code, {"1": "b", "2": "2 mm", "3": "somewhere"}, "AB")
    shown = form(sitting, "01", "AB")
    parts = [part for item in shown["items"] for part in item["parts"]]
    assert [part["value"] for part in parts] == ["b", "2 mm", "somewhere"]
    assert [part["outcome"] for part in parts] == ["wrong", "near", "unread"]
    assert all("2 mm" in part["hint"] for part in parts)
    table = write_form(sitting, "AB").replace("somewhere", "1.2 mm").encode()
    taken = take_in(sitting, table, "AB")
    assert not taken.problems
    marked = sitting.script("01")
    assert [part.outcome for i in marked.items for part in i.parts] == ["wrong", "near", "right"]
    (lost, near) = feedback(marked).lost
    assert "the line on the sheet" in lost.says[0][1]
    assert near.number == 2
    assert item_findings([marked]).questions
    assert class_list([marked])[0].marks == marked.total == 4.5
