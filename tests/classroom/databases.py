"""A PostgreSQL server for a test's own use, begun in a temporary folder and ended with it."""

import os
import shutil
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

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
def postgresql(folder: Path) -> Iterator[str]:
    """Yield the URL of an empty database."""
    folder.mkdir()
    as_other: dict[str, int] = {}
    if os.geteuid() == 0:
        as_other = {"user": NOBODY, "group": NOBODY}
        os.chown(folder, NOBODY, NOBODY)
        for above in [p for p in folder.parents if p.stat().st_uid == 0 and str(p) != "/"]:
            above.chmod(above.stat().st_mode | 0o011)  # to pass through, not to read
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
