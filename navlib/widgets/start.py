"""The start page: where a learner stands, where to go on, and what can be done with the record."""

import logging
from typing import Any

import traitlets

from navlib.desk.start import Start
from navlib.desk.ways import (
    CLASS,
    CLASS_PAGE,
    COACH,
    COACH_PAGE,
    INSTRUCTOR,
    INSTRUCTOR_PAGE,
    LESSONS,
    way_to,
)
from navlib.widgets.shown import Shown, front

_log = logging.getLogger(__name__)

_PAGES = {
    **{way_to(topic): words for topic, words in LESSONS.items()},
    CLASS_PAGE: CLASS,
    INSTRUCTOR_PAGE: INSTRUCTOR,
    COACH_PAGE: COACH,
}
_LINKS = "\n".join(f"- [{words.title}]({to}): {words.about}" for to, words in _PAGES.items())


class StartPage(Shown):
    """The start page of the learner chosen on this machine.

    `page` is what is shown; `trouble` is a sentence when it could not be had. What the learner asks
    for comes as a message and is answered by one.
    """

    _esm = front("kit.js", "start_parts.js", "start.js")
    _css = front("kit.css", "start.css")

    words = "The start page: what to do next, and where you stand in each lesson."

    page = traitlets.Dict().tag(sync=True)
    trouble = traitlets.Unicode().tag(sync=True)

    def __init__(self) -> None:
        self.desk: Start | None = None
        super().__init__()
        self.refresh()
        self.on_msg(self._heard)

    def refresh(self) -> None:
        """Show where the learner stands now; what was shown stays if that cannot be had."""
        try:
            self.desk = self.desk or Start()
            self.page = self.desk.face()
            self.trouble = ""
        except Exception as error:
            _log.exception("The start page could not be made")
            self.trouble = (
                f"Your record could not be read: {_reason(error)}. Nothing in it was changed. "
                "The lessons open all the same."
            )

    def _heard(self, _page: Any, message: Any, _buffers: Any) -> None:
        """Do what the browser asks for; whatever happens, an answer follows."""
        reply: dict[str, Any] = {"turn": message.get("turn"), "done": message.get("do")}
        try:
            if self.desk is not None:
                reply |= self.desk.do(str(message.get("do")), message)
        except ValueError as error:
            reply["trouble"] = str(error)
        except Exception as error:
            _log.exception("The start page could not do what was asked")
            reply["trouble"] = f"That did not work: {_reason(error)}. Nothing was lost."
        self.refresh()
        self.send(reply)

    def _repr_mimebundle_(self, **kwargs: Any) -> Any:
        shown = super()._repr_mimebundle_(**kwargs)
        if shown is None:
            return shown
        data, metadata = shown
        return {**data, "text/markdown": _LINKS}, metadata


def _reason(error: Exception) -> str:
    return str(error).strip().rstrip(".") or type(error).__name__
