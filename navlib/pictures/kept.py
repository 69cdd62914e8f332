"""Drawn pictures kept on this computer, so that a lesson opened again need not draw them again.

What is kept may be deleted at any time. It is drawn anew when the project, its data, matplotlib or
the learner's language changes: what a picture shows is kept in words too.
"""

import json
import os
from collections.abc import Callable
from functools import cache
from hashlib import sha256
from importlib.metadata import version
from pathlib import Path
from typing import Any

import platformdirs

import navlib
from navlib import language

MOST = 300
"""Pictures kept; of more the ones that were used longest ago go. A picture is about 0.3 MB."""


def kept(picture: Any, draw: Callable[[], dict[str, Any]]) -> dict[str, Any]:
    """Return what `draw` made of `picture` before, or makes now.

    `picture` is a description whose repr says all about it; what is drawn is plain data. A folder
    that cannot be read or written costs time, nothing else.
    """
    folder = Path(os.environ.get("NAVLIB_KEPT") or platformdirs.user_cache_dir("navlib"))
    name = sha256(f"{_edition()} {language.edition()} {picture!r}".encode()).hexdigest()[:32]
    file = folder / "pictures" / f"{name}.json"
    try:
        drawn: dict[str, Any] = json.loads(file.read_text(encoding="utf-8"))
        file.touch()
    except (OSError, ValueError):
        drawn = draw()
        _keep(file, drawn)
    return drawn


@cache
def _edition() -> str:
    """Return a mark of all that a picture is made by: sources, data, and the drawing library."""
    root = Path(navlib.__file__).parent
    made_by = (f for f in root.rglob("*") if f.suffix in {".py", ".json", ".geojson", ".png"})
    marks = sorted((str(f), f.stat().st_size, f.stat().st_mtime_ns) for f in made_by)
    return sha256(f"{marks} {version('matplotlib')}".encode()).hexdigest()


def _keep(file: Path, drawn: dict[str, Any]) -> None:
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        part = file.with_suffix(f".{os.getpid()}")  # whoever reads meanwhile sees all or nothing
        part.write_text(json.dumps(drawn), encoding="utf-8")
        part.replace(file)
        used = sorted(file.parent.glob("*.json"), key=lambda one: one.stat().st_mtime)
        for old in used[:-MOST]:
            old.unlink(missing_ok=True)
    except OSError:
        pass  # kept nowhere: drawn again next time
