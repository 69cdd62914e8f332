"""Keeps the class service up: begins it again at once if it dies, its door held open meanwhile.

The keeper holds the listening sockets, so that whoever calls while the service begins again waits
a moment and is answered, instead of being turned away.
"""

import os
import secrets
import signal
import sys
import time
import traceback
from collections.abc import Callable
from pathlib import Path
from types import FrameType
from urllib.parse import urlsplit

from tornado.netutil import bind_sockets

QUICK_S = 1.0
"""A service that lived shorter than this is not begun again before it has passed."""


def keep_up(service: Callable[[], None], note: Path | None = None) -> None:
    """Run `service` in a process of its own, again and again, until this one is told to stop.

    All that `service` imports is loaded already, so that beginning again takes a blink. The folder
    `note` gets a file `service.pid` that says which process serves.
    """
    child = 0
    stopping = False

    def stop(number: int, _: FrameType | None) -> None:
        nonlocal stopping
        stopping = True
        if child:
            os.kill(child, signal.SIGTERM)

    for number in (signal.SIGTERM, signal.SIGINT):
        signal.signal(number, stop)
    while not stopping:
        began = time.monotonic()
        held, letting_go = os.pipe()
        child = os.fork()
        if child == 0:
            os.close(letting_go)
            _serve(service, held)
        os.close(held)
        if note is not None:
            part = note / "service.pid.part"  # whoever reads meanwhile sees a whole one
            part.write_text(f"{child}\n")
            part.replace(note / "service.pid")
        _wait(child)
        os.close(letting_go)
        child = 0
        if not stopping and time.monotonic() - began < QUICK_S:
            time.sleep(QUICK_S)


def _serve(service: Callable[[], None], held: int) -> None:
    """Run the service, which ends with its keeper: the pipe from it closes then."""
    import threading

    for number in (signal.SIGTERM, signal.SIGINT):
        signal.signal(number, signal.SIG_DFL)

    def watch() -> None:
        os.read(held, 1)
        os._exit(0)

    threading.Thread(target=watch, daemon=True).start()
    status = 0
    try:
        service()
    except BaseException:
        traceback.print_exc()
        status = 1
    sys.stdout.flush()
    sys.stderr.flush()
    os._exit(status)


def _wait(child: int) -> None:
    while True:
        try:
            os.waitpid(child, 0)
        except InterruptedError:
            continue
        return


def main() -> None:
    """Keep the service up at the address that the hub gave it."""
    address = urlsplit(os.environ["JUPYTERHUB_SERVICE_URL"])
    sockets = bind_sockets(address.port or 80, address.hostname, backlog=512)
    from navlib.classroom import database, service  # takes a while; the door is open already

    database.load(os.environ["NAVLIB_CLASS_DATABASE"])
    secret = secrets.token_bytes(32)  # a service that begins again still knows who is logged in
    keep_up(lambda: service.serve(sockets, secret), note=Path(os.environ["NAVLIB_CLASS_FOLDER"]))


if __name__ == "__main__":
    main()
