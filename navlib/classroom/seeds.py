"""Own values for each seat, the same again next year from the session's number."""

import hashlib
import secrets


def new_number() -> int:
    """Return a number for a new session that nobody can guess, short enough to write down."""
    return 100_000 + secrets.randbelow(900_000_000)


def seed(session: int, position: int, seat: int | None) -> int:
    """Return the seed of a session's question at `position` for a seat; for all seats with None.

    `session` is the session's number. The seed depends on nothing else: not on names, nor on when
    it is asked, nor on the machine.
    """
    who = "all" if seat is None else seat
    digest = hashlib.sha256(f"{session}/{position}/{who}".encode()).digest()
    return int.from_bytes(digest[:4]) % 2**31
