"""Every word of the trade is explained once, and a lesson's first use of it leads there and back."""

import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from urllib.parse import unquote

import nbformat
import pytest

from navlib import questions
from navlib.desk.ways import title

LESSONS = Path(__file__).parent.parent / "lessons"
NAMES = sorted(path.stem for path in LESSONS.glob("*.ipynb"))

TERM = re.compile(r"\[\*\*(?P<said>[^]]+)\*\*\]\(glossary\.ipynb#(?P<anchor>[^)\s]+)\)")
LINK = re.compile(r"\]\((?P<file>\w+)\.ipynb(?:#(?P<anchor>[^)\s]+))?\)")
ENTRY = re.compile(
    r"### (?P<term>.+)\n\n(?P<means>.+) Taught in \[(?P<title>[^]]+)\]"
    r"\((?P<file>\w+)\.ipynb(?:#(?P<anchor>\S+))?\)\."
)


@cache
def text(name: str) -> str:
    """Return all that a notebook says in words."""
    cells = nbformat.read(LESSONS / f"{name}.ipynb", as_version=4).cells
    return "\n\n".join(cell.source for cell in cells if cell.cell_type == "markdown")


def anchor(heading: str) -> str:
    """Return what JupyterLab calls a heading in an address."""
    return heading.strip().replace(" ", "-")


def anchors(name: str) -> set[str]:
    return {anchor(found) for found in re.findall(r"^#+ (.+)$", text(name), re.MULTILINE)}


def terms(name: str) -> list[re.Match[str]]:
    """Return the links from a lesson to terms of the glossary, in order."""
    return list(TERM.finditer(text(name)))


ENTRIES = list(ENTRY.finditer(text("glossary")))


def first_uses() -> Iterator[tuple[str, str, str]]:
    """Yield each term's anchor with the lesson that uses it first and the heading above it there."""
    seen = set()
    for name in questions.topics():
        for found in terms(name):
            if (to := unquote(found["anchor"])) not in seen:
                seen.add(to)
                above = re.findall(r"^## (.+)$", text(name)[: found.start()], re.MULTILINE)
                yield to, name, anchor(above[-1]) if above else ""


def test_every_heading_is_an_entry_with_a_meaning_and_a_way_back():
    assert len(ENTRIES) == len(re.findall("^### ", text("glossary"), re.MULTILINE))
    assert len(ENTRIES) > 60
    assert all(len(entry["means"].split()) > 3 for entry in ENTRIES)
    assert all(entry["title"] == title(entry["file"]) for entry in ENTRIES)


def test_entries_stand_in_the_order_of_the_alphabet_under_their_letters():
    words = [entry["term"].casefold() for entry in ENTRIES]
    assert words == sorted(set(words))
    letters = ""
    for line in text("glossary").splitlines():
        if line.startswith("## "):
            letters = line[3:]
        elif line.startswith("### "):
            assert line[4:].upper().startswith(letters)


def test_every_term_is_linked_where_it_is_used_first_and_leads_back_there():
    uses = {to: (name, above) for to, name, above in first_uses()}
    for entry in ENTRIES:
        back = entry["file"], unquote(entry["anchor"] or "")
        assert uses.pop(anchor(entry["term"]), "no lesson") == back, entry["term"]
    assert not uses, f"without an entry: {uses}"


@pytest.mark.parametrize("name", NAMES)
def test_no_link_between_notebooks_leads_nowhere(name: str):
    for found in LINK.finditer(text(name)):
        assert found["file"] in NAMES, found[0]
        if found["anchor"]:
            assert unquote(found["anchor"]) in anchors(found["file"]), found[0]


@pytest.mark.parametrize("name", questions.topics())
def test_no_term_is_shown_as_new_before_its_link(name: str):
    for found in terms(name):
        before = text(name)[: found.start()]
        assert f"**{found['said']}**" not in before.replace(found[0], ""), found["said"]
