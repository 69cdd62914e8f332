"""The question card: shows a face, and tells the desk what the learner does."""

import logging
from collections.abc import Mapping
from typing import Any, Protocol

import traitlets

from navlib.notation import LONGEST
from navlib.widgets.shown import CHART_TABLE, TABLE_STYLE, Shown, front

_log = logging.getLogger(__name__)


class Desk(Protocol):
    """Who stands behind a card: knows the question, judges the answers."""

    def face(self) -> Mapping[str, Any]:
        """Return what the card is to show now."""
        ...

    def do(self, action: str, content: Mapping[str, Any]) -> None:
        """Carry out one of the face's actions.

        `content["answers"]` maps parts to text typed, `content["lies"]` the instruments on the sheet
        to where they lie (`navlib.instruments.on_ground` reads it).
        """
        ...


class Card(Shown):
    """A question on a card, with a picture and its instruments, answer boxes and feedback.

    `desk` says what to show and carries out what the learner asks for. `face` is what is shown, its
    picture apart from it so that a sheet travels to the browser once; `trouble` is a sentence when
    the desk failed. `words` and `pictured` are for readers without a kernel.
    """

    _esm = front(
        "kit.js", *CHART_TABLE, "small_table.js", "sheet.js", "answers.js", "drafts.js", "card.js"
    )
    _css = front("kit.css", "sheet.css", *TABLE_STYLE, "card.css")

    face = traitlets.Dict().tag(sync=True)
    picture = traitlets.Dict(allow_none=True, default_value=None).tag(sync=True)
    trouble = traitlets.Unicode().tag(sync=True)

    def __init__(self, desk: Desk, words: str = "", *, pictured: bool = False) -> None:
        self.desk, self.words, self.pictured = desk, words, pictured
        super().__init__()
        self.refresh()
        self.on_msg(self._heard)

    def refresh(self) -> None:
        """Show the desk's face as it is now."""
        face = dict(self.desk.face())
        picture = face.pop("picture", None)
        with self.hold_sync():
            self.set_trait("picture", dict(picture) if picture else None)
            self.face = face

    def _heard(self, _card: Any, message: Any, _buffers: Any) -> None:
        """Answer one message of the browser; whatever happens, the card is free again after it."""
        self.trouble = ""
        try:
            action, content = _action(message)
            if action in {name for name, _ in self.face["actions"]}:
                self.desk.do(action, content)
            self.refresh()
        except Exception as error:
            _log.exception("The desk could not do what the card asked")
            self.trouble = _sentence(error)
        self.send({"answered": message.get("turn") if isinstance(message, dict) else None})


def _action(message: Mapping[str, Any]) -> tuple[str, dict[str, Any]]:
    """Return the action in a browser's message, and with it the answers and where things lie."""
    answers = message.get("answers") or {}
    lies = message.get("lies") or {}
    return str(message["do"]), {
        "answers": {str(k): str(v)[: 4 * LONGEST] for k, v in answers.items()},
        "lies": {str(k): v for k, v in lies.items()},
    }


def _sentence(error: Exception) -> str:
    """Return what went wrong, for the learner."""
    what = str(error).strip().rstrip(".") or type(error).__name__
    return (
        f"That did not work: {what}. What you wrote still stands here. Try once more; "
        "if it happens again, show this line to your instructor."
    )
