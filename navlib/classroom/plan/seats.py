"""Seats as they are written: how many, or from one to another."""

import re


def seats_of(text: str) -> range:
    """Return seats: 12 is the first twelve, 13-15 these three. Raises ValueError."""
    found = re.fullmatch(r"(?:(\d{1,3})\s*[-–]\s*)?(\d{1,3})", text.strip())
    first, last = (int(found[1] or 1), int(found[2])) if found else (0, 0)
    if not 1 <= first <= last:
        raise ValueError(
            "Which seats? Write how many, such as 12, or from one to another, such as 13-15; not "
            f"“{text}”."
        )
    return range(first, last + 1)
