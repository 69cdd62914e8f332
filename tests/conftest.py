"""What all tests share: an own record, and properties that have the time they need."""

import os
import tempfile

from hypothesis import settings

# Notebooks under test are run by kernels of their own: they must not write into anyone's record.
_own = tempfile.TemporaryDirectory(prefix="navlib-tests-")
os.environ["NAVLIB_RECORD"] = f"{_own.name}/record.sqlite"

settings.register_profile("unhurried", deadline=None)
settings.load_profile("unhurried")
