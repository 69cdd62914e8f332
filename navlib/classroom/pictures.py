"""Draws the pictures of own questions in a program beside the service, which answers meanwhile.

Run as a program it reads lines of JSON, `[kind, seed]`, and writes the picture of each as one line.
"""

import asyncio
import json
import sys
from collections import OrderedDict
from typing import Any

MOST = 200
"""Pictures held in memory, about 0.3 MB each; all are kept on disk as well."""

LIMIT = 64 * 2**20
"""Bytes of the longest line."""


class Pictures:
    """Pictures by kind and seed, drawn one after another."""

    def __init__(self) -> None:
        self._drawn: OrderedDict[tuple[str, int], Any] = OrderedDict()
        self._turn = asyncio.Lock()
        self._program: asyncio.subprocess.Process | None = None
        self._ahead: set[asyncio.Task[None]] = set()

    async def of(self, kind: str, seed: int) -> Any:
        """Return the picture of a question as a front end holds it, None if it has none."""
        if (kind, seed) not in self._drawn:
            async with self._turn:
                if (kind, seed) not in self._drawn:
                    self._drawn[kind, seed] = await self._draw(kind, seed)
                    while len(self._drawn) > MOST:
                        self._drawn.popitem(last=False)
        return self._drawn[kind, seed]

    def ahead(self, wanted: list[tuple[str, int]]) -> None:
        """Draw pictures before anybody asks for them."""

        async def draw() -> None:
            for kind, seed in wanted:
                await self.of(kind, seed)

        task = asyncio.get_running_loop().create_task(draw())
        self._ahead.add(task)
        task.add_done_callback(self._ahead.discard)

    async def _draw(self, kind: str, seed: int) -> Any:
        for _ in range(2):
            if self._program is None or self._program.returncode is not None:
                self._program = await asyncio.create_subprocess_exec(
                    *(sys.executable, "-m", "navlib.classroom.pictures"),
                    stdin=asyncio.subprocess.PIPE,
                    stdout=asyncio.subprocess.PIPE,
                    limit=LIMIT,
                )
            into, out = self._program.stdin, self._program.stdout
            assert into is not None
            assert out is not None
            try:
                into.write(json.dumps([kind, seed]).encode() + b"\n")
                await into.drain()
                line = await out.readline()
            except (BrokenPipeError, ConnectionResetError):
                line = b""
            if line:
                return json.loads(line)
            await self._program.wait()
        raise RuntimeError(f"the picture of {kind}, seed {seed}, could not be drawn")


def main() -> None:
    """Draw what standard input asks for, until it ends: with whoever started this."""
    from navlib import questions
    from navlib.pictures.drawn import draw

    out, sys.stdout = sys.stdout, sys.stderr
    for line in sys.stdin:
        kind, seed = json.loads(line)
        print(json.dumps(draw(questions.make(kind, seed).picture)), file=out, flush=True)


if __name__ == "__main__":
    main()
