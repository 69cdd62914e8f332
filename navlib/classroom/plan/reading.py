"""The file of a plan: read with every mistake named by its line, and written back."""

import json
from collections.abc import Iterator, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

import yaml

from navlib import questions
from navlib.classroom.plan.demonstrations import NAMES
from navlib.classroom.plan.plan import AFTER, ASKING, WHATS, Plan, Segment
from navlib.paper.nodes import Nodes, Problem, did_you_mean
from navlib.paper.plain_yaml import Mistakes, NotYaml, file_of, root_of, text_of, written

FOLDER = Path(__file__).parent / "plans"
MOST_SEGMENTS, MOST_LINES = 60, 20
LONGEST_SEGMENT, LONGEST_SESSION = 240, 720
"""Minutes."""
LARGEST_PLAN = 15_000
"""Characters as JSON: so much can be sent to a class server with room to spare."""

_HEAD = """\
# What a class does, part by part. Words behind a # are for you alone.
"""
_MUST = ("what", "minutes", "title")
_MAY = ("notes", "demonstration", "kind", "own", "tell")


class PlanError(Mistakes):
    """A plan that cannot be used, with its mistakes."""


def ready_made() -> tuple[str, ...]:
    """Return the names of the plans that come with the project, in the order of the topics."""
    names = {file.stem for file in FOLDER.glob("*.yaml")}
    taught = [topic for topic in questions.topics() if topic in names]
    return (*taught, *sorted(names - set(taught)))


def read(source: str | Path) -> Plan:
    """Return the plan of a file, or the ready-made one of that name.

    Raises PlanError with all mistakes, and FileNotFoundError with the names there are.
    """
    file = file_of(source, FOLDER, ready_made(), "plan", "my-evening.yaml")
    try:
        return parse(text_of(file), file.stem)
    except NotYaml as wrong:
        raise PlanError(file.stem, (wrong.problem,)) from None


def parse(text: str, name: str) -> Plan:
    """Return the plan written in `text`. Raises PlanError with all mistakes."""
    nodes = Nodes()
    try:
        root = root_of(text, "a plan")
    except NotYaml as wrong:
        raise PlanError(name, (wrong.problem,)) from None
    made = _Reader(nodes, name).plan(root)
    if made is not None and (size := len(json.dumps(made.to_plain()))) > LARGEST_PLAN:
        says = (
            f"the whole plan has {size} characters; {LARGEST_PLAN} are the most. Shorten the notes."
        )
        nodes.problems.append(Problem(1, says))
    if made is None or nodes.problems:
        raise PlanError(name, tuple(sorted(nodes.problems)))
    return made


def write(plan: Plan) -> str:
    """Return a plan as the text of a file, which reads back equal."""
    content: dict[str, Any] = {
        "title": plan.title,
        "topic": plan.topic,
        "minutes": plan.length,
        "goals": list(plan.goals),
        "bring": list(plan.bring),
        "caution": plan.caution,
        "segments": [dict(_as_written(segment)) for segment in plan.segments],
    }
    return _HEAD + written({name: value for name, value in content.items() if value})


def _as_written(segment: Segment) -> Iterator[tuple[str, Any]]:
    """Yield what is written of a segment: nothing that goes without saying."""
    yield from {name: getattr(segment, name) for name in _MUST}.items()
    for name in ("demonstration", "kind"):
        if getattr(segment, name):
            yield name, getattr(segment, name)
    if segment.what == "work alone" and not segment.own:
        yield "own", False
    if segment.tell:
        yield "tell", True
    if segment.notes:
        yield "notes", segment.notes


class _Reader:
    """Reads the parts of one file; what is wrong goes to `nodes`."""

    def __init__(self, nodes: Nodes, name: str) -> None:
        self.nodes, self.name, self.topic = nodes, name, ""

    def plan(self, root: yaml.Node | None) -> Plan | None:
        may = ("topic", "minutes", "goals", "bring", "caution")
        found = self.nodes.mapping(root, "a plan", ("title", "segments"), may)
        if found is None:
            return None
        n = self.nodes
        if "topic" in found:
            self.topic = n.one_of(found["topic"], "topic", questions.topics()) or ""
        length = (
            n.whole(found["minutes"], "minutes", 5, LONGEST_SESSION) if "minutes" in found else 0
        )
        return Plan(
            self.name,
            self._words(found, "title", 120),
            self.topic,
            self._lines(found, "goals"),
            self._lines(found, "bring"),
            self._segments(found.get("segments")),
            length,
            self._words(found, "caution", 600),
        )

    def _words(self, found: Mapping[str, yaml.Node], name: str, longest: int) -> str:
        return self.nodes.text(found.get(name), name, longest).strip()

    def _lines(self, found: Mapping[str, yaml.Node], name: str) -> tuple[str, ...]:
        items = self.nodes.items(found.get(name), name, MOST_LINES)
        return tuple(self.nodes.text(item, name, 200).strip() for item in items)

    def _segments(self, node: yaml.Node | None) -> tuple[Segment, ...]:
        items = self.nodes.items(node, "segments", MOST_SEGMENTS)
        if node is not None and not items and not self.nodes.problems:
            says = "there are no segments. Give at least one, as “- what: demonstrate”."
            self.nodes.say(node, says)
        made: list[Segment] = []
        asked = False
        for item in items:
            segment = self._segment(item)
            if segment is None:
                continue
            if segment.what in AFTER and not asked:
                self.nodes.say(
                    item, f"“{segment.what}” comes after a question; none was asked yet."
                )
            asked = asked or segment.what in ASKING
            made.append(segment)
        return tuple(made)

    def _segment(self, node: yaml.Node) -> Segment | None:
        found = self.nodes.mapping(node, "a segment", _MUST, _MAY)
        if found is None or "what" not in found:
            return None
        n = self.nodes
        what = n.one_of(found["what"], "sort of segment", WHATS)
        plain = Segment(
            "break",
            n.whole(found.get("minutes"), "minutes", 1, LONGEST_SEGMENT),
            self._words(found, "title", 120),
            self._words(found, "notes", 1000),
        )
        if what is None:
            return None
        segment = replace(plain, what=what)
        return self._shows(self._asks(segment, found, node), found)

    def _shows(self, segment: Segment, found: Mapping[str, yaml.Node]) -> Segment:
        node = found.get("demonstration")
        if node is None:
            return segment
        if segment.what != "demonstrate":
            says = f"“{segment.what}” shows no demonstration. Only “demonstrate” does."
            self.nodes.say(node, says)
        return replace(segment, demonstration=self.nodes.one_of(node, "demonstration", NAMES))

    def _asks(self, segment: Segment, found: Mapping[str, yaml.Node], node: yaml.Node) -> Segment:
        n, what = self.nodes, segment.what
        if what not in ASKING:
            for name in ("kind", "own", "tell"):
                if name in found:
                    n.say(
                        found[name],
                        f"“{what}” asks nothing of its own, so it has no “{name}:”. Only “work alone” "
                        "and “vote” do.",
                    )
            return segment
        if "kind" not in found:
            such = questions.kinds(self.topic)[0]
            n.say(node, f"“{what}” needs “kind:”, the kind of question asked, such as {such}.")
        own = n.yes_or_no(found.get("own"), "own", what == "work alone")
        if what == "vote" and own:
            n.say(found["own"], "a vote is one question for all: take “own: yes” out.")
        tell = n.yes_or_no(found.get("tell"), "tell", False)
        if what == "vote" and tell:
            n.say(found["tell"], "a vote tells nobody before it is revealed: take “tell: yes” out.")
        return replace(segment, kind=self._kind(found.get("kind")), own=own, tell=tell)

    def _kind(self, node: yaml.Node | None) -> str | None:
        text = self.nodes.text(node, "kind", 60).strip()
        if not text:
            return None
        for name in (text, f"{self.topic}.{text}"):
            if name in questions.kinds():
                return name
        able = questions.kinds(self.topic)
        near = did_you_mean(text, (*questions.kinds(), *(kind.split(".")[1] for kind in able)))
        there = f" There are: {', '.join(able)}." if self.topic else " Its topic stands before it."
        assert node is not None
        self.nodes.say(node, f"there is no kind of question “{text}”{near}{there}")
        return None
