"""What every request to the class service goes through: who, may they, what did they send."""

import json
import re
from collections.abc import Callable
from typing import Any, ClassVar, TypeVar

from tornado.web import HTTPError, RequestHandler

from navlib.classroom.gate import TAKE_PART, HubAway, Who
from navlib.classroom.room import Room
from navlib.classroom.sessions import Missing, Refused

T = TypeVar("T")


class Refusal(HTTPError):
    """A refusal with a sentence for whoever asked."""

    def __init__(self, status: int, says: str) -> None:
        super().__init__(status)
        self.says = says


_TOKEN = re.compile(r"(?:token|bearer)\s+(\S+)", re.IGNORECASE)


class Api(RequestHandler):
    """A request to the service: JSON in, JSON out, under one of the hub's tokens.

    A token in an address does not count. That of a browser's login, in a cookie, counts for taking
    part alone, and only beside the pass that our own page sends in a header (`passes.py`), so that
    no page elsewhere can send anything in a learner's name. `needs` says what the owner must be
    allowed to, by method.
    """

    needs: ClassVar[dict[str, str]]
    who: Who

    def initialize(self, room: Room) -> None:
        """Take the room that all requests share."""
        self.room = room

    async def prepare(self) -> None:
        """Let nobody in who may not; raises Refusal."""
        found = _TOKEN.fullmatch(self.request.headers.get("Authorization", "").strip())
        token = found[1] if found else self._of_our_page()
        try:
            who = await self.room.gate.who(token)
        except HubAway as away:
            raise Refusal(503, str(away)) from None
        if who is None:
            raise Refusal(403, "The hub does not know that token, or not for this")
        if not found:
            who = Who(who.name, who.may & {TAKE_PART})
        wanted = self.needs.get(self.request.method or "")
        if wanted is None:
            raise Refusal(405, "That cannot be done at this address")
        if wanted not in who.may:
            raise Refusal(403, "Your role does not allow this")
        self.who = who
        self.room.seen(who.name)
        if self.request.body and self.request.method not in ("POST", "PATCH"):
            raise Refusal(400, "Send no body with this")

    def _of_our_page(self) -> str:
        """Return the token of the login of a browser that shows our page; raises Refusal."""
        token = self.room.passes.token(self)
        if not token:
            raise Refusal(401, "Send your hub token: Authorization: token T")
        if not self.room.passes.good(self.request, token):
            raise Refusal(403, "That was not sent by the class’s own page, as it stands now")
        return token

    def sent(self) -> dict[str, Any]:
        """Return what was sent; raises Refusal for what is no JSON object."""
        kind = self.request.headers.get("Content-Type", "").split(";")[0].strip().lower()
        if kind != "application/json":
            raise Refusal(415, "Send application/json")
        try:
            whole = json.loads(self.request.body or b"{}", parse_constant=_no_constant)
        except (ValueError, RecursionError):
            raise Refusal(400, "That is no JSON") from None
        if not isinstance(whole, dict):
            raise Refusal(400, "Send a JSON object, such as {}")
        return whole

    async def done(self, work: Callable[..., T], *given: Any, **named: Any) -> T:
        """Return what `work` returns, done beside the service's own loop; refusals become errors."""
        try:
            return await self.room.do(lambda: work(*given, **named))
        except Missing as missing:
            raise Refusal(404, str(missing)) from None
        except Refused as refused:
            raise Refusal(409, str(refused)) from None

    def give(self, content: dict[str, Any], status: int = 200) -> None:
        """Send `content`; to a GET with its tag, or 304 if the asker has seen that one."""
        self.set_status(status)
        if self.request.method == "GET":
            self.give_tagged(content, self.room.tag(content))
        else:
            self._send(content)

    def give_tagged(self, content: dict[str, Any], tag: str) -> None:
        """Send `content` under a tag, or 304 if the asker has seen that one."""
        if not self.unchanged(tag):
            self._send({**content, "tag": tag})

    def unchanged(self, tag: str) -> bool:
        """Return whether the asker has seen the state of this tag; 304 is sent then."""
        if self.get_query_argument("since", "") != tag:
            return False
        self.set_status(304)
        self.finish()
        return True

    def compute_etag(self) -> None:
        """Leave the tag to us."""

    def set_default_headers(self) -> None:
        """Keep replies out of caches, and say nothing of the program."""
        self.clear_header("Server")
        self.set_header("Cache-Control", "no-store")
        self.set_header("X-Content-Type-Options", "nosniff")

    def write_error(self, status_code: int, **named: Any) -> None:
        """Say in a sentence what was wrong, and nothing of what went on inside."""
        problem = named.get("exc_info", (None, None))[1]
        says = problem.says if isinstance(problem, Refusal) else self._reason
        self._send({"error": says})

    def _send(self, content: dict[str, Any]) -> None:
        self.set_header("Content-Type", "application/json")
        self.finish(json.dumps(content))


class NotThere(Api):
    """Any other address."""

    needs: ClassVar[dict[str, str]] = {}

    async def prepare(self) -> None:
        """Refuse."""
        raise Refusal(404, "There is nothing at that address")


def take(
    sent: dict[str, Any], name: str, kind: type[T], default: T | None = None, most: int = 200
) -> T:
    """Return what stands in `sent` under a name; raises Refusal if it is not of that kind.

    Without a default it must be there. `most` bounds the length of a text and the size of a number.
    """
    value = sent.get(name, default)
    good = type(value) is kind  # a bool is no number here
    if good and isinstance(value, str):
        good = len(value) <= most and value.isprintable()
    if good and isinstance(value, int):
        good = 0 <= value < 2**31
    if not good or not isinstance(value, kind):
        raise Refusal(400, f"Send {name} as {_KINDS[kind]}")
    return value


def take_if_sent(sent: dict[str, Any], name: str, kind: type[T]) -> T | None:
    """Return what `take` does, or None if nothing was sent under that name."""
    return None if sent.get(name) is None else take(sent, name, kind)


_KINDS: dict[type, str] = {
    str: "a short text on one line",
    int: "a whole number",
    bool: "true or false",
    dict: "an object",
}


def _no_constant(name: str) -> None:
    raise ValueError(name)
