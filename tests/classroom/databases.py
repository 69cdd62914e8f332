"""A PostgreSQL server for a test's own use, begun in a temporary folder and ended with it."""

import os
import shutil
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hall import free_port

NOBODY = 65_534
"""The user that PostgreSQL runs as where the tests run as root, which it refuses to do."""


def program(name: str) -> str:
    places = sorted(Path("/usr/lib/postgresql").glob(f"*/bin/{name}"), reverse=True)
    found = shutil.which(name) or next((str(place) for place in places), None)
    if found is None:
        pytest.fail(
            "The class server's tests need PostgreSQL: install it (on Debian or Ubuntu: "
            "apt-get install postgresql).",
            pytrace=False,
        )
    return found


@contextmanager
def postgresql() -> Iterator[str]:
    """Yield the URL of an empty database, kept where its own user may go and pytest does not shut."""
    with TemporaryDirectory(prefix="nav-pg-") as folder:
        yield from _serving(Path(folder))


def _serving(folder: Path) -> Iterator[str]:
    as_other: dict[str, int] = {}
    if os.geteuid() == 0:
        as_other = {"user": NOBODY, "group": NOBODY}
        os.chown(folder, NOBODY, NOBODY)
    data, port = folder / "data", free_port()
    quiet = {"cwd": folder, "capture_output": True, "check": True, "extra_groups": []}
    init = [program("initdb"), "-D", str(data), "-U", "class", "--auth=trust", "--no-sync"]
    subprocess.run([*init, "-E", "UTF8", "--locale=C"], **quiet, **as_other)  # type: ignore[call-overload]
    settings = (
        f"-p {port} -k {folder} -c listen_addresses=127.0.0.1 -c dynamic_shared_memory_type=mmap"
    )
    control = [program("pg_ctl"), "-D", str(data), "-w"]
    begin = [*control, "-o", settings, "-l", str(folder / "log"), "start"]
    subprocess.run(begin, **quiet, **as_other)  # type: ignore[call-overload]
    try:
        yield f"postgresql://class@127.0.0.1:{port}/postgres"
    finally:
        subprocess.run([*control, "-m", "immediate", "stop"], **quiet, **as_other)  # type: ignore[call-overload]
