"""Said and heard: a reference read back on the radio, and how fine a position is that somebody gives."""

import random
from collections.abc import Callable, Mapping
from itertools import pairwise
from typing import Any

from navlib import gridref, latlon, waters
from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Slip, Step
from navlib.kinds.choices import Choice, Order
from navlib.language import say
from navlib.questions.picture import Table
from navlib.units import NM
from navlib.waters import Place

# Read-back --------------------------------------------------------------------------------------

WORDS = {"H": "Hotel", "V": "Victor", "W": "Whiskey", "N": "November", "A": "Alfa", "B": "Bravo"}
"""Of the spelling alphabet, the same in all languages; ICAO Annex 10, volume II, section 5.2.1.3."""
FIGURES = ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")

SAME = "same"
FAULTS = {
    SAME: "nothing: answer “correct”",
    "letters": "the letters of the square",
    "halves": "the two halves are exchanged",
    "neighbours": "two figures side by side are exchanged",
    "missing": "a figure is missing",
    "figure": "one figure is another one",
}


def _said(letters: str, east: str, north: str) -> str:
    spelt = " ".join(WORDS[letter] for letter in letters)
    halves = (" ".join(say(FIGURES[int(f)]) for f in half) for half in (east, north))
    return ", ".join((spelt, *halves))


def _swap_neighbours(source: random.Random, half: str) -> str:
    at = source.choice((0, 1))
    return half[:at] + half[at + 1] + half[at] + half[at + 2 :]


def _change(source: random.Random, half: str) -> str:
    at = source.randrange(3)
    return half[:at] + str((int(half[at]) + source.choice((1, 4, 5, 9))) % 10) + half[at + 1 :]


def _drop(source: random.Random, half: str) -> str:
    at = source.randrange(3)
    return half[:at] + half[at + 1 :]


def _misheard(
    source: random.Random, fault: str, letters: str, halves: list[str]
) -> tuple[Any, ...]:
    """Return letters and halves as they are read back with a fault."""
    halves = list(halves)
    if fault == "letters":
        letters = source.choice([pair for pair in ("HV", "HW", "NA", "NB") if pair != letters])
    elif fault == "halves":
        halves.reverse()
    elif fault != SAME:
        change = {"neighbours": _swap_neighbours, "missing": _drop, "figure": _change}[fault]
        at = source.randrange(2)
        halves[at] = change(source, halves[at])
    return letters, *halves


def _draw_read_back(source: random.Random) -> Mapping[str, Any] | None:
    place = source.randrange(84_000, 109_000), source.randrange(992_000, 1_012_000)
    letters, *halves = gridref.format(*place).split()
    fault = source.choice(list(FAULTS))
    back = _misheard(source, fault, letters, halves)
    if (fault == SAME) != (back == (letters, *halves)):
        return None
    return {"sent": _said(letters, *halves), "back": _said(*back), "fault": fault}


def _names(wrong: str) -> Callable[[str], str | None]:
    return lambda fault: wrong if fault not in (SAME, wrong) else None


def _alarm(wrong: str) -> Callable[[str], str | None]:
    return lambda fault: wrong if fault == SAME else None


READ_BACK = Step(
    "heard",
    Choice(FAULTS),
    lambda fault: fault,
    how="Have your own words in front of you and follow them with a finger: letters, first half, "
    "second half, figure by figure.",
    line="You sent: {sent}. They read back: {back}. Wrong in it: {heard}",
    check="How many figures did you send, and how many came back?",
    slips=(
        Slip(
            "fault-not-heard",
            lambda fault: SAME if fault != SAME else None,
            "Yours, {yours}, sends a lifeboat to another place: the read-back differs from what "
            "you sent. One hears what one expects. Check: follow your written words with a finger.",
        ),
        *(
            Slip(
                "fault-where-none-is",
                _alarm(fault),
                "Yours, {yours}, finds a fault in a good read-back. It says word for word what "
                "you sent, and a second sending costs time. Check: put the two under each other "
                "in writing.",
            )
            for fault in FAULTS
            if fault != SAME
        ),
        *(
            Slip(
                "other-fault",
                _names(fault),
                "Yours, {yours}, is not what went wrong here. You heard rightly that something "
                "differs; to mend it you must say what. Check: compare the letters, then count "
                "the figures, then compare them one by one.",
            )
            for fault in FAULTS
            if fault != SAME
        ),
    ),
)

# How fine ---------------------------------------------------------------------------------------

ITEMS = dict.fromkeys("abcde")
APART = 1.7
"""How many times larger one piece of sea is than the next, at least."""

SIZES: tuple[tuple[str, int, float], ...] = (
    ("grid", 4, 1000.0),
    ("grid", 6, 100.0),
    ("grid", 8, 10.0),
    ("grid", 10, 1.0),
    ("minutes", 0, NM),
    ("minutes", 1, NM / 10),
    ("minutes", 2, NM / 100),
    ("minutes", 3, NM / 1000),
    ("seconds", 0, NM / 60),
    ("seconds", 1, NM / 600),
    ("degrees", 1, 6 * NM),
    ("degrees", 2, 0.6 * NM),
    ("degrees", 3, 0.06 * NM),
    ("degrees", 4, 0.006 * NM),
)
"""Form, figures of a reference or decimals of the last unit, and metres of north in the last one."""


def _written(form: Any, figures: int, place: Place, at: tuple[float, float]) -> str:
    return (
        gridref.format(*place, figures)
        if form == "grid"
        else latlon.format(*at, form=form, places=figures)
    )


def _draw_order(source: random.Random) -> Mapping[str, Any] | None:
    water = waters.load("kessoray")
    mark = source.choice(water.marks())
    drawn = source.sample(SIZES, 5)
    sizes = sorted(size for _, _, size in drawn)
    if any(b < APART * a for a, b in pairwise(sizes)):
        return None
    if not 1 <= sum(form == "grid" for form, _, _ in drawn) <= 3:
        return None
    texts = [_written(f, n, mark.place, water.lat_lon(mark.place)) for f, n, _ in drawn]
    return {
        "said": tuple(zip("abcde", drawn, texts, strict=True)),
        "sizes": ", ".join(
            f"{letter} {_metres(size)}"
            for letter, (_, _, size), _ in sorted(
                zip("abcde", drawn, texts, strict=True), key=lambda row: -row[1][2]
            )
        ),
    }


def _metres(size: float) -> str:
    return f"{size:.0f} m" if size >= 10 else f"{size:.1f} m"


def _by(key: Callable[[Any], Any]) -> Callable[[Any], tuple[str, ...]]:
    """Return the letters in the order of `key`, the coarser first where it is the same."""

    def ordered(said: Any) -> tuple[str, ...]:
        rows = sorted(said, key=lambda row: -row[1][2])
        return tuple(letter for letter, _, _ in sorted(rows, key=key))

    return ordered


FINER = Step(
    "order",
    Order({letter: letter.upper() for letter in ITEMS}),
    _by(lambda row: -row[1][2]),
    how="Ask of each: what is one in its last figure worth on the water? A minute of latitude is "
    "a mile, 1852 m; a second a sixtieth of it; a degree sixty of them. Six figures of a "
    "reference name 100 m.",
    line="One in the last figure: {sizes}. {order}",
    check="What is one in the last figure worth, in metres?",
    slips=(
        Slip(
            "by-count-of-figures",
            _by(lambda row: sum(c.isdigit() for c in row[2])),
            "Yours, {yours}, goes by how many figures are written. Degrees and leading noughts "
            "fill a line without making it finer. Check: what is one in the LAST figure worth, in "
            "metres?",
        ),
        Slip(
            "finest-first",
            _by(lambda row: row[1][2]),
            "Yours, {yours}, is the right order from the wrong end: the finest stands first. "
            "Check: the first should be the one with the largest piece of sea.",
        ),
        Slip(
            "grid-thought-coarser",
            _by(lambda row: (row[1][0] != "grid", -row[1][2])),
            "Yours, {yours}, takes any grid reference for coarser than any latitude and "
            "longitude. Both are as fine as their last figure. Check: six figures name 100 m, a "
            "tenth of a minute 185 m.",
        ),
        Slip(
            "seconds-thought-finest",
            _by(lambda row: (row[1][0] == "seconds", -row[1][2])),
            "Yours, {yours}, puts seconds last because they are the smallest unit. A whole second "
            "is 31 m; decimals of a minute or of a degree can be finer. Check: how many decimals "
            "are there?",
            0.6,
        ),
    ),
)

TYPES = (
    QuestionType(
        "position.read-back",
        "Read back",
        "position",
        1,
        Chain(dict.fromkeys(("sent", "back", "fault")), (READ_BACK,)),
        _draw_read_back,
        "You gave a position by radio: “{sent}.” The answer comes: “I read back: {back}.”\n\n"
        "What is wrong with what was read back?",
        {"heard": "Wrong is"},
    ),
    QuestionType(
        "position.how-fine",
        "How fine is it?",
        "position",
        2,
        Chain(dict.fromkeys(("said", "sizes")), (FINER,)),
        _draw_order,
        "Five people give the position of the same mark, each in another way.\n\nPut A to E in "
        "order: first the one that leaves the largest piece of sea to search, last the finest.",
        {"order": "From coarse to fine"},
        lambda givens: Table(
            say("Five ways to say one place"),
            ("", say("Position")),
            tuple((letter.upper(), text) for letter, _, text in givens["said"]),
        ),
    ),
)
