"""A learner's browser: the hub's login in a cookie, and the pass that our own page sends beside it.

A browser sends a cookie along with whatever is sent here, whoever had it sent. So a cookie counts
only beside a pass: a header, which no page elsewhere can set, with a number that stands in our
page alone and changes with each login.
"""

import hashlib
import hmac
from urllib.parse import urlsplit

from tornado.httputil import HTTPServerRequest
from tornado.web import RequestHandler

HEADER = "X-Class-Pass"


class Passes:
    """Passes for logins that lie in the cookie of a name; `secret` is the service's own."""

    def __init__(self, cookie: str, secret: bytes) -> None:
        self.cookie = cookie
        self.secret = secret

    def token(self, handler: RequestHandler) -> str:
        """Return the hub's token in a browser's cookie, "" if there is none."""
        kept = handler.get_signed_cookie(self.cookie)
        return kept.decode("ascii", "replace") if kept else ""

    def of(self, token: str) -> str:
        """Return the pass that goes with a login."""
        return hmac.new(self.secret, token.encode(), hashlib.sha256).hexdigest()

    def good(self, request: HTTPServerRequest, token: str) -> bool:
        """Return whether a request was sent by our page, opened under this same login."""
        here = request.headers.get("Sec-Fetch-Site", "same-origin") == "same-origin"
        origin = request.headers.get("Origin")
        if not here or (origin is not None and urlsplit(origin).netloc != request.host):
            return False
        given = request.headers.get(HEADER, "").encode("utf-8", "replace")
        return hmac.compare_digest(given, self.of(token).encode())
