"""The coach's page: set a paper, mark it, see what came of it; a line of a notebook each."""

import logging
from collections.abc import Mapping
from typing import Any, Protocol

import traitlets

from navlib.paper.coach.desks import Marking, Results
from navlib.paper.coach.making import Told
from navlib.paper.coach.room import Room
from navlib.paper.coach.setting import Setting
from navlib.widgets.shown import Shown, front

_log = logging.getLogger(__name__)


class Behind(Protocol):
    """Who stands behind a part of the page."""

    def face(self) -> dict[str, Any]:
        """Return what is shown now."""
        ...

    def do(self, action: str, message: Mapping[str, Any], told: Told) -> dict[str, Any]:
        """Carry out what is asked for, telling how far it is; ValueError says what to change."""
        ...


class CoachPart(Shown):
    """A part of the coach's page.

    `face` is what is shown; `progress` tells of long work, empty when there is none. Each message
    of the browser is answered by one, with bytes beside it if a file was asked for.
    """

    face = traitlets.Dict().tag(sync=True)
    progress = traitlets.Dict().tag(sync=True)

    def __init__(self, page: "Coach", desk: Behind) -> None:
        self.page, self.desk = page, desk
        super().__init__()
        self.refresh()
        self.on_msg(self._heard)

    def refresh(self) -> None:
        """Show what stands behind the part now."""
        self.face = self.desk.face()

    def _tell(self, words: str, share: float) -> None:
        self.progress = {"words": words, "share": share}

    def _heard(self, _part: Any, message: Any, _buffers: Any) -> None:
        """Do what the browser asks for; whatever happens, an answer follows."""
        reply: dict[str, Any] = {"turn": message.get("turn"), "done": message.get("do")}
        before = self.page.room.sitting
        data = None
        try:
            reply |= self.desk.do(str(message.get("do")), message, self._tell)
            data = reply.pop("data", None)
            if message.get("do") not in _QUIET:
                self.refresh()
            if self.page.room.sitting is not before:
                self.page.refresh(self)
        except (ValueError, OSError) as error:
            reply["trouble"] = str(error)
        except Exception as error:
            _log.exception("The coach’s page could not do what was asked")
            reason = str(error).strip().rstrip(".") or type(error).__name__
            reply["trouble"] = f"That did not work: {reason}. Nothing that was entered is lost."
        self.progress = {}
        self.send(reply, [data] if data is not None else None)


_QUIET = ("reckon", "folder", "take", "read", "resit", "save", "table")
"""What changes nothing behind the page."""


_STYLE = front("kit.css", "coach.css", "coach_plan.css", "coach_marks.css")


class PaperForm(CoachPart):
    """The form in which a paper is set."""

    words = (
        "A form to set a paper: choose a blueprint, change it, make as many variants as you need."
    )
    _esm = front("kit.js", "coach_parts.js", "coach_rows.js", "coach_plan.js", "coach_paper.js")
    _css = _STYLE


class MarkingForm(CoachPart):
    """The form in which answers are entered and marked."""

    words = "A form to enter a candidate’s answers; the marks stand beside each at once."
    _esm = front("kit.js", "coach_parts.js", "coach_item.js", "coach_table.js", "coach_marking.js")
    _css = _STYLE


class ResultsPart(CoachPart):
    """Class list and item analysis."""

    words = "The class list, what the paper did, and the feedback sheets."
    _esm = front("kit.js", "coach_parts.js", "coach_results.js")
    _css = _STYLE


class Coach:
    """The coach's page. What is opened in one part lies open in the others."""

    def __init__(self) -> None:
        self.room = Room()
        self.parts: list[CoachPart] = []

    def paper(self) -> CoachPart:
        """Return the form in which a paper is set."""
        return self._shown(PaperForm(self, Setting(self.room)))

    def marking(self) -> CoachPart:
        """Return the form in which answers are entered."""
        return self._shown(MarkingForm(self, Marking(self.room)))

    def results(self) -> CoachPart:
        """Return class list, item analysis and what is given back."""
        return self._shown(ResultsPart(self, Results(self.room)))

    def refresh(self, but: CoachPart) -> None:
        """Show anew all parts except one."""
        for part in self.parts:
            if part is not but:
                part.refresh()

    def _shown(self, part: CoachPart) -> CoachPart:
        self.parts.append(part)
        return part
