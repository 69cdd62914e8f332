"""Behind the form in which a session is planned: plans to begin with, and what is made of one."""

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

from navlib import questions
from navlib.classroom import seeds
from navlib.classroom.plan import demonstrations, drafting, reading, shelf
from navlib.classroom.plan.plan import WHATS, Plan
from navlib.classroom.plan.reading import PlanError
from navlib.classroom.plan.seats import seats_of
from navlib.classroom.plan.times import START
from navlib.language import say
from navlib.paper.lessons import title as topic_title
from navlib.paper.typed import one_line

FIRST = "bearings"
"""The plan that the form begins with."""

_WHATS = {
    "demonstrate": "Demonstrate",
    "work alone": "Work alone",
    "compare in pairs": "Compare in pairs",
    "vote": "Vote",
    "reveal": "Reveal",
    "break": "Break",
}

Told = Callable[[str, float], None]
"""What is being done, and the share of the whole that is done."""


class PlanForm:
    """The form of a plan. `face` is what it shows, `do` carries out what is asked of it."""

    def face(self) -> dict[str, Any]:
        """Return what there is to choose from."""
        return {
            "ready": [_offered(*one) for one in shelf.ready()],
            "own": [_offered(*one) for one in shelf.own()],
            "folder": str(shelf.home()),
            "first": FIRST,
            "whats": [[what, say(_WHATS[what])] for what in WHATS],
            "topics": [
                {
                    "topic": topic,
                    "title": say(topic_title(topic)),
                    "kinds": _kinds(topic),
                    "shown": shown,
                }
                for topic, shown in _demonstrations().items()
            ],
        }

    def do(self, action: str, message: Mapping[str, Any], told: Told) -> dict[str, Any]:
        """Carry out what the instructor asks for. Raises ValueError and OSError with a sentence."""
        match action:
            case "take":
                return self._laid(_read(str(message["source"])), message)
            case "read":
                return self._laid(_own_file(message), message)
            case "reckon":
                return {"reckoned": drafting.reckoned(message["draft"], _start(message))}
            case "save":
                path = shelf.keep(_plan(message), str(message.get("over", "")))
                says = say(
                    "Saved as {file} in {folder}.", {"file": path.name, "folder": str(path.parent)}
                )
                return {"source": str(path), "says": says}
            case "page":
                return _page(_plan(message), _start(message))
            case "cards" | "key":
                return _cards(action, message, told)
        return {}

    def _laid(self, plan: Plan, message: Mapping[str, Any]) -> dict[str, Any]:
        draft = drafting.draft_of(plan)
        return {"draft": draft, "reckoned": drafting.reckoned(draft, _start(message))}


def _offered(source: str, plan: Plan) -> dict[str, str]:
    words = say("{title} ({minutes} min)", {"title": plan.title, "minutes": plan.minutes})
    return {"source": source, "words": words}


def _kinds(topic: str) -> list[dict[str, Any]]:
    types = map(questions.question_type, questions.kinds(topic))
    return [{"kind": one.kind, "title": say(one.title), "level": one.level} for one in types]


def _demonstrations() -> dict[str, list[list[str]]]:
    return {
        topic: [list(one) for one in lines.items()]
        for topic, lines in demonstrations.by_topic().items()
    }


def _start(message: Mapping[str, Any]) -> str:
    return one_line(message.get("start")) or START


def _read(source: str) -> Plan:
    try:
        return reading.read(source)
    except PlanError as wrong:
        raise ValueError(f"{Path(source).name} cannot be used yet. {wrong}") from None


def _own_file(message: Mapping[str, Any]) -> Plan:
    """Return the plan in a file that the instructor chose; ValueError with all its mistakes."""
    name = Path(str(message.get("file", "plan"))).stem
    try:
        return reading.parse(str(message.get("text", "")), name)
    except PlanError as wrong:
        raise ValueError(f"This file cannot be used yet. {wrong}") from None


def _plan(message: Mapping[str, Any]) -> Plan:
    """Return the plan that the form holds; ValueError names the first mistake."""
    plan, problems = drafting.plan_of(message["draft"])
    if plan is None:
        raise ValueError(say("First mend this: {says}", {"says": problems[0]["says"]}))
    return plan


def _file(name: str, save: bool) -> dict[str, Any]:
    return {"name": name, "type": "application/pdf", "save": save}


def _page(plan: Plan, start: str) -> dict[str, Any]:
    from navlib.classroom.plan.printed import plan_pdf  # brings the typesetter

    return {"file": _file(f"{plan.name or 'plan'}.pdf", False), "data": plan_pdf(plan, start)}


def _cards(action: str, message: Mapping[str, Any], told: Told) -> dict[str, Any]:
    """Return the work cards or their key, with the number of the session that they belong to."""
    from navlib.classroom.plan import cards  # brings matplotlib and the typesetter

    plan, seats = _plan(message), seats_of(str(message.get("seats", "")))
    number = _number(one_line(message.get("number")))
    if action == "key":
        content, says = cards.key_pdf(plan, number, seats), say("The key is for you alone.")
    else:
        content = cards.cards_pdf(plan, number, seats, told)
        says = say(
            "Print the cards at 100 %. Their session number is {number}.", {"number": number}
        )
    return {
        "number": str(number),
        "says": says,
        "file": _file(f"{plan.name or 'plan'}-{action}-{number}.pdf", True),
        "data": content,
    }


def _number(text: str) -> int:
    if not text:
        return seeds.new_number()
    if not (text.isascii() and text.isdigit() and len(text) < 12):
        raise ValueError(
            say(
                "The number of a session is a whole number such as 123456, not “{text}”.",
                {"text": text},
            )
        )
    return int(text)
