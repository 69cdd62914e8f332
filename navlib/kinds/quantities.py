"""Kinds of answer that are a number with a unit: distance, length on paper, speed, height.

Inside, a value is in the trade's own measure (metres; knots for a speed). `unit` is the one that
the question asks for: answers are written in it, and `rounding` and `apart` are measured in it.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import ClassVar

from navlib.figures import Figure, read_with_unit
from navlib.kinds.numbers import WORDS, Number
from navlib.language import either, say, to_say
from navlib.notation import Impossible, Unclear, tidy
from navlib.units import LENGTHS, SPEEDS

BIG = 100
"""A number from which m must mean metres: no distance in these waters is 100 nautical miles."""


@dataclass(frozen=True)
class Quantity(Number):
    """A number that has a unit; answers in other units of the same measure are converted.

    `unit_asked` says that the question itself names the unit, so that a bare number is read in it
    with a note; `bare_is_plain` says that of the whole kind. Without either a bare number is asked
    about. `inside` maps each unit to what one of it is inside, `spellings` to its other names.
    """

    unit_asked: bool = False

    inside: ClassVar[Mapping[str, float]] = {}
    spellings: ClassVar[Mapping[str, str]] = {}
    bare_is_plain: ClassVar[bool] = False
    may_be_negative: ClassVar[bool] = False
    called: ClassVar[str] = to_say("an amount")
    suggest: ClassVar[tuple[str, ...]] = ()

    def __post_init__(self) -> None:
        """Check the unit."""
        if self.unit not in self.inside:
            raise ValueError(
                f"“{self.unit}” is no unit of {self.called}; give one of {', '.join(self.inside)}"
            )
        super().__post_init__()

    @property
    def per_unit(self) -> float:
        """What one of the unit asked is in the measure used inside."""
        return self.inside[self.unit]

    def parse(self, text: str) -> tuple[float, tuple[str, ...]]:
        """Return the value in the measure used inside; raise Misread if it has none."""
        given = tidy(text)
        figure, word = read_with_unit(text, self.example)
        if figure.value < 0 and not self.may_be_negative:
            raise Impossible(
                given,
                say("{called} cannot be below zero", {"called": say(self.called)}),
                self.example,
            )
        word = word.strip("().[] ")
        if not word:
            return figure.value * self.per_unit, self.bare(given, figure) + self.too_fine(figure)
        unit, notes = self.unit_meant(given, word, figure)
        if unit == self.unit:
            notes += self.too_fine(figure)
        elif self.unit_asked:
            notes += (
                say(
                    "The question asks for {unit}.", {"unit": say(WORDS.get(self.unit, self.unit))}
                ),
            )
        return figure.value * self.inside[unit], notes

    def bare(self, given: str, figure: Figure) -> tuple[str, ...]:
        """Return the note for a number without a unit; raise Unclear if it could be another."""
        if self.unit_asked or self.bare_is_plain:
            return (
                say(
                    "Write the unit behind the number: {figure}.",
                    {"figure": self.write_figure(figure)},
                ),
            )
        units = dict.fromkeys((WORDS.get(self.unit, self.unit), *self.suggest))
        example = either([f"{given} {say(unit)}" for unit in units])
        raise Unclear(given, "the unit is missing, so it could be any", example)

    def unit_meant(self, given: str, word: str, figure: Figure) -> tuple[str, tuple[str, ...]]:
        """Return the unit that `word` names, and notes; raise Unclear if it names none."""
        bare = re.sub(r"[. ]", "", word).casefold()
        for unit in self.inside:
            words = (unit, WORDS.get(unit, unit))
            names = (*words, *map(say, words), *self.spellings.get(unit, "").split(", "))
            if bare in {name.replace(" ", "").casefold() for name in names}:
                return unit, ()
        raise Unclear(
            given, say("the unit “{word}” is not known here", {"word": word}), self.example
        )


@dataclass(frozen=True)
class Distance(Quantity):
    """A distance over the ground, in metres inside.

    M and nm are nautical miles; m is metres where the question asks for metres or the number is
    100 or more, and is asked about below that, as miles of any kind are unless the question asks
    for nautical miles.
    """

    unit: str = "NM"
    rounding: float = 0.1

    inside = MappingProxyType(
        {u: LENGTHS[u] for u in ("NM", "cable", "km", "m", "statute mile", "ft", "yd")}
    )
    spellings = MappingProxyType(
        {
            "NM": "nmi, nmile, nmiles, nautical mile, nautical miles, sea mile, sea miles",
            "cable": "ca, cb, cbl",
            "km": "kms, kilometre, kilometres, kilometer, kilometers",
            "m": "metre, metres, meter, meters",
            "statute mile": "land mile, land miles",
            "ft": "foot, feet",
            "yd": "yds, yard, yards",
        }
    )
    called = to_say("a distance")
    suggest = ("cables", "km")

    def unit_meant(self, given: str, word: str, figure: Figure) -> tuple[str, tuple[str, ...]]:
        """Return the unit that `word` names, and notes; raise Unclear if it names none or two."""
        number = given.removesuffix(word).strip()
        if word in ("m", "M"):
            metres = word == "m" and (figure.value >= BIG or self.unit == "m")
            if metres or (word == "M" and figure.value < BIG and self.unit != "m"):
                return ("m" if metres else "NM"), ()
            raise Unclear(
                given,
                "this could be metres or miles",
                say("{number} metres or {number} NM", {"number": number}),
            )
        if word.casefold() in ("mile", "miles", "mi"):
            if self.unit == "NM" and word.casefold() != "mi":
                return "NM", (say("Write NM, so that nobody thinks of land miles."),)
            problem = "this could be sea miles or land miles"
            raise Unclear(
                given, problem, say("{number} NM or {number} statute miles", {"number": number})
            )
        return super().unit_meant(given, word, figure)


@dataclass(frozen=True)
class Length(Quantity):
    """A length on paper, in metres inside."""

    unit: str = "mm"
    rounding: float = 1.0

    inside = MappingProxyType({"mm": 0.001, "cm": 0.01, "m": 1.0})
    spellings = MappingProxyType(
        {
            "mm": "millimetre, millimetres, millimeter, millimeters",
            "cm": "centimetre, centimetres, centimeter, centimeters",
            "m": "metre, metres, meter, meters",
        }
    )
    called = to_say("a length")
    suggest = ("mm", "cm")


@dataclass(frozen=True)
class Speed(Quantity):
    """A speed, in knots inside; a bare number is in the unit asked, with a note."""

    unit: str = "kn"
    rounding: float = 0.1

    inside = MappingProxyType({unit: SPEEDS[unit] / SPEEDS["kn"] for unit in SPEEDS})
    spellings = MappingProxyType(
        {
            "kn": "kt, kts, kns, knot, knots, nm/h",
            "km/h": "kmh, kph, kmph, km per hour",
            "m/s": "mps, metres per second, meters per second",
            "mph": "land miles per hour",
        }
    )
    called = to_say("a speed")
    bare_is_plain = True


@dataclass(frozen=True)
class Height(Quantity):
    """A height or depth in metres, above chart datum unless the question says otherwise.

    Reads 3.2 m, +3.2, 3m2 as charts write it, and a bare 3.2 with a note. Asks about 32, which
    could be decimetres, where tenths are wanted, and about feet.
    """

    unit: str = "m"
    rounding: float = 0.1

    inside = MappingProxyType({"m": 1.0, "dm": 0.1})
    spellings = MappingProxyType({"m": "metre, metres, meter, meters"})
    called = to_say("a height")
    bare_is_plain = True
    may_be_negative = True

    def parse(self, text: str) -> tuple[float, tuple[str, ...]]:
        """Return the height in metres; raise Misread if it has none."""
        charted = re.fullmatch(r"([-+]? ?\d+) ?m ?(\d+)", tidy(text), re.IGNORECASE)
        return super().parse(f"{charted[1]}.{charted[2]} m" if charted else text)

    def bare(self, given: str, figure: Figure) -> tuple[str, ...]:
        """Return the note for a number without a unit; raise Unclear for 32."""
        if self.rounding < 1 and re.fullmatch(r"[-+]? ?\d{2,}", given):
            problem = "this could be metres or decimetres"
            example = either([f"{given} m", f"{figure.value / 10:.1f} m"])
            raise Unclear(given, problem, example)
        return super().bare(given, figure)

    def unit_meant(self, given: str, word: str, figure: Figure) -> tuple[str, tuple[str, ...]]:
        """Return the unit that `word` names, and notes; raise Unclear for feet."""
        if word.casefold() in ("ft", "foot", "feet", "'"):
            metres = figure.value * LENGTHS["ft"]
            problem = "heights here are metres, and these are feet"
            raise Unclear(
                given,
                problem,
                say(
                    "{metres} m for {feet} feet",
                    {"metres": f"{metres:.1f}", "feet": f"{figure.value:g}"},
                ),
            )
        return super().unit_meant(given, word, figure)
