"""What all tests share: an own record, properties that have the time they need, and who runs what."""

import os
import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path, PurePosixPath
from typing import Any

import pytest
from hypothesis import settings
from xdist.scheduler import LoadScopeScheduling

# Notebooks under test are run by kernels of their own: they must not write into anyone's record.
_own = tempfile.TemporaryDirectory(prefix="navlib-tests-")
os.environ["NAVLIB_RECORD"] = f"{_own.name}/record.sqlite"
os.environ["NAVLIB_PAPERS"] = f"{_own.name}/papers"
os.environ["NAVLIB_CLASSES"] = f"{_own.name}/classes"

settings.register_profile("unhurried", deadline=None)
settings.load_profile("unhurried")

SHARES_NOTHING = {"test_slip_table.py", "test_marking.py"}
"""Files whose tests set up nothing together: they fill the gaps between the others."""


class ByFile(LoadScopeScheduling):
    """With several workers (`-n auto`) a file stays with one: what it sets up serves all its tests."""

    def _split_scope(self, nodeid: str) -> str:
        file = nodeid.split("::", 1)[0]
        return nodeid if PurePosixPath(file).name in SHARES_NOTHING else file


@pytest.fixture(scope="session")
def browser() -> Iterator[Any]:
    """A real browser, for whoever opens pages in it."""
    from playwright.sync_api import expect, sync_playwright
    from rig import PATIENCE_MS, QUIET, fetched_browser, installed_browser

    expect.set_options(timeout=PATIENCE_MS)
    program = installed_browser()
    if program is None:
        fetched_browser()
    with sync_playwright() as playwright:
        chromium = playwright.chromium.launch(executable_path=program, args=QUIET)
        yield chromium
        chromium.close()


@pytest.fixture
def screenshot(tmp_path: Path) -> Callable[[Any, str], Path]:
    """Save what is on a page, for a person to look at, where NAVLIB_PICTURES says or else aside."""

    def saved(page: Any, name: str) -> Path:
        folder = Path(os.environ.get("NAVLIB_PICTURES", tmp_path))
        folder.mkdir(parents=True, exist_ok=True)
        page.screenshot(path=folder / f"{name}.png")
        return folder / f"{name}.png"

    return saved


@pytest.hookimpl(optionalhook=True)  # xdist may be off
def pytest_xdist_auto_num_workers(config: pytest.Config) -> int:
    """One worker more than there are cores: a browser test waits a third of its time."""
    return (os.cpu_count() or 1) + 1


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_make_scheduler(config: pytest.Config, log: Any) -> ByFile:
    return ByFile(config, log)
