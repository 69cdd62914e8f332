"""Every sheet and page can be taken off the shelf and written to a file, also from the command line."""

import re
from datetime import date

import pytest

from navlib import waters
from navlib.__main__ import main
from navlib.sheets import shelf

DAY = date(2026, 10, 25)


@pytest.mark.parametrize("water", waters.shipped())
def test_all_sheets_of_a_water_can_be_drawn_and_are_named_apart(water):
    items = shelf.shelf(waters.load(water), DAY)
    assert len({item.name for item in items}) == len(items)
    assert all(re.fullmatch(r"[a-z0-9-]+", item.name) for item in items)
    for item in items:
        page = item.draw()
        assert "training" in page.alt.lower(), item.name


def test_the_shelf_holds_all_kinds_for_each_port():
    water = waters.load()
    names = [item.name for item in shelf.shelf(water, DAY)]
    for kind in ("land-map-25000", "land-map-50000", "sea-chart-75000", "sea-chart-25000"):
        assert kind in names
    assert sum(name.startswith("tide-table") for name in names) == len(water.tides.ports)
    assert sum(name.startswith("stream-atlas") for name in names) == 13
    assert "tide-table-voehead-pier-2026-10" in names


def test_sheets_are_listed_then_written_where_one_says(tmp_path, capsys):
    assert main(["sheets", "legend"]) == 0
    assert "Signs of the land map" in capsys.readouterr().out
    words = ["sheets", "legend", "tide-differences", "--to", str(tmp_path / "new")]
    assert main([*words, "--as", "svg"]) == 0
    assert {file.name for file in (tmp_path / "new").iterdir()} == {
        "legend-land-map.svg",
        "legend-sea-chart.svg",
        "tide-differences.svg",
    }


@pytest.mark.parametrize(
    "where", [["--at", "NA 945 993"], ["--at", "kessoray-jetty"], ["--at", "94500,999300"]]
)
def test_an_extract_is_taken_about_a_reference_a_mark_or_metres(where, tmp_path, capsys):
    file = tmp_path / "piece.pdf"
    assert main(["extract", str(file), *where, "--size", "120x60"]) == 0
    assert "140 x " in capsys.readouterr().out
    assert file.read_bytes().startswith(b"%PDF")


@pytest.mark.parametrize("sheet", ["land map", "sea chart"])
def test_a_learners_own_extract_is_the_same_each_time(sheet, tmp_path):
    for name in ("one.svg", "two.svg"):
        assert main(["extract", str(tmp_path / name), "--seed", "7", "--sheet", sheet]) == 0
    assert (tmp_path / "one.svg").read_bytes() == (tmp_path / "two.svg").read_bytes()


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["sheets", "tide-tabel"], "There is no sheet called “tide-tabel”. There are: land-map-"),
        (["sheets", "--water", "atlantis"], "No water called “atlantis”. Shipped are: kessoray"),
        (["extract", "x.gif", "--seed", "1"], "as .pdf, .svg or .png, not as “.gif”"),
        (["extract", "x.pdf", "--at", "nowhere"], "nowhere"),
        (["extract", "x.pdf", "--at", "84100,1000000", "--size", "400x300"], "runs off"),
    ],
)
def test_what_cannot_be_written_is_said_in_a_sentence(words, says, tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    assert main(words) == 2
    assert says in capsys.readouterr().err
