"""What stands between one learner's programs and another's: three ways, tried before they are used.

A learner can run any program in their own server, so what counts is what the operating system
lets it see.
"""

import os
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterable, Sequence
from enum import Enum
from pathlib import Path

import navlib

FIRST_UID = 710_000
"""Learners' operating-system users are this and their own number: accounts need not exist."""

MOST_PROCESSES = 300
"""Processes and threads of one learner, where each has an operating-system user."""


class Isolation(Enum):
    """How learners are kept apart."""

    BOX = "box"
    OWN_USER = "own-user"
    NONE = "none"


SAYS = {
    Isolation.BOX: "Each learner works in a box of their own (bubblewrap): no files, programs or "
    "tokens of others can be seen from it.",
    Isolation.OWN_USER: "Each learner works as an operating-system user of their own: files and "
    "tokens of others cannot be read, but the list of running programs can, and /tmp is shared.",
    Isolation.NONE: "NOTHING keeps learners apart: whoever can write a line of Python can read and "
    "change the answers of others, answer in their names, and see the board.",
}

SHARED = (
    "In every mode the network of this machine is shared, and nothing bounds what one learner uses of "
    "processor, memory and disk."
)


class Unsafe(ValueError):
    """Learners could not be kept apart; the message says what to do."""


def choose(wanted: str | None = None) -> Isolation:
    """Return the way that learners are kept apart: the one wanted, else the best that works here.

    Raises Unsafe if the one wanted does not work, and if none does: having none has to be asked for,
    and not by root, whose programs the learners' would then be.
    """
    if wanted == Isolation.NONE.value:
        if os.geteuid() == 0:
            raise Unsafe(
                "With “--isolation none” whatever a learner runs would run as root, so the class "
                "server does not start. Start it as another user, or leave “--isolation none” out: "
                "each learner then works in a box or as an operating-system user of their own."
            )
        return Isolation.NONE
    problems = {way: _problem(way) for way in (Isolation.BOX, Isolation.OWN_USER)}
    for way, problem in problems.items():
        if not problem and wanted in (None, way.value):
            return way
    tried = [problem for way, problem in problems.items() if wanted in (None, way.value)]
    raise Unsafe(
        "Learners cannot be kept apart here, so the class server does not start. "
        + " ".join(tried)
        + " Or, for a try on your own, run it with “--isolation none”: "
        + SAYS[Isolation.NONE]
    )


def command(
    way: Isolation, uid: int, home: Path, shown: Iterable[Path], words: Sequence[str]
) -> list[str]:
    """Return the words of the command line that runs `words` as a learner.

    `uid` is the learner's operating-system user, `home` their own folder, `shown` what else they
    may read.
    """
    if way is not Isolation.BOX:
        return list(words)
    as_root = os.geteuid() == 0
    box = [
        *(shutil.which("bwrap") or "bwrap", "--die-with-parent", "--new-session"),
        *("--unshare-pid", "--unshare-ipc", "--unshare-uts"),
        *("--proc", "/proc", "--dev", "/dev", "--perms", "1777", "--tmpfs", "/tmp"),
        *("--perms", "1777", "--tmpfs", "/dev/shm"),
    ]
    for place in _SYSTEM:
        box += ["--ro-bind-try", place, place]
    held = [Path("/usr")]
    for path in dict.fromkeys([*_python(), *shown]):
        if not any(path.is_relative_to(known) for known in held):
            box += [*_way_to(path), "--ro-bind", str(path), str(path)]
            held.append(path)
    box += [*_way_to(home), "--bind", str(home), str(home)]
    if not as_root:
        return [*box, "--", *words]
    rights = ("CAP_SETUID", "CAP_SETGID", "CAP_SETPCAP")
    box += ["--cap-drop", "ALL", *(word for right in rights for word in ("--cap-add", right))]
    drop = ("--clear-groups", "--bounding-set=-all", "--inh-caps=-all", "--no-new-privs")
    return [*box, "--", "setpriv", f"--reuid={uid}", f"--regid={uid}", *drop, *words]


def become(way: Isolation, uid: int, home: Path) -> Callable[[], None]:
    """Return what a new process does before it becomes the learner's program."""

    def own_user() -> None:
        import resource

        resource.setrlimit(resource.RLIMIT_NPROC, (MOST_PROCESSES, MOST_PROCESSES))
        os.setgroups([])
        os.setgid(uid)
        os.setuid(uid)
        alone()

    def alone() -> None:
        os.umask(0o077)
        os.chdir(home)

    return own_user if way is Isolation.OWN_USER else alone


def own(path: Path, uid: int) -> None:
    """Make a folder that only that operating-system user can enter."""
    path.mkdir(mode=0o700, parents=True, exist_ok=True)
    if os.geteuid() == 0:
        os.chown(path, uid, uid, follow_symlinks=False)
    path.chmod(0o700)


_SYSTEM = (
    *("/usr", "/bin", "/sbin", "/lib", "/lib32", "/lib64", "/etc/ld.so.cache", "/etc/alternatives"),
    *("/etc/fonts", "/etc/ssl/certs", "/etc/localtime", "/etc/timezone", "/etc/hosts"),
    *("/etc/nsswitch.conf", "/etc/resolv.conf", "/etc/mime.types", "/etc/passwd", "/etc/group"),
)


def _python() -> list[Path]:
    """Return the folders that this Python and this library are in."""
    library = Path(navlib.__file__).resolve().parent
    return [Path(place) for place in (sys.base_prefix, sys.prefix)] + [library]


def _way_to(path: Path) -> list[str]:
    """Return the words that make the folders above `path`, for all to pass through."""
    above = [p for p in reversed(path.parents) if str(p) not in ("/", "/tmp", "/usr")]
    return [word for p in above for word in ("--perms", "0755", "--dir", str(p))]


def _problem(way: Isolation) -> str:
    """Return why that way cannot be gone here, "" if it can; it is tried with a learner's program."""
    if way is Isolation.BOX and not shutil.which("bwrap"):
        return "For a box for each learner, install bubblewrap (on Debian: apt-get install bubblewrap)."
    if way is Isolation.OWN_USER and os.geteuid() != 0:
        return "For an operating-system user for each, start it as root."
    words = [sys.executable, "-c", "import navlib"]
    uid = FIRST_UID
    try:
        with tempfile.TemporaryDirectory(prefix="nav-try-") as place:
            own(Path(place), uid)
            tried = subprocess.run(
                command(way, uid, Path(place), (), words),
                preexec_fn=become(way, uid, Path("/")),
                capture_output=True,
                text=True,
                timeout=60,
                check=False,
            )
    except (OSError, subprocess.SubprocessError) as problem:
        said = str(problem)
    else:
        if tried.returncode == 0:
            return ""
        said = (tried.stderr.strip().splitlines() or ["it ended with an error"])[-1]
    if way is Isolation.BOX:
        return f"bubblewrap does not work here ({said})."
    return (
        f"An operating-system user of a learner's cannot run {sys.executable} ({said}): make the "
        "virtual environment with the system's Python, in a folder that everybody may read."
    )
