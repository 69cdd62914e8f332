"""Who may come in: names, roles and own PINs, and an instructor's word that it was really they."""

import hashlib
import hmac
import re
import secrets
import unicodedata
from collections.abc import Iterable
from itertools import pairwise
from typing import Any

from sqlalchemy import delete, func, select, update

from navlib.classroom.database import Database
from navlib.classroom.tables import moment, people
from navlib.record.places import tidy

SHORTEST_PIN, LONGEST_PIN = 6, 64
_N, _R, _P = 2**14, 8, 1
"""Cost of scrypt: 16 MB and some 50 ms a try, as RFC 7914 advises for logging in (section 2)."""


class People:
    """The people of a class, in the class's database."""

    def __init__(self, database: Database) -> None:
        self.database = database

    def put(self, listed: Iterable[tuple[str, str]]) -> None:
        """Take in names with roles; those known already keep their PINs and get the role given."""
        with self.database.writing() as db:
            for shown, role in listed:
                row = {"name": name_of(shown), "shown": tidy(shown), "role": role}
                insert = self.database.insert(people).values(row)
                update_role = {"role": role, "shown": row["shown"]}
                db.execute(insert.on_conflict_do_update(index_elements=["name"], set_=update_role))

    def get(self, name: str) -> dict[str, Any] | None:
        """Return the row of somebody, None for a stranger."""
        with self.database.reading() as db:
            row = db.execute(select(people).where(people.c.name == name)).mappings().first()
        return dict(row) if row else None

    def all(self) -> dict[str, dict[str, Any]]:
        """Return everybody by name, without PINs."""
        shown = [c for c in people.c if c.name != "pin"]
        with self.database.reading() as db:
            rows = db.execute(select(*shown).order_by(people.c.name)).mappings().all()
        return {row["name"]: dict(row) for row in rows}

    def claim(self, name: str, pin: str) -> bool:
        """Set the PIN of somebody who has none yet; False if there is one already."""
        change = update(people).where(people.c.name == name, people.c.pin.is_(None))
        with self.database.writing() as db:
            made = db.execute(
                change.values(pin=hashed(pin), claimed=moment()).returning(people.c.name)
            )
            return made.first() is not None

    def number(self, name: str) -> int:
        """Return somebody's own number, given out once and never to two."""
        with self.database.writing() as db:
            mine = select(people.c.number).where(people.c.name == name)
            number: int | None = db.execute(mine).scalar_one()
            if number is None:
                highest = select(func.coalesce(func.max(people.c.number), 0))
                number = int(db.execute(highest).scalar_one()) + 1
                db.execute(update(people).where(people.c.name == name).values(number=number))
        return number

    def confirm(self, name: str) -> bool:
        """Note that an instructor knows that the PIN was set by its owner."""
        return self._change(name, confirmed=moment())

    def clear(self, name: str) -> bool:
        """Forget a PIN, so that its owner can set a new one."""
        return self._change(name, pin=None, claimed=None, confirmed=None)

    def forget(self, name: str) -> bool:
        """Forget somebody."""
        query = delete(people).where(people.c.name == name).returning(people.c.name)
        with self.database.writing() as db:
            return db.execute(query).first() is not None

    def _change(self, name: str, **values: Any) -> bool:
        change = update(people).where(people.c.name == name).values(values)
        with self.database.writing() as db:
            return db.execute(change.returning(people.c.name)).first() is not None


def name_of(text: str) -> str:
    """Return the name that the hub knows somebody by: small letters, figures, hyphens.

    Names that differ only in capitals, spaces or points are one. Raises ValueError for what is none.
    """
    plain = unicodedata.normalize("NFKC", tidy(text)).casefold()
    name = "-".join(re.findall(r"[^\W_]+", plain))
    if not name:
        raise ValueError(f"“{text[:60]}” is no name. Give letters, such as Ina or Ina Skarp.")
    return name


def weak(pin: str) -> str:
    """Return what is wrong with a new PIN, "" if it will do."""
    if not SHORTEST_PIN <= len(pin) <= LONGEST_PIN:
        return (
            f"A PIN has at least {SHORTEST_PIN} figures or letters, such as those of no birthday."
        )
    steps = {ord(b) - ord(a) for a, b in pairwise(pin)}
    if len(steps) == 1 and steps <= {-1, 0, 1}:
        return "That PIN is the first that anyone would try: mix the figures."
    return ""


def hashed(pin: str) -> str:
    """Return what is kept of a PIN."""
    salt = secrets.token_bytes(16)
    return f"{salt.hex()}${_scrypt(pin, salt).hex()}"


def same(pin: str, kept: str) -> bool:
    """Return whether a PIN is the one that this was kept of."""
    salt, digest = (bytes.fromhex(part) for part in kept.split("$"))
    return hmac.compare_digest(_scrypt(pin, salt), digest)


def _scrypt(pin: str, salt: bytes) -> bytes:
    return hashlib.scrypt(pin.encode("utf-8", "replace"), salt=salt, n=_N, r=_R, p=_P, dklen=32)


def read_list(text: str) -> list[tuple[str, str]]:
    """Return names and roles of a class list: a line each, `name` or `name, role`.

    An empty line, one that begins with # and a heading that begins with “name” are passed over.
    Raises ValueError that names the line.
    """
    found: dict[str, tuple[str, str]] = {}
    for number, line in enumerate(text.removeprefix("\ufeff").splitlines(), 1):
        cells = [cell.strip().strip('"') for cell in re.split("[,;\t]", line)]
        if not line.strip() or line.startswith("#"):
            continue
        if not found and cells[0].casefold() == "name":
            continue
        role = cells[1].casefold() if len(cells) > 1 and cells[1] else "learner"
        if role not in ("learner", "instructor", "coach"):
            raise ValueError(
                f"Line {number} of the class list: “{cells[1]}” is no role. Write learner, "
                "instructor or coach after the comma, or nothing for a learner."
            )
        name = name_of(cells[0])
        if name in found:
            raise ValueError(
                f"Line {number} of the class list: “{cells[0]}” is “{found[name][0]}” again. Add "
                "a letter to tell the two apart."
            )
        found[name] = (cells[0], role)
    return list(found.values())
