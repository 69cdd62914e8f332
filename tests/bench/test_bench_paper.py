"""A paper once its sheets are drawn, against bare saving of these sheets; and a class's papers.

The goal is a tenth for one paper. Thirty take about 3 s and a hundred 10 s; all papers stay under
150 MB beside what the library and the sheets take (`peak`, in MB, among the extra columns).
"""

import io
import json
import resource
import subprocess
import sys
from dataclasses import replace
from datetime import date
from itertools import count

import pytest

from navlib import questions
from navlib.paper.blueprint import Blueprint, Row
from navlib.paper.overlay import base
from navlib.paper.printed import paper_pdf
from navlib.paper.variants import Extract, Item, Mark, Paper
from navlib.pictures import drawn
from navlib.questions.picture import SheetWindow, TidePage

KINDS = (
    *("position.eight-figures", "bearings.measure", "variation.rose-to-date", "speed.eta"),
    *("bearings.compass-to-true", "distance.round-the-head", "tides.by-the-curve"),
    *("tides.diamond", "speed.first-there", "distance.find-the-fault", "tides.read-the-table"),
)
LAND = SheetWindow("kessoray", 50_000, (96_000, 1_001_500), (360, 170), (), "")
CHART = SheetWindow("kessoray", 75_000, (96_000, 1_002_000), (150, 160), (), "", sheet="sea chart")
SHOWN = (LAND, CHART, TidePage("kessoray", "curve", ""), TidePage("kessoray", "diamonds", ""))
NUMBERS = count(1)


def new_paper():
    """A paper that was not printed before: another code, other marks."""
    n = next(NUMBERS)
    rows = tuple(Row(k, "any", (kind,), 5, k % 3, 6) for k, kind in enumerate(KINDS, 1))
    items = tuple(Item(row, questions.make(row.kinds[0], 1), 0, {}) for row in rows)
    extracts = [Extract(k, shown) for k, shown in enumerate(SHOWN, 1)]
    for k in (0, 1):
        marks = tuple(Mark(93_000 + 700 * j + n, 1_001_000, f"{j}A") for j in range(8))
        extracts[k] = replace(extracts[k], marks=marks)
    plan = Blueprint(
        *("bench", "Coastal navigation", 90, 40, 1, date(2026, 1, 1), date(2027, 1, 1)),
        *((), ("pencil",), rows, {}),
    )
    return Paper(plan, "first", n, f"B{n:05d}", items, tuple(extracts))


@pytest.fixture(scope="module", autouse=True)
def _sheets_are_drawn():
    for shown in SHOWN:
        base(shown)


@pytest.mark.benchmark(group="one paper")
class TestOne:
    def test_bare(self, benchmark):
        figures = [drawn.page(shown)._figure for shown in SHOWN]
        benchmark(lambda: [figure.savefig(io.BytesIO(), format="pdf") for figure in figures])

    def test_paper(self, benchmark):
        benchmark(lambda: paper_pdf(new_paper()))


def print_many(many):
    """Print papers in a process of their own; return seconds, and MB more at the peak."""
    code = (
        "import json, sys, time; sys.path[:0] = ['tests/bench', '.']; import test_bench_paper as t; "
        "[t.base(shown) for shown in t.SHOWN]; before = t.peak_mb(); began = time.perf_counter(); "
        f"sum(len(t.paper_pdf(t.new_paper())) for _ in range({many})); "
        "print(json.dumps([time.perf_counter() - began, t.peak_mb() - before, before]))"
    )
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    return json.loads(run.stdout)


def peak_mb():
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024


@pytest.mark.benchmark(group="a class's papers")
@pytest.mark.parametrize("many", [30, 100])
def test_many(benchmark, many):
    seconds, peak, before = benchmark.pedantic(print_many, args=(many,), rounds=1)
    benchmark.extra_info |= {"seconds": seconds, "peak": peak, "before": before}
    print(f"{many} papers: {seconds:.1f} s, {peak:.0f} MB more than the {before:.0f} MB before")
