"""The smaller rooms of the class server: keeping learners apart, limits, laying out lessons."""

import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from navlib.classroom.board import board
from navlib.classroom.isolation import FIRST_UID, Isolation, Unsafe, become, choose, command, own
from navlib.classroom.limits import Limit
from navlib.classroom.seat import lay_out

AS_ROOT = os.geteuid() == 0


def test_the_unsafe_way_is_taken_only_when_asked_for(monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setenv("PATH", "/nowhere")
    with pytest.raises(Unsafe, match=r"install bubblewrap.*--isolation none.*NOTHING"):
        choose("box")
    if AS_ROOT:
        with pytest.raises(Unsafe, match="would run as root"):
            choose("none")
    else:
        with pytest.raises(Unsafe, match="start it as root"):
            choose()
        assert choose("none") is Isolation.NONE


def test_the_command_refuses_with_a_sentence(tmp_path: Path):
    words = ("class", "serve", "--isolation", "box", "--folder", str(tmp_path / "class"))
    ran = subprocess.run(
        [sys.executable, "-m", "navlib", *words],
        env={**os.environ, "PATH": "/nowhere"},
        capture_output=True,
        text=True,
        check=False,
    )
    assert ran.returncode == 2
    assert ran.stderr.startswith("Learners cannot be kept apart here")
    assert "Traceback" not in ran.stderr


@pytest.fixture
def open_folder() -> Iterator[Path]:
    """A folder that every user may pass through: pytest shuts its own to all others."""
    with TemporaryDirectory(prefix="nav-homes-") as folder:
        Path(folder).chmod(0o711)
        yield Path(folder)


def test_a_learner_in_a_way_sees_nothing_of_another(open_folder: Path):
    """Each way but none, with the system's own programs: they are there whoever runs them."""
    ways = [Isolation.BOX, *([Isolation.OWN_USER] if AS_ROOT else [])]
    for way in ways:
        homes = [open_folder / way.value / name for name in ("ina", "oskar")]
        homes[0].parent.mkdir(mode=0o711)
        for number, home in enumerate(homes):
            own(home, FIRST_UID + number if AS_ROOT else os.geteuid())
            (home / "secret").write_text(home.name)
        uid = FIRST_UID if AS_ROOT else os.geteuid()
        (homes[0] / "secret").chmod(0o644)
        tried = {
            home.name: subprocess.run(
                command(way, uid, homes[0], (), ["/bin/cat", str(home / "secret")]),
                preexec_fn=become(way, uid, homes[0]),
                capture_output=True,
                text=True,
                check=False,
            )
            for home in homes
        }
        assert tried["ina"].stdout == "ina", tried["ina"].stderr
        assert tried["oskar"].stdout == ""
        assert tried["oskar"].returncode != 0


def test_a_limit_empties_and_fills_again():
    now = [0.0]
    limit = Limit(burst=3, every_s=10, clock=lambda: now[0])
    for _ in range(3):
        assert limit.wait_s("ina") == 0
        limit.used("ina")
    assert limit.wait_s("ina") == pytest.approx(10)
    assert limit.wait_s("oskar") == 0
    now[0] = 10
    assert limit.wait_s("ina") == 0
    limit.used("ina")
    assert limit.wait_s("ina") == pytest.approx(10)
    limit.forget("ina")
    assert limit.wait_s("ina") == 0


def test_a_flood_of_names_does_not_fill_the_memory():
    limit = Limit(burst=1, every_s=1)
    for number in range(10_100):
        limit.used(number)
    assert len(limit._left) == 10_000


def test_new_lessons_are_laid_out_and_own_work_stays(tmp_path: Path):
    lessons, home = tmp_path / "lessons", tmp_path / "home"
    (lessons / "pictures").mkdir(parents=True)
    (lessons / "tides.ipynb").write_text("first")
    (lessons / "pictures" / "chart.png").write_bytes(b"png")
    here = lay_out(lessons, home)
    (here / "my-notes.ipynb").write_text("mine")
    (lessons / "tides.ipynb").write_text("second")
    os.utime(lessons / "tides.ipynb", (2e9, 2e9))
    lay_out(lessons, home)
    assert (here / "tides.ipynb").read_text() == "second"
    assert (here / "my-notes.ipynb").read_text() == "mine"
    assert (here / "pictures" / "chart.png").exists()


def test_a_board_before_anybody_came_is_empty():
    from navlib import questions

    asked = dict.fromkeys(("id", "session", "position", "segment", "closed", "revealed"))
    asked |= {"kind": "bearings.true-to-magnetic", "state": "open", "tell": 0, "own": 0}
    asked |= {"opened": "2026-11-26T19:00:00.000+00:00"}
    seen = board(asked, [], [], lambda _: questions.make("bearings.true-to-magnetic", 1))
    assert (seen["joined"], seen["in"], seen["pair"], seen["stuck"]) == (0, 0, None, [])
    assert seen["parts"][0]["key"], "one for all: the board knows the key"
