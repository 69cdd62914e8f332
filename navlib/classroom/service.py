"""The class service: takes answers under the hub's own tokens, and gives the instructor the board.

`API.md` beside this says what it is asked and what it answers.
"""

import asyncio
import os
import signal
import socket

from tornado.httpserver import HTTPServer
from tornado.web import Application

from navlib.classroom import for_instructors, for_learners
from navlib.classroom.api import LARGEST, NotThere
from navlib.classroom.database import Database
from navlib.classroom.gate import Gate
from navlib.classroom.people import People
from navlib.classroom.pictures import Pictures
from navlib.classroom.room import Room
from navlib.classroom.store import Store


def application(room: Room, prefix: str) -> Application:
    """Return the service as an application at `prefix`."""
    prefix = prefix.rstrip("/")
    found = [*for_learners.ADDRESSES, *for_instructors.ADDRESSES]
    return Application(
        [(f"{prefix}/{address}", handler, {"room": room}) for address, handler in found],
        default_handler_class=NotThere,
        default_handler_args={"room": room},
        log_function=lambda _: None,  # what is asked is nobody's business
    )


def serve(sockets: list[socket.socket]) -> None:
    """Serve until told to stop; the settings are the environment's, as the hub gives it."""
    asyncio.run(_serve(sockets))


async def _serve(sockets: list[socket.socket]) -> None:
    database = Database(os.environ["NAVLIB_CLASS_DATABASE"])
    hub, token = os.environ["JUPYTERHUB_API_URL"], os.environ["JUPYTERHUB_API_TOKEN"]
    room = Room(Store(database), People(database), Gate(hub, token), Pictures())
    await room.do(room.catch_up)
    server = HTTPServer(
        application(room, os.environ["JUPYTERHUB_SERVICE_PREFIX"]),
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
