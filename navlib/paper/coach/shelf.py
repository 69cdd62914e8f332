"""Where sittings are kept on this computer, and which there are."""

import os
import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from platformdirs import user_documents_path

from navlib.paper import folder
from navlib.paper.folder import Plan

ELSEWHERE = "other folders.txt"
"""A file beside the sittings with the folders of those that lie elsewhere, one a line."""


@dataclass(frozen=True)
class Kept:
    """A sitting on the shelf: its folder, and what it says of itself."""

    path: Path
    plan: Plan

    @property
    def words(self) -> str:
        """What it is called where one is chosen."""
        return f"{self.plan.blueprint.title}, {self.path.name} ({self.plan.made[:10]})"


def home() -> Path:
    """Return the folder for sittings: `NAVLIB_PAPERS`, else “papers” among the user’s documents."""
    given = os.environ.get("NAVLIB_PAPERS")
    return Path(given) if given else user_documents_path() / "papers"


def sittings() -> list[Kept]:
    """Return the sittings that are known, the one last worked on first; a damaged one is left out."""
    found = {path.resolve(): path for path in _folders()}
    return sorted(filter(None, map(_kept, found.values())), key=_age)


def note(path: Path) -> None:
    """Remember a sitting that lies elsewhere, so that it is found again."""
    if path.resolve() in {known.resolve() for known in _folders()}:
        return
    home().mkdir(parents=True, exist_ok=True)
    with (home() / ELSEWHERE).open("a", encoding="utf-8") as file:
        file.write(f"{path.resolve()}\n")


def free_folder(blueprint: str, sitting: str) -> Path:
    """Return a folder for a new sitting that is not taken, such as papers/warm-up-first."""
    name = re.sub(r"[^\w-]+", "-", f"{blueprint}-{sitting}").strip("-").lower() or "sitting"
    names = (name if n == 1 else f"{name}-{n}" for n in range(1, 10_000))
    return next(path for each in names if not (path := home() / each).exists())


def _folders() -> Iterator[Path]:
    here = home()
    if not here.is_dir():
        return
    yield from (file.parent for file in here.glob("*/sitting.json"))
    listed = here / ELSEWHERE
    if listed.is_file():
        lines = listed.read_text(encoding="utf-8", errors="replace").splitlines()
        yield from (Path(line) for line in lines if line.strip())


def _kept(path: Path) -> Kept | None:
    try:
        return Kept(path, folder.read_plan(path))
    except ValueError:
        return None


def _age(kept: Kept) -> float:
    files = (kept.path / "sitting.json", kept.path / "marks" / "entries.jsonl")
    return -max(file.stat().st_mtime for file in files if file.exists())
