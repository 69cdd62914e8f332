"""What holds for the marking of a whole paper, in words for whoever marks it; common practice."""

from collections.abc import Iterator

from navlib.paper.by_eye import plotted
from navlib.paper.scripts import write_marks
from navlib.paper.variants import Paper
from navlib.questions.picture import SheetWindow


def rules(paper: Paper) -> Iterator[tuple[str, str]]:
    """Yield what holds for the whole paper: a few words and a sentence or two each."""
    lost = paper.blueprint.notation
    yield (
        "Near enough",
        "Within the first figure behind ± all marks of a part; within the second half of them. What "
        "lies on the limit is inside.",
    )
    yield (
        "Own figures (C)",
        "Work a later part again from the candidate’s own earlier answer and mark it from there, with "
        "the same limits: a slip costs its marks once. The key itself is right too. Nothing is "
        "carried if the slip leaves nothing to do, or if no working shows where a strange figure "
        "came from. A word in ‹ › is a figure found on the way.",
    )
    yield (
        "Working",
        "Every line counts that is right or follows rightly from the line before, in any order and "
        "any way that leads there. A right answer without working earns the marks of the answer, "
        "not those of the working.",
    )
    if lost:
        yield (
            "Unit, north, zone",
            f"A right figure without them keeps its marks. Take off {write_marks(lost)} once for the "
            "whole paper, however often it happens. What is written in another way and plainly "
            "means the same is right.",
        )
    yield (
        "Crossed out, twice, by luck",
        "What is crossed out counts only if nothing stands in its place. Of two answers the worse one "
        "counts. An answer that is right because two slips undo each other earns nothing for the "
        "answer: the working shows it.",
    )
    if any(isinstance(extract.base, SheetWindow) for extract in paper.extracts):
        yield (
            "The check bar",
            "If the candidate’s bar is not 100 mm but k times that, a length that was taken with a "
            "ruler and worked by the scale may be k times the key. What is taken from the sheet’s own "
            "border, bar or grid stays as it is, and so do bearings, if both bars are out alike.",
        )
    if any(plotted(item.question) for item in paper.items):
        yield (
            "What is drawn",
            "Hold the solved sheet beside the candidate’s. Enter how far off the drawing is at the "
            "worst (2 mm), or right, or the letter of the slip at which it ends (b), or - if nothing "
            "is drawn. The dark area earns all marks, the light one half of them. A line may be longer "
            "or shorter.",
        )
    yield (
        "In the tables of slips",
        "C: carried. N: near enough for half. ?: a person decides. “key”: as the answer above. "
        "*: the answers alone do not tell this slip for sure. The marks for working are those that "
        "the answers let one suppose; tick the lines that you see.",
    )
    yield (
        "Danger",
        "Where an answer would put a boat aground, under a bridge or late at a gate, write it beside "
        "the mark, so that the candidate is told. It costs nothing more.",
    )
