"""The words of the command line for the class: `python -m navlib class ...`."""

import argparse
import os
from collections.abc import Callable
from pathlib import Path

from navlib.classroom.isolation import SAYS, SHARED, Isolation

DATABASE = "NAVLIB_CLASS_DATABASE"

Deeds = argparse._SubParsersAction

EXAMPLE = """\
An evening for twelve, without a single computer among them:
  python -m navlib class plans                           what there is ready made
  python -m navlib class plan bearings                   what it holds
  python -m navlib class plan bearings --start 18:30 --to bearings.pdf
  python -m navlib class cards bearings --seats 12 --to cards
With computers:
  python -m navlib class serve --list class.csv
"""


def add(commands: "argparse._SubParsersAction[argparse.ArgumentParser]", lessons: Path) -> None:
    """Add the command `class` to those of the library."""
    whole = commands.add_parser(
        "class",
        help="for an instructor with a class: plans, work cards, the class server",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        description="What an instructor needs for a class.",
        epilog=EXAMPLE,
    )
    deeds = whole.add_subparsers(metavar="DEED", required=True)
    _add_plans(deeds)
    _add_serve(deeds, lessons)


def _add_serve(deeds: Deeds, lessons: Path) -> None:
    serve = deeds.add_parser(
        "serve",
        help="start the class server",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        description="Starts the class server on this machine: learners come in with a browser.",
        epilog="What keeps learners apart:\n"
        + "".join(f"  {way.value}: {SAYS[way]}\n" for way in Isolation)
        + f"{SHARED}\nWithout --isolation the first of these that works is taken, never none.",
    )
    serve.set_defaults(run=_serve, lessons=lessons)
    serve.add_argument(
        "--list",
        dest="listed",
        type=Path,
        metavar="FILE",
        help="the class list: a name a line; only these come in",
    )
    serve.add_argument("--word", help="the class word (one is made)")
    serve.add_argument(
        "--instructor", default="instructor", metavar="NAME", help="who teaches (instructor)"
    )
    serve.add_argument(
        "--port", type=int, default=8000, metavar="N", help="where learners come in (8000)"
    )
    serve.add_argument("--address", default="", help="of this machine, to listen at (all of them)")
    serve.add_argument("--folder", type=Path, help="where the class is kept (among your own data)")
    serve.add_argument(
        "--database",
        metavar="URL",
        help=f"PostgreSQL, not a file; better in {DATABASE}, where no list of programs shows it",
    )
    serve.add_argument("--isolation", choices=[way.value for way in Isolation], help="see below")


def _add_plans(deeds: Deeds) -> None:
    deeds.add_parser("plans", help="the ready-made plans of a session").set_defaults(
        run=_later("plans")
    )
    whose = "its name, or a file of your own"

    plan = deeds.add_parser(
        "plan",
        help="what a plan holds, or its page to print",
        description="Shows a plan, or writes the page that the instructor has at hand.",
        epilog="Example: python -m navlib class plan tides --start 18:30 --to tides.pdf",
    )
    plan.set_defaults(run=_later("plan"))
    plan.add_argument("plan", metavar="PLAN", help=whose)
    plan.add_argument(
        "--to", type=Path, metavar="FILE.pdf", help="write it there; show if left out"
    )
    plan.add_argument("--start", default="19:00", metavar="TIME", help="when it begins (19:00)")

    cards = deeds.add_parser(
        "cards",
        help="work cards with own values for each seat, and their key",
        description="Writes two files into a folder: cards.pdf, with the questions of each seat and "
        "its sheets at true scale, and key.pdf, with all answers, for you alone.",
        epilog="Example: python -m navlib class cards bearings --seats 12 --to cards",
    )
    cards.set_defaults(run=_later("work_cards"))
    cards.add_argument("plan", metavar="PLAN", help=whose)
    cards.add_argument(
        "--seats",
        required=True,
        metavar="N",
        help="how many learners, such as 12; or from one seat to another, such as 13-15",
    )
    cards.add_argument("--to", type=Path, required=True, metavar="FOLDER", help="write them there")
    cards.add_argument(
        "--number",
        type=int,
        metavar="N",
        help="of the session whose values the cards shall have (a new one)",
    )


def _later(deed: str) -> Callable[[argparse.Namespace], None]:
    """Return what does a deed; its module, with all questions, is imported only then."""

    def run(given: argparse.Namespace) -> None:
        from navlib.classroom.plan import deeds

        getattr(deeds, deed)(given)

    return run


def _serve(given: argparse.Namespace) -> None:
    from navlib.classroom.serve import serve

    serve(
        listed=given.listed,
        word=given.word,
        instructor=given.instructor,
        folder=given.folder,
        database=given.database or os.environ.get(DATABASE),
        lessons=given.lessons,
        address=given.address,
        port=given.port,
        isolation=given.isolation,
    )
