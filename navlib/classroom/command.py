"""The words of the command line for the class: `python -m navlib class ...`."""

import argparse
import os
from pathlib import Path

from navlib.classroom.isolation import SAYS, SHARED, Isolation

DATABASE = "NAVLIB_CLASS_DATABASE"


def add(commands: "argparse._SubParsersAction[argparse.ArgumentParser]", lessons: Path) -> None:
    """Add the command `class` to those of the library."""
    whole = commands.add_parser("class", help="the class server, for an instructor with a class")
    deeds = whole.add_subparsers(metavar="DEED", required=True)
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
