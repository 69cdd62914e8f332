"""Opening a lesson's library against importing what any widget lesson imports, each in a new process."""

import subprocess
import sys

import pytest

BARE = "import ipywidgets, matplotlib.figure"
LESSON = "from navlib.widgets import Lesson; Lesson('bearings')"
EXERCISE = f"{LESSON}.exercise(2)"


@pytest.mark.benchmark(group="opening a lesson", min_rounds=5)
@pytest.mark.parametrize("code", [BARE, LESSON, EXERCISE], ids=["bare", "lesson", "exercise"])
def test_opening(benchmark, code, tmp_path, monkeypatch):
    monkeypatch.setenv("NAVLIB_RECORD", str(tmp_path / "r.sqlite"))
    benchmark(subprocess.run, [sys.executable, "-c", code], check=True)
