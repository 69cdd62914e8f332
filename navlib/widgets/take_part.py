"""Taking part in a class without a server: from a session file to a hand-in file."""

import logging
import os
from collections.abc import Mapping
from typing import Any

import traitlets

from navlib.classroom.handing import Seat
from navlib.classroom.web import STYLE, TAKING_PART
from navlib.front import WIDGETS, joined
from navlib.language import say
from navlib.record.places import default_path
from navlib.widgets.shown import Shown

_log = logging.getLogger(__name__)

Reply = tuple[dict[str, Any], bytes | None]


class TakePart(Shown):
    """What a learner sees of a session whose file they have.

    `taking` is empty until a session file was read, then `Seat.now` with the learner's name. `page`
    is the address of the class's own page where there is a class server, else empty. Each message
    of the browser is answered by one, with bytes beside it for the file that is handed in.
    """

    _esm = joined(*TAKING_PART, WIDGETS / "coach_parts.js", WIDGETS / "take_part.js")
    _css = joined(*STYLE, WIDGETS / "take_part.css")

    words = (
        "Choose the session file, give your name and your seat, work the questions, and save the "
        "file that you hand in."
    )

    taking = traitlets.Dict().tag(sync=True)
    page = traitlets.Unicode().tag(sync=True)
    progress = traitlets.Dict().tag(sync=True)

    def __init__(self) -> None:
        self.seat: Seat | None = None
        super().__init__(page=_class_page())
        self.on_msg(self._heard)

    def _heard(self, _widget: Any, message: Any, _buffers: Any) -> None:
        """Do what the browser asks for; whatever happens, an answer follows."""
        reply: dict[str, Any] = {"turn": message.get("turn"), "done": message.get("do")}
        data = None
        try:
            more, data = self._do(str(message.get("do")), message)
            reply |= more
        except (ValueError, LookupError, OSError) as error:
            reply["trouble"] = str(error)
        except Exception as error:
            _log.exception("What was asked in the session could not be done")
            reason = str(error).strip().rstrip(".") or type(error).__name__
            reply["trouble"] = say(
                "That did not work: {reason}. Nothing that you sent is lost.", {"reason": reason}
            )
        self.send(reply, [data] if data is not None else None)

    def _do(self, action: str, message: Mapping[str, Any]) -> Reply:
        if action == "begin":
            number = str(message["seat"]).strip()
            seat = int(number) if number.isdecimal() and len(number) < 6 else 0
            beside_the_record = default_path().with_name("to-be-handed-in")
            self.seat = Seat(str(message["file"]), str(message["name"]), seat, beside_the_record)
            self._refresh()
            return {}, None
        if self.seat is None:
            raise ValueError(say("Choose the session file first."))
        match action:
            case "hand in":
                answers, lies = dict(message["answers"]), dict(message["lies"])
                self.seat.hand_in(int(message["question"]), answers, lies)
                self._refresh()
                return {}, None
            case "picture":
                return {"picture": self.seat.picture(int(message["question"]))}, None
            case "file":
                name, content = self.seat.to_file()
                file = {"name": name, "type": "application/json", "save": True}
                return {"file": file}, content
        raise ValueError(f"“{action}” is nothing that can be done here.")

    def _refresh(self) -> None:
        if self.seat is not None:
            self.taking = {**self.seat.now(), "shown": self.seat.name}


def _class_page() -> str:
    """Return where the class's own page is, for a notebook opened on a class server."""
    if "NAVLIB_CLASS_URL" not in os.environ:
        return ""
    return f"{os.environ.get('JUPYTERHUB_BASE_URL', '/')}services/class/"
