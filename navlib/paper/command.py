"""The words of the command line for the coach: `python -m navlib paper ...`."""

import argparse
import os
from collections.abc import Callable
from pathlib import Path

Deeds = argparse._SubParsersAction

EXAMPLE = """\
From a blueprint to marks, for twelve candidates:
  python -m navlib paper blueprints                     what there is ready made
  python -m navlib paper plan chart-work                what it comes to
  python -m navlib paper make chart-work --count 12 --to spring
  python -m navlib paper form spring                    a table to enter answers in
  python -m navlib paper take-in spring --marker AB     when it is filled in
  python -m navlib paper results spring                 class list and item analysis
  python -m navlib paper feedback spring                a sheet for each candidate
  python -m navlib paper make --resit-of spring --count 3 --to spring-resit

Status: 0 all done, 1 some rows of a table were set aside to be mended, 2 not done.
"""
MARKER = "NAVLIB_MARKER"
"""Names the marker in the environment."""


def _later(deed: str) -> Callable[[argparse.Namespace], int | None]:
    """Return what does a deed; its module, with all questions, is imported only then."""

    def run(given: argparse.Namespace) -> int | None:
        from navlib.paper import deeds

        done: int | None = getattr(deeds, deed)(given)
        return done

    return run


def add(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Add the command `paper` to those of the library."""
    whole = commands.add_parser(
        "paper",
        help="papers to assess with, for a coach: make, mark, give back",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        description="Makes assessment papers in equal variants, marks them, and says what came of it.",
        epilog=EXAMPLE,
    )
    whole.set_defaults(run=lambda given: whole.print_help())
    deeds = whole.add_subparsers(metavar="DEED")
    deeds.add_parser("blueprints", help="the ready-made blueprints").set_defaults(
        run=_later("blueprints")
    )

    plan = deeds.add_parser("plan", help="what a blueprint comes to, before anything is made")
    plan.set_defaults(run=_later("plan"))
    plan.add_argument("blueprint", metavar="BLUEPRINT", help="its name, or a file of your own")

    _add_make(deeds)
    files = _with_folder(deeds, "print", "write all files of a sitting anew", "write_anew")
    _add_editions(files)

    form = _with_folder(deeds, "form", "write a table to enter answers in, as CSV", "form")
    form.add_argument("--file", type=Path, help="where (answers.csv in that folder)")
    _add_marker(form, "fill in what this marker has entered already")
    table = _with_folder(deeds, "take-in", "take in such a table, filled in", "take_in")
    table.add_argument(
        "table",
        type=Path,
        nargs="?",
        metavar="CSV",
        help="the table as the spreadsheet saved it (answers.csv in that folder)",
    )
    says = f"initials of who marked ({MARKER} in the environment, else your user name)"
    _add_marker(table, says, os.environ.get(MARKER, ""))

    _with_folder(deeds, "results", "class list and item analysis, for the coach", "results")
    sheets = _with_folder(deeds, "feedback", "a feedback sheet for each candidate", "feedback")
    sheets.add_argument("--closing", default="", metavar="WORDS", help="last line, such as a date")
    sheets.add_argument("--large", action="store_true", help="in large print")
    _with_folder(deeds, "differences", "where two markers differ", "differences")


def _with_folder(deeds: Deeds, name: str, says: str, does: str) -> argparse.ArgumentParser:
    told = f"{says[:1].upper()}{says[1:]}."
    deed: argparse.ArgumentParser = deeds.add_parser(name, help=says, description=told)
    deed.set_defaults(run=_later(does))
    deed.add_argument("folder", type=Path, metavar="FOLDER", help="the sitting’s folder")
    return deed


def _add_make(deeds: Deeds) -> None:
    make = deeds.add_parser(
        "make",
        help="make the papers of a sitting, mark schemes and all",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        description="Makes a folder with a paper for each candidate, equal in difficulty, and for the "
        "coach\na mark scheme for each. Keep its file “secret”: the papers are marked with it.",
        epilog="Example:\n  python -m navlib paper make chart-work --count 12 --to spring",
    )
    make.set_defaults(run=_later("make"))
    make.add_argument(
        "blueprint", nargs="?", metavar="BLUEPRINT", help="its name, or a file of your own"
    )
    make.add_argument("--count", type=int, required=True, metavar="N", help="how many papers")
    make.add_argument(
        "--to",
        type=Path,
        metavar="FOLDER",
        help="where (a new folder in “papers” among your documents)",
    )
    make.add_argument("--sitting", metavar="NAME", help="what it is called (first; resit)")
    make.add_argument(
        "--resit-of", type=Path, metavar="FOLDER", help="other papers from the same blueprint"
    )
    make.add_argument("--secret", type=Path, metavar="FILE", help="take this secret, draw none")
    _add_editions(make)


def _add_editions(deed: argparse.ArgumentParser) -> None:
    deed.add_argument("--large", action="store_true", help="each paper in large print too")
    deed.add_argument("--html", action="store_true", help="each paper as a web page too")


def _add_marker(deed: argparse.ArgumentParser, says: str, unless_given: str = "") -> None:
    deed.add_argument("--marker", default=unless_given, metavar="XX", help=says)
