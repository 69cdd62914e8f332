"""A real class server for the tests of a file, and the people in it."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hall import WORD, Browser, Caller, Hall, come_in, open_hall

from navlib.classroom.isolation import Isolation, Unsafe, choose

LIST = "name,role\nIna Skarp\nOskar Lund\nMira Holt\nJory Vane\nToke Brandt,coach\n"


def kept_apart() -> Isolation:
    """Return how learners are kept apart here, or fail with what to install."""
    try:
        return choose()
    except Unsafe as unsafe:
        pytest.fail(f"The class server's tests must see learners kept apart. {unsafe}", False)


@dataclass
class Class:
    """A class server with its people: browsers by name, and callers with the hub's own tokens."""

    hall: Hall
    browsers: dict[str, Browser] = field(default_factory=dict)

    def browser(self, name: str) -> Browser:
        if name not in self.browsers:
            staff = name in ("instructor", "toke-brandt")
            self.browsers[name] = come_in(
                self.hall, name, *([self.hall.staff_word] if staff else [])
            )
        return self.browsers[name]

    def caller(self, name: str) -> Caller:
        """Return somebody who asks the service with a token that the hub gave them."""
        made = self.browser(name).ask_hub("POST", f"users/{name}/tokens", json={})
        assert made.status_code == 201, made.text
        return Caller(self.hall.root, made.json()["token"])


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
