"""The plans there are: ready-made ones, and those that the instructor keeps."""

import re
from pathlib import Path

from navlib.classroom.filed import home as classes
from navlib.classroom.plan import reading
from navlib.classroom.plan.plan import Plan
from navlib.paper.folder import put


def home() -> Path:
    """Return the folder of the instructor's own plans: “plans” in the folder for classes."""
    return classes() / "plans"


def own() -> list[tuple[str, Plan]]:
    """Return the instructor's own plans by what to read them from; a damaged one is left out."""
    found = []
    for file in sorted(home().glob("*.yaml")):
        try:
            found.append((str(file), reading.read(file)))
        except (ValueError, OSError):
            continue
    return found


def ready() -> list[tuple[str, Plan]]:
    """Return the ready-made plans by what to read them from, in the order of the topics."""
    return [(name, reading.read(name)) for name in reading.ready_made()]


def keep(plan: Plan, over: str = "") -> Path:
    """Write a plan into the instructor's own folder, under its name, and return the file.

    A plan of that name that lies there already is only written over if it is `over`. Raises
    FileExistsError otherwise.
    """
    name = re.sub(r"[^\w-]+", "-", plan.name).strip("-").lower()[:60] or "plan"
    path = home() / f"{name}.yaml"
    if path.exists() and str(path) != over:
        raise FileExistsError(
            f"There is a plan “{name}” among yours already. Give this one another name, or begin with "
            "that one to change it."
        )
    path.parent.mkdir(parents=True, exist_ok=True)
    put(path, reading.write(plan).encode())
    return path
