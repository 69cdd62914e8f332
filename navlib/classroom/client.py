"""The learner's end of the line to the class service, and the instructor's: used from a notebook.

    line = connect()
    line.join()
    asked = line.now()["question"]
    line.hand_in(asked["id"], {"grid": "042 G"})

An answer is written to disk before it is sent. If the network is down it stays there, and goes out
once when the network is back, under the key it was given when it was written.
"""

import json
import os
import threading
import time
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from http.client import HTTPException
from pathlib import Path
from typing import Any
from urllib.error import HTTPError
from urllib.parse import urlencode
from urllib.request import ProxyHandler, Request, build_opener
from uuid import uuid4

from platformdirs import user_data_path

from navlib.classroom import refusals
from navlib.classroom.limits import LARGEST
from navlib.classroom.refusals import Down
from navlib.language import say

AGAIN_S = 3.0
"""How long the line waits before it tries to send again."""

_LATER = (408, 429, 500, 502, 503, 504)
"""Refusals that say nothing about what was sent: it is sent again."""


class NoClass(RuntimeError):
    """The notebook was not opened on a class server; the message says what to do."""


class Refused(refusals.Refused):
    """The class server refused; the message is its sentence, `status` its number."""

    def __init__(self, status: int, says: str) -> None:
        super().__init__(says)
        self.status = status


@dataclass(frozen=True)
class HandedIn:
    """An answer handed in: what the service replied, or None while it waits for the network."""

    key: str
    reply: dict[str, Any] | None

    @property
    def waiting(self) -> bool:
        """Whether it has not been sent yet."""
        return self.reply is None


def connect(folder: Path | None = None) -> "Line":
    """Return the line of whoever this notebook's server belongs to; raises NoClass.

    `folder` is where answers wait for the network, in the learner's own data if none is given.
    """
    url, token = os.environ.get("NAVLIB_CLASS_URL"), os.environ.get("JUPYTERHUB_API_TOKEN")
    if not url or not token:
        raise NoClass(
            "This notebook was not opened on a class server. Open the address that your instructor "
            "gives, such as http://192.0.2.10:8000, and open the lesson there."
        )
    return Line(url, token, folder)


class Line:
    """A line to the class service; safe to be used from several threads and notebooks at once."""

    def __init__(
        self, url: str, token: str, folder: Path | None = None, patience_s: float = 10.0
    ) -> None:
        self.url = f"{url.rstrip('/')}/api/"
        self.patience_s = patience_s
        self.folder = folder or user_data_path("navlib", appauthor=False) / "to-be-handed-in"
        self._token = token
        self._open = build_opener(ProxyHandler({})).open  # the class server is near: no web proxy
        self._tags: dict[str, dict[str, Any]] = {}
        self._sending = threading.Lock()
        self._sender: threading.Thread | None = None

    def ask(self, method: str, path: str, content: Mapping[str, Any] | None = None) -> Any:
        """Ask the service as its `API.md` says, and return what it answers; raises Down, Refused."""
        data = None if content is None else json.dumps(content).encode()
        if data and len(data) > LARGEST:
            raise Refused(
                413,
                say(
                    "That is too much for the class server at once: {size} kB, and {most} kB is the "
                    "most. Shorten the notes of the plan.",
                    {"size": len(data) // 1024 + 1, "most": LARGEST // 1024},
                ),
            )
        headers = {"Authorization": f"token {self._token}", "Content-Type": "application/json"}
        request = Request(self.url + path, data, headers, method=method)
        try:
            with self._open(request, timeout=self.patience_s) as reply:
                return json.load(reply)
        except HTTPError as error:
            with error:
                status, says = error.code, _sentence(error)
            if status in _LATER:
                raise Down(says) from None
            raise Refused(status, says) from None
        except (OSError, HTTPException, ValueError) as error:
            raise Down(f"The class server cannot be reached ({error}).") from None

    def look(self, path: str, **query: Any) -> dict[str, Any]:
        """Return what stands at an address, the same object again while nothing has changed there."""
        address = f"{path}?{urlencode(query)}"
        known = self._tags.get(address)
        since = {"since": known["tag"]} if known else {}
        try:
            found: dict[str, Any] = self.ask("GET", f"{path}?{urlencode({**query, **since})}")
        except Refused as refused:
            if refused.status != 304 or known is None:
                raise
            return known
        self._tags[address] = found
        return found

    def me(self) -> dict[str, Any]:
        """Return who the class server says that I am."""
        return self.look("me")

    def join(self, session: int | None = None) -> dict[str, Any]:
        """Take a seat in a session, the one running now if none is named."""
        joined: dict[str, Any] = self.ask("POST", "join", {"session": session} if session else {})
        return joined

    def now(self) -> dict[str, Any]:
        """Return what is asked now, as this learner is to see it."""
        return self.look("now")

    def picture(self, question: int) -> dict[str, Any] | None:
        """Return the sheet or page beside a question, None if it has none."""
        picture: dict[str, Any] | None = self.look(f"questions/{question}/picture")["picture"]
        return picture

    def board(self, question: int, names: bool = False) -> dict[str, Any]:
        """Return the board of a question, for an instructor."""
        return self.look(f"questions/{question}/board", **({"names": 1} if names else {}))

    def hand_in(self, question: int, answers: Mapping[str, str]) -> HandedIn:
        """Write an answer to disk and send it; what cannot be sent now is sent later by itself.

        Raises Refused if the service will not have it.
        """
        key = uuid4().hex
        given = datetime.now(UTC).isoformat(timespec="seconds")
        sent = {"key": key, "question": question, "answers": dict(answers), "given": given}
        file = self._keep(sent)
        with self._sending:
            try:
                reply = self._send(file) if self._is_first(file) else None
            except Down:
                reply = None
        if reply is None:
            self._send_later()
        return HandedIn(key, reply)

    @property
    def waiting(self) -> list[dict[str, Any]]:
        """Answers that have not been sent yet, the first one first."""
        return [json.loads(file.read_text("utf-8")) for file in self._files()]

    def send_waiting(self) -> int:
        """Send what waits, in order; return how many were sent. Raises Down."""
        sent = 0
        with self._sending:
            for file in self._files():
                try:
                    self._send(file)
                except Refused:
                    continue  # set aside with the reason
                sent += 1
        return sent

    def _send(self, file: Path) -> dict[str, Any]:
        """Send one that waits; what is refused is set aside with the reason, never thrown away."""
        try:
            content = json.loads(file.read_text("utf-8"))
        except FileNotFoundError:
            raise Down("Another notebook of yours is sending it.") from None
        try:
            reply: dict[str, Any] = self.ask("POST", "answers", content)
        except Refused as refused:
            if refused.status in (401, 403):  # who I am is not known now; the answer is good
                raise Down(str(refused)) from None
            aside = self.folder / "refused"
            aside.mkdir(exist_ok=True)
            (aside / file.name).write_text(json.dumps({**content, "refused": str(refused)}))
            file.unlink(missing_ok=True)
            raise
        file.unlink(missing_ok=True)
        return reply

    def _keep(self, content: Mapping[str, Any]) -> Path:
        self.folder.mkdir(parents=True, exist_ok=True)
        file = self.folder / f"{time.time_ns():020d}-{content['key']}.json"
        part = file.with_suffix(".part")
        with open(part, "w", encoding="utf-8") as out:
            out.write(json.dumps(content))
            out.flush()
            os.fsync(out.fileno())
        part.replace(file)
        return file

    def _files(self) -> list[Path]:
        return sorted(self.folder.glob("*.json"))

    def _is_first(self, file: Path) -> bool:
        return self._files()[:1] == [file]

    def _send_later(self) -> None:
        if self._sender is None or not self._sender.is_alive():
            self._sender = threading.Thread(target=self._keep_sending, daemon=True)
            self._sender.start()

    def _keep_sending(self) -> None:
        while self._files():
            try:
                self.send_waiting()
            except Down:
                time.sleep(AGAIN_S)


def _sentence(error: HTTPError) -> str:
    try:
        return str(json.load(error)["error"])
    except (OSError, HTTPException, ValueError, KeyError, TypeError):
        return f"The class server answered {error.code}."
