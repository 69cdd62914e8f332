"""Who asks, and whether they may: the hub's word for a token, and what its owner's role allows."""

import asyncio
import hashlib
import time
from dataclasses import dataclass
from urllib.parse import quote

from tornado.escape import json_decode
from tornado.httpclient import AsyncHTTPClient, HTTPRequest

TAKE_PART, READ, TEACH = "take-part", "read", "teach"
ROLES = {
    "learner": (TAKE_PART,),
    "coach": (TAKE_PART, READ),
    "instructor": (TAKE_PART, READ, TEACH),
}
"""What each role may do here."""


def scope(role: str) -> str:
    """Return the hub's name for what one may do here."""
    return f"custom:class:{role}"


SERVICE = "class"
ACCESS = f"access:services!service={SERVICE}"
"""The hub's name for the right to come to this service at all."""


@dataclass(frozen=True)
class Who:
    """Somebody whom the hub knows by a token, and what that token may do here."""

    name: str
    may: frozenset[str]


class HubAway(RuntimeError):
    """The hub gave no answer: nobody can be told from anybody now; to be tried again."""


class Gate:
    """Asks the hub who a token belongs to, and remembers it for a minute.

    A token that was taken back is refused after that minute at the latest.
    """

    def __init__(
        self, api_url: str, token: str, remember_s: float = 60.0, most: int = 5000
    ) -> None:
        self.api_url = api_url.rstrip("/")
        self.token = token
        self.remember_s = remember_s
        self.most = most
        self._known: dict[bytes, tuple[float, Who | None]] = {}

    async def who(self, token: str, *, fresh: bool = False) -> Who | None:
        """Return whose token this is, None for one that the hub does not know or let in here.

        With `fresh` nothing that is remembered counts. Raises HubAway.
        """
        key = hashlib.sha256(token.encode("utf-8", "replace")).digest()
        until, who = self._known.get(key, (0.0, None))
        if time.monotonic() < until and not fresh:
            return who
        who = await self._ask(token)
        if len(self._known) >= self.most:
            self._known.clear()
        self._known[key] = (time.monotonic() + self.remember_s, who)
        return who

    async def show_out(self, name: str) -> None:
        """Have the hub end somebody's server and every login and token of theirs.

        They can come in again by the front door. Raises HubAway.
        """
        self._known.clear()
        address = f"{self.api_url}/users/{quote(name, safe='')}"
        headers = {"Authorization": f"token {self.token}"}
        request = HTTPRequest(address, method="DELETE", headers=headers, request_timeout=60)
        try:
            reply = await AsyncHTTPClient().fetch(request, raise_error=False)
        except OSError:
            reply = None
        if reply is None or reply.code not in (204, 404):
            raise HubAway("The hub did not end their server: stop it on the hub's admin page.")

    async def _ask(self, token: str) -> Who | None:
        if not (token.isascii() and token.isprintable() and len(token) < 200):
            return None
        request = HTTPRequest(f"{self.api_url}/user", headers={"Authorization": f"token {token}"})
        for again in (True, False):
            try:
                reply = await AsyncHTTPClient().fetch(request, raise_error=False)
            except OSError:
                reply = None
            if reply is not None and reply.code < 500:
                break
            if not again:
                raise HubAway("The hub did not answer; your answer was not taken. Send it again.")
            await asyncio.sleep(0.5)
        if reply is None or reply.code != 200:
            return None
        model = json_decode(reply.body)
        scopes = set(model.get("scopes", ()))
        if model.get("kind") != "user" or not scopes & {ACCESS, "access:services"}:
            return None
        may = frozenset(role for role in (TAKE_PART, READ, TEACH) if scope(role) in scopes)
        return Who(model["name"], may)
