"""Values out of a YAML file, node by node, so that every mistake is told with its line."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date
from difflib import get_close_matches
from typing import TypeVar

import yaml

Name = TypeVar("Name", bound=str)
"""Names of which one is meant."""


@dataclass(frozen=True, order=True)
class Problem:
    """One mistake: its line, from 1, and a sentence that says what to change."""

    line: int
    sentence: str


def did_you_mean(given: str, known: Sequence[str]) -> str:
    """Return the end of a sentence that offers the nearest known names; a full stop if none is near."""
    lower = {name.casefold(): name for name in known}
    near = get_close_matches(given.casefold(), lower, n=2, cutoff=0.6)
    names = " or ".join(f"“{lower[name]}”" for name in near)
    return f"; did you mean {names}?" if near else "."


@dataclass
class Nodes:
    """Reads values and gathers what is wrong with them; a wrong one comes out empty."""

    problems: list[Problem] = field(default_factory=list)

    def say(self, node: yaml.Node, sentence: str) -> None:
        """Note what is wrong at a node."""
        self.problems.append(Problem(node.start_mark.line + 1, sentence))

    def mapping(
        self, node: yaml.Node | None, what: str, must: Sequence[str], may: Sequence[str]
    ) -> dict[str, yaml.Node] | None:
        """Return the values of a mapping by name; None if it is none.

        Names are read without regard to capitals, and with _ or - for a space.
        """
        if not isinstance(node, yaml.MappingNode):
            names = ", ".join(f"“{name}:”" for name in must)
            sentence = f"{what} is written in lines such as {names}."
            if node is None:
                self.problems.append(Problem(1, sentence))
            else:
                self.say(node, sentence)
            return None
        found: dict[str, yaml.Node] = {}
        for key, value in node.value:
            given = str(key.value) if isinstance(key, yaml.ScalarNode) else "?"
            name = " ".join(given.casefold().replace("_", " ").replace("-", " ").split())
            if name not in (*must, *may):
                near = did_you_mean(name, (*must, *may))
                all_names = ", ".join((*must, *may))
                self.say(key, f"{what} has no “{given}”{near} It may have: {all_names}.")
            elif name in found:
                self.say(key, f"“{given}” stands here a second time.")
            else:
                found[name] = value
        for name in must:
            if name not in found:
                self.say(node, f"{what} needs “{name}:”.")
        return found

    def items(self, node: yaml.Node | None, what: str, most: int) -> list[yaml.Node]:
        """Return the items of a list; empty if there is none."""
        if node is None or (isinstance(node, yaml.ScalarNode) and not node.value):
            return []
        if not isinstance(node, yaml.SequenceNode):
            self.say(node, f"“{what}” is a list: one line for each, with “- ” before it.")
            return []
        if len(node.value) > most:
            self.say(node, f"“{what}” has {len(node.value)} items; {most} are the most.")
            return []
        return list(node.value)

    def text(self, node: yaml.Node | None, what: str, longest: int) -> str:
        """Return a text that is not empty."""
        if node is None:
            return ""
        if not isinstance(node, yaml.ScalarNode) or not node.value.strip():
            self.say(node, f"“{what}” needs some words.")
            return ""
        if len(node.value) > longest:
            self.say(node, f"“{what}” has {len(node.value)} characters; {longest} are the most.")
            return ""
        return str(node.value)

    def texts(self, node: yaml.Node | None, what: str) -> dict[str, str]:
        """Return texts by their names."""
        if node is None or (isinstance(node, yaml.ScalarNode) and not node.value):
            return {}
        if not isinstance(node, yaml.MappingNode):
            self.say(node, f"“{what}” is written in lines such as “centre: Name of the centre”.")
            return {}
        found: dict[str, str] = {}
        for key, value in node.value:
            name = self.text(key, what, 60)
            if name in found:
                self.say(key, f"“{name}” stands here a second time.")
            found[name] = self.text(value, name or what, 2000)
        return found

    def number(self, node: yaml.Node | None, what: str, least: float, most: float) -> float:
        """Return a number between two limits."""
        if node is None:
            return least
        value = _number(node)
        if value is None or not least <= value <= most:
            self.say(
                node, f"“{what}” is a number from {least:g} to {most:g}, not “{_shown(node)}”."
            )
            return least
        return value

    def whole(
        self,
        node: yaml.Node | None,
        what: str,
        least: int,
        most: int,
        limit: str = "",
        default: int | None = None,
    ) -> int:
        """Return a whole number between two limits; `limit` says what the upper one is."""
        if node is None:
            return least if default is None else min(default, most)
        value = _number(node)
        if value is None or value != math.floor(value) or not least <= value <= most:
            self.say(
                node,
                f"“{what}” is a whole number from {least} to {most}{limit}, not “{_shown(node)}”.",
            )
            return least
        return int(value)

    def yes_or_no(self, node: yaml.Node | None, what: str, default: bool) -> bool:
        """Return whether yes is written, or `default` if nothing is."""
        if node is None:
            return default
        given = _shown(node).strip().casefold()
        if given not in (*_YES, *_NO):
            self.say(node, f"“{what}” is yes or no, not “{_shown(node)}”.")
            return default
        return given in _YES

    def day(self, node: yaml.Node | None, what: str, first: date, last: date) -> date | None:
        """Return a day between two others."""
        if node is None:
            return None
        try:
            day = date.fromisoformat(str(node.value).strip())
        except ValueError:
            self.say(node, f"“{what}” is a day such as 2027-06-21, not “{_shown(node)}”.")
            return None
        if not first <= day <= last:
            self.say(node, f"“{what}” is {day}; tides are reckoned from {first} to {last}.")
            return None
        return day

    def one_of(
        self, node: yaml.Node | None, what: str, known: Sequence[Name], given: str | None = None
    ) -> Name | None:
        """Return which of the known names is meant; None if none is."""
        if node is None:
            return None
        text = _shown(node) if given is None else given
        for name in known:
            if name.casefold() == text.strip().casefold():
                return name
        near = did_you_mean(text, known)
        self.say(node, f"there is no {what} “{_shown(node)}”{near} There are: {', '.join(known)}.")
        return None


_YES, _NO = ("yes", "true", "on"), ("no", "false", "off")


def _shown(node: yaml.Node) -> str:
    if not isinstance(node, yaml.ScalarNode):
        return "a list"
    return node.value if len(node.value) <= 60 else node.value[:57] + "…"


def _number(node: yaml.Node) -> float | None:
    try:
        value = float(node.value) if isinstance(node, yaml.ScalarNode) else math.nan
    except ValueError:
        return None
    return value if math.isfinite(value) else None
