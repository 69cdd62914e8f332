"""Behind the form in which a paper is set: blueprints to begin with, and the making of a sitting."""

from collections.abc import Mapping
from functools import cached_property
from pathlib import Path
from typing import Any

from navlib.language import say
from navlib.paper import reading
from navlib.paper.building import FIRST_SITTING
from navlib.paper.coach import making, plans, shelf
from navlib.paper.coach.drafts import blueprint_of, draft_of
from navlib.paper.coach.making import Told, nothing_told
from navlib.paper.coach.room import Room, files, opened
from navlib.paper.reading import BlueprintError

FIRST = "warm-up"
"""The blueprint that the form begins with: the shortest."""


class Setting:
    """The form of a paper. `face` is what it shows, `do` carries out what is asked of it."""

    def __init__(self, room: Room) -> None:
        self.room = room

    def face(self) -> dict[str, Any]:
        """Return what there is to choose from, and the files of the sitting that lies open."""
        sitting = self.room.sitting
        return {
            **self._choices,
            **self.room.face(),
            "files": files(sitting.path, "papers", "coach") if sitting else [],
        }

    @cached_property
    def _choices(self) -> dict[str, Any]:
        ready = [reading.read(name) for name in reading.ready_made()]
        ready.sort(key=lambda blueprint: (blueprint.minutes, blueprint.title))
        return {
            "blueprints": [
                {
                    "name": one.name,
                    "words": say(
                        "{title}: {minutes} minutes, {count} questions",
                        {"title": one.title, "minutes": one.minutes, "count": len(one.rows)},
                    ),
                }
                for one in ready
            ],
            "first": FIRST,
            "most": making.MOST,
            **plans.what_there_is(),
        }

    def do(
        self, action: str, message: Mapping[str, Any], told: Told = nothing_told
    ) -> dict[str, Any]:
        """Carry out what the coach asks for. Raises ValueError with a sentence."""
        match action:
            case "take":
                return self._laid(draft_of(reading.read(str(message["name"]))))
            case "read":
                return self._laid(draft_of(_own(message)))
            case "resit":
                blueprint = making.blueprint_for_resit(Path(str(message["of"])))
                return self._laid(draft_of(blueprint))
            case "reckon":
                return {"reckoned": plans.reckoned(message["draft"])}
            case "folder":
                name = str(message["name"])
                return {"folder": str(shelf.free_folder(name, str(message["sitting"])))}
            case "save":
                blueprint = _blueprint(message["draft"])
                name = f"{blueprint.name or 'blueprint'}.yaml"
                data = reading.write(blueprint).encode()
                return {"file": {"name": name, "type": "text/yaml", "save": True}, "data": data}
            case "make":
                return self._make(message, told)
            case "print":
                return self._print(message, told)
            case "open":
                return opened(self.room, message)
        return {}

    def _laid(self, draft: dict[str, Any]) -> dict[str, Any]:
        return {"draft": draft, "reckoned": plans.reckoned(draft)}

    def _print(self, message: Mapping[str, Any], told: Told) -> dict[str, Any]:
        large, html = bool(message.get("large")), bool(message.get("html"))
        written = making.print_all(self.room.needed(), large=large, html=html, told=told)
        return {"says": say("Written anew: {count} files.", {"count": len(written)})}

    def _make(self, message: Mapping[str, Any], told: Told) -> dict[str, Any]:
        name = str(message.get("sitting", "")).strip() or FIRST_SITTING
        of = str(message.get("of", ""))
        resit = Path(of) if of else None
        blueprint = making.blueprint_for_resit(resit) if resit else _blueprint(message["draft"])
        count = _count(message.get("count"))
        given = str(message.get("folder", "")).strip()
        path = Path(given).expanduser() if given else shelf.free_folder(blueprint.name, name)
        sitting = making.make(
            path.absolute(),
            blueprint,
            count,
            name=name,
            resit_of=resit,
            large=bool(message.get("large")),
            html=bool(message.get("html")),
            told=told,
        )
        self.room.lay(sitting)
        return {
            "says": say(
                "Made: {count} papers with their mark schemes, in {folder}.",
                {"count": count, "folder": str(sitting.path)},
            )
        }


def _blueprint(draft: Mapping[str, Any]) -> reading.Blueprint:
    """Return the blueprint that a form holds; ValueError names the first mistake."""
    blueprint, problems = blueprint_of(draft)
    if blueprint is None:
        raise ValueError(f"First mend this: {problems[0]['says']}")
    missing = plans.plan(blueprint).missing
    if missing:
        where = f"Question {missing[0].number}: " if missing[0].number else ""
        raise ValueError(f"First mend this: {where}{missing[0].sentence}")
    return blueprint


def _own(message: Mapping[str, Any]) -> reading.Blueprint:
    """Return the blueprint in a file that the coach chose; ValueError with all its mistakes."""
    name = Path(str(message.get("file", "blueprint"))).stem
    try:
        return reading.parse(str(message.get("text", "")), name)
    except BlueprintError as wrong:
        raise ValueError(f"This file cannot be used yet. {wrong}") from None


def _count(given: object) -> int:
    text = str(given).strip()
    if not (text.isascii() and text.isdigit()):
        raise ValueError(f"How many papers? Write a number such as 12, not “{text}”.")
    return int(text)
