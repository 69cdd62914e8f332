"""What the classroom tests share: a class server started by its command, and people who come in."""

import json
import os
import re
import shutil
import signal
import socket
import ssl
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any
from uuid import uuid4

import httpx
from websocket import create_connection

PIN = "tern-4711"
WORD = "kelp-tern-reef"
PLAIN = ssl.SSLContext(ssl.PROTOCOL_TLS_CLIENT)
"""Nothing here is encrypted; a client's own context would be read from disk for each."""

PATIENCE_S = 300
"""How long a slow computer may take; nothing is measured."""


def free_port() -> int:
    with socket.create_server(("127.0.0.1", 0)) as door:
        return int(door.getsockname()[1])


def wait_for(done: Any, what: str, patience_s: float = PATIENCE_S) -> Any:
    """Return what `done` returns once that is something."""
    until = time.monotonic() + patience_s
    while time.monotonic() < until:
        if found := done():
            return found
        time.sleep(0.1)
    raise AssertionError(f"it took too long: {what}")


@dataclass
class Browser:
    """Somebody's browser: logs in at the door as a person does, and asks the hub."""

    root: str
    client: httpx.Client = field(init=False)

    def __post_init__(self) -> None:
        self.client = httpx.Client(
            base_url=self.root, follow_redirects=True, timeout=PATIENCE_S, verify=PLAIN
        )

    def log_in(
        self, name: str, pin: str = PIN, word: str = WORD, headers: dict[str, str] | None = None
    ) -> str:
        """Fill in the form; return what the page says is wrong, "" if one is in."""
        page = self.client.get("/hub/login", headers=headers).text
        xsrf = re.search('name="_xsrf" value="([^"]+)"', page)
        assert xsrf, page
        form = {"username": name, "pin": pin, "word": word, "_xsrf": xsrf[1]}
        reply = self.client.post(
            "/hub/login?next=%2Fhub%2Fhome", data=form, headers=headers, follow_redirects=False
        )
        if reply.status_code == 302:
            return ""
        said = re.search('class="login_error"[^>]*>(.*?)</p>', reply.text, re.DOTALL)
        return said[1] if said else f"{reply.status_code}: {reply.text}"

    def ask_hub(self, method: str, path: str, **sent: Any) -> httpx.Response:
        """Ask the hub as its own pages do."""
        page = self.client.get("/hub/home").text
        xsrf = re.search('xsrf_token: "([^"]+)"', page)
        headers = {"X-XSRFToken": xsrf[1] if xsrf else "", "Referer": f"{self.root}/hub/home"}
        return self.client.request(method, f"/hub/api/{path}", headers=headers, **sent)


@dataclass
class Hall:
    """A running class server."""

    root: str
    folder: Path
    program: "subprocess.Popen[str]"
    said: str
    browsers: list[Browser] = field(default_factory=list)

    @property
    def staff_word(self) -> str:
        found = re.search(r"gives the word\s+(\S+)", self.said)
        assert found
        return found[1]

    @property
    def service_pid(self) -> int:
        return int((self.folder / "service.pid").read_text())

    def browser(self) -> Browser:
        """A fresh browser with nothing remembered; it is closed with the hall."""
        self.browsers.append(Browser(self.root))
        return self.browsers[-1]


@contextmanager
def open_hall(folder: Path, *words: str, env: dict[str, str] | None = None) -> Iterator[Hall]:
    """Start the class server by the command that the README gives."""
    port = free_port()
    command = [sys.executable, "-m", "navlib", "class", "serve", "--folder", str(folder)]
    with (
        open(folder.with_suffix(".log"), "w+", encoding="utf-8") as log,
        subprocess.Popen(
            [*command, "--port", str(port), "--address", "127.0.0.1", *words],
            env=os.environ | (env or {}),
            stdout=log,
            stderr=subprocess.STDOUT,
            text=True,
        ) as program,
    ):
        log_path = folder.with_suffix(".log")
        root = f"http://127.0.0.1:{port}"

        def up() -> bool:
            assert program.poll() is None, log_path.read_text()
            try:
                door = httpx.get(f"{root}/hub/login", verify=PLAIN)
                service = httpx.get(f"{root}/services/class/api/me", verify=PLAIN)
            except httpx.TransportError:
                return False
            return door.status_code == 200 and service.status_code == 401

        try:
            wait_for(up, "the class server comes up")
            hall = Hall(root, folder, program, log_path.read_text())
            yield hall
            for browser in hall.browsers:
                browser.client.close()
        finally:
            program.send_signal(signal.SIGTERM)
            try:
                program.wait(30)
            except subprocess.TimeoutExpired:
                program.kill()
            if (short := folder / "short.txt").exists():
                shutil.rmtree(short.read_text(), ignore_errors=True)


@dataclass
class Caller:
    """Somebody who asks the class service with a token."""

    root: str
    token: str

    def ask(self, method: str, path: str, sent: Any = None, **more: Any) -> httpx.Response:
        headers = {"Authorization": f"token {self.token}", **more.pop("headers", {})}
        if sent is not None:
            more["json"] = sent
        return httpx.request(
            method,
            f"{self.root}/services/class/api/{path}",
            headers=headers,
            timeout=PATIENCE_S,
            verify=PLAIN,
            **more,
        )

    def get(self, path: str) -> Any:
        return good(self.ask("GET", path))

    def post(self, path: str, content: Any) -> Any:
        return good(self.ask("POST", path, content))

    def patch(self, path: str, content: Any) -> Any:
        return good(self.ask("PATCH", path, content))

    def hand_in(self, question: int, answers: dict[str, str], key: str | None = None) -> Any:
        sent = {"key": key or str(uuid4()), "question": question, "answers": answers}
        return self.post("answers", sent)


def good(reply: httpx.Response) -> Any:
    assert reply.status_code in (200, 201), f"{reply.status_code}: {reply.text}"
    return reply.json()


@dataclass
class Kernel:
    """A kernel in somebody's own server, reached as their browser reaches it; it runs what they like."""

    root: str
    name: str
    token: str
    id: str = ""

    def run(self, code: str) -> str:
        """Return what `code` printed, and its error if it ended in one."""
        headers = {"Authorization": f"token {self.token}"}
        if not self.id:
            address = f"{self.root}/user/{self.name}/api/kernels"
            made = httpx.post(address, headers=headers, json={}, timeout=PATIENCE_S, verify=PLAIN)
            self.id = good(made)["id"]
        address = f"{self.root}/user/{self.name}/api/kernels/{self.id}/channels"
        socket = create_connection(
            address.replace("http", "ws", 1), header=headers, timeout=PATIENCE_S
        )
        header = {"msg_id": uuid4().hex, "msg_type": "execute_request", "session": uuid4().hex}
        header |= {"username": self.name, "version": "5.3", "date": ""}
        content = {"code": code, "silent": False, "store_history": False, "allow_stdin": False}
        asked = {"header": header, "parent_header": {}, "metadata": {}, "content": content}
        socket.send(json.dumps({**asked, "channel": "shell"}))
        printed = ""
        while True:
            reply = json.loads(socket.recv())
            if reply["parent_header"].get("msg_id") != header["msg_id"]:
                continue
            content = reply["content"]
            match reply["msg_type"]:
                case "stream":
                    printed += content["text"]
                case "error":
                    printed += f"{content['ename']}: {content['evalue']}"
                case "status" if content["execution_state"] == "idle":
                    socket.close()
                    return printed


def come_in(hall: Hall, name: str, word: str = WORD, pin: str = PIN) -> Browser:
    """Log somebody in."""
    browser = hall.browser()
    assert browser.log_in(name, pin, word) == ""
    return browser


def sit_down(browser: Browser, name: str) -> None:
    """Have somebody's own server started; it is not waited for."""
    reply = browser.ask_hub("POST", f"users/{name}/server", json={})
    assert reply.status_code in (201, 202), reply.text


def kernel_of(browser: Browser, name: str) -> Kernel:
    """Wait for somebody's own server and return a kernel in it."""

    def ready() -> bool:
        model = browser.ask_hub("GET", f"users/{name}").json()
        return bool(model.get("servers", {}).get("", {}).get("ready"))

    wait_for(ready, f"the server of {name} starts")
    made = browser.ask_hub("POST", f"users/{name}/tokens", json={})
    assert made.status_code == 201, made.text
    return Kernel(browser.root, name, made.json()["token"])


@dataclass
class Class:
    """A class server with its people: browsers by name, and callers with the hub's own tokens."""

    hall: Hall
    browsers: dict[str, Browser] = field(default_factory=dict)

    def browser(self, name: str) -> Browser:
        if name not in self.browsers:
            staff = name in ("instructor", "toke-brandt")
            self.browsers[name] = come_in(
                self.hall, name, *([self.hall.staff_word] if staff else [])
            )
        return self.browsers[name]

    def caller(self, name: str) -> Caller:
        """Return somebody who asks the service with a token that the hub gave them."""
        made = self.browser(name).ask_hub("POST", f"users/{name}/tokens", json={})
        assert made.status_code == 201, made.text
        return Caller(self.hall.root, made.json()["token"])
