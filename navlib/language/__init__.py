"""The language in which a learner is spoken to: each text is looked up as it stands in the code.

NAVLIB_LANGUAGE names a translator's file, in the PO format of GNU gettext; without it all is
English. `python -m navlib texts` writes the file that a translator begins with.
"""

import os
import re
from collections.abc import Mapping, Sequence
from functools import cache
from pathlib import Path
from typing import Any


def say(text: str, values: Mapping[str, Any] | None = None) -> str:
    """Return a text in the learner's language, with `values` put in for the names in braces."""
    told = translations().get(text, text)
    return told if values is None else told.format_map(values)


def either(ways: Sequence[str]) -> str:
    """Return two or more ways to write something, any of which will do: 3 h or 180 min."""
    first, *others = ways
    for other in others:
        first = say("{one} or {other}", {"one": first, "other": other})
    return first


def listed(things: Sequence[str]) -> str:
    """Return one or more things as a list: A, B and C."""
    *before, last = things
    return say("{some} and {last}", {"some": ", ".join(before), "last": last}) if before else last


def to_say(text: str) -> str:
    """Return a text as it is, for `say` to be given where it is shown: marks it for a translator."""
    return text


def edition() -> str:
    """Return a mark of the translator's file in use, another one once it has changed; "" for English."""
    file = os.environ.get("NAVLIB_LANGUAGE")
    if not file:
        return ""
    written = Path(file).stat()
    return f"{file} {written.st_size} {written.st_mtime_ns}"


def translations() -> dict[str, str]:
    """Return every text that is translated with its translation; empty for English."""
    file = os.environ.get("NAVLIB_LANGUAGE")
    return _read(Path(file)) if file else {}


@cache
def _read(file: Path) -> dict[str, str]:
    """Return the translations in a PO file, but for those that put other things in than the text.

    Raises ValueError with the file's name if it cannot be read.
    """
    from babel.messages.pofile import PoFileError, read_po  # slow to import, and seldom needed

    try:
        with file.open("rb") as opened:
            catalog = read_po(opened, abort_invalid=True)
    except (OSError, PoFileError, UnicodeDecodeError) as problem:
        raise ValueError(
            f"NAVLIB_LANGUAGE is {file}, and that is no PO file that can be read: {problem}"
        ) from None
    return {
        str(entry.id): str(entry.string)
        for entry in catalog
        if entry.id and entry.string and not entry.fuzzy and names(entry.string) <= names(entry.id)
    }


def names(text: Any) -> set[str]:
    """Return the names in braces for which a text has values put in."""
    return set(re.findall(r"\{(\w+)", str(text)))
