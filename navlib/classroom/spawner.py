"""Starts a learner's server: in their own home, kept apart from others as chosen."""

import asyncio
import json
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

from jupyterhub.spawner import LocalProcessSpawner
from jupyterhub.utils import random_port
from traitlets import Unicode

from navlib.classroom.database import Database
from navlib.classroom.isolation import FIRST_UID, Isolation, become, command, own
from navlib.classroom.nursery import server
from navlib.classroom.people import People

_ANYWHERE = {
    "MALLOC_ARENA_MAX": "2",  # memory: each thread of a server would get an arena of its own
    "OPENBLAS_NUM_THREADS": "1",
    "LANG": "C.UTF-8",
    "SHELL": "/bin/sh",
}


class Seat(LocalProcessSpawner):
    """A learner's server on this machine."""

    isolation = Unicode(Isolation.BOX.value, help="How learners are kept apart.").tag(config=True)
    homes = Unicode(help="The folder of the learners' homes.").tag(config=True)
    nursery = Unicode(help="Where a nursery listens that servers are forked from.").tag(config=True)
    logs = Unicode(help="The folder where servers' own messages go.").tag(config=True)
    short = Unicode(help="A folder with a short path, for sockets.").tag(config=True)
    lessons = Unicode(help="The folder of lessons.").tag(config=True)
    database = Unicode(help="Where the people of the class are kept.").tag(config=True)

    async def start(self) -> Any:
        """Make the home, then start the server in it."""
        own(self.home, self.uid)
        if self._way is not Isolation.BOX:
            own(self._runtime, self.uid)
        log = Path(self.logs, f"{self.user.name}.log")
        if self.nursery:
            try:
                return await self._start_in_nursery(log)
            except OSError as problem:
                self.log.error("%s starts without the nursery: %s", self.user.name, problem)
                await self._take_down()
        words = [sys.executable, "-P", "-m", "navlib.classroom.seat"]
        self.cmd = self._words(words)
        with open(log, "wb") as out:  # the hub's own: learners cannot read it
            self.popen_kwargs = {"stdout": out.fileno(), "stderr": out.fileno()}
            return await super().start()

    async def stop(self, now: bool = False) -> None:
        """Stop the server, and all that was begun in the learner's box."""
        await super().stop(now)
        await self._take_down()

    async def _take_down(self) -> None:
        if self._box is not None:
            self._box.kill()
            await asyncio.to_thread(self._box.wait)
            self._box = None

    async def _start_in_nursery(self, log: Path) -> tuple[str, int]:
        port = int(getattr(self, "port", 0)) or random_port()
        self.port = port
        box = None
        if self._way is Isolation.BOX:
            self._box, box = await asyncio.to_thread(self._build_box)
        asked = {"uid": self.uid, "home": str(self.home), "log": str(log), "box": box}
        asked["env"] = self.get_env()
        self.proc, self.pid = None, 0
        self.pid = await asyncio.to_thread(server, Path(self.nursery), **asked)
        return self.ip or "127.0.0.1", port

    def _build_box(self) -> tuple["subprocess.Popen[bytes]", int]:
        """Build the box, held open by a program that does nothing; return a process in it too."""
        told, tell = os.pipe()
        words = self._words(["/bin/sh", "-c", "echo; exec sleep infinity"])
        words[1:1] = ["--info-fd", str(tell)]
        box = subprocess.Popen(
            words, pass_fds=[tell], stdin=subprocess.DEVNULL, stdout=subprocess.PIPE
        )
        os.close(tell)
        with open(told, encoding="utf-8") as info:
            inside = json.load(info)["child-pid"]
        assert box.stdout is not None
        with box.stdout:
            box.stdout.readline()  # from here on the box is whole
        return box, int(inside)

    def _words(self, words: list[str]) -> list[str]:
        return command(self._way, self.uid, self.home, [Path(self.lessons)], words)

    @property
    def home(self) -> Path:
        """The learner's own folder."""
        return Path(self.homes, self.user.name)

    @property
    def uid(self) -> int:
        """The learner's operating-system user."""
        if os.geteuid() != 0:
            return os.geteuid()
        if not self._uid:
            self._uid = FIRST_UID + People(_database(self.database)).number(self.user.name)
        return self._uid

    def make_preexec_fn(self, name: str) -> Callable[[], None]:
        """Return what the new process does to become the learner's."""
        return become(self._way, self.uid, self.home)

    def user_env(self, env: dict[str, str]) -> dict[str, str]:
        """Return the environment with what is the learner's own."""
        return {
            **env,
            **_ANYWHERE,
            "USER": self.user.name,
            "HOME": str(self.home),
            "JUPYTER_RUNTIME_DIR": str(self._runtime),
            "NAVLIB_CLASS_LESSONS": self.lessons,
        }

    async def move_certs(self, paths: dict[str, str]) -> dict[str, str]:
        """Leave certificates where they are."""
        return paths

    _uid = 0
    _box: "subprocess.Popen[bytes] | None" = None

    @property
    def _way(self) -> Isolation:
        return Isolation(self.isolation)

    @property
    def _runtime(self) -> Path:
        """Where sockets lie: a path of at most 107 characters with the socket's name."""
        if self._way is Isolation.BOX:
            return Path("/tmp/run")
        return Path(self.short, str(self.user.id))


_databases: dict[str, Database] = {}


def _database(url: str) -> Database:
    if url not in _databases:
        _databases[url] = Database(url)
    return _databases[url]
