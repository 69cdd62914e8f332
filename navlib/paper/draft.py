"""One paper on its way: a question drawn for each row, its marks laid on the paper's sheets."""

import math
from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from itertools import pairwise
from typing import Any

from navlib.chain.question import Question, QuestionType, fair
from navlib.paper.blueprint import Blueprint, Row
from navlib.paper.by_eye import drawn_spots
from navlib.paper.choosing import Measured, drawn_on, numbers, on_its_sheet, suiting, waters_of
from navlib.paper.features import MOST_ON_A_WAY, features
from navlib.paper.filling import CannotFill, Unfit, why
from navlib.paper.frames import PaperSheet, choose_sheet
from navlib.paper.lots import ends_of, keeps, lot, lot_number
from navlib.paper.luck import lucky
from navlib.paper.variants import Extract, Item, Mark, Paper
from navlib.questions import held
from navlib.questions.held import NothingHeld
from navlib.questions.picture import SheetWindow, TidePage
from navlib.waters import Place

TRIES = 250
"""Draws for one question before its row is called impossible to fill."""
TRIES_AN_OPTION = 12
"""Draws for each choice of places that a single sheet leaves, if that comes to fewer."""
TRIES_A_SHEET = 60
"""Draws on one sheet before another is tried, where several suit."""
TRIES_FOR_NEWER = (0, 6, 80)
"""Draws for a better question once one is found that will do: one that nobody was asked, that
someone was asked in this sitting, in an earlier one."""
APART_MM = 10.0
"""Paper between marks of different questions, so that each label stands by its own mark."""


@dataclass(frozen=True)
class Sitting:
    """What all papers of a sitting share.

    `lots` are the secret, the blueprint's content and the sitting; `kinds` and `bands` go by the
    number of a row, `pools` holds the windows of each sheet. `used` is what was asked in earlier
    sittings, `asked` what was in this one, `open` the rows that found too few questions in the half
    kept for this sitting.
    """

    blueprint: Blueprint
    lots: tuple[bytes, str, str]
    kinds: Mapping[int, QuestionType]
    bands: Mapping[int, Measured]
    pools: Sequence[Sequence[PaperSheet]]
    earlier: Sequence[Paper]
    used: frozenset[tuple[int, str]]
    asked: set[tuple[int, str]]
    open: set[int]


@dataclass
class _Laid:
    """An extract on its way: its base, what is marked on it, and where, in millimetres.

    `free` holds what is known of places for as long as nothing more is marked.
    """

    base: SheetWindow | TidePage
    marks: list[Mark] = field(default_factory=list)
    lines: list[tuple[str, str]] = field(default_factory=list)
    spots: list[tuple[float, float]] = field(default_factory=list)
    free: dict[Place, bool] = field(default_factory=dict)


class Draft:
    """One paper on its way: its questions and extracts so far.

    `turn` shifts which window of each sheet it works on. It becomes unlike the papers `before` it,
    and unlike the earlier ones of its number and next to it.
    """

    def __init__(self, made_for: Sitting, variant: int, turn: int, before: Sequence[Paper]) -> None:
        self.made_for, self.variant, self.turn = made_for, variant, turn
        self.items: list[Item] = []
        self._most = TRIES
        taken = [extract.base for paper in before for extract in paper.extracts]
        self._sheets = [choose_sheet(pool, variant, turn, taken) for pool in made_for.pools]
        self._laid = [_Laid(sheet.shown) for sheet in self._sheets]
        earlier = made_for.earlier
        self._before = _by_row(before)
        self._same = _by_row(paper for paper in earlier if paper.variant == variant)
        self._beside = _by_row(p for p in earlier if abs(p.variant - variant) == 1)

    def fill(self, row: Row) -> None:
        """Draw the question of a row and lay it on the paper. Raises CannotFill."""
        asked, places = self.made_for.kinds[row.number], self._places(row)
        refused: Counter[str] = Counter()
        self._most = TRIES
        best: tuple[int, Question, int | None] | None = None
        left = TRIES
        for tried in range(TRIES):
            if left == 0 or not places or (len(places) == 1 and tried > self._most):
                break
            sheet = places[tried // TRIES_A_SHEET % len(places)]
            left -= 1
            try:
                question = self._drawn(row, sheet, tried)
                stale = self._stale(row, question)
                if best is not None and stale >= best[0]:
                    continue
                if not fair(asked.chain, question.givens, asked.prompts):
                    raise Unfit("slips that cannot be told apart")
                if lucky(question):
                    raise Unfit("a slip that would earn marks by luck")
            except NothingHeld:
                refused["no places for it on the sheet, or no day"] += 1
                places.remove(sheet)
            except Unfit as says:
                refused[str(says)] += 1
            else:
                best, left = (stale, question, sheet), TRIES_FOR_NEWER[stale]
        if best is None:
            raise CannotFill(why(row, asked, refused), row.number)
        self._lay(row, *best[1:])

    def room(self, row: Row) -> float:
        """Return how many choices a row's question has on this paper's sheets."""
        kind = self.made_for.kinds[row.number].kind
        return min((s.room[kind] for s in self._sheets if kind in s.room), default=math.inf)

    def extracts(self) -> tuple[Extract, ...]:
        """Return the paper's sheets and pages with what is marked on them."""
        return tuple(
            Extract(number, laid.base, tuple(laid.marks), tuple(laid.lines))
            for number, laid in enumerate(self._laid, 1)
        )

    def questions(self) -> tuple[Item, ...]:
        """Return the questions in their order on the paper, in whichever they were drawn."""
        return tuple(sorted(self.items, key=lambda item: item.number))

    def _places(self, row: Row) -> list[int | None]:
        """Return which sheets a question may be worked on, that of the sitting first."""
        kind, blueprint = self.made_for.kinds[row.number].kind, self.made_for.blueprint
        suits = suiting(kind, blueprint)
        able = [i for i, wanted in enumerate(blueprint.sheets) if wanted in suits]
        if not on_its_sheet(kind):
            able = [i for i in able if self._sheets[i].states_norths]
        if not able:
            return [None]
        first = lot_number(*self.made_for.lots, "sheet", row.number) % len(able)
        return [*able[first:], *able[:first]]

    def _drawn(self, row: Row, sheet: int | None, tried: int) -> Question:
        """Return a question that would do, if it is fair. Raises NothingHeld and Unfit."""
        asked, bands = self.made_for.kinds[row.number], self.made_for.bands[row.number]
        blueprint = self.made_for.blueprint
        opened = row.number in self.made_for.open
        seed = lot(*self.made_for.lots, self.variant, self.turn, row.number, tried)
        view, free = None, None
        if sheet is not None:
            paper = self._sheets[sheet]
            view, free = paper.open_view if opened else paper.view, self._free(sheet)
        days = (blueprint.first, blueprint.last)
        source = held.held(seed, days, waters_of(blueprint), view, free)
        givens = asked.draw(source)
        if source.options is not None:
            self._most = TRIES_A_SHEET + TRIES_AN_OPTION * source.options
        if not givens:
            raise Unfit("numbers that nobody would meet")
        if free and asked.picture:
            spots = asked.picture(givens).spots
            if not all(free((spot.easting, spot.northing)) for spot in spots):
                raise Unfit("a mark too near another or to the edge")
        drawn = sheet is not None and drawn_on(asked.kind)
        if sheet is not None and drawn:
            givens = {**givens, "window": self._placed(givens["window"], sheet)}
        question = asked.with_givens(givens)
        if sheet is not None and drawn and not self._drawable(question, sheet):
            raise Unfit("a drawing that the sheet does not hold, or too near another mark")
        if bands.scarce and not opened and not self._ours(question):
            raise Unfit("been kept for another sitting")
        if not bands.bands.hold(features(question)):
            raise Unfit("features outside the bands")
        if self._is_near(row, question, bands.few):
            raise Unfit("answers of a neighbour")
        return question

    def _free(self, sheet: int) -> Callable[[Place], bool]:
        """Return what says whether a place lies well on a sheet and apart from all marks on it."""
        paper, laid = self._sheets[sheet], self._laid[sheet]

        def free(place: Place) -> bool:
            if place not in laid.free:
                laid.free[place] = (
                    paper.holds(place)
                    and not paper.covered(place)
                    and all(math.dist(paper.mm(place), spot) >= APART_MM for spot in laid.spots)
                )
            return laid.free[place]

        return free

    def _placed(self, window: SheetWindow, sheet: int) -> SheetWindow:
        """Return a question's window as a paper's sheet, with its own marks."""
        shown = self._sheets[sheet].shown
        return replace(window, centre=shown.centre, size_mm=shown.size_mm)

    def _drawable(self, question: Question, sheet: int) -> bool:
        """Return whether the sheet holds what is to be drawn, a mark apart from others."""
        holds = self._sheets[sheet].holds
        spots = drawn_spots(question)
        return bool(spots) and all(map(self._free(sheet) if len(spots) == 1 else holds, spots))

    def _ours(self, question: Question) -> bool:
        """Return whether a question is of this sitting's half: the first has one, others the other."""
        picture = question.picture
        way = isinstance(picture, SheetWindow) and 0 < len(picture.spots) <= MOST_ON_A_WAY
        if not way:
            return keeps(self.made_for.lots, numbers(question))
        ends = ((spot.easting, spot.northing) for spot in (picture.spots[0], picture.spots[-1]))
        return keeps(self.made_for.lots, ends_of(*ends))

    def _is_near(self, row: Row, question: Question, few: frozenset[str]) -> bool:
        """Return whether a question is too like that of the paper before, or of the same number."""
        mine = question.answers
        for _, answers in self._before.get(row.number, ()):
            if mine == answers:
                return True
            if any(mine[name] == answers.get(name) for name in mine if name not in few):
                return True
        places = numbers(question)
        return any(
            mine == answers or places == others
            for others, answers in self._same.get(row.number, ())
        )

    def _stale(self, row: Row, question: Question) -> int:
        """Return 0 for a question that nobody was asked before, 1 if one in this sitting was, 2 if
        one in an earlier sitting was, or an earlier neighbour for all its answers."""
        mine, known = question.answers, (row.number, numbers(question))
        if known in self.made_for.used:
            return 2
        if any(mine == answers for _, answers in self._beside.get(row.number, ())):
            return 2
        return int(known in self.made_for.asked)

    def _lay(self, row: Row, question: Question, sheet: int | None) -> None:
        """Add a question to the paper, its marks laid on its sheet."""
        picture = question.picture
        if isinstance(picture, TidePage):
            self.items.append(Item(row, question, self._base(_shared(picture)), {}))
        elif not isinstance(picture, SheetWindow):
            self.items.append(Item(row, question, 0, {}))
        elif sheet is None:
            self.items.append(Item(row, question, self._base(replace(picture, spots=())), {}))
        else:
            self.items.append(self._marked(row, question, sheet))

    def _marked(self, row: Row, question: Question, sheet: int) -> Item:
        paper, laid, picture = self._sheets[sheet], self._laid[sheet], question.picture
        labels = {spot.label: f"{row.number}{spot.label}" for spot in picture.spots}
        for spot in picture.spots:
            laid.marks.append(Mark(spot.easting, spot.northing, labels[spot.label]))
            laid.spots.append(paper.mm((spot.easting, spot.northing)))
        if len(drawn := drawn_spots(question)) == 1:
            laid.spots += map(paper.mm, drawn)
        laid.free.clear()
        if picture.line:
            laid.lines += list(pairwise(labels.values()))
        window = self._placed(picture, sheet)
        return Item(row, replace(question, picture=window), sheet + 1, labels)

    def _base(self, base: SheetWindow | TidePage) -> int:
        """Return the number of the extract with this base, which questions share."""
        bases = [laid.base for laid in self._laid]
        if base not in bases:
            self._laid.append(_Laid(base))
            return len(self._laid)
        return bases.index(base) + 1


def _by_row(papers: Any) -> dict[int, list[tuple[str, dict[str, str]]]]:
    """Return the numbers and answers of the papers' questions, by row."""
    found: dict[int, list[tuple[str, dict[str, str]]]] = {}
    for paper in papers:
        for item in paper.items:
            known = numbers(item.question), item.question.answers
            found.setdefault(item.number, []).append(known)
    return found


def _shared(page: TidePage) -> TidePage:
    """Return the page that all questions of its month share."""
    day = page.day
    return replace(page, day=date(day.year, day.month, 1)) if day and page.page == "table" else page
