"""Where records are kept: one file for the learner without a name, one more for each name."""

import hashlib
import os
import re
import unicodedata
from contextlib import suppress
from pathlib import Path

from platformdirs import user_data_path

LONGEST_NAME = 60


def default_path() -> Path:
    """Return the record file of the learner without a name.

    `NAVLIB_RECORD` if set, else in this user's own data folder.
    """
    given = os.environ.get("NAVLIB_RECORD")
    return Path(given) if given else user_data_path("navlib", appauthor=False) / "record.sqlite"


def folder() -> Path:
    """Return the folder of the learners who gave a name, beside the record without one."""
    without = default_path()
    return without.with_name(f"{without.stem}-learners")


def tidy(name: str) -> str:
    """Return a learner's name as it is shown: single spaces, no control characters.

    Raises ValueError for one that is too long.
    """
    plain = unicodedata.normalize("NFC", name)
    kept = "".join(c for c in plain if c.isspace() or unicodedata.category(c)[0] != "C")
    tidied = " ".join(kept.split())
    if len(tidied) > LONGEST_NAME:
        raise ValueError(
            f"That name has {len(tidied)} letters; give one of at most {LONGEST_NAME}, such as "
            "your first name."
        )
    return tidied


def path_of(name: str) -> Path:
    """Return the record file of the learner of that name; of the one without a name for "".

    Any name gives a file name that every system can hold. Names that differ only in capitals or in
    how their accents are stored are one learner.
    """
    name = tidy(name)
    if not name:
        return default_path()
    key = unicodedata.normalize("NFKC", name).casefold()
    letters = unicodedata.normalize("NFKD", key).encode("ascii", "ignore").decode()
    readable = "-".join(re.findall("[a-z0-9]+", letters))[:24].strip("-") or "learner"
    return folder() / f"{readable}-{hashlib.sha256(key.encode()).hexdigest()[:12]}.sqlite"


def chosen() -> str:
    """Return the name of the learner chosen last on this machine, "" for the one without a name."""
    with suppress(OSError, ValueError):
        return tidy(_choice().read_text(encoding="utf-8"))
    return ""


def keep_choice(name: str) -> None:
    """Keep for the next lesson opened who was chosen; raises OSError if it cannot be kept."""
    choice = _choice()
    if not name:
        choice.unlink(missing_ok=True)
        return
    choice.parent.mkdir(parents=True, exist_ok=True)
    new = choice.with_suffix(f".{os.getpid()}")
    new.write_text(name, encoding="utf-8")
    new.replace(choice)


def _choice() -> Path:
    return folder() / "chosen.txt"
