"""What the coach's commands do, and how they tell of it in a terminal."""

import argparse
import sys
from getpass import getuser
from pathlib import Path

from navlib.paper import folder, reading
from navlib.paper.building import FIRST_SITTING
from navlib.paper.coach import giving_back, making, plans, shelf
from navlib.paper.differences import Comparison
from navlib.paper.folder import put
from navlib.paper.forms import take_in as take_in_table
from navlib.paper.forms import write_form
from navlib.paper.progress import Progress
from navlib.paper.reading import BlueprintError
from navlib.paper.scripts import write_marks
from navlib.paper.sitting import Sitting


def blueprints(_given: argparse.Namespace) -> None:
    """List the ready-made blueprints."""
    names = reading.ready_made()
    width = max(map(len, names))
    print("Ready-made blueprints (what one comes to: paper plan NAME):")
    for one in sorted(map(reading.read, names), key=lambda one: one.minutes):
        print(
            f"  {one.name:{width}}  {one.minutes:3} min, {len(one.rows):2} questions, "
            f"{one.marks:2} marks  {one.title}"
        )


def plan(given: argparse.Namespace) -> int:
    """Print what a blueprint comes to; 2 if something is missing."""
    blueprint = _read(given.blueprint)
    print(plans.written(blueprint))
    return 2 if plans.plan(blueprint).missing else 0


def make(given: argparse.Namespace) -> None:
    """Make a sitting."""
    if (given.blueprint is None) == (given.resit_of is None):
        raise ValueError("Name a blueprint, or the sitting that it is a --resit-of FOLDER.")
    if given.resit_of is None:
        blueprint, name = _read(given.blueprint), given.sitting or FIRST_SITTING
    else:
        blueprint = making.blueprint_for_resit(given.resit_of)
        name = given.sitting or "resit"
    secret = _secret(given.secret) if given.secret else None
    path = given.to or shelf.free_folder(blueprint.name, name)
    with Progress() as told:
        sitting = making.make(
            path,
            blueprint,
            given.count,
            name=name,
            secret=secret,
            resit_of=given.resit_of,
            large=given.large,
            html=given.html,
            told=told,
        )
    print(f"Made: {given.count} papers of “{blueprint.title}” in {sitting.path}")
    print("  papers   for candidates: print them at 100 %, and lay a ruler on the 100 mm bar")
    print("  coach    mark schemes, marking grid, pages for the moderator and the invigilator")
    print("  secret   keep it: without it nothing can be marked")
    print(f"When it is sat: python -m navlib paper form {_typed(sitting.path)}")


def write_anew(given: argparse.Namespace) -> None:
    """Write all files of a sitting anew."""
    with Progress() as told:
        files = making.print_all(
            Sitting(given.folder), large=given.large, html=given.html, told=told
        )
    print(f"Written: {len(files)} files in {given.folder}")


def form(given: argparse.Namespace) -> None:
    """Write the table to enter answers in."""
    sitting = Sitting(given.folder)
    file = given.file or given.folder / "answers.csv"
    if file.exists():
        raise FileExistsError(f"{file} is there already: move it away, or say --file.")
    put(file, write_form(sitting, given.marker).encode())
    print(f"Written: {file}")
    named = f" {_typed(file)}" if given.file else ""
    print(f"When it is filled in: python -m navlib paper take-in {_typed(given.folder)}{named}")


def take_in(given: argparse.Namespace) -> int:
    """Take in a table; 1 if rows were set aside."""
    sitting, table = Sitting(given.folder), given.table or given.folder / "answers.csv"
    if not table.exists():
        raise FileNotFoundError(
            f"There is no {table}. Name the table that you filled in, or have one written: python -m "
            f"navlib paper form {_typed(given.folder)}"
        )
    read = take_in_table(sitting, table, given.marker or getuser()[:12])
    for told in read.problems:
        print(told, file=sys.stderr)
    for told in read.notes:
        print(told)
    print(f"Papers taken in: {read.taken}; as entered before: {read.unchanged}.")
    if not read.kept:
        return 0
    print(f"Rows set aside: {len(read.aside)}. Mend them in {read.kept} and take that in.")
    return 1


def results(given: argparse.Namespace) -> None:
    """Write class list and item analysis."""
    sitting = Sitting(given.folder)
    with Progress() as told:
        files = giving_back.write_results(sitting, told)
    for script in sitting.scripts():
        verdict = {True: "pass", False: "not yet", None: "open"}[script.passed]
        marks = f"{write_marks(script.total)} of {write_marks(script.out_of)}"
        print(f"  {script.candidate:>3}  {marks:>12}  {verdict:8}{script.name}")
    for file in files:
        print(f"Written: {file}")


def feedback(given: argparse.Namespace) -> None:
    """Write the feedback sheets."""
    with Progress() as told:
        files = giving_back.write_feedback(
            Sitting(given.folder), closing=given.closing, large=given.large, told=told
        )
    print(f"Written: {len(files)} sheets in {given.folder / 'results'}")


def differences(given: argparse.Namespace) -> None:
    """Print where two markers differ."""
    found = Sitting(given.folder).differences()
    if not found:
        print("No paper has been marked by two people yet.")
    for one in found:
        print(one.says)
        for line in _places(one):
            print(line)


def _places(one: Comparison) -> list[str]:
    return [
        f"    {place.label:14} {one.first}: {place.first or '–'}   {one.second}: {place.second or '–'}"
        for place in one.places
    ]


def _typed(path: Path) -> str:
    """Return a path as it is typed in a terminal."""
    return f'"{path}"' if " " in str(path) else str(path)


def _secret(file: Path) -> bytes:
    """Return the secret in a file, or in a sitting's folder."""
    if file.is_dir():
        return folder.read_secret(file)
    try:
        secret = bytes.fromhex(file.read_text(encoding="utf-8"))
    except ValueError:
        secret = b""
    if len(secret) < 8:
        raise ValueError(
            f"{file} holds no secret: it is a line of figures 0 to 9 and letters a to f, 32 of them, "
            "such as the file “secret” in the folder of a sitting."
        )
    return secret


def _read(name: str) -> reading.Blueprint:
    try:
        return reading.read(name)
    except BlueprintError as wrong:
        raise ValueError(f"{wrong.name} cannot be used yet:\n{wrong}") from None
