"""The class service: takes answers under the hub's own tokens, and gives the instructor the board.

`API.md` beside this says what it is asked and what it answers.
"""

import asyncio
import os
import signal
import socket

from tornado.httpserver import HTTPServer
from tornado.web import Application

from navlib.classroom import for_instructors, for_learners, page
from navlib.classroom.api import NotThere
from navlib.classroom.database import Database
from navlib.classroom.gate import Gate
from navlib.classroom.limits import LARGEST
from navlib.classroom.passes import Passes
from navlib.classroom.people import People
from navlib.classroom.pictures import Pictures
from navlib.classroom.room import Room
from navlib.classroom.store import Store
from navlib.classroom.teaching import Teaching


def application(room: Room, prefix: str) -> Application:
    """Return the service as an application at `prefix`."""
    prefix = prefix.rstrip("/")
    found = [*for_learners.ADDRESSES, *for_instructors.ADDRESSES]
    return Application(
        [
            *((f"{prefix}/{address}", handler, {"room": room}) for address, handler in found),
            *page.addresses(room, prefix),
        ],
        default_handler_class=NotThere,
        default_handler_args={"room": room},
        cookie_secret=room.passes.secret,
        compress_response=True,  # a sheet comes down to a fifth, which counts over a poor network
        log_function=lambda _: None,  # what is asked is nobody's business
    )


def serve(sockets: list[socket.socket], secret: bytes) -> None:
    """Serve until told to stop; the settings are the environment's, as the hub gives it.

    Browsers' cookies are signed with `secret`: with another one their owners have to log in anew.
    """
    asyncio.run(_serve(sockets, secret))


async def _serve(sockets: list[socket.socket], secret: bytes) -> None:
    database = Database(os.environ["NAVLIB_CLASS_DATABASE"])
    hub, token = os.environ["JUPYTERHUB_API_URL"], os.environ["JUPYTERHUB_API_TOKEN"]
    prefix = os.environ["JUPYTERHUB_SERVICE_PREFIX"]
    passes = Passes(page.login(prefix).cookie_name, secret)
    word = os.environ.get("NAVLIB_CLASS_WORD", "")
    room = Room(Store(database), People(database), Gate(hub, token), passes, Pictures(), word)
    await room.do(room.catch_up)
    await room.do(Teaching(room.store, room.people).drop_old)
    server = HTTPServer(
        application(room, prefix),
        max_body_size=LARGEST,
        max_header_size=LARGEST,
        idle_connection_timeout=120,
        body_timeout=20,
    )
    server.add_sockets(sockets)
    stop = asyncio.Event()
    for number in (signal.SIGTERM, signal.SIGINT):
        asyncio.get_running_loop().add_signal_handler(number, stop.set)
    await stop.wait()
    server.stop()
    database.close()
