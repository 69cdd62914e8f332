"""The mark scheme, the grid, the moderator's page: they agree with the marker and with arithmetic."""

import io
import math
import re
from dataclasses import replace

import numpy as np
import pdfplumber
import pikepdf
import pypdfium2
import pytest
from papers_by_hand import KINDS, blueprint, item, papers
from test_paper_print import MM, SHEETS, on_the_ground

from navlib import questions
from navlib.kinds.choices import Choice
from navlib.paper.awards import labels, script
from navlib.paper.binding import bind
from navlib.paper.building import build
from navlib.paper.grid import grid_pdf
from navlib.paper.luck import nearest_slip
from navlib.paper.moderation import checks, moderation_pdf
from navlib.paper.practising import plain_words
from navlib.paper.printed import paper_pdf
from navlib.paper.reading import read
from navlib.paper.reasons import follows, in_minutes, ladder, tolerance
from navlib.paper.scheme import item_scheme, scheme, scheme_pdf
from navlib.paper.sitting import Sitting
from navlib.paper.solutions import solved
from navlib.paper.variants import Extract, Item, Mark
from navlib.questions.picture import Spot

# By hand: 6 marks, 2 of them for working, 2 for each part. From memory of the trade, no source.
EARNED = {
    # kind, slip: marks of each part, and how
    ("bearings.measure", "opposite"): ((0, "wrong"), (2, "carried")),
    ("bearings.measure", "back-forgotten"): ((2, "right"), (0, "wrong")),
    ("variation.compass-error", "letters-ignored"): ((0, "wrong"), (2, "carried")),
    ("speed.latest-departure", "clock-forwards"): ((2, "right"), (0, "wrong")),
    ("speed.latest-departure", "reserve-forgotten"): ((0, "wrong"), (2, "carried")),
}

SOLVED = [SHEETS[name] for name in ("land map 1:25 000 on A4", "sea chart 1:75 000 on A4")]


def text_of(pdf):
    """All words of a PDF, with single blanks."""
    document = pypdfium2.PdfDocument(pdf)
    return " ".join(" ".join(page.get_textpage().get_text_bounded() for page in document).split())


@pytest.mark.parametrize(("kind", "slip"), EARNED)
def test_a_slip_costs_its_marks_once(kind, slip):
    found = [one for one in item_scheme(item(kind)).slips if one.slip == slip]
    assert found
    for one in found:
        assert tuple((a.marks, a.outcome) for a in one.answers) == EARNED[kind, slip]


def test_every_slip_is_marked_on_a_script_as_the_scheme_prints_it():
    paper = papers(1)[0]
    printed = scheme(paper)
    assert [one.item.number for one in printed] == list(range(1, len(KINDS) + 1))
    for k in range(max(len(one.slips) for one in printed)):
        rows = {one.item.number: one.slips[k % len(one.slips)] for one in printed if one.slips}
        answers = {a.label: a.text for row in rows.values() for a in row.answers}
        marked = {one.number: one for one in script(paper, "01", answers).items}
        for number, row in rows.items():
            parts = [(p.label, p.marks) for p in marked[number].parts]
            assert parts == [(a.label, a.marks) for a in row.answers]
            assert marked[number].working == row.working
            assert row.marks < paper.items[number - 1].row.marks


def test_the_key_earns_all_marks_and_its_limits_are_those_of_the_marker():
    """Just inside the printed ± a bearing earns all, just outside half, beyond twice it nothing."""
    one = item("bearings.measure", 3)
    key, full = one.question.values["grid"], int(tolerance(one.question, "grid").full.rstrip("°"))

    def earned(off):
        answers = {"1a": f"{(round(key) + off) % 360:03}G", "1b": ""}
        paper = replace(papers(1)[0], items=(one,))
        return script(paper, "01", answers).items[0].parts[0].marks

    assert [earned(off) for off in (0, full, full + 1, 2 * full, 2 * full + 1)] == [2, 2, 1, 1, 0]


def test_a_tolerance_tells_the_line_and_the_scatter_that_it_rests_on():
    question = item("bearings.measure", 3).question
    length = question.givens["length_mm"]
    scatter = math.hypot(0.7, math.degrees(math.sqrt(2) * 0.4 / length))  # 0.7°, 0.4 mm an end
    why = tolerance(question, "grid").why
    assert f"{length:.0f} mm" in why
    assert f"{scatter:.2g}°" in why
    back = tolerance(question, "back")  # from an own figure there is nothing left but a sum
    assert (back.full, back.half) == ("1°", "2°")
    assert "Nothing is measured" in back.why


def test_a_position_has_its_limit_in_minutes_each_way_too():
    question = item("position.at-the-border").question
    metres = float(tolerance(question, "position").full.removesuffix(" m"))
    north, east = map(float, re.findall(r"(\d\.\d\d)'", in_minutes(question, "position")))
    latitude = math.radians(question.values["position"][0])
    assert north == math.floor(100 * metres / 1852) / 100
    assert east * math.cos(latitude) == pytest.approx(north, abs=0.01)
    assert in_minutes(item("bearings.measure").question, "grid") == ""


def test_each_question_stands_on_one_page():
    pages = pypdfium2.PdfDocument(scheme_pdf(papers(1)[0]))
    words = [page.get_textpage().get_text_bounded() for page in pages]
    for one in scheme(papers(1)[0]):
        (page,) = (text for text in words if f"Question {one.item.number}." in text)
        assert all(plain_words(slip.slip) in " ".join(page.split()) for slip in one.slips)


def test_what_follows_is_worked_from_own_figures():
    assert follows(item("bearings.measure"), "back") == "1b follows 1a: (own 1a) and 180 is (1b)."
    assert follows(item("bearings.measure"), "grid") == ""
    assert ladder(7, 3) == ((2, 0.5), (3, 1.0), (4, 1.5), (5, 2.0), (6, 2.5), (7, 3.0))


# Keys by another way: the figures of the question's own words, and arithmetic ---------------------


def minutes(hhmm):
    return int(hhmm[:2]) * 60 + int(hhmm[2:])


def by_twelfths(text):
    """Height by 1, 2, 3, 3, 2, 1 from the two turns printed; the clocks ashore are an hour on."""
    turns = re.findall(r"(HW|LW) (\d{4}) UT (-?\d+\.\d) m", text)
    watch, zone = re.search(r"shows (\d{4}) (\w+)", text).groups()
    (first, second), at = turns, minutes(watch) - 60 * (zone == "BST")
    start, end = minutes(first[1]), minutes(second[1])
    end += 1440 * (end < start)
    at += 1440 * (at < start)
    twelfths = np.interp(6 * (at - start) / (end - start), range(7), (0, 1, 3, 6, 9, 11, 12))
    low, high = float(first[2]), float(second[2])
    return low + (high - low) * float(twelfths) / 12


def rate(text):
    springs, neaps = map(float, re.findall(r"(\d\.\d) kn", text))
    mean_springs, mean_neaps, today = map(float, re.findall(r"(\d\.\d) m", text))
    return neaps + (springs - neaps) * (today - mean_neaps) / (mean_springs - mean_neaps)


def clearance(text):
    charted, hat, _, tide = map(float, re.findall(r"(\d+\.\d) m", text)[:4])
    return charted + hat - tide


@pytest.mark.parametrize(
    ("kind", "by", "within"),
    [
        ("tides.height-at", by_twelfths, 0.1),  # its steps are rounded on the way
        ("tides.rate-today", rate, 0.05),
        ("tides.under-the-bridge", clearance, 0.05),
    ],
)
def test_a_key_of_tides_is_that_of_plain_arithmetic(kind, by, within):
    for seed in range(1, 7):
        one = item(kind, seed)
        printed = float(item_scheme(one).parts[0].key.split()[0])
        assert printed == pytest.approx(by(one.question.text), abs=within + 1e-9), one.question.text


# On paper ---------------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def drawn():
    """A bearing to measure on a map and on a chart, its line worked out beside the library."""
    extracts, items = [], []
    for n, (window, places) in enumerate(SOLVED, 1):
        (x, y) = on_the_ground(window, places[:2])[1]
        line = math.degrees(math.atan2(x, -y)) % 360
        spots = tuple(Spot(*place, letter) for place, letter in zip(places[:2], "AB", strict=True))
        asked = questions.make("bearings.measure", n)
        givens = {**asked.givens, "line": line, "length_mm": math.hypot(x, y)}
        asked = replace(asked, givens=givens, picture=replace(window, spots=spots))
        row = item("bearings.measure", number=n).row
        items.append(Item(row, asked, n, {"A": f"{n}A", "B": f"{n}B"}))
        marks = tuple(Mark(s.easting, s.northing, f"{n}{s.label}") for s in spots)
        extracts.append(Extract(n, window, marks))
    paper = papers(1, blueprint(("bearings.measure",) * len(SOLVED)))[0]
    return replace(paper, items=tuple(items), extracts=tuple(extracts))


def test_drawn_solutions_lie_true_on_their_sheets(drawn):
    """By the PDF's own coordinates: the line as long as it must be, in its direction, and its fan."""
    with pikepdf.open(io.BytesIO(scheme_pdf(drawn))) as document:
        for page in document.pages:
            if "/XObject" in page.Resources:
                del page.Resources["/XObject"]
        document.save(out := io.BytesIO())
    with pdfplumber.open(out) as document:
        for one, page in zip(drawn.items, document.pages[-len(SOLVED) :], strict=True):
            window, places = SOLVED[one.number - 1]
            lines = [x["pts"] for x in page.lines if abs(x["linewidth"] / MM - 0.55) < 0.01]
            assert len(lines) == 1
            a, b = np.array(lines[0], float) / MM
            assert b - a == pytest.approx(on_the_ground(window, places[:2])[1], abs=0.2)
            fans = [np.array(x["pts"], float) / MM for x in page.curves if x["fill"]]
            (fan,) = [f for f in fans if np.allclose(f[0], a, atol=0.01)]
            limit = int(tolerance(one.question, "grid").full.rstrip("°"))
            edges = [math.degrees(math.atan2(x, -y)) for x, y in (fan[1] - a, fan[-2] - a)]
            line = round(one.question.givens["line"])  # the limits lie about the key as written
            off = sorted((edge - line + 180) % 360 - 180 for edge in edges)
            assert off == pytest.approx([-limit, limit], abs=0.2)


@pytest.mark.parametrize("large", [False, True], ids=["usual print", "large print"])
def test_no_words_run_into_each_other_and_no_slip_stands_alone_on_a_page(large):
    """Over tides, which has the widest tables; each page is read by the places of its letters."""
    (paper,) = build(read("tides"), b"a secret", 1)
    slips = {plain_words(slip.slip) for one in scheme(paper) for slip in one.slips}
    few = {n.item.number for n in scheme(paper) if len(n.slips) < 2}
    with pdfplumber.open(io.BytesIO(scheme_pdf(paper, large=large))) as document:
        for page in document.pages[: len(document.pages) - len(solved(paper))]:
            words = page.extract_words(x_tolerance=1.5)
            for k, one in enumerate(words):
                for other in words[k + 1 :]:
                    across = min(one["x1"], other["x1"]) - max(one["x0"], other["x0"])
                    down = min(one["bottom"], other["bottom"]) - max(one["top"], other["top"])
                    assert across < 0.5 or down < 3, (page.page_number, one["text"], other["text"])
            lines = page.extract_text().splitlines()
            assert "Question" not in lines[-2], "a heading at the end of a page"
            tables = "\n".join(lines).split("Usual slip")[1:]
            for table in tables:
                number = int(re.search(r"(\d+)[a-z]?\s+(?:written|gets|\d+[a-z])", table)[1])
                rows = [
                    line for line in table.splitlines() if line.split(":")[0].rstrip("* ") in slips
                ]
                assert len(rows) > 1 or number in few, (page.page_number, table)


def test_the_same_paper_gives_the_same_bytes_and_nothing_is_missing():
    made = papers(3)
    printed, rows = scheme_pdf(made[0]), grid_pdf(made)
    assert scheme_pdf(papers(3)[0]) == printed
    assert grid_pdf(papers(3)) == rows
    words, grid = text_of(printed), text_of(rows).replace(" ", "")
    for one in made[0].items:
        assert f"Question {one.number}." in words
        for label, name in labels(one).items():
            assert label in words
            assert one.question.written[name].split(") ")[0] in words
    for paper in made:
        assert paper.code in grid
        for one in paper.items:
            for name in one.question.asks:
                first = one.question.written[name].split(") ")[0].split(" ")[0]
                assert first in grid


def test_the_moderator_is_told_of_shared_answers():
    kinds = ("bearings.true-to-magnetic", "speed.eta")
    first, second = papers(2, blueprint(kinds))
    signs = [sign for sign, _ in checks((first, replace(first, code="XXX-XXX")))]
    assert len(signs) >= 6
    assert signs[1:3] == ["✗", "✗"]
    assert [sign for sign, _ in checks((first, second))][1:3] == ["✓", "✓"]
    assert nearest_slip(first.items[0].question) > 2
    assert "For the moderator" in text_of(moderation_pdf((first, second)))
    with pytest.raises(ValueError, match="no papers"):
        moderation_pdf(())


def test_a_sitting_is_bound_and_no_key_goes_to_the_candidates(tmp_path):
    kinds = ("bearings.true-to-magnetic", "speed.eta")
    made = papers(2, blueprint(kinds))
    Sitting.new(tmp_path / "june", blueprint(kinds), 2, b"for tests alone", papers=made)
    told = []
    files = bind(tmp_path / "june", made, html=True, progress=lambda *step: told.append(step))
    assert [step[0] for step in told] == list(range(len(files) + 1))
    assert {step[1] for step in told} == {len(files)}
    places = {str(file.relative_to(tmp_path / "june")) for file in files}
    stems = [f"papers/{n:02}-{paper.code}" for n, paper in enumerate(made, 1)]
    assert {place for place in places if place.startswith("papers/")} == {
        f"{stem}{ending}" for stem in stems for ending in (".pdf", ".html")
    }
    others = {"grid.pdf", "moderation.pdf", "invigilator.pdf", "marking.csv"}
    others |= {f"scheme-{paper.code}.pdf" for paper in made}
    assert places - {p for p in places if p.startswith("papers/")} == {f"coach/{o}" for o in others}
    for number, paper in enumerate(made, 1):
        stem = tmp_path / "june" / f"papers/{number:02}-{paper.code}"
        pdf = stem.with_name(f"{stem.name}.pdf").read_bytes()
        assert pdf == paper_pdf(paper, number=f"{number:02}")
        page = stem.with_name(f"{stem.name}.html").read_text(encoding="utf-8")
        for one in paper.items:
            for name, key in one.question.answers.items():
                if not isinstance(one.question.chain.by_name[name].kind, Choice):  # prints them all
                    assert key not in text_of(pdf)
                    assert key not in page
