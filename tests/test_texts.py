"""The translator's file: nothing that a learner reads is missing, and a translation is read safely."""

import io
import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
from babel.messages.catalog import Catalog
from babel.messages.pofile import read_po, write_po

import navlib
from navlib import language, waters
from navlib.language import say
from navlib.language.scripts import said, unwritten
from navlib.texts import SCRIPTS as PLACES
from navlib.texts import Text, texts, write

ROOT = Path(navlib.__file__).parent
SCRIPTS = sorted(script for place in PLACES for script in ROOT.glob(place))
SAME_IN_ALL = ("kn", "km", "mm", "min", "ft", "cos", "sin", "National Grid")
"""Signs of units and of functions, and the name of a grid."""
SPELLING = ("Hotel", "Victor", "Whiskey", "November", "Alfa", "Bravo")
"""Letters are spelt with the same words on every radio (ICAO Annex 10)."""


@pytest.fixture(scope="module")
def all_texts() -> list[Text]:
    return texts(ROOT.parent / "lessons")


@pytest.mark.parametrize(
    "text",
    [
        "Hint: {hint}",  # a front end's
        "Give me a hint",  # the desk's
        "Start the lesson again",  # the page's around a lesson
        "forgot the variation",  # a slip's
        "A line on the map",  # a question’s title
        "this could be metres or miles",  # what is wrong with an answer
        "November",
        "You had this kind {last}. Is it still there?",
    ],
)
def test_each_sort_of_text_is_there(all_texts: list[Text], text: str):
    assert text in {one.text for one in all_texts}


def test_the_lessons_are_there_cell_by_cell(all_texts: list[Text]):
    cells = [one for one in all_texts if one.file == "lessons/glossary.ipynb"]
    assert cells
    assert any("slack water" in cell.text for cell in cells)


@pytest.mark.parametrize("path", SCRIPTS, ids=lambda path: path.name)
def test_a_list_can_be_made_of_what_scripts_say(path: Path):
    assert unwritten(path.read_text(encoding="utf-8")) == []


def test_pieces_are_put_together_and_other_calls_left_alone():
    script = 'say("One " +\n  "two {n}", { n }); one.say("no"); say(what); essay("no")'
    assert list(said(script)) == [(1, "One two {n}")]
    assert unwritten(script) == ['say(what); essay("no")']


def test_nothing_that_a_learner_reads_stays_english(all_texts: list[Text], tmp_path: Path):
    catalog = Catalog()
    for one in all_texts:
        catalog.add(one.text, re.sub(r"\{\w+\}|[^{]", _loud, one.text))
    with (tmp_path / "loud.po").open("wb") as file:
        write_po(file, catalog)
    own = {"LANGUAGE": "loud.po", "RECORD": "record.sqlite", "KEPT": "kept"}
    said_in_capitals = subprocess.run(
        [sys.executable, str(Path(__file__).with_name("all_said.py"))],
        env=os.environ | {f"NAVLIB_{name}": str(tmp_path / file) for name, file in own.items()},
        capture_output=True,
        text=True,
        check=False,
    )
    assert said_in_capitals.returncode == 0, said_in_capitals.stderr
    found = json.loads(said_in_capitals.stdout)
    everything: list[tuple[str, str]] = found["said"]
    assert len(everything) > 10_000
    put_in = re.compile(rf"\b(?:{'|'.join((*_names(), *SAME_IN_ALL, *SPELLING))})\b")
    left = {
        where: text
        for where, text in everything
        if re.search(r"(?<!\w)[A-Z]?[a-z]{2,}(?!\w)", put_in.sub("", text))
    }
    assert not left, json.dumps(left, indent=1, ensure_ascii=False)
    assert found["refused"] == []  # answers are read in the learner's language too


def _loud(piece: re.Match[str]) -> str:
    """Return a letter as a capital, and a name in braces as it is."""
    return piece[0] if len(piece[0]) > 1 else piece[0].upper()


def _names() -> list[str]:
    """Return the names of all that there is in the waters, the longest first."""
    found = set()
    for water in map(waters.load, waters.shipped()):
        found |= {one.name for one in (*water.features, *water.tides.ports, *water.tides.diamonds)}
        found.add(water.settings.title)
    return sorted(map(re.escape, found - {"", None}), key=len, reverse=True)


def test_apostrophes_are_the_printers(all_texts: list[Text]):
    straight = [one for one in all_texts if re.search(r"[A-Za-z]'[a-z]", one.text)]
    assert straight == []


def test_the_file_is_one_that_translators_tools_read(all_texts: list[Text]):
    file = io.BytesIO()
    write(all_texts, file)
    file.seek(0)
    assert {entry.id for entry in read_po(file) if entry.id} == {one.text for one in all_texts}


def test_a_translation_is_used_where_it_puts_in_what_the_text_puts_in(tmp_path, monkeypatch):
    file = tmp_path / "made-up.po"
    file.write_text(
        'msgid ""\nmsgstr "Content-Type: text/plain; charset=utf-8\\n"\n\n'
        'msgid "{right} of {all}"\nmsgstr "{all}, davon {right}"\n\n'
        'msgid "{count} times"\nmsgstr "{coumt} mal"\n\n'
        '#, fuzzy\nmsgid "today"\nmsgstr "gestern"\n\n'
        'msgid "never"\nmsgstr ""\n',
        encoding="utf-8",
    )
    monkeypatch.setenv("NAVLIB_LANGUAGE", str(file))
    assert say("{right} of {all}", {"right": 2, "all": 3}) == "3, davon 2"
    assert say("{count} times", {"count": 9}) == "9 times"
    assert (say("today"), say("never"), say("yesterday")) == ("today", "never", "yesterday")


def test_a_file_that_is_none_is_said_by_name(tmp_path, monkeypatch):
    monkeypatch.setenv("NAVLIB_LANGUAGE", str(tmp_path / "lost.po"))
    with pytest.raises(ValueError, match=r"NAVLIB_LANGUAGE is .*lost\.po"):
        language.translations()
