"""Pictures kept on this computer: drawn once, drawn anew when something is wrong with them."""

import time

import pytest

from navlib.pictures import kept as room
from navlib.pictures.kept import kept

PICTURE = {"svg": "<svg/>", "alt": "a picture", "width_mm": 1.5}


class Pen:
    """Draws, and counts how often."""

    def __init__(self):
        self.drawn = 0

    def __call__(self):
        self.drawn += 1
        return dict(PICTURE)


@pytest.fixture
def folder(tmp_path, monkeypatch):
    monkeypatch.setenv("NAVLIB_KEPT", str(tmp_path))
    return tmp_path / "pictures"


def test_a_picture_is_drawn_once_and_another_for_itself(folder):
    pen = Pen()
    assert kept("A", pen) == kept("A", pen) == PICTURE
    assert pen.drawn == 1
    kept("B", pen)
    assert pen.drawn == 2


def test_what_a_picture_shows_is_not_said_in_another_language(folder, tmp_path, monkeypatch):
    pen = Pen()
    kept("A", pen)
    file = tmp_path / "made-up.po"
    file.write_text('msgid "a picture"\nmsgstr "ein Bild"\n', encoding="utf-8")
    monkeypatch.setenv("NAVLIB_LANGUAGE", str(file))
    kept("A", pen)
    kept("A", pen)
    assert pen.drawn == 2
    monkeypatch.delenv("NAVLIB_LANGUAGE")
    kept("A", pen)
    assert pen.drawn == 2


def test_a_damaged_picture_is_drawn_anew(folder):
    pen = Pen()
    kept("A", pen)
    (file,) = folder.glob("*.json")
    file.write_text('{"svg": "<sv')
    assert kept("A", pen) == PICTURE
    assert kept("A", pen) == PICTURE
    assert pen.drawn == 2


def test_pictures_of_another_edition_are_not_shown(folder, monkeypatch):
    pen = Pen()
    kept("A", pen)
    monkeypatch.setattr(room, "_edition", lambda: "the next one")
    kept("A", pen)
    assert pen.drawn == 2


def test_those_used_longest_ago_go_first(folder, monkeypatch):
    monkeypatch.setattr(room, "MOST", 2)
    pen = Pen()
    for name in "ABAC":
        kept(name, pen)
        time.sleep(0.02)  # a file's time has ticks
    assert pen.drawn == 3
    kept("A", pen)
    assert pen.drawn == 3
    kept("B", pen)
    assert pen.drawn == 4


def test_where_nothing_can_be_written_it_is_drawn_each_time(tmp_path, monkeypatch):
    (tmp_path / "file").write_text("not a folder")
    monkeypatch.setenv("NAVLIB_KEPT", str(tmp_path / "file"))
    pen = Pen()
    assert kept("A", pen) == kept("A", pen) == PICTURE
    assert pen.drawn == 2
