"""A form in a notebook: it shows a face, and answers each message of the browser."""

import logging
from collections.abc import Callable, Mapping
from typing import Any, Protocol

import traitlets

from navlib.widgets.shown import Shown

_log = logging.getLogger(__name__)

Told = Callable[[str, float], None]
"""What is being done, and the share of the whole that is done."""


class Behind(Protocol):
    """Who stands behind a form."""

    def face(self) -> dict[str, Any]:
        """Return what is shown now."""
        ...

    def do(self, action: str, message: Mapping[str, Any], told: Told) -> dict[str, Any]:
        """Carry out what is asked for, telling how far it is; ValueError says what to change."""
        ...


class FormPart(Shown):
    """A form that somebody stands behind.

    `face` is what is shown; `progress` tells of long work, empty when there is none. Each message
    of the browser is answered by one, with bytes beside it if a file was asked for. What is `quiet`
    changes nothing behind the form.
    """

    quiet: tuple[str, ...] = ()

    face = traitlets.Dict().tag(sync=True)
    progress = traitlets.Dict().tag(sync=True)

    def __init__(self, desk: Behind) -> None:
        self.desk = desk
        super().__init__()
        self.refresh()
        self.on_msg(self._heard)

    def refresh(self) -> None:
        """Show what stands behind the form now."""
        self.face = self.desk.face()

    def done(self, action: str) -> None:
        """Show what an action has changed."""
        if action not in self.quiet:
            self.refresh()

    def _tell(self, words: str, share: float) -> None:
        self.progress = {"words": words, "share": share}

    def _heard(self, _part: Any, message: Any, _buffers: Any) -> None:
        """Do what the browser asks for; whatever happens, an answer follows."""
        action = str(message.get("do"))
        reply: dict[str, Any] = {"turn": message.get("turn"), "done": message.get("do")}
        data = None
        try:
            reply |= self.desk.do(action, message, self._tell)
            data = reply.pop("data", None)
            self.done(action)
        except (ValueError, OSError) as error:
            reply["trouble"] = str(error)
        except Exception as error:
            _log.exception("The form could not do what was asked")
            reason = str(error).strip().rstrip(".") or type(error).__name__
            reply["trouble"] = f"That did not work: {reason}. Nothing that was entered is lost."
        self.progress = {}
        self.send(reply, [data] if data is not None else None)
