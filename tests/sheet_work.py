"""A question with its sheet before one: where instruments lie, as a browser sends it."""

import math
from collections.abc import Callable, Mapping
from typing import Any

from navlib import questions
from navlib.angles import wrap
from navlib.chain.question import Question
from navlib.desk.evidence.finding import Spot, figures, towards
from navlib.desk.evidence.lengths import way_on
from navlib.desk.handling import measured_part, norths_on
from navlib.kinds.marks import OnSheet
from navlib.pictures.drawn import roses, window
from navlib.pictures.pencilled import key_lies
from navlib.questions.deck import on_deck

Lies = dict[str, Any]


def off(spot: Spot, way: float, by: float) -> Spot:
    """Return the spot so many millimetres from another, in a direction from the sheet's up."""
    t = math.radians(way)
    return spot[0] + by * math.sin(t), spot[1] - by * math.cos(t)


class Work:
    """A question with its sheet before one; the lies it makes are as a browser sends them."""

    def __init__(self, question: Question) -> None:
        self.question = question
        self.window = window(question.picture)
        self.part = measured_part(question)

    def spot(self, place: Any) -> Spot:
        x, y = self.window.place(float(place[0]), float(place[1]))
        return float(x), float(y)

    @property
    def spots(self) -> list[Spot]:
        return [self.spot((s.easting, s.northing)) for s in self.question.picture.spots]

    @property
    def a(self) -> Spot:
        return self.spots[0]

    @property
    def line(self) -> float:
        """Which way the line to measure runs, or the one to draw."""
        if isinstance(self.question.chain.by_name[self.part].kind, OnSheet):
            key = key_lies(self.question)["pencil line"][0]
            return towards((key["x1"], key["y1"]), (key["x2"], key["y2"]))
        return towards(*self.spots[:2])

    @property
    def far(self) -> float:
        return math.dist(*self.spots[:2])

    @property
    def mile(self) -> float:
        return way_on(self.spots, self.window, None).mile_mm

    @property
    def longitude_minute(self) -> float:
        return way_on(self.spots, self.window, None).others_mm["longitude-scale"]

    def written(self, value: float) -> str:
        return self.question.chain.by_name[self.part].kind.write(value)

    def miles(self, on_paper: float, unit: float | None = None) -> str:
        """Return a length on paper as so many miles, each as long as `unit`, mm."""
        return f"{on_paper / (unit or self.mile):.2f} NM"

    def ring(self, arm: float) -> str:
        return f"{figures(arm)} {self.question.chain.by_name[self.part].kind.north}"

    # What lies on the sheet ---------------------------------------------------------------------

    def pencil(self, a: Spot, b: Spot) -> Lies:
        return {"pencil line": [ends(a, b, label="")]}

    def protractor(self, turn: float = 0.0, astray: float = 0.0, name: str = "protractor") -> Lies:
        north = "T" if self.question.picture.sheet == "sea chart" else "G"
        turn = wrap(self.norths[north] + turn)
        return {name: at(self.a, turn=turn, arm=wrap(self.line + astray - turn))}

    def soft(self, turn: float = 0.0, astray: float = 0.0) -> Lies:
        return self.protractor(turn, astray, "soft protractor")

    @property
    def norths(self) -> Mapping[str, float]:
        return norths_on(self.question, self.window).by_letter

    def rule(self, turn: float = 0.0, past: float = 0.0) -> Lies:
        """Return a rule whose bar 1 passes the sheet's first rose so far right of the middle."""
        rose = roses(self.question.picture)[0]
        way = self.line + turn
        return {
            "parallel rule": at(off((rose.x, rose.y), way + 90, past), turn=wrap(way), gap=20.0)
        }

    def by_rose(self, past: float) -> float:
        return wrap(
            self.line + math.degrees(math.asin(past / roses(self.question.picture)[0].radius))
        )

    def dividers(self, opening: float, border: str = "side") -> Lies:
        f = self.window.frame
        if border == "top":
            return {"dividers": ends((f.left + 5, f.top), (f.left + 5 + opening, f.top), steps=0)}
        low = min(max(self.a[1] + opening / 2, f.top + opening), f.bottom)
        return {"dividers": ends((f.left, low), (f.left, low - opening), steps=0)}

    def cord(self, points: list[Spot], knots: float | None = None) -> Lies:
        lie: Lies = {"points": [list(p) for p in points], "straight": None}
        return {"cord": lie} if knots is None else {"knotted cord": {**lie, "knots": knots}}

    def coast(self, bay: float = 0.0) -> list[Spot]:
        """Return spots along the coast, all those inside its middle half left out for a bay."""
        points = [self.spot(place) for place in self.question.givens["coast"].points]
        n = len(points)
        return points if not bay else [*points[: n // 4], *points[3 * n // 4 :]]

    def ruler(self, beside: float = 0.0) -> Lies:
        return {"ruler": at(off(self.a, self.line, -beside), turn=self.line)}

    def romer(self, scale: int | None = None, turn: float = 0.0) -> Lies:
        return {"romer": at(self.a, turn=turn, scale=scale or self.question.picture.scale)}

    def thumb(self, steps: int | None = None, turn: float = 0.0, width: float = 20.0) -> Lies:
        steps = int(self.far // width) if steps is None else steps
        way = wrap(self.line + turn)
        edge = off(self.a, way, steps * width)
        return {"thumb": at(edge, turn=way, width=width, steps=steps)}


def at(spot: Spot, **more: Any) -> Lies:
    return {"x": spot[0], "y": spot[1], **more}


def ends(a: Spot, b: Spot, **more: Any) -> Lies:
    return {"x1": a[0], "y1": a[1], "x2": b[0], "y2": b[1], **more}


def slack(work: Work, by: float) -> list[Spot]:
    """Return points of a cord that sags to one side of the leg between its ends."""
    a, b = work.spots[:2]
    middle = off(off(a, work.line, work.far / 2), work.line + 90, by)
    return [a, middle, b]


def table(kind: str, seed: int) -> Callable[[], Work]:
    return lambda: Work(questions.make(kind, seed))


def deck(kind: str, seed: int) -> Callable[[], Work]:
    def made() -> Work:
        question = on_deck(questions.make(kind, seed))
        assert question is not None
        return Work(question)

    return made
