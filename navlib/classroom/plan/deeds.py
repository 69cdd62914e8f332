"""What the commands on plans do, and how they tell of it in a terminal."""

import argparse
from pathlib import Path

from navlib.classroom import seeds
from navlib.classroom.plan import cards, printed, reading
from navlib.classroom.plan.plan import Plan
from navlib.classroom.plan.reading import PlanError
from navlib.classroom.plan.seats import seats_of
from navlib.classroom.plan.times import START, begins
from navlib.paper.folder import put
from navlib.paper.progress import Progress

CAUTION = "For training, not for navigation."


def plans(_given: argparse.Namespace) -> None:
    """List the ready-made plans."""
    names = reading.ready_made()
    width = max(map(len, names))
    print("Ready-made plans (what one holds: class plan NAME):")
    for one in map(reading.read, names):
        parts, asked = len(one.segments), len(one.questions)
        print(
            f"  {one.name:{width}}  {one.minutes:3} min, {parts:2} parts, {asked} questions  {one.title}"
        )


def plan(given: argparse.Namespace) -> None:
    """Print a plan, or write it as a page."""
    made = _read(given.plan)
    if given.to is None:
        print(written(made, given.start))
        return
    if given.to.suffix.lower() != ".pdf":
        raise ValueError(
            f"The plan is written as PDF: name a file such as plan.pdf, not {given.to}."
        )
    _put(given.to, printed.plan_pdf(made, given.start))
    print(f"Written: {given.to}")


def work_cards(given: argparse.Namespace) -> None:
    """Write the work cards of a class and their key."""
    made, seats = _read(given.plan), seats_of(given.seats)
    number = seeds.new_number() if given.number is None else given.number
    if number < 0:
        raise ValueError(f"The number of a session is 0 or more, not {number}.")
    cards.checked(made, seats)

    with Progress() as told:
        content = cards.cards_pdf(made, number, seats, told)
    _put(given.to / "cards.pdf", content)
    _put(given.to / "key.pdf", cards.key_pdf(made, number, seats))
    print(f"Written: {given.to / 'cards.pdf'}, for {len(seats)} seats, to print at 100 %")
    print(f"         {given.to / 'key.pdf'}, for you alone")
    print(f"Session number {number}: with it the same values come again, here and on a screen.")


def written(made: Plan, start: str = START) -> str:
    """Return a plan as lines to read in a terminal. Raises ValueError if `start` is no time."""
    lines = [f"{made.title}: {made.minutes} minutes, {len(made.questions)} questions.", ""]
    for when, one in zip(begins(made, start), made.segments, strict=True):
        shown = one.kind or one.demonstration or ""
        lines.append(
            f"  {when} {one.minutes:3} min  {one.what:16}  {one.title}"
            + f"  ({shown})" * bool(shown)
        )
    for head, things in (("At the end they can:", made.goals), ("To bring:", made.bring)):
        if things:
            lines += ["", head, *(f"  - {thing}" for thing in things)]
    return "\n".join([*lines, "", f"{CAUTION} {made.caution}".rstrip()])


def _read(source: str) -> Plan:
    """Return a plan. Raises ValueError with all mistakes of its file, line by line."""
    try:
        return reading.read(source)
    except PlanError as wrong:
        raise ValueError(f"{source} cannot be used yet:\n{wrong}") from None


def _put(path: Path, content: bytes) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    put(path, content)
