"""All chance in a paper comes from the coach's secret: HMAC-SHA256 of what is drawn for."""

import hmac
import json
from hashlib import sha256

from navlib.paper.blueprint import Blueprint
from navlib.waters import Place

FIRST_SITTING = "first"
"""The name of a first sitting; any other is a resit."""
LETTERS = "23456789BCDEFGHJKMNPQRSTVWXYZ"
"""Of which codes are made: no 0 or O, no 1, I or L, and too few vowels to spell with."""
LENGTH = 6
"""Letters of a code before the one that checks it."""


def lot(secret: bytes, *what: object) -> str:
    """Return 64 hexadecimal digits that only who knows the secret can foretell (RFC 2104)."""
    return hmac.new(secret, json.dumps(what, default=str).encode(), sha256).hexdigest()


def lot_number(secret: bytes, *what: object) -> int:
    """Return the same as a whole number below 2 ** 64."""
    return int(lot(secret, *what)[:16], 16)


def ends_of(first: Place, last: Place) -> str:
    """Return a mark of two places, whichever comes first."""
    return repr(sorted((round(east), round(north)) for east, north in (first, last)))


def keeps(lots: tuple[bytes, str, str], what: str) -> bool:
    """Return whether something is of a sitting's half: the first has one, all others the other."""
    secret, content, sitting = lots
    return lot_number(secret, content, "half", what) % 2 == (sitting != FIRST_SITTING)


def content(blueprint: Blueprint) -> str:
    """Return a mark of all in a blueprint that its numbers and places hang on.

    Titles, marks and minutes are not among it: to mend a word changes no paper.
    """
    rows = [(row.number, row.topic, row.kinds) for row in blueprint.rows]
    sheets = [(s.water, s.sheet, s.scale, s.paper_size) for s in blueprint.sheets]
    days = blueprint.first.isoformat(), blueprint.last.isoformat()
    return sha256(json.dumps([blueprint.name, days, sheets, rows]).encode()).hexdigest()


def code(secret: bytes, *what: object) -> str:
    """Return the code of a paper, such as K7M4-QXP; nothing can be told from it.

    Its last letter checks the others: one letter misread, or two exchanged, is noticed.
    """
    number = lot_number(secret, "code", *what)
    letters = []
    for _ in range(LENGTH):
        number, which = divmod(number, len(LETTERS))
        letters.append(LETTERS[which])
    whole = "".join(letters)
    return f"{whole[:4]}-{whole[4:]}{_check(whole)}"


def read_code(text: str) -> str | None:
    """Return a code as printed from how someone wrote it down; None if it cannot be one."""
    letters = "".join(c for c in text.upper() if c.isalnum())
    if len(letters) != LENGTH + 1 or any(c not in LETTERS for c in letters):
        return None
    return f"{letters[:4]}-{letters[4:]}" if letters[-1] == _check(letters[:-1]) else None


def _check(letters: str) -> str:
    """Return the letter that makes the sum, weighted by place, a multiple of a prime, 29.

    As in ISBN-10 (ISO 2108:1992): different weights show an exchange, a prime any single letter.
    """
    total = sum((k + 2) * LETTERS.index(c) for k, c in enumerate(reversed(letters)))
    return LETTERS[-total % len(LETTERS)]
