"""The translator's file: nothing that a learner reads is missing, and a translation is read safely."""

import io
import re
from pathlib import Path

import pytest
from babel.messages.pofile import read_po

import navlib
from navlib import language
from navlib.language import say
from navlib.language.scripts import said, unwritten
from navlib.texts import SCRIPTS as PLACES
from navlib.texts import Text, texts, write

ROOT = Path(navlib.__file__).parent
SCRIPTS = sorted(script for place in PLACES for script in ROOT.glob(place))


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
