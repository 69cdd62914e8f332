"""Behind the part of the instructor's page that keeps the class record."""

import json
from collections.abc import Callable, Mapping
from datetime import date, datetime
from typing import Any

from navlib.classroom.keeping import ClassRecord, Tally, class_record, of_learner
from navlib.classroom.leading import Leading
from navlib.classroom.opening import proposals
from navlib.classroom.record_out import csv_text, record_pdf, topics_of
from navlib.classroom.teaching import LONGEST_KEPT, ended_before
from navlib.language import say
from navlib.language.days import full, in_year
from navlib.paper.lessons import title as topic_title
from navlib.record.words import slip_words

Told = Callable[[str, float], None]
"""What is being done, and the share of the whole that is done."""


class KeepForm:
    """The class record. `face` is what it shows, `do` carries out what is asked of it."""

    def __init__(self) -> None:
        self.leading = Leading()

    def face(self) -> dict[str, Any]:
        """Return the record as it stands now; without sessions all its lists are empty."""
        record = class_record(self._records())
        topics = topics_of(record)
        return {
            "sessions": [
                {
                    "title": one.title,
                    "day": f"{in_year(one.day)}, {one.begun:%H:%M}",
                    "there": one.there,
                }
                for one in record.evenings
            ],
            "topics": [say(topic_title(topic)) for topic in topics],
            "learners": [
                {
                    "name": one.name,
                    "shown": one.shown,
                    "there": [evening.id in one.sessions for evening in record.evenings],
                    "topics": [_told(one.topics.get(topic, Tally())) for topic in topics],
                }
                for one in record.learners
            ],
            "whole": [_told(record.topics[topic]) for topic in topics],
            "slips": [
                {
                    "says": slip_words(one.name),
                    "learners": one.learners,
                    "told": one.told,
                    "alive": one.alive,
                }
                for one in record.slips
            ],
            "open": proposals(record, _today()),
            "days": self.leading.classroom.retention() if self.leading.begun else None,
        }

    def do(self, action: str, message: Mapping[str, Any], told: Told) -> dict[str, Any]:
        """Carry out what the instructor asks for. Raises ValueError and OSError with a sentence."""
        match action:
            case "table":
                content = "\ufeff" + csv_text(self._record())  # so that spreadsheets see UTF-8
                return _file("class-record.csv", "text/csv", content.encode())
            case "page":
                made = record_pdf(self._record(), _today(), bool(message.get("names", True)))
                return _file("class-record.pdf", "application/pdf", made)
            case "data":
                name = str(message.get("name"))
                content = json.dumps(
                    of_learner(self._records(), name), indent=1, ensure_ascii=False
                )
                return _file(f"{name}.json", "application/json", content.encode(), save=True)
            case "forget":
                return self._forget(str(message.get("name")), str(message.get("written", "")))
            case "keep":
                return {"says": self._keep(_days(message), message.get("sure") is True)}
        return {}

    def _records(self) -> list[dict[str, Any]]:
        leading = self.leading
        return [leading.classroom.record(row["id"]) for row in leading.sessions()]

    def _record(self) -> ClassRecord:
        return class_record(self._records())

    def _forget(self, name: str, written: str) -> dict[str, Any]:
        """Delete a learner whose name the instructor has written once more."""
        shown = next((one.shown for one in self._record().learners if one.name == name), name)
        if " ".join(written.split()).casefold() != " ".join(shown.split()).casefold():
            raise ValueError(
                say("To delete all that is kept of {name}, write that name.", {"name": shown})
            )
        self.leading.classroom.forget(name)
        return {"says": say("Nothing is kept of {name} any more.", {"name": shown})}

    def _keep(self, days: int | None, sure: bool) -> str:
        """Set how long sessions are kept; where some would go at once, only if that is sure."""
        old = [] if days is None else ended_before(self.leading.sessions(), days)
        if old and not sure:
            last = full(datetime.fromisoformat(old[0]["begun"]).astimezone().date())
            if len(old) == 1:
                return say(
                    "One session would be deleted with its answers, that of {day}. Press again to "
                    "delete it.",
                    {"day": last},
                )
            return say(
                "{count} sessions would be deleted with their answers, the latest of {day}. Press "
                "again to delete them.",
                {"count": len(old), "day": last},
            )
        gone = self.leading.classroom.keep_days(days)
        if days is None:
            return say("All sessions are kept from now on.")
        return say(
            "Sessions deleted: {count}. From now on older ones go whenever another one begins.",
            {"count": gone},
        )


def _today() -> date:
    return datetime.now().astimezone().date()


def _told(tally: Tally) -> dict[str, Any]:
    return {"asked": tally.asked, "first": tally.first, "last": tally.last, "share": tally.share}


def _days(message: Mapping[str, Any]) -> int | None:
    """Return how many days sessions are to be kept, None for good. Raises ValueError."""
    text = str(message.get("days", "")).strip()
    if not text:
        return None
    if not (text.isascii() and text.isdigit() and int(text) <= LONGEST_KEPT):
        raise ValueError(
            say(
                "Give how many days sessions are kept, such as 365, or nothing to keep all; not "
                "“{text}”.",
                {"text": text},
            )
        )
    return int(text)


def _file(name: str, kind: str, content: bytes, save: bool = False) -> dict[str, Any]:
    return {"file": {"name": name, "type": kind, "save": save}, "data": content}
