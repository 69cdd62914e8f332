"""All that a learner may read or hear, from every kind of question to the start page, as JSON.

Run as a program with a new record in NAVLIB_RECORD; NAVLIB_LANGUAGE says in which language.
"""

import json
import random
import re
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import navlib
from navlib import questions, waters
from navlib.chain.question import Question
from navlib.desk import Checkpoint, Exercise, MixedPractice, Practice
from navlib.desk.by_hand import by_hand
from navlib.desk.start import Start
from navlib.language import say
from navlib.marking import mark
from navlib.pictures.drawn import page, tabulate
from navlib.questions.asked import asked_part
from navlib.questions.picture import SheetWindow, TidePage
from navlib.record import Record
from navlib.record.words import slip_words
from navlib.sheets.pages.read_out import page_read_out

SEEDS = (1, 2)
SLIPS = json.loads((Path(navlib.__file__).parent / "record" / "slips.json").read_text("utf-8"))
_BADLY = (
    "?|qqq|-4|5|07|99|123456|1,300|412|42.5|1.45|2:45|0860|3/4/5|a|z|1445 XYZ|7 qqq|1 h 75|1 to 5|"
    "42 T|42 M|NE|N95E|3 W E|4 m|32 m|8 ft|5 miles|2 NM about 3|95 N 7 W|58.7828 7.254|58 46 7 11|"
    "HV 96 0|HV 96580234|XX 965 023|31Z AB 1 1|58°46.97'N|58 46.97 N 007 71.64 W"
)
BADLY_WRITTEN = ("", *_BADLY.split("|"))
"""What shows how an answer is refused, or taken with a note."""
_NEVER = (
    "svg tools name action key outcome lies drawn deck kind actions options file learner others sign "
    "to place answer typed address"
)
NEVER_SHOWN = set(_NEVER.split())
"""What a face holds under these names is for the page, or is the learner's own."""


def of_question(question: Question) -> Iterator[tuple[str, str]]:
    """Yield where a text of a question stands, and the text."""
    yield "title", question.title
    yield "text", question.text
    yield from (("table", text) for text in shown(tabulate(question.picture)))
    if isinstance(question.picture, SheetWindow | TidePage):
        yield "picture", question.picture.alt
    for name in question.asks:
        part = asked_part(question, name)
        yield from ((what, part[what]) for what in ("prompt", "example"))
        yield from (("option", text) for _, text in part["options"] or ())
        yield from (("hint", text) for text in question.hints(name))
        yield "answer", f"{question.written[name]} {question.band_written(name)}"
    yield from (("working", text) for text in question.working())
    yield from (("movement", movement.how) for movement in by_hand(question)[1])


def told(question: Question) -> Iterator[tuple[str, str]]:
    """Yield what is said of each slip to someone who made it."""
    for step in question.steps:
        for slip in step.slips:
            made = question.chain.run(question.givens, {step.name: slip})
            asked = next((a for a in question.asks if made[a] is not None), None)
            if asked is not None:
                kind = question.chain.by_name[asked].kind
                yours = kind.quoted(kind.write(made[asked]), made[asked])
                yield f"slip {slip.name}", say(slip.says, {**question.written, "yours": yours})


def refused(question: Question) -> Iterator[tuple[str, str]]:
    """Yield what is said of answers that are badly written, but for what was written."""
    for asked in question.asks:
        for text in BADLY_WRITTEN:
            for says in question.chain.by_name[asked].kind.read(text).says:
                yield "reading", re.sub("“[^”]*”", "“…”", says)


def of_desks(record: Record) -> Iterator[tuple[str, str]]:
    """Yield what the cards of a lesson say, and the start page to one with some slips behind them."""
    yield from (("start", text) for text in shown(Start().face()))
    for number in questions.exercises("speed"):
        desk = Exercise("speed", number, record)
        desk.do("check", {"answers": slipped(desk.question)})
        yield from (("exercise", text) for text in shown(desk.face()))
    record.remember("speed/checkpoint", "1")
    practices = [MixedPractice(record, random.Random(seed)) for seed in range(4)]
    card = Exercise("speed", 1, record)
    for desk in (card, Practice("speed", record, random.Random(1)), *practices):
        for action in ("check", "hint", "hint", "hint", "working", "next"):
            desk.do(action, {"answers": dict.fromkeys(desk.question.asks, "§7")})
            yield from ((type(desk).__name__, text) for text in shown(desk.face()))
    checkpoint = Checkpoint("speed", record)
    for _ in range(11):
        yield from (("checkpoint", text) for text in shown(checkpoint.face()))
        checkpoint.do("check", {"answers": slipped(checkpoint.question)})
    yield from (("start", text) for text in shown(Start().face()))
    yield from (("slip", slip_words(slip)) for slip in SLIPS)


def slipped(question: Question) -> dict[str, str]:
    """Return the answers of someone who made the first slip that leads to any."""
    for step in question.steps:
        for slip in step.slips:
            made = question.chain.run(question.givens, {step.name: slip})
            if all(made[asked] is not None for asked in question.asks):
                kinds = {asked: question.chain.by_name[asked].kind for asked in question.asks}
                return {asked: kind.write(made[asked]) for asked, kind in kinds.items()}
    return {}


def of_sheets() -> Iterator[tuple[str, str]]:
    """Yield what is said of each sort of sheet and page to those who cannot see it."""
    water = waters.load("kessoray")
    for name in ("table", "curve", "day", "differences", "diamonds", "streams"):
        yield f"page {name}", page(TidePage("kessoray", name, "")).alt
        yield from ((f"read-out {name}", text) for text in shown(page_read_out(water, name)))
    west, south, east, north = water.bounds
    middle = ((west + east) / 2, (south + north) / 2)
    for sheet, scale in (("land map", 50_000), ("sea chart", 75_000)):
        yield (
            sheet,
            page(SheetWindow("kessoray", scale, middle, (112.0, 60.0), (), "", sheet=sheet)).alt,
        )


def shown(face: Any) -> Iterator[str]:
    """Yield the texts in a face, but for what is never shown."""
    if isinstance(face, str):
        yield face
    elif isinstance(face, Mapping):
        yield from (t for name, one in face.items() if name not in NEVER_SHOWN for t in shown(one))
    elif isinstance(face, list | tuple):
        yield from (text for one in face for text in shown(one))
    elif hasattr(face, "__dict__"):
        yield from shown(vars(face))


def everything(record: Record) -> Iterator[tuple[str, str]]:
    """Yield where each text stands, and the text."""
    for kind in questions.kinds():
        for seed in SEEDS:
            question = questions.make(kind, seed)
            for where, text in (*of_question(question), *told(question), *refused(question)):
                yield f"{kind}: {where}", text
    question = questions.make("bearings.true-to-magnetic", 1)
    marked = mark(question, dict.fromkeys(question.asks, "1 M"))
    yield from (("marked", text) for part in marked.parts for text in part.says)
    yield from of_desks(record)
    yield from of_sheets()


def right_but_refused() -> Iterator[str]:
    """Yield the kinds of question whose right answers are not taken as they are shown."""
    for kind in questions.kinds():
        for seed in SEEDS:
            question = questions.make(kind, seed)
            keys = {
                asked: question.values[asked]
                for asked in question.asks
                if asked_part(question, asked)["options"]
            }
            for answers in (question.answers, {**question.answers, **keys}):
                if not mark(question, answers).right:
                    yield f"{kind}: {answers}"


if __name__ == "__main__":
    print(json.dumps({"said": list(everything(Record())), "refused": list(right_but_refused())}))
