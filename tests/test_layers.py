"""Arrows between the rooms of the library point only down, and never round in a circle."""

import ast
from collections.abc import Iterator
from graphlib import CycleError, TopologicalSorter
from pathlib import Path

import pytest

import navlib

WRITTEN = {"notation", "figures", "language"}
TRADE = {
    "angles",
    "bearings",
    "clock",
    "coastline",
    "deviation",
    "distance",
    "fixes",
    "geodesy",
    "gridref",
    "grids",
    "latlon",
    "magnetism",
    "mgrs",
    "sailings",
    "speed",
    "streams",
    "tides",
    "units",
}
KNOWS: dict[str, set[str]] = {
    "__init__": set(),
    "language": set(),
    "notation": {"language"},
    "figures": {"language", "notation"},
    **dict.fromkeys(TRADE, WRITTEN | TRADE),
    "chain": {"language", "notation"},
    "kinds": {"chain"} | TRADE | WRITTEN,
    "waters": TRADE,
    "sheets": {"language", "waters"} | TRADE,
    "instruments": {"sheets"} | TRADE,
    "questions": {"language", "chain", "kinds", "waters"} | TRADE,
    "marking": {"language", "chain", "kinds"},
    "front": {"language"},
    "pictures": {"language", "sheets", "instruments", "questions", "kinds", "chain", "waters"}
    | TRADE,
    "record": {"language", "marking"},
    "paper": {"record", "pictures", "marking", "questions", "sheets", "kinds", "chain", "waters"}
    | TRADE
    | WRITTEN,
    "classroom": {
        *("paper", "record", "pictures", "marking", "questions", "sheets", "chain"),
        *("language", "front", "lab"),
    },
    "desk": {
        *(
            "language",
            "record",
            "marking",
            "pictures",
            "questions",
            "sheets",
            "instruments",
            "kinds",
        ),
        *("chain", "waters"),
    }
    | TRADE,
    "widgets": {
        "language",
        "front",
        "desk",
        "classroom",
        "paper",
        "pictures",
        "record",
        "marking",
        "questions",
        "sheets",
        "instruments",
        "chain",
        "waters",
    }
    | TRADE
    | WRITTEN,
    "texts": {"language", "questions", "chain"},
    "lab": {"language"},
    "__main__": {"texts", "lab", "classroom", "paper", "record", "sheets", "waters", "gridref"},
}
"""What each room may know beside itself."""

ROOT = Path(navlib.__file__).parent
MODULES = sorted(ROOT.rglob("*.py"))


def room(path: Path) -> str:
    return path.relative_to(ROOT).parts[0].removesuffix(".py")


ROOMS = {room(path) for path in MODULES}


def known_to(path: Path) -> Iterator[str]:
    """Yield the rooms that the module at `path` imports from, its own left out."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        match node:
            case ast.Import(names=names):
                whole = [alias.name for alias in names]
            case ast.ImportFrom(module="navlib", names=names, level=0):
                whole = [f"navlib.{alias.name}" for alias in names]
            case ast.ImportFrom(module=module, level=level):
                whole = [f"{'.' * level}{module or ''}"]
            case _:
                continue
        for name in whole:
            assert not name.startswith("."), (
                f"{path.name}: write “from navlib…”, not “from {name}”."
            )
            parts = name.split(".")
            if parts[0] == "navlib" and len(parts) > 1 and parts[1] != room(path):
                yield parts[1]


def test_every_room_has_a_place():
    assert not ROOMS - set(KNOWS), (
        f"{', '.join(sorted(ROOMS - set(KNOWS)))}: say in the table above what it may know."
    )
    assert not set(KNOWS) - ROOMS, (
        f"{', '.join(sorted(set(KNOWS) - ROOMS))}: there is no such room; take it out of the table."
    )


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(ROOT)))
def test_a_module_knows_only_what_is_below_it(path: Path):
    above = set(known_to(path)) - KNOWS.get(room(path), set())
    assert not above, f"{path.relative_to(ROOT)} must not know {', '.join(sorted(above))}."


def test_no_rooms_know_each_other():
    known: dict[str, set[str]] = {name: set() for name in ROOMS}
    for path in MODULES:
        known[room(path)] |= set(known_to(path))
    try:
        TopologicalSorter(known).prepare()
    except CycleError as circle:
        pytest.fail(f"Rooms know each other in a circle: {' <- '.join(circle.args[1])}.")
