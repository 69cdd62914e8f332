"""All files of a sitting, written into its folder: papers for candidates, the rest for the coach."""

from collections.abc import Callable, Iterator, Sequence
from functools import partial
from pathlib import Path
from typing import Any

from navlib.paper.folder import put
from navlib.paper.forms import write_form
from navlib.paper.grid import grid_pdf
from navlib.paper.moderation import moderation_pdf
from navlib.paper.overlay import base
from navlib.paper.printed import SHORT, paper_pdf
from navlib.paper.scheme import scheme_pdf
from navlib.paper.sitting import Sitting
from navlib.paper.typeset import plain, typeset
from navlib.paper.variants import Paper
from navlib.paper.webpage import paper_html

Progress = Callable[[int, int, str], None]
"""Told before each file: how many are written, how many there will be, and the file’s name."""


def bind(
    folder: Path | str,
    papers: Sequence[Paper] | None = None,
    *,
    large: bool = False,
    html: bool = False,
    progress: Progress | None = None,
) -> tuple[Path, ...]:
    """Write all files of a sitting and return their paths, in the order they were written.

    `papers` are made again from the sitting's secret unless given. Into “papers” go the papers, one
    a candidate, and if asked for in `large` print and as a web page (`html`) too; nothing there
    holds a key. Into “coach” go a mark scheme for each paper, marking grid, moderator's page,
    invigilator's page and an empty table for entering answers. Each file is whole or not there; what
    was there before is written anew, but for the table: somebody may have filled it in. Raises
    ValueError if the folder is no sitting.
    """
    sitting = Sitting(folder, papers)
    made = tuple(sitting.papers.values())
    files = list(_files(sitting, made, large, html))
    written = []
    for count, (place, make) in enumerate(files):
        if progress is not None:
            progress(count, len(files), place)
        path = sitting.path / place
        path.parent.mkdir(parents=True, exist_ok=True)
        put(path, make())
        written.append(path)
    if progress is not None:
        progress(len(files), len(files), "")
    return tuple(written)


def _files(
    sitting: Sitting, papers: Sequence[Paper], large: bool, html: bool
) -> Iterator[tuple[str, Callable[[], bytes]]]:
    """Yield where each file goes and what makes it."""
    for paper in papers:
        number = f"{paper.variant:02}"
        stem = f"papers/{number}-{paper.code}"
        yield f"{stem}.pdf", partial(paper_pdf, paper, number=number)
        if large:
            yield f"{stem}-large.pdf", partial(paper_pdf, paper, number=number, large=True)
        if html:
            yield f"{stem}.html", partial(_web_page, paper, number)
    yield "coach/grid.pdf", partial(grid_pdf, papers)
    yield "coach/moderation.pdf", partial(moderation_pdf, papers)
    yield "coach/invigilator.pdf", partial(invigilator_pdf, papers)
    if not (sitting.path / "coach" / "marking.csv").exists():
        yield "coach/marking.csv", lambda: write_form(sitting).encode()
    for paper in papers:
        yield f"coach/scheme-{paper.code}.pdf", partial(scheme_pdf, paper)


def _web_page(paper: Paper, number: str) -> bytes:
    return paper_html(paper, number=number).encode()


def invigilator_pdf(papers: Sequence[Paper]) -> bytes:
    """Return the page of whoever watches over a sitting: who has which paper, bars, times.

    It holds no key. Raises ValueError without papers.
    """
    if not papers:
        raise ValueError("There are no papers: give the papers of a sitting.")
    blueprint = papers[0].blueprint
    data: dict[str, Any] = {
        "title": plain(f"For the invigilator: {blueprint.title}", SHORT + 25),
        "code": "Invigilator",
        "over": plain(blueprint.title, SHORT),
        "minutes": blueprint.minutes,
        "sheets": bool(papers[0].extracts),
        "measured": any(base(each.base).has_bar for each in papers[0].extracts),
        "allowed": [plain(one, SHORT) for one in blueprint.instruments],
        "rows": [[f"{paper.variant:02}", plain(paper.code, 24)] for paper in papers],
    }
    return typeset("invigilator", data)
