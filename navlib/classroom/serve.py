"""Starts the class server: `python -m navlib class serve`."""

import json
import os
import secrets
import shutil
import socket
import sys
import tempfile
from importlib.util import find_spec
from pathlib import Path

from platformdirs import user_data_path

from navlib.classroom.hub import CONFIG_FILE, SETTINGS, Settings
from navlib.classroom.isolation import SAYS, SHARED, Isolation, choose

WORDS = (Path(__file__).parent / "words.txt").read_text("utf-8").split()
"""From which a class word is made if none is given."""


_NEEDS = ("configurable_http_proxy", "jupyterhub", "sqlalchemy")


def serve(
    *,
    listed: Path | None,
    word: str | None,
    instructor: str,
    folder: Path | None,
    database: str | None,
    lessons: Path,
    address: str,
    port: int,
    isolation: str | None,
) -> None:
    """Become the class server; returns only by an error, as a ValueError or OSError with a sentence.

    `listed` is the file of a class list; without one whoever knows the word may give any name.
    """
    missing = [name for name in _NEEDS if find_spec(name) is None]
    if missing:
        needs = Path(__file__).parent / "requirements.txt"
        raise ValueError(
            f"The class server needs more than the lessons do ({', '.join(missing)} not found). Run: "
            f"{sys.executable} -m pip install -r {needs}"
        )
    way = choose(isolation)
    folder = _own_folder(folder, way)
    database = database or str(folder / "class.sqlite")
    kept = _words(folder, word)
    _take_in(database, listed, instructor)
    given = Settings(
        folder=str(folder),
        database=database,
        lessons=str(lessons.resolve()),
        short=_short(folder),
        isolation=way.value,
        word=kept["word"],
        staff_word=kept["staff word"],
        listed_only=listed is not None,
        address=address,
        port=port,
        ports=_free_ports(),
    )
    _say(given, instructor, way)
    os.environ[SETTINGS] = given.to_text()
    os.chdir(folder)
    os.execv(
        sys.executable, [sys.executable, "-P", "-m", "jupyterhub", "--config", str(CONFIG_FILE)]
    )


def _own_folder(folder: Path | None, way: Isolation) -> Path:
    """Make the class's folder: others may pass through it to their homes, and read nothing."""
    folder = (folder or user_data_path("navlib", appauthor=False) / "class").resolve()
    folder.mkdir(parents=True, exist_ok=True)
    folder.chmod(0o711 if way is Isolation.OWN_USER else 0o700)
    homes = folder / "homes"
    homes.mkdir(exist_ok=True)
    homes.chmod(0o711)
    os.umask(0o077)
    (folder / "logs").mkdir(exist_ok=True)
    return folder


def _words(folder: Path, word: str | None) -> dict[str, str]:
    """Return the class word and the staff word, made once and kept."""
    file = folder / "words.json"
    kept: dict[str, str] = json.loads(file.read_text("utf-8")) if file.exists() else {}
    if word is not None and len(word.strip()) < 6:
        raise ValueError(
            f"The word “{word}” is too short to be kept from guessing: give at least six letters, such "
            f"as --word {_new_word()}."
        )
    kept["word"] = " ".join(word.split()) if word else kept.get("word") or _new_word()
    kept.setdefault("staff word", f"{_new_word()}-{secrets.randbelow(9000) + 1000}")
    file.write_text(json.dumps(kept), "utf-8")
    return kept


def _new_word() -> str:
    return "-".join(secrets.choice(WORDS) for _ in range(3))


def _take_in(database: str, listed: Path | None, instructor: str) -> None:
    from navlib.classroom.database import Database
    from navlib.classroom.people import People, read_list

    kept = Database(database)
    people = People(kept)
    people.put([(instructor, "instructor")])
    if listed is not None:
        people.put(read_list(listed.read_text("utf-8")))
    kept.close()


def _short(folder: Path) -> str:
    """Return a folder with a short path: the path of a socket has room for 107 characters.

    The one of the last time is taken away.
    """
    note = folder / "short.txt"
    if note.exists():
        shutil.rmtree(note.read_text("utf-8"), ignore_errors=True)
    short = Path(tempfile.mkdtemp(prefix="nav", dir="/tmp"))
    short.chmod(0o711)
    note.write_text(str(short), "utf-8")
    return str(short)


def _free_ports() -> tuple[int, int, int]:
    doors = [socket.create_server(("127.0.0.1", 0)) for _ in range(3)]
    first, second, third = (door.getsockname()[1] for door in doors)
    for door in doors:
        door.close()
    return first, second, third


def _say(given: Settings, instructor: str, way: Isolation) -> None:
    where = given.address or _this_machine()
    print(
        f"The class comes in at  http://{where}:{given.port}/  in a few seconds.",
        f"  Class word:  {given.word}   (each learner gives it once, and chooses a PIN)",
        f"  Instructor:  {instructor}, who gives the word  {given.staff_word}  the first time",
        f"  Kept in:     {given.folder}",
        SAYS[way],
        SHARED,
        "Nothing is encrypted on the way: use a network of your own, or see navlib/classroom/GUIDE.md.",
        "Stop with Ctrl-C in this window.",
        sep="\n",
        flush=True,
    )


def _this_machine() -> str:
    """Return the address of this machine on its network; nothing is sent."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(("192.0.2.1", 9))
            return str(probe.getsockname()[0])
        except OSError:
            return "127.0.0.1"
