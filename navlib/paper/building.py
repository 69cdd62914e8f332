"""Variants of a paper: the same blueprint, other numbers and places, within the same bands."""

from collections.abc import Sequence

from navlib.chain.question import QuestionType
from navlib.paper.blueprint import Blueprint, SheetWanted
from navlib.paper.choosing import askable, measured, numbers, on_its_sheet, suiting
from navlib.paper.draft import Draft, Sitting
from navlib.paper.filling import CannotFill
from navlib.paper.frames import PaperSheet, window
from navlib.paper.lots import FIRST_SITTING, code, content, ends_of, keeps, lot_number
from navlib.paper.variants import Paper
from navlib.questions import held, question_type
from navlib.questions.held import NothingHeld, View
from navlib.waters import Place

LOOKED_AT = 40
"""Windows of each sheet of which those with most to ask about are taken."""
MANY = 1000
TURNS = 12
"""Windows tried for a paper, the usual one first."""


Follows = Sequence[tuple[str, int]]
"""Sittings with the same secret, in their order: their names, and how many papers each had."""


def build(
    blueprint: Blueprint,
    secret: bytes,
    count: int,
    sitting: str = FIRST_SITTING,
    earlier: Sequence[Paper] | None = None,
) -> tuple[Paper, ...]:
    """Return `count` variants of a paper, numbered from 1, equal in difficulty.

    The same secret, blueprint and sitting give the same papers, and a longer run begins with the
    shorter one. Neighbours share no answer to a question, save one of which there are few (a
    choice, a figure that a sheet prints once), and never all answers to it. No question of the first
    sitting, such as a pair of places, comes up in another, unless there are too few for two sittings
    (`Sitting.open`). There a paper shares no set of answers
    with the `earlier` one of its number either, and further sittings share no question where there
    is enough to draw from; unless earlier papers are given, they are the first sitting's. Raises
    CannotFill.
    """
    if sitting == FIRST_SITTING:
        earlier = ()
    elif earlier is None:
        earlier = build(blueprint, secret, count)
    made_for = _sitting(blueprint, secret, sitting, earlier)
    codes, papers = {paper.code for paper in earlier}, list[Paper]()
    for variant in range(1, count + 1):
        draft = _filled(made_for, variant, papers[-1:])
        name = next(
            one for k in range(100) if (one := code(*made_for.lots, variant, k)) not in codes
        )
        codes.add(name)
        made_for.asked.update((item.number, numbers(item.question)) for item in draft.items)
        papers.append(Paper(blueprint, sitting, variant, name, draft.questions(), draft.extracts()))
    return tuple(papers)


def build_after(
    blueprint: Blueprint, secret: bytes, count: int, sitting: str, follows: Follows
) -> tuple[Paper, ...]:
    """Return `count` variants that differ from the papers of the sittings they follow, as `build`."""
    earlier: tuple[Paper, ...] = ()
    for name, many in follows:
        earlier += build(blueprint, secret, many, name, earlier)
    return build(blueprint, secret, count, sitting, earlier)


def _sitting(
    blueprint: Blueprint, secret: bytes, sitting: str, earlier: Sequence[Paper]
) -> Sitting:
    """Return what all papers of a sitting share: kinds, bands and windows."""
    lots = (secret, content(blueprint), sitting)
    kinds = _chosen_kinds(blueprint, lots)
    pools = [_pool(wanted, blueprint, lots, kinds) for wanted in blueprint.sheets]
    bands = {number: measured(kind.kind, blueprint) for number, kind in kinds.items()}
    used = {(item.number, numbers(item.question)) for paper in earlier for item in paper.items}
    return Sitting(blueprint, lots, kinds, bands, pools, earlier, frozenset(used), set(), set())


def _chosen_kinds(blueprint: Blueprint, lots: tuple[bytes, str, str]) -> dict[int, QuestionType]:
    """Return the kind of question of each row: the same in all papers of a sitting."""
    chosen: dict[int, QuestionType] = {}
    for row in blueprint.rows:
        able = [kind for kind in row.kinds if askable(kind, blueprint)]
        if not able:
            raise CannotFill(
                f"Question {row.number} ({row.topic}): none of its kinds can be worked on the sheets "
                f"of this paper. Its kinds: {', '.join(row.kinds)}.",
                row.number,
            )
        taken = {kind.kind for kind in chosen.values()}
        able = [kind for kind in able if kind not in taken] or able
        number = lot_number(*lots, "kind", row.number)
        chosen[row.number] = question_type(able[number % len(able)])
    return chosen


def _pool(
    wanted: SheetWanted,
    blueprint: Blueprint,
    lots: tuple[bytes, str, str],
    kinds: dict[int, QuestionType],
) -> list[PaperSheet]:
    """Return windows of a sheet, those with most for this paper's questions to ask about first."""
    marked = [
        kind
        for kind in kinds.values()
        if on_its_sheet(kind.kind) and wanted in suiting(kind.kind, blueprint)
    ]
    start = lot_number(*lots, "windows", wanted.water, wanted.sheet, wanted.scale) % 10**6
    known: dict[tuple[Place, Place], bool] = {}

    def ours(first: Place, last: Place) -> bool:
        if (first, last) not in known:
            known[first, last] = keeps(lots, ends_of(first, last))
        return known[first, last]

    seeds = range(start, start + LOOKED_AT)
    found = [PaperSheet(window(wanted, seed), ours) for seed in seeds]
    for sheet in found:
        sheet.room.update({kind.kind: _room(kind, sheet.view) for kind in marked})
    return sorted(found, key=lambda sheet: -min(sheet.room.values(), default=0))


def _room(kind: QuestionType, view: View) -> int:
    """Return how many choices of places a kind of question has on a sheet; many if it needs none."""
    for n in range(3):
        source = held.held(f"room {n}", None, (), view)
        try:
            kind.draw(source)
        except NothingHeld:
            return 0
        if source.options is not None:
            return source.options
    return MANY


def _filled(made_for: Sitting, variant: int, before: Sequence[Paper]) -> Draft:
    """Return a paper with all its questions; if a window cannot hold them, on the next one.

    A question that finds too few of its sitting's half is drawn from all there are, then and in the
    papers that follow. Raises CannotFill.
    """
    while True:
        failed: list[CannotFill] = []
        for turn in range(TURNS):
            draft = Draft(made_for, variant, turn, before)
            try:
                for row in sorted(made_for.blueprint.rows, key=draft.room):  # the scarcest first
                    draft.fill(row)
            except CannotFill as says:
                failed.append(says)
            else:
                return draft
        scarce = {says.number for says in failed} - made_for.open
        if not scarce:
            raise failed[0]
        made_for.open.update(scarce)
