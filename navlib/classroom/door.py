"""The front door of the class server: a name, an own PIN, and the class word the first time."""

import asyncio
import hmac
from pathlib import Path
from typing import Any

from jupyterhub.auth import Authenticator
from tornado.web import HTTPError
from traitlets import Bool, Unicode

from navlib.classroom.database import Database
from navlib.classroom.limits import Limit
from navlib.classroom.people import LONGEST_PIN, People, name_of, same, weak

GROUPS = {"learner": "learners", "instructor": "instructors", "coach": "coaches"}
"""The hub's groups, by role."""

DEVICE = "navlib-device"
"""Cookie of a browser from which somebody came in before."""

FORM = (Path(__file__).parent / "door.html").read_text(encoding="utf-8")


class Door(Authenticator):
    """Lets in who knows the PIN of a name, and lets the first who knows the word set it.

    Wrong PINs make strangers wait, by the name they try; a browser that its owner has come in with
    before waits for its own wrong PINs only, so that nobody can lock the owner out. Wrong words
    make an address wait, and a flood of them everybody who is new.
    """

    database = Unicode(help="Where the people of the class are kept.").tag(config=True)
    word = Unicode(help="What one has to know to choose a PIN for a learner's name.").tag(
        config=True
    )
    staff_word = Unicode(help="The same for instructors' and coaches' names.").tag(config=True)
    listed_only = Bool(False, help="Whether only names on the class list come in.").tag(config=True)

    def __init__(self, **named: Any) -> None:
        super().__init__(**named)
        self.people = People(Database(self.database))
        self.strangers = Limit(burst=5, every_s=30)
        self.devices = Limit(burst=10, every_s=10)
        self.words = Limit(burst=5, every_s=20)
        self.all_words = Limit(burst=60, every_s=2)

    def normalize_username(self, username: str) -> str:
        """Return the name as the hub knows it."""
        return name_of(username)

    def get_custom_html(self, base_url: str) -> str:
        """Return the form."""
        return FORM

    async def authenticate(self, handler: Any, data: dict[str, str]) -> dict[str, Any]:
        """Return who this is, with the group of their role; raises HTTPError with a sentence."""
        shown, pin = data.get("username", ""), data.get("pin", "")
        if len(shown) > 200 or not 1 <= len(pin) <= LONGEST_PIN:
            raise HTTPError(403, "Give your name and your PIN.")
        try:
            name = name_of(shown)
        except ValueError as problem:
            raise HTTPError(403, str(problem)) from None
        person = self.people.get(name)
        if person is not None and person["pin"]:
            await self._by_pin(handler, person, pin)
        else:
            person = await self._by_word(handler, person, shown, pin, data.get("word", ""))
        handler.set_signed_cookie(DEVICE, name, expires_days=90, path=handler.hub.base_url)
        return {"name": name, "groups": [GROUPS[person["role"]]], "admin": False}

    async def refresh_user(self, user: Any, handler: Any = None, **_: Any) -> Any:
        """Let nobody stay in who is no longer on the list, and give each the role of today."""
        person = self.people.get(user.name)
        if person is None or not person["pin"]:
            return False
        return {"name": user.name, "groups": [GROUPS[person["role"]]]}

    async def _by_pin(self, handler: Any, person: dict[str, Any], pin: str) -> None:
        name = person["name"]
        known = handler.get_signed_cookie(DEVICE, max_age_days=90) == name.encode()
        limit, who = (self.devices, name) if known else (self.strangers, name)
        self._must_wait(limit.wait_s(who), "Too many wrong PINs for that name.")
        limit.used(who)  # before it is looked at, so that many at once count as many
        if not await asyncio.to_thread(same, pin, person["pin"]):
            raise HTTPError(
                403,
                "That is not the PIN of that name. If you have never set one, somebody else has: "
                "tell your instructor, who can clear it.",
            )
        limit.forget(who)

    async def _by_word(
        self, handler: Any, person: dict[str, Any] | None, shown: str, pin: str, word: str
    ) -> dict[str, Any]:
        """Take in somebody who has no PIN yet; who may, knows the word."""
        role = person["role"] if person else "learner"
        wanted = self.word if role == "learner" else self.staff_word
        place = address(handler.request)
        self._must_wait(self.words.wait_s(place), "Too many wrong words from here.")
        self._must_wait(self.all_words.wait_s(""), "Too many wrong words.")
        given = " ".join(word.casefold().split()).encode("utf-8", "replace")
        if not hmac.compare_digest(given, wanted.casefold().encode()):
            self.words.used(place)
            self.all_words.used("")
            raise HTTPError(403, "That is not the class word. It is on the board, or ask for it.")
        if person is None and self.listed_only:
            self.words.used(place)
            raise HTTPError(
                403, "That name is not on the class list. Write it as your instructor wrote it."
            )
        if problem := weak(pin):
            raise HTTPError(403, problem)
        if person is None:
            self.people.put([(shown, "learner")])
        name = name_of(shown)
        if not await asyncio.to_thread(self.people.claim, name, pin):
            raise HTTPError(403, "Somebody has just set a PIN for that name. Tell your instructor.")
        person = self.people.get(name)
        assert person is not None
        return person

    def _must_wait(self, wait_s: float, why: str) -> None:
        if wait_s:
            raise HTTPError(403, f"{why} Wait {round(wait_s + 0.5)} seconds, then try again.")


def address(request: Any) -> str:
    """Return where a request comes from, by the word of our own proxy.

    The proxy writes the address it sees at the end of X-Forwarded-For; whatever stands before, and
    any other heading, may be of the sender's making.
    """
    forwarded = request.headers.get("X-Forwarded-For", "")
    return forwarded.rsplit(",", 1)[-1].strip() or str(request.remote_ip)
