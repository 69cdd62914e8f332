"""The proxy in front of hub, service and learners' servers: pure Python, from PyPI alone."""

import logging
from collections.abc import Sequence

from configurable_http_proxy.cli import main
from configurable_http_proxy.handlers import ProxyHandler
from tornado.httpclient import AsyncHTTPClient

MOST_AT_ONCE = 1000
"""Requests passed on at one time. As it comes it is 10, and a class opening a page needs more."""


def _same_as_behind(handler: ProxyHandler, offered: Sequence[str]) -> str | None:
    """Return the WebSocket protocol that the server behind has chosen.

    As it comes the proxy says none, and every kernel's first socket fails.
    """
    chosen: str | None = handler.ws_client.selected_subprotocol
    return chosen if chosen in offered else None


def _pass_on(handler: ProxyHandler, message: str | bytes) -> None:
    """Pass a browser's message on as what it is: as it comes the proxy makes text of bytes."""
    if handler.ws_client:
        if handler.target:
            handler.proxy.update_last_activity(handler.target["prefix"])
        handler.ws_client.write_message(message, binary=isinstance(message, bytes))


if __name__ == "__main__":
    AsyncHTTPClient.configure(None, max_clients=MOST_AT_ONCE)
    ProxyHandler.select_subprotocol = _same_as_behind
    ProxyHandler.on_message = _pass_on
    logging.getLogger("tornado.access").setLevel(logging.ERROR)
    main()
