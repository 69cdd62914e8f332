"""The files of a sitting's folder: the plan anyone may read, and the coach's secret."""

import json
import os
import secrets
from collections.abc import Mapping
from dataclasses import asdict, dataclass
from datetime import date
from pathlib import Path
from typing import Any

from navlib.paper import reading
from navlib.paper.blueprint import Blueprint, Row, SheetWanted
from navlib.paper.lots import code, content, lot
from navlib.paper.variants import Paper

FORM = 1
"""The form of sitting.json now."""
FOLDERS = ("papers", "coach", "marks", "results")
"""What a sitting's folder holds beside its files: only `papers` is for candidates."""


@dataclass(frozen=True)
class Plan:
    """What sitting.json holds: the papers' codes by the number of the candidate, and `seals`.

    `follows` are the sittings that a resit must differ from, each with how many papers it had.

    A seal, by code, tells whether a paper made again is the paper that was printed; without the
    secret it tells nothing.
    """

    name: str
    made: str
    codes: Mapping[str, str]
    seals: Mapping[str, str]
    blueprint: Blueprint
    follows: tuple[tuple[str, int], ...] = ()


def seal(paper: Paper, secret: bytes) -> str:
    """Return the seal of a paper: it changes with any word or answer in it."""
    asked = [(i.number, i.question.kind, i.question.text, i.question.answers) for i in paper.items]
    return lot(secret, "seal", paper.code, asked)[:16]


def why_unlike(plan: Plan, secret: bytes) -> str:
    """Return why papers made again are not those that were printed, and what to do.

    Codes hang on the secret and the blueprint alone, so they tell whether the secret is to blame.
    """
    first = code(secret, content(plan.blueprint), plan.name, 1, 0)
    if first not in plan.codes.values():
        return (
            "The file “secret” is not that of this sitting. Put back the one that was made with it: "
            "the entries in “marks” are not lost."
        )
    return (
        f"This workbook makes other questions now than on {plan.made[:10]}, when it made this sitting, "
        "so it cannot mark them. Nothing is lost: the printed mark schemes in “coach” hold, and the "
        "entries in “marks” are kept. To mark on, get the workbook as it was that day into a folder of "
        f"its own (in a clone, “git rev-list -1 --before={plan.made[:10]}T23:59 HEAD” names it for "
        "“git checkout”)."
    )


def draw_secret() -> bytes:
    """Return a new secret, 128 bits of it."""
    return secrets.token_bytes(16)


def make(folder: Path, plan: Plan, secret: bytes) -> None:
    """Make the folder of a sitting; raises FileExistsError where one is already."""
    if is_taken(folder):
        raise FileExistsError(
            f"There is a sitting in {folder} already. Choose another folder, or open that one."
        )
    for part in FOLDERS:
        (folder / part).mkdir(parents=True, exist_ok=True)
    file = os.open(folder / "secret", os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    with os.fdopen(file, "w", encoding="utf-8") as out:
        out.write(secret.hex() + "\n")
        out.flush()
        os.fsync(out.fileno())
    whole = {
        "navlib-sitting": FORM,
        "name": plan.name,
        "made": plan.made,
        "count": len(plan.codes),
        "follows": list(plan.follows),
        "codes": dict(plan.codes),
        "seals": dict(plan.seals),
        "blueprint": asdict(plan.blueprint),
    }
    text = json.dumps(whole, indent=1, ensure_ascii=False, default=date.isoformat)
    put(folder / "blueprint.yaml", reading.write(plan.blueprint).encode())
    put(folder / "sitting.json", (text + "\n").encode())


def is_taken(folder: Path) -> bool:
    """Return whether a sitting has been begun in this folder."""
    return (folder / "sitting.json").exists() or (folder / "secret").exists()


def read_plan(folder: Path) -> Plan:
    """Return what sitting.json holds; raises ValueError with a sentence if it cannot be used."""
    path = folder / "sitting.json"
    try:
        whole = json.loads(path.read_text(encoding="utf-8"))
        form = whole["navlib-sitting"]
        if form <= FORM:
            codes, seals = (
                {str(name): str(text) for name, text in whole[what].items()}
                for what in ("codes", "seals")
            )
            blueprint = _blueprint(whole["blueprint"])
            follows = tuple((str(name), int(count)) for name, count in whole["follows"])
            return Plan(str(whole["name"]), str(whole["made"]), codes, seals, blueprint, follows)
    except OSError:
        raise ValueError(
            f"There is no sitting in {folder}: its file sitting.json cannot be read. Name the folder "
            "that was made for the sitting."
        ) from None
    except (ValueError, KeyError, TypeError, AttributeError):
        raise ValueError(
            f"{path} is damaged. Put back the copy that you kept; the entries in “marks” are not lost."
        ) from None
    raise ValueError("A newer version of this workbook made that sitting: update this one first.")


def read_secret(folder: Path) -> bytes:
    """Return the secret; raises ValueError with a sentence if it is not there."""
    try:
        secret = bytes.fromhex((folder / "secret").read_text(encoding="utf-8"))
    except (OSError, ValueError):
        secret = b""
    if not secret:
        raise ValueError(
            f"The file “secret” is not in {folder}, or it is damaged. Without it the papers cannot be "
            "made again, nor marked. Copy it there from where the sitting was made."
        )
    return secret


def put(path: Path, data: bytes) -> None:
    """Write a file whole or not at all, on the disk when this returns."""
    beside = path.with_name(f".{path.name}-{os.getpid()}")
    with beside.open("wb") as out:
        out.write(data)
        out.flush()
        os.fsync(out.fileno())
    beside.replace(path)


def _blueprint(whole: Mapping[str, Any]) -> Blueprint:
    """Return the blueprint that `make` wrote."""
    rows = (Row(**{**row, "kinds": tuple(row["kinds"])}) for row in whole["rows"])
    days = {name: date.fromisoformat(whole[name]) for name in ("first", "last")}
    return Blueprint(
        **{
            **whole,
            **days,
            "rows": tuple(rows),
            "sheets": tuple(SheetWanted(**sheet) for sheet in whole["sheets"]),
            "instruments": tuple(whole["instruments"]),
        }
    )
