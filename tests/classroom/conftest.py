"""A real class server for the tests of a file, and the people in it."""

from collections.abc import Iterator
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from class_asked import LEARNERS
from hall import WORD, Caller, Class, open_hall, sit_down

from navlib.classroom.isolation import Isolation, Unsafe, choose

LIST = (
    "name,role\nIna Skarp\nOskar Lund\nMira Holt\nJory Vane\nToke Brandt,coach\n<b>Runa</b> Sand\n"
    "Liv Aune\nPer Strand\nNils Berg\nEva Lie\n"
)


def kept_apart() -> Isolation:
    """Return how learners are kept apart here, or fail with what to install."""
    try:
        return choose()
    except Unsafe as unsafe:
        pytest.fail(f"The class server's tests must see learners kept apart. {unsafe}", False)


@pytest.fixture(scope="module")
def room() -> Iterator[Class]:
    way = kept_apart()
    # Learners pass through to their homes, and pytest shuts its own folders to all others.
    with TemporaryDirectory(prefix="nav-hall-") as place:
        folder = Path(place)
        folder.chmod(0o711)
        names = folder / "list.csv"
        names.write_text(LIST, encoding="utf-8")
        words = ("--list", str(names), "--word", WORD, "--isolation", way.value)
        with open_hall(folder / "class", *words) as hall:
            yield Class(hall)


@pytest.fixture(scope="module")
def people(room: Class) -> dict[str, Caller]:
    """Everybody, with a token each; two learners' own servers start meanwhile."""
    for name in ("ina-skarp", "oskar-lund"):
        sit_down(room.browser(name), name)
    return {name: room.caller(name) for name in (*LEARNERS, "instructor", "toke-brandt")}


@pytest.fixture
def instructor(people: dict[str, Caller]) -> Caller:
    return people["instructor"]
