"""Kinds of answer chosen from a list: one of several options, or all of them in an order."""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from itertools import combinations
from string import ascii_lowercase

from navlib.chain.kind import Kind
from navlib.language import say
from navlib.notation import Impossible, Unclear, tidy

NEVER_NEAR = 0.1
"""Rounding of a choice: far less than the 1 between two options, so no band reaches another."""

_SAME_WORDS = {"y": "yes", "true": "yes", "right": "yes", "n": "no", "false": "no", "wrong": "no"}


def letters(options: Mapping[str, str]) -> dict[str, str]:
    """Return the letter shown before each option, and the option's key.

    Keys of one character are their own letters, as is yes or no; others get a, b, c by position.
    """
    if all(len(key) == 1 for key in options) or {"yes", "no"} >= {k.lower() for k in options}:
        return {key.lower(): key for key in options}
    return dict(zip(ascii_lowercase, options, strict=False))


def _bare(text: str) -> str:
    return re.sub(r"[\s().:;!]+", " ", tidy(text)).strip().casefold()


@dataclass(frozen=True)
class Choice(Kind[str]):
    """One of `options`, a mapping of key (the value) to text.

    Reads the letter shown, the key or the text, in English or in the learner's language, or as much
    of these as tells them apart; yes and no also as y, n, true, false. Two options are 1 apart, an
    option is 0 from itself.
    """

    options: Mapping[str, str] = field(hash=False)
    unit: str = ""
    rounding: float = NEVER_NEAR
    example: str = ""

    def __post_init__(self) -> None:
        """Check the options and take the first as the example."""
        if not 2 <= len(self.options) <= len(ascii_lowercase):
            raise ValueError(f"{len(self.options)} options given; give between 2 and 26")
        if not self.example:
            object.__setattr__(self, "example", self.write(next(iter(self.options))))

    def parse(self, text: str) -> tuple[str, tuple[str, ...]]:
        """Return the key of the option meant; raise Unclear if it is none of them or two."""
        given, bare = tidy(text), _bare(text)
        shown = letters(self.options)
        bare = _SAME_WORDS.get(bare, bare) if set(shown) <= {"yes", "no"} else bare
        names = [
            (_bare(name), key)
            for letter, key in shown.items()
            for text in {self.options[key], self.told(key)}
            for name in (letter, key, text, f"{letter} {text}")
        ]
        meant = {key for name, key in names if name == bare}
        if not meant:
            meant = {key for name, key in names if name.startswith(bare)}
        if len(meant) == 1:
            return meant.pop(), ()
        listed = "; ".join(self.write(key) for key in self.options)
        if len(bare) == 1 and not meant:
            raise Impossible(
                given,
                say("there is no option {given}", {"given": given}),
                say("one of {listed}", {"listed": listed}),
            )
        example = say("one of {listed}", {"listed": listed})
        raise Unclear(given, "this is not plainly one of the options", example)

    def told(self, value: str) -> str:
        """Return the text of an option in the learner's language."""
        return say(self.options[value])

    def write(self, value: str) -> str:
        """Return the option as it is shown: its letter and its text."""
        letter = next(letter for letter, key in letters(self.options).items() if key == value)
        text = self.told(value)
        return text if _bare(text) == letter else f"{letter}) {text}"

    def quoted(self, text: str, value: str) -> str:
        """Return the words of the option, since a front end may hand in its key."""
        return self.told(value)

    def write_width(self, width: float) -> str:
        """Return nothing: an option is right or it is not."""
        return ""

    def apart(self, one: str, other: str) -> float:
        """Return 0 for the same option, 1 for another."""
        return float(one != other)

    def rounded(self, value: str) -> str:
        """Return `value`: there is nothing to round."""
        return value

    def shift(self, value: str, by: float) -> str:
        """Return `value`: no instrument's error turns one option into another."""
        return value


@dataclass(frozen=True)
class Order(Kind[tuple[str, ...]]):
    """All of `items`, a mapping of key to text, put in an order; the value is a tuple of keys.

    Reads the letters shown or the texts: "b a c", "B, A, C", "bac", "b > a > c". Two orders are as
    far apart as there are pairs that stand the other way round.
    """

    items: Mapping[str, str] = field(hash=False)
    unit: str = ""
    rounding: float = NEVER_NEAR
    example: str = ""

    def __post_init__(self) -> None:
        """Check the items and take their reverse as the example."""
        if not 2 <= len(self.items) <= len(ascii_lowercase):
            raise ValueError(f"{len(self.items)} items given; give between 2 and 26")
        if not self.example:
            object.__setattr__(self, "example", self.write(tuple(self.items)[::-1]))

    def parse(self, text: str) -> tuple[tuple[str, ...], tuple[str, ...]]:
        """Return the keys in the order written; raise Misread unless each stands there once."""
        given = tidy(text)
        meant: dict[str, str] = {}
        for letter, key in letters(self.items).items():
            text = self.items[key]
            meant |= {_bare(name): key for name in (text, say(text), key, letter)}
        parts = [_bare(p) for p in re.split(r"->|[,;>/]|\bthen\b", given, flags=re.I)]
        if len(parts) == 1:
            parts = parts[0].split()
        if len(parts) == 1 and parts[0] not in meant:
            parts = list(parts[0])
        parts = [part for part in parts if part.strip("- ")]
        if unknown := [part for part in parts if part not in meant]:
            raise Unclear(
                given,
                say("“{unknown}” is none of the items", {"unknown": unknown[0]}),
                self.example,
            )
        order = tuple(meant[part] for part in parts)
        shown = {key: letter for letter, key in letters(self.items).items()}
        if twice := [key for key in self.items if order.count(key) > 1]:
            raise Impossible(
                given, say("{item} stands there twice", {"item": shown[twice[0]]}), self.example
            )
        if missing := [shown[key] for key in self.items if key not in order]:
            raise Unclear(
                given, say("{missing} is missing", {"missing": ", ".join(missing)}), self.example
            )
        return order, ()

    def write(self, value: tuple[str, ...]) -> str:
        """Return the letters in order: b, a, c."""
        shown = {key: letter for letter, key in letters(self.items).items()}
        return ", ".join(shown[key] for key in value)

    def write_width(self, width: float) -> str:
        """Return nothing: an option is right or it is not."""
        return ""

    def apart(self, one: tuple[str, ...], other: tuple[str, ...]) -> float:
        """Return the number of pairs that stand in another order."""
        place = {key: i for i, key in enumerate(other)}
        return float(sum(place[first] > place[second] for first, second in combinations(one, 2)))

    def rounded(self, value: tuple[str, ...]) -> tuple[str, ...]:
        """Return `value`: there is nothing to round."""
        return value

    def shift(self, value: tuple[str, ...], by: float) -> tuple[str, ...]:
        """Return `value`: no instrument's error changes an order."""
        return value
