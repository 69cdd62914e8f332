"""The command line: `python -m navlib` opens the lessons."""

import argparse
import re
import sys
from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import navlib
from navlib import gridref, lab
from navlib.classroom import command as classroom
from navlib.paper import command as paper
from navlib.record import Record, choose, chosen, forget, learners

if TYPE_CHECKING:
    from navlib.waters import Water

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


def _take_in(given: argparse.Namespace) -> None:
    print(f"Taken in: {Record().take_in(given.file.read_text(encoding='utf-8'))} answers.")


def _learner(given: argparse.Namespace) -> None:
    if given.forget:
        if given.name is None:
            raise ValueError('Say whom to forget: learner NAME --forget, or "" for no name.')
        print(
            f"Forgotten: {given.name or 'the learner without a name'}, {forget(given.name)} answers."
        )
    elif given.name is not None:
        kept = choose(given.name)
        print(kept.note or f"Lessons opened from now on are {kept.name or 'without a name'}'s.")
    else:
        print(f"Learner now: {chosen() or 'without a name'}.")
        print(f"Others here: {', '.join(n for n in learners() if n != chosen()) or 'none'}.")


def _sheets(given: argparse.Namespace) -> None:
    from navlib.sheets import shelf  # it brings matplotlib, which opening a lesson does without

    water = _water(given.water)
    items = shelf.choose(shelf.shelf(water, given.day or date.today()), given.names)
    if given.to is None:
        width = max(len(item.name) for item in items)
        print(f"Sheets of {water.settings.title} (write them with --to FOLDER):")
        for item in items:
            print(f"  {item.name:{width}}  {item.about}")
        return
    for item in items:
        file = given.to / f"{item.name}.{given.format}"
        shelf.write(item.draw(), file, given.dpi)
        print(f"Written: {file}")


def _extract(given: argparse.Namespace) -> None:
    from navlib.sheets import land_map, own_extract, sea_chart, shelf

    water = _water(given.water)
    if given.seed is not None:
        sheet = own_extract(
            water, given.seed, sheet=given.sheet, scale=given.scale, size_mm=given.size
        )
    else:
        draw = {"land map": land_map, "sea chart": sea_chart}[given.sheet]
        sheet = draw(water, _place(water, given.at), scale=given.scale, size_mm=given.size)
    shelf.write(sheet, given.to, given.dpi)
    print(f"Written: {given.to} ({sheet.width_mm:g} x {sheet.height_mm:g} mm)")


def _water(name: str) -> "Water":
    from navlib.waters import load

    return load(Path(name) if Path(name).is_dir() else name)


def _place(water: "Water", text: str) -> tuple[float, float]:
    """Return easting and northing of a grid reference, or of the feature with that id."""
    if text in {feature.id for feature in water.features}:
        return water.feature(text).place
    west, south, east, north = water.bounds
    middle = (west + east) / 2, (south + north) / 2
    letters = water.settings.letters
    place = gridref.parse(text, middle, letters) if letters else gridref.parse_metres(text)
    return place.easting, place.northing


def _texts(given: argparse.Namespace) -> None:
    from navlib.texts import texts, write

    found = texts(LESSONS)
    if given.to is None:
        write(found, sys.stdout.buffer)
        return
    with given.to.open("wb") as file:
        write(found, file)
    print(f"Written: {given.to}, {len({text.text for text in found})} texts.")


def _size(text: str) -> tuple[float, float]:
    found = re.fullmatch(r"(\d+(?:\.\d+)?)\s*[x×]\s*(\d+(?:\.\d+)?)", text)
    if not found:
        raise argparse.ArgumentTypeError(f"write it such as 150x130, not {text}")
    return float(found[1]), float(found[2])


def _day(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise argparse.ArgumentTypeError(f"write it such as 2026-11-25, not {text}") from None


def _add_sheets(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    sheets = commands.add_parser(
        "sheets", help="maps, charts and tide pages: list them, or write them to files"
    )
    sheets.set_defaults(run=_sheets)
    sheets.add_argument("names", nargs="*", metavar="NAME", help="which, by name or its beginning")
    sheets.add_argument(
        "--to", type=Path, metavar="FOLDER", help="write them here; list if left out"
    )
    sheets.add_argument("--day", type=_day, metavar="DATE", help="for pages with dates (today)")
    sheets.add_argument(
        "--as", dest="format", choices=("pdf", "svg", "png"), default="pdf", help="format (pdf)"
    )

    extract = commands.add_parser("extract", help="write a piece of the map or chart to a file")
    extract.set_defaults(run=_extract)
    extract.add_argument(
        "to", type=Path, metavar="FILE", help="its ending says how: pdf, svg or png"
    )
    extract.add_argument(
        "--sheet", choices=("land map", "sea chart"), default="land map", help="of which (land map)"
    )
    where = extract.add_mutually_exclusive_group(required=True)
    where.add_argument("--at", metavar="PLACE", help="its middle: a grid reference or a mark's id")
    where.add_argument("--seed", type=int, metavar="N", help="a learner's own piece, by number")
    extract.add_argument("--scale", type=int, default=25_000, metavar="N", help="1:N (25000)")
    extract.add_argument(
        "--size", type=_size, default=(150.0, 130.0), metavar="WxH", help="frame in mm (150x130)"
    )
    for command in (sheets, extract):
        command.add_argument(
            "--water",
            default="kessoray",
            metavar="NAME",
            help="which water, or a folder of your own",
        )
        command.add_argument("--dpi", type=int, default=200, help="dots an inch of a png (200)")


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="python -m navlib",
        description="Coastal navigation, taught and practised. For training, not for navigation.",
        epilog="With no command, the start page opens: it leads to the lessons.",
    )
    commands = parser.add_subparsers(metavar="COMMAND", required=True)

    lessons = commands.add_parser("lessons", help="open a lesson in your browser")
    lessons.set_defaults(run=_lessons)
    lessons.add_argument(
        "name", nargs="?", metavar="NAME", help="which lesson; the start page if none"
    )
    lessons.add_argument("--folder", type=Path, default=LESSONS, help="a folder of other lessons")
    lessons.add_argument("--port", type=int, metavar="N", help="where to serve it (a free one)")
    lessons.add_argument(
        "--no-browser", dest="browser", action="store_false", help="print the address only"
    )

    _add_sheets(commands)

    record = commands.add_parser("record", help="your answers: where they are kept, export, delete")
    record.set_defaults(run=_record)
    deeds = record.add_subparsers(metavar="DEED")
    export = deeds.add_parser("export", help="write all your answers to a file, as JSON")
    export.set_defaults(run=_export)
    export.add_argument("file", type=Path, metavar="FILE")
    take_in = deeds.add_parser("import", help="take in answers exported on another machine")
    take_in.set_defaults(run=_take_in)
    take_in.add_argument("file", type=Path, metavar="FILE")
    delete = deeds.add_parser("delete", help="forget all your answers")
    delete.set_defaults(run=_delete)
    delete.add_argument("--yes", action="store_true", help="do not ask")

    learner = commands.add_parser("learner", help="who is learning: several can share a machine")
    learner.set_defaults(run=_learner)
    learner.add_argument("name", nargs="?", metavar="NAME", help='choose this one ("": no name)')
    learner.add_argument("--forget", action="store_true", help="delete NAME and all answers kept")

    texts = commands.add_parser("texts", help="all that a learner reads, as a file for translators")
    texts.set_defaults(run=_texts)
    texts.add_argument("--to", type=Path, metavar="FILE", help="write it there; print if left out")

    classroom.add(commands, LESSONS)
    paper.add(commands)
    return parser


def main(words: Sequence[str]) -> int:
    """Obey the command in `words` and return the exit status: 2 if it could not be obeyed.

    A command of its own may return another, such as 1 where only a part was done.
    """
    given = _parser().parse_args(words or ["lessons"])
    try:
        return given.run(given) or 0
    except (lab.NoLesson, OSError, ValueError) as problem:
        print(problem, file=sys.stderr)
        return 2


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
