"""Learners' servers forked from a program that has loaded all of JupyterLab once, for a class.

A server begun on its own reads and keeps some 90 MB; one forked here shares most of that with all
others, and is there in a moment. It goes into the learner's box, gives up root for good, and only then
runs what is the learner's.

The nursery itself never reads a request: its memory is copied into every server, so that nobody's
token may be in it. Only root can start one.
"""

import ctypes
import gc
import json
import os
import resource
import signal
import socket
import subprocess
import sys
import traceback
from importlib import import_module
from pathlib import Path
from typing import Any

from navlib.classroom.isolation import MOST_PROCESSES

_LIBC = ctypes.CDLL(None, use_errno=True)
_ROOMS = {"mnt": 0x00020000, "uts": 0x04000000, "ipc": 0x08000000, "pid": 0x20000000}
"""What a box keeps apart, by its name in /proc/PID/ns and its number in setns(2)."""
_DIE_WITH_PARENT, _DROP_FROM_BOUND, _NO_NEW_PRIVILEGES = 1, 24, 38
"""Numbers of prctl(2)."""


def begin(door: Path) -> "subprocess.Popen[bytes]":
    """Start a nursery that listens at `door`; it ends with this process."""
    quiet = {"PATH": os.environ.get("PATH", ""), "LANG": "C.UTF-8", "MALLOC_ARENA_MAX": "2"}
    words = [sys.executable, "-P", "-m", "navlib.classroom.nursery", str(door)]
    return subprocess.Popen(words, env=quiet, stdin=subprocess.DEVNULL)


def server(door: Path, **request: Any) -> int:
    """Have a learner's server begun and return its process; raises OSError if it could not be.

    `uid`, `home`, `env` and `log` are the learner's; `box` is a process in the learner's box, or None.
    """
    with socket.socket(socket.AF_UNIX) as caller:
        caller.settimeout(60)
        caller.connect(str(door))
        caller.sendall(json.dumps(request).encode())
        caller.shutdown(socket.SHUT_WR)
        reply = caller.makefile().read()
    if not reply:
        raise OSError("the learner's server could not be begun; its log says why")
    return int(reply)


def main() -> None:
    """Load everything, then fork a server for each caller at the door on the command line."""
    _LIBC.prctl(_DIE_WITH_PARENT, signal.SIGKILL)
    with socket.socket(socket.AF_UNIX) as door:
        os.umask(0o177)
        door.bind(sys.argv[1])
        door.listen(128)  # who calls already waits until all is loaded
        os.umask(0o077)
        _load()
        signal.signal(signal.SIGCHLD, signal.SIG_IGN)  # nobody asks how a server ended
        while True:
            caller, _ = door.accept()
            if os.fork() == 0:
                door.close()
                _begin(caller)
            caller.close()


_LOADED = (
    *("jupyterhub.singleuser", "jupyterlab.labapp", "nbconvert.exporters"),
    *("navlib.classroom.seat", "navlib.lab.contents"),
)
"""What a learner's server is made of."""


def _load() -> None:
    for name in _LOADED:
        import_module(name)
    gc.collect()
    gc.freeze()  # a collection would touch, and so copy, what is shared


def _begin(caller: socket.socket) -> None:
    """Begin one server, say which process it is, and bury it when it ends."""
    signal.signal(signal.SIGCHLD, signal.SIG_DFL)
    try:
        asked = json.loads(caller.makefile().read())
        os.setsid()
        log = os.open(asked["log"], os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600)
        for number in (1, 2):
            os.dup2(log, number)
        if asked["box"] is not None:
            _enter(asked["box"])
        child = os.fork()
        if child == 0:
            os.closerange(3, 65_536)
            _be_learner(asked)
        caller.sendall(str(child).encode())
        caller.close()
        os.waitpid(child, 0)
    except BaseException:
        traceback.print_exc()
    os._exit(0)


def _enter(box: int) -> None:
    """Go into the box that a process is in; children live there."""
    doors = {name: os.open(f"/proc/{box}/ns/{name}", os.O_RDONLY) for name in _ROOMS}
    for name, number in _ROOMS.items():
        if _LIBC.setns(doors[name], number) != 0:
            raise OSError(ctypes.get_errno(), f"the box's {name} cannot be entered")


def _be_learner(asked: dict[str, Any]) -> None:
    """Give up root, for this program and all that it will run, and become the server."""
    status = 1
    try:
        resource.setrlimit(resource.RLIMIT_NPROC, (MOST_PROCESSES, MOST_PROCESSES))
        _LIBC.prctl(_NO_NEW_PRIVILEGES, 1, 0, 0, 0)
        for right in range(64):
            _LIBC.prctl(_DROP_FROM_BOUND, right, 0, 0, 0)
        os.setgroups([])
        os.setresgid(asked["uid"], asked["uid"], asked["uid"])
        os.setresuid(asked["uid"], asked["uid"], asked["uid"])
        os.umask(0o077)
        os.environ.clear()
        os.environ.update(asked["env"])
        os.chdir(asked["home"])
        from navlib.classroom import seat

        seat.main()
        status = 0
    except SystemExit as end:
        status = end.code if isinstance(end.code, int) else 0
    except BaseException:
        traceback.print_exc()
    finally:
        sys.stdout.flush()
        sys.stderr.flush()
        os._exit(status)


if __name__ == "__main__":
    main()
