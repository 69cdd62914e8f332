"""Pages of a browser that remembers nothing, and what must not happen on them."""

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from typing import Any

from playwright.sync_api import Browser, Page
from rig import PATIENCE_MS, Lab, wait_until


@contextmanager
def fresh_page(browser: Browser, lab: Lab, excused: str = "", **how: Any) -> Iterator[Page]:
    """Yield a page of a fresh browser; what it leaves running is ended, and no script may have failed.

    `excused` is what a failure says that is none of ours, `how` how the browser is to be.
    """
    context = browser.new_context(**how)
    context.set_default_timeout(PATIENCE_MS)
    page = context.new_page()
    mishaps: list[str] = []
    page.on("pageerror", lambda error: mishaps.append(str(error)))
    yield page
    context.close()
    lab.end_kernels()
    ours = [mishap for mishap in mishaps if not excused or excused not in mishap]
    assert not ours, "\n".join(ours)


@contextmanager
def opened(
    browser: Browser, lab: Lab, name: str, cells: Sequence[str], **how: Any
) -> Iterator[Page]:
    """Write a notebook of these cells, and yield its page when it is awake."""
    lab.write(name, cells)
    with fresh_page(browser, lab, **how) as page:
        page.goto(lab.address(name))
        wait_until(page, "alive")
        yield page
