"""The command line: `python -m navlib` opens the lessons."""

import argparse
import sys
from collections.abc import Sequence
from pathlib import Path

import navlib
from navlib import lab
from navlib.record import Record

LESSONS = Path(navlib.__file__).parent.parent / "lessons"


def _lessons(given: argparse.Namespace) -> None:
    lab.serve(lab.find(given.folder, given.name), port=given.port, browser=given.browser)


def _record(given: argparse.Namespace) -> None:
    kept = Record()
    print(kept.note or f"Your answers are kept in {kept.path}, and nowhere else.")
    print(f"Answers kept: {len(kept.attempts())}.")


def _export(given: argparse.Namespace) -> None:
    given.file.write_text(Record().export(), encoding="utf-8")
    print(f"Written to {given.file}.")


def _delete(given: argparse.Namespace) -> None:
    if not given.yes and input("Forget all your answers? Type yes: ").strip().lower() != "yes":
        print("Nothing was deleted.")
        return
    print(f"Deleted: {Record().delete()} answers.")


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="python -m navlib",
        description="Coastal navigation, taught and practised. For training, not for navigation.",
        epilog="With no command, the lessons open.",
    )
    commands = parser.add_subparsers(metavar="COMMAND", required=True)

    lessons = commands.add_parser("lessons", help="open a lesson in your browser")
    lessons.set_defaults(run=_lessons)
    lessons.add_argument("name", nargs="?", metavar="NAME", help="which lesson; the first if none")
    lessons.add_argument("--folder", type=Path, default=LESSONS, help="a folder of other lessons")
    lessons.add_argument("--port", type=int, metavar="N", help="where to serve it (a free one)")
    lessons.add_argument(
        "--no-browser", dest="browser", action="store_false", help="print the address only"
    )

    record = commands.add_parser("record", help="your answers: where they are kept, export, delete")
    record.set_defaults(run=_record)
    deeds = record.add_subparsers(metavar="DEED")
    export = deeds.add_parser("export", help="write all your answers to a file, as JSON")
    export.set_defaults(run=_export)
    export.add_argument("file", type=Path, metavar="FILE")
    delete = deeds.add_parser("delete", help="forget all your answers")
    delete.set_defaults(run=_delete)
    delete.add_argument("--yes", action="store_true", help="do not ask")
    return parser


def main(words: Sequence[str]) -> int:
    """Obey the command in `words` and return the exit status: 0, or 2 if it could not be obeyed."""
    given = _parser().parse_args(words or ["lessons"])
    try:
        given.run(given)
    except (lab.NoLesson, OSError) as problem:
        print(problem, file=sys.stderr)
        return 2
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
