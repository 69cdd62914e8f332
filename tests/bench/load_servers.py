"""Memory a learner and start time: a whole class sits down at once, each with a kernel.

    python tests/bench/load_servers.py [--learners 20] [--isolation box]

Memory is the proportional set size of all programs of a learner: what is shared counts by shares.
"""

import argparse
import re
import tempfile
import time
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

from load_classroom import WORD, come_in, open_hall  # brings the classroom tests' helpers with it

from hall import kernel_of, sit_down  # isort: skip

from navlib.classroom.isolation import FIRST_UID


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else "")
    parser.add_argument("--learners", type=int, default=20)
    parser.add_argument("--isolation", default="box")
    given = parser.parse_args()
    names = [f"learner-{n:02}" for n in range(given.learners)]
    with tempfile.TemporaryDirectory(prefix="load-") as made:
        folder = Path(made)
        folder.chmod(0o711)
        words = ("--word", WORD, "--isolation", given.isolation)
        with open_hall(folder / "class", *words) as hall:
            browsers = {name: come_in(hall, name) for name in names}
            began = time.monotonic()
            for name in names:
                sit_down(browsers[name], name)
            with ThreadPoolExecutor(given.learners) as pool:
                kernels = list(pool.map(lambda name: kernel_of(browsers[name], name), names))
                up = time.monotonic() - began
                list(pool.map(lambda kernel: kernel.run("1 + 1"), kernels))
            alive = time.monotonic() - began
            print(f"{given.learners} servers up in {up:.0f} s, with a kernel each in {alive:.0f} s")
            total = sum(pss_mb(pid) for pid in programs(str(folder / "class/homes")))
            print(f"{total / given.learners:.0f} MB a learner, server and kernel")


def programs(homes: str) -> list[int]:
    """Return the programs that work in learners' homes, or as their operating-system users."""
    found = []
    for path in Path("/proc").glob("[0-9]*"):
        try:
            theirs = FIRST_UID < path.stat().st_uid < FIRST_UID + 10_000
            if theirs or f"HOME={homes}".encode() in (path / "environ").read_bytes():
                found.append(int(path.name))
        except OSError:
            continue
    return found


def pss_mb(pid: int) -> float:
    try:
        text = Path(f"/proc/{pid}/smaps_rollup").read_text()
    except OSError:
        return 0.0
    found = re.search(r"^Pss:\s+(\d+) kB", text, re.MULTILINE)
    return int(found[1]) / 1024 if found else 0.0


if __name__ == "__main__":
    main()
