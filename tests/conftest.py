"""What all tests share: an own record, properties that have the time they need, and who runs what."""

import os
import tempfile
from pathlib import PurePosixPath
from typing import Any

import pytest
from hypothesis import settings
from xdist.scheduler import LoadScopeScheduling

# Notebooks under test are run by kernels of their own: they must not write into anyone's record.
_own = tempfile.TemporaryDirectory(prefix="navlib-tests-")
os.environ["NAVLIB_RECORD"] = f"{_own.name}/record.sqlite"
os.environ["NAVLIB_PAPERS"] = f"{_own.name}/papers"

settings.register_profile("unhurried", deadline=None)
settings.load_profile("unhurried")

SHARES_NOTHING = {"test_slip_table.py", "test_marking.py"}
"""Files whose tests set up nothing together: they fill the gaps between the others."""


class ByFile(LoadScopeScheduling):
    """With several workers (`-n auto`) a file stays with one: what it sets up serves all its tests."""

    def _split_scope(self, nodeid: str) -> str:
        file = nodeid.split("::", 1)[0]
        return nodeid if PurePosixPath(file).name in SHARES_NOTHING else file


@pytest.hookimpl(optionalhook=True)  # xdist may be off
def pytest_xdist_auto_num_workers(config: pytest.Config) -> int:
    """One worker more than there are cores: a browser test waits a third of its time."""
    return (os.cpu_count() or 1) + 1


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_make_scheduler(config: pytest.Config, log: Any) -> ByFile:
    return ByFile(config, log)
