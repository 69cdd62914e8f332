"""The printed paper: true to scale by the PDF's own coordinates and by its picture, and no key in it."""

import io
import re
import subprocess
import sys
from dataclasses import replace
from datetime import date
from hashlib import sha256
from itertools import pairwise

import numpy as np
import pdfplumber
import pikepdf
import pypdfium2
import pytest
from pyproj import Proj

from navlib import questions, waters
from navlib.chain.chain import Chain
from navlib.paper.blueprint import Blueprint, Row
from navlib.paper.overlay import PAPERS, base, laid, paper_for
from navlib.paper.printed import paper_data, paper_pdf
from navlib.paper.typeset import MISSING, plain, typeset
from navlib.paper.variants import Extract, Item, Mark, Paper
from navlib.paper.webpage import paper_html, paper_text
from navlib.pictures import drawn
from navlib.questions.picture import SheetWindow, TidePage
from navlib.sheets.chart.frame import true_latitude

MM = 72 / 25.4
PENCIL = (0x2B / 255, 0x2B / 255, 0x33 / 255)
INK = (0x22 / 255, 0x26 / 255, 0x2B / 255)
LEAST_MM = 0.2
"""How far a distance on a printed sheet may be out (issue “paper”)."""

SHEETS = {
    "land map 1:25 000 on A4": (
        SheetWindow("kessoray", 25_000, (94_500, 1_001_000), (150, 110), (), ""),
        ((93_000, 1_000_000), (96_000, 1_000_250), (93_500, 1_002_200)),
    ),
    "land map 1:50 000 on A3": (
        SheetWindow("kessoray", 50_000, (96_000, 1_001_500), (272, 110), (), ""),
        ((90_000, 999_500), (102_000, 1_000_000), (91_000, 1_003_500)),
    ),
    "sea chart 1:75 000 on A4": (
        SheetWindow("kessoray", 75_000, (96_000, 1_002_000), (130, 120), (), "", sheet="sea chart"),
        ((92_500, 998_500), (99_500, 998_800), (92_800, 1_005_000)),
    ),
}
PAGES = (TidePage("kessoray", "curve", ""), TidePage("kessoray", "diamonds", ""))
MAKES = ("position.eight-figures", "bearings.compass-to-true", "speed.first-there", "speed.eta")


def paper(kinds=MAKES, extracts=(), seed=918_273, title="Coastal navigation", words=None):
    rows = tuple(Row(n, "any", (kind,), 5, n % 4, 6) for n, kind in enumerate(kinds, 1))
    items = tuple(Item(row, questions.make(row.kinds[0], seed), 0, {}) for row in rows)
    plan = Blueprint(
        *("trial", title, 90, 14, 1, date(2026, 1, 1), date(2027, 1, 1), ()),
        *(("pencil", "dividers"), rows, words or {}),
    )
    return Paper(plan, "first", 1, "K7W-4Q2", items, tuple(extracts))


@pytest.fixture(scope="module")
def extracts():
    sheets = [
        Extract(
            n,
            window,
            tuple(Mark(*place, f"{n}{a}") for place, a in zip(places, "ABC", strict=True)),
        )
        for n, (window, places) in enumerate(SHEETS.values(), 1)
    ]
    pages = [Extract(n, page) for n, page in enumerate(PAGES, len(sheets) + 1)]
    first = replace(sheets[0], lines=(("1A", "1C"),))
    return (first, *sheets[1:], *pages)


@pytest.fixture(scope="module")
def whole(extracts):
    return paper_pdf(paper(extracts=extracts))


@pytest.fixture(scope="module")
def crossed_and_bare(extracts):
    """The same paper with crosses alone on its sheets, and with nothing on them."""
    crossed = tuple(replace(e, lines=()) for e in extracts)
    bare = tuple(replace(e, marks=()) for e in crossed)
    return [paper_pdf(paper(extracts=some)) for some in (crossed, bare)]


@pytest.fixture(scope="module")
def sheet_pages(whole, extracts):
    """The pages of the sheets without what lies under the marks, as pdfplumber reads them."""
    with pikepdf.open(io.BytesIO(whole)) as document:
        for page in document.pages:
            if "/XObject" in page.Resources:
                del page.Resources["/XObject"]
        out = io.BytesIO()
        document.save(out)
    with pdfplumber.open(out) as document:
        yield document.pages[-len(extracts) :]


def strokes(page, colour, width_mm):
    """The ends of all lines of a colour and width, in millimetres from the page's top left."""
    return [
        tuple((x / MM, float(page.height - y) / MM) for x, y in line["pts_up"])
        for line in ({**one, "pts_up": ends(page, one)} for one in page.lines)
        if np.allclose(line["stroking_color"], colour, atol=2e-3)
        and abs(line["linewidth"] / MM - width_mm) < 0.01
    ]


def ends(page, line):
    """pdfplumber gives points downwards from the top; turn them into PDF's own, up from the foot."""
    return [(float(x), float(page.height) - float(y)) for x, y in line["pts"]]


def crosses(page):
    """The middles of the pencilled crosses: where two strokes of one length have one middle."""
    middles = [
        tuple(np.mean(line, axis=0))
        for line in strokes(page, PENCIL, 0.35)
        if abs(np.hypot(*np.subtract(*line)) - 2 * 1.9 * 2**0.5) < 0.01
    ]
    return [a for a, b in pairwise(middles) if np.allclose(a, b, atol=1e-3)]


def on_the_ground(window, places):
    """Millimetres that places lie east and south of the first, worked out beside the library."""
    if window.sheet == "land map":  # grid metres by the scale: nothing but arithmetic
        spots = np.array(places) * 1000 / window.scale
    else:  # Snyder 1987, section 7, by pyproj, true at the latitude that the chart states
        water = waters.load(window.water)
        mercator = Proj(proj="merc", lat_ts=true_latitude(water), ellps="WGS84")
        spots = np.array([mercator(*reversed(water.lat_lon(place))) for place in places], float)
        spots = spots * 1000 / window.scale
    return (spots - spots[0]) * (1, -1)


@pytest.mark.parametrize("n", range(len(SHEETS)), ids=list(SHEETS))
def test_marks_lie_true_to_scale_by_the_pdfs_own_coordinates(sheet_pages, n):
    window, places = list(SHEETS.values())[n]
    found = np.array(crosses(sheet_pages[n]))
    assert len(found) == len(places)
    assert found - found[0] == pytest.approx(on_the_ground(window, places), abs=0.01)


def test_a_pencil_line_runs_from_mark_to_mark(sheet_pages):
    found = crosses(sheet_pages[0])
    long = [x for x in strokes(sheet_pages[0], PENCIL, 0.35) if np.hypot(*np.subtract(*x)) > 6]
    assert len(long) == 1
    assert np.array(long[0]) == pytest.approx(np.array([found[0], found[2]]), abs=0.01)


def test_each_sheet_has_a_bar_of_100_mm_in_each_direction(sheet_pages, extracts):
    for page, extract in zip(sheet_pages, extracts, strict=True):
        spans = [np.abs(np.subtract(*line)) for line in strokes(page, INK, 0.2)]
        upright = [s for s in spans if s == pytest.approx((0, 100), abs=0.005)]
        across = [s for s in spans if s == pytest.approx((100, 0), abs=0.005)]
        assert len(upright) == 1
        assert len(across) == (0 if base(extract.base).has_bar else 1)  # then the sheet has its own


def rendered(pdf, page, dpi):
    """A page's picture, counted from the last as Python counts; blue, green, red."""
    document = pypdfium2.PdfDocument(pdf)
    return document[page % len(document)].render(scale=dpi / 72).to_numpy()[..., :3].astype(int)


@pytest.mark.parametrize("n", range(len(SHEETS)), ids=list(SHEETS))
def test_a_picture_of_the_page_measures_the_same(crossed_and_bare, extracts, n):
    """By pixels alone: the bar beside the sheet, and the crosses where the page changes by them."""
    dpi, first = 254, -len(extracts)  # ten dots a millimetre
    page, without = (rendered(pdf, first + n, dpi) for pdf in crossed_and_bare)

    strip = page[:, -98:-55].sum(axis=2) < 300  # right of the sheet, where the upright bar stands
    ticks = np.flatnonzero(strip.sum(axis=1) >= 30)
    assert (ticks[-1] - ticks[0] - 2) / 10 == pytest.approx(100, abs=LEAST_MM)  # 2 dots: its line

    shown, places = list(SHEETS.values())[n]
    at = laid(extracts[n])
    middles = []
    for x, y in at["marks"]["crosses"]:
        left, top = round(10 * (at["left"] + x)), round(10 * (at["top"] + y))
        here = np.s_[top - 23 : top + 24, left - 23 : left + 24]
        changed = (np.abs(page[here] - without[here]).sum(axis=2) > 30) & (
            np.abs(page[here] - np.array([0x33, 0x2B, 0x2B])).sum(axis=2) < 60
        )
        rows, columns = np.flatnonzero(changed.any(axis=1)), np.flatnonzero(changed.any(axis=0))
        middles.append(
            ((left + columns[[0, -1]].mean() - 23) / 10, (top + rows[[0, -1]].mean() - 23) / 10)
        )
    measured = np.array(middles) - middles[0]
    assert measured == pytest.approx(on_the_ground(shown, places), abs=LEAST_MM)


@pytest.mark.parametrize("n", range(len(SHEETS)), ids=list(SHEETS))
def test_the_sheet_under_the_marks_lies_where_they_say(whole, extracts, n):
    """The page's picture and the sheet's own fit best without any shift, to half a dot of 0.2 mm."""
    at = laid(extracts[n])
    dots = 5  # a millimetre
    page = rendered(whole, n - len(extracts), dots * 25.4).sum(axis=2)
    sheet = drawn.page(extracts[n].base)
    alone = rendered(sheet.pdf(), 0, dots * 25.4).sum(axis=2)
    top, left = round(dots * at["top"]), round(dots * at["left"])
    middle = alone[200:-200, 200:-200]

    def unlike(down, across):
        rows = slice(top + 200 + down, top + 200 + down + middle.shape[0])
        columns = slice(left + 200 + across, left + 200 + across + middle.shape[1])
        return np.abs(page[rows, columns] - middle).mean()

    shifts = [(d, a) for d in (-1, 0, 1) for a in (-1, 0, 1)]
    assert min(shifts, key=lambda shift: unlike(*shift)) == (0, 0)


def test_pages_have_the_size_of_their_paper(whole, extracts):
    with pikepdf.open(io.BytesIO(whole)) as document:
        sizes = [tuple(float(v) / MM for v in page.mediabox[2:]) for page in document.pages]
        wishes = document.Root.ViewerPreferences
        assert (wishes.PrintScaling, wishes.PickTrayByPDFSize) == (pikepdf.Name("/None"), True)
    wanted = [PAPERS["A4"]] * (len(sizes) - 5)
    wanted += [PAPERS[name] for name in ("A4", "A3 landscape", "A4", "A4", "A4")]
    assert np.array(sizes) == pytest.approx(np.array(wanted), abs=0.01)


def test_it_is_tagged_for_screen_readers_and_every_picture_has_words(whole):
    with pikepdf.open(io.BytesIO(whole)) as document:
        assert str(document.Root.Lang) == "en-GB"
        assert document.Root.MarkInfo.Marked
        figures = [
            o
            for o in document.objects
            if isinstance(o, pikepdf.Dictionary) and o.get("/S") == "/Figure" and "/P" in o
        ]
        assert len(figures) == 6  # the code, three sheets, two pages
        assert all(str(f.get("/Alt", "")).strip() for f in figures)
        with document.open_metadata() as metadata:
            assert metadata["pdfuaid:part"] == "1"


def texts(pdf):
    return [page.get_textpage().get_text_bounded() for page in pypdfium2.PdfDocument(pdf)]


@pytest.mark.parametrize("large", [False, True])
def test_each_page_has_the_code_and_its_number(extracts, large):
    pages = texts(paper_pdf(paper(extracts=extracts), number="07", large=large))
    for number, text in enumerate(pages, 1):
        assert "K7W-4Q2" in text
        assert f"Page {number} of {len(pages)}" in text
        assert "07" in text


@pytest.mark.parametrize("large", [False, True])
def test_every_kind_of_question_is_printed_whole(large):
    asked = paper(questions.kinds())
    pages = texts(paper_pdf(asked, large=large))
    joined = " ".join(" ".join(pages).split())
    for item in asked.items:
        for prompt in item.question.prompts.values():
            assert " ".join(prompt.split()) in joined
    for field in (f for item in paper_data(asked)["items"] for f in item["fields"]):
        assert all(text in joined for _, text in field.get("options", ()))
    broken = [
        item.number
        for item in asked.items
        if list(item.question.prompts.values())[-1].split()[-1]
        not in pages[_page_of(pages, f"Question {item.number} [")]
    ]
    assert len(broken) <= (2 if large else 0), broken  # in large print one is longer than a page


def _page_of(pages, text):
    return next(n for n, page in enumerate(pages) if text in page)


class Worked(Exception):
    """Somebody tried to work a question out."""


def blind(question):
    """The question as shown, told of no kind, seed or numbers, and that cannot be worked out."""

    def refuse():
        raise Worked

    steps = tuple(
        replace(step, work=lambda: refuse(), slips=(), errors=(), line="", check="", nearly="")
        for step in question.chain.steps
    )
    chain = Chain({}, steps)
    hidden = replace(
        question, kind="none", seed=0, title="", topic="", level=0, chain=chain, givens={}
    )
    with pytest.raises(Worked):
        _ = hidden.answers
    return hidden


def test_papers_are_printed_without_working_a_question():
    """So no key, kind, seed, slip or working can be in them, whichever way it might be written."""
    known = paper(questions.kinds())
    unknown = replace(
        known,
        items=tuple(replace(item, question=blind(item.question)) for item in known.items),
    )
    for made in (paper_pdf, paper_html, paper_text):
        assert made(known) == made(unknown)


def test_no_name_of_a_kind_or_slip_is_in_a_paper(whole, extracts):
    asked = paper(extracts=extracts)
    with pikepdf.open(io.BytesIO(whole)) as document:
        alts = [
            str(o.Alt)
            for o in document.objects
            if isinstance(o, pikepdf.Dictionary) and "/Alt" in o
        ]
        about = f"{dict(document.docinfo)} {document.Root.Metadata.read_bytes()!r}"
    said = " ".join([*texts(whole), *alts, about, paper_html(asked), paper_text(asked)])
    slips = [s.name for i in asked.items for step in i.question.chain.steps for s in step.slips]
    for hidden in (*MAKES, *slips, "918273", "918_273"):
        assert hidden not in said


HOSTILE = {
    "markup": '#read("common.typ") $x$ *bold* <b>&amp;</b> `code` \\ @k [link](x)',
    "unbroken": "W" * 10_000,
    "right-to-left": "\N{RIGHT-TO-LEFT OVERRIDE}مرحبا بك עברית",
    "emoji": "Paddler \N{GRINNING FACE}\N{CANOE} 北京",
    "controls": "a\x00b\x07c\x1b[31m\u2028d\ud800",
    "heaped": "e" + "\N{COMBINING ACUTE ACCENT}" * 500,
    "nothing": "",
}


@pytest.mark.parametrize("text", HOSTILE.values(), ids=HOSTILE)
def test_hostile_words_are_printed_or_cut_and_break_no_page(text):
    given = paper(title=text or "x", words={"centre": text, "note": text})
    made = paper_pdf(given, number=text, name=text)
    with pdfplumber.open(io.BytesIO(made)) as document:
        for page in document.pages:
            assert (page.width / MM, page.height / MM) == pytest.approx(PAPERS["A4"], abs=0.01)
            words = page.extract_words()
            assert all(w["x0"] >= 0 and w["x1"] <= page.width for w in words)
            foot = float(page.height) - 20 * MM
            assert all(w["bottom"] <= foot + 1 or w["top"] >= foot for w in words)
        assert len(document.pages) <= 5
    html = paper_html(given, number=text, name=text)
    assert "<b>" not in html
    assert "<script" not in html
    assert paper_text(given)


def test_markup_in_a_name_is_printed_as_it_stands():
    first = "".join(texts(paper_pdf(paper(), name=HOSTILE["markup"]))[0].split())
    assert "".join(HOSTILE["markup"].split()) in first


def test_plain_keeps_what_people_write_and_nothing_that_steers():
    assert plain("Møller, D’Arcy–Ó 042°T 58°46.97′ −1") == "Møller, D’Arcy–Ó 042°T 58°46.97′ −1"
    assert plain("a\x00\N{RIGHT-TO-LEFT OVERRIDE}b\tc\r\nd") == "ab c\nd"
    assert plain("\N{GRINNING CAT FACE WITH SMILING EYES}北") in {MISSING * 2, "😸" + MISSING}
    assert len(plain("x" * 9999, 50).replace("\u200b", "")) == 50


def test_the_same_paper_gives_the_same_bytes_in_another_process():
    code = (
        "from hashlib import sha256; from tests.test_paper_print import paper, paper_pdf; "
        "print(sha256(paper_pdf(paper())).hexdigest())"
    )
    other = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True
    ).stdout.strip()
    assert other == sha256(paper_pdf(paper())).hexdigest()


def test_a_sheet_takes_the_smallest_paper_that_holds_it():
    assert paper_for(194, 282) == "A4"
    assert paper_for(210, 297) == "A4"
    assert paper_for(200, 190) == "A4 landscape"
    assert paper_for(404, 282) == "A3 landscape"
    with pytest.raises(ValueError, match=r"420 x 300 mm does not fit"):
        paper_for(420, 300)


def test_a_mark_beside_its_sheet_is_refused(extracts):
    astray = replace(extracts[0], marks=(Mark(80_000, 1_000_000, "9Z"),), lines=())
    with pytest.raises(ValueError, match=r"Mark 9Z .* outside .* sheet 1"):
        laid(astray)


def test_labels_cover_neither_crosses_nor_each_other(extracts):
    for extract in extracts[:3]:
        marks = laid(extract)["marks"]
        boxes = [
            (b["left"], b["top"], b["left"] + b["width"], b["top"] + b["height"])
            for b in marks["labels"]
        ]
        boxes += [(x - 1.9, y - 1.9, x + 1.9, y + 1.9) for x, y in marks["crosses"]]
        for k, a in enumerate(boxes):
            for b in boxes[:k]:
                assert a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1]


def test_a_screen_reader_gets_tables_of_the_tide_pages(extracts):
    html = paper_html(paper(extracts=extracts))
    assert re.search(r"<caption>Diamond A.*?<th scope=\"col\">Hour</th>", html, re.S)
    assert "<td>6 h before HW</td>" in html
    assert html.count("<h3>Question ") == len(MAKES)
    assert '<html lang="en-GB">' in html
    assert "http" not in html.replace("http://www.w3.org", "")


def test_an_unknown_template_is_named_with_those_there_are():
    with pytest.raises(ValueError, match=r"no-such-page.*There are: .*paper"):
        typeset("no-such-page", {"title": "x", "code": "y"})
