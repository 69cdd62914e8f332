"""The page on which a learner takes part: behind the hub's login, with nothing running for it."""

import hashlib
from html import escape
from typing import Any

from jupyterhub.services.auth import HubOAuth, HubOAuthCallbackHandler, HubOAuthenticated
from tornado.web import HTTPError, RedirectHandler, RequestHandler

from navlib.classroom.gate import TAKE_PART, HubAway
from navlib.classroom.room import Room
from navlib.classroom.web import PAGE, STYLE, WEB
from navlib.front import PALETTE, joined
from navlib.language import say

POLICY = "; ".join(
    (
        "default-src 'self'",
        "img-src 'self' blob:",  # the sheet, which runs no script as an image
        "base-uri 'none'",
        "form-action 'self'",
        "frame-ancestors 'none'",
    )
)


def login(prefix: str) -> HubOAuth:
    """Return the hub's login for our page, set up from what the hub put into the environment."""
    return HubOAuth.instance(base_url=prefix, cookie_options={"samesite": "Lax"})


class Shown(HubOAuthenticated, RequestHandler):
    """What a browser shows, kept to our own files."""

    def set_default_headers(self) -> None:
        """Let in nothing from elsewhere, and let nobody else show this."""
        self.clear_header("Server")
        self.set_header("Cache-Control", "no-store")
        self.set_header("Content-Security-Policy", POLICY)
        self.set_header("Cross-Origin-Opener-Policy", "same-origin")
        self.set_header("Referrer-Policy", "same-origin")
        self.set_header("X-Content-Type-Options", "nosniff")

    def write_error(self, status_code: int, **_: Any) -> None:
        """Say that it did not work, with the way to try again."""
        words = say("The class’s page could not be opened just now. Nothing is lost.")
        again = say("Try again")
        way = escape(self.hub_auth.base_url)
        self.finish(f'<!DOCTYPE html><p>{escape(words)} <a href="{way}">{escape(again)}</a></p>')


class Page(Shown):
    """The page itself."""

    def initialize(self, room: Room, files: "dict[str, str]") -> None:
        """Take the room, and where script and style are."""
        self.room, self.files = room, files

    async def get(self) -> None:
        """Show it to whoever is logged in; everybody else goes to the hub's door first."""
        token = self.room.passes.token(self)
        try:
            who = await self.room.gate.who(token, fresh=True) if token else None
        except HubAway:
            raise HTTPError(503) from None
        if who is None:
            self.redirect(self.get_login_url())
            return
        if TAKE_PART not in who.may:
            raise HTTPError(403)
        known = await self.room.do(lambda: self.room.people.get(who.name))
        shown = {
            "title": say("The class"),
            "needs": say("This page needs JavaScript: allow it in your browser’s settings."),
            "name": who.name,
            "shown": known["shown"] if known else who.name,
            "mark": self.room.passes.of(token),
            "hub": self.hub_auth.hub_prefix,
            **self.files,
        }
        page = (WEB / "page.html").read_text("utf-8")
        self.finish(page.format(**{name: escape(text) for name, text in shown.items()}))


class CameIn(Shown, HubOAuthCallbackHandler):
    """Where the hub sends a browser that has logged in."""


class File(RequestHandler):
    """A file whose address says what is in it, so that a browser asks for it once."""

    def initialize(self, content: str, kind: str) -> None:
        """Take what is sent."""
        self.content, self.kind = content, kind

    def get(self) -> None:
        """Send it."""
        self.set_header("Content-Type", f"{self.kind}; charset=utf-8")
        self.set_header("Cache-Control", "public, max-age=31536000, immutable")
        self.set_header("X-Content-Type-Options", "nosniff")
        self.finish(self.content)


def addresses(room: Room, prefix: str) -> list[tuple[str, type[RequestHandler], dict[str, Any]]]:
    """Return the page, its files, and where the hub's login leads back to, at `prefix`."""
    script = joined(*PAGE)
    style = joined(PALETTE, *STYLE, WEB / "page.css")
    files = [("script", "js", "text/javascript", script), ("style", "css", "text/css", style)]
    found: list[tuple[str, type[RequestHandler], dict[str, Any]]] = []
    where = {}
    for name, end, kind, content in files:
        mark = hashlib.sha256(content.encode()).hexdigest()[:16]
        where[name] = f"{prefix}/page-{mark}.{end}"
        found.append((where[name], File, {"content": content, "kind": kind}))
    return [
        (f"{prefix}/", Page, {"room": room, "files": where}),
        (prefix, RedirectHandler, {"url": f"{prefix}/"}),
        (f"{prefix}/oauth_callback", CameIn, {}),
        *found,
    ]
