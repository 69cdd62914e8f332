"""What a person typed into a form, written as the lines of a file, so that the file's rules read it."""

import json
from collections.abc import Iterable, Sequence

from navlib.paper.nodes import Problem

Line = tuple[str, str]
"""The place in the form that a line comes from, and the line."""


def one_line(value: object) -> str:
    """Return a text without what cannot be seen, on one line."""
    return "".join(c for c in " ".join(str(value or "").split()) if c.isprintable())


def quoted(value: object) -> str:
    """Return a text as a file holds it, whatever stands in it."""
    return json.dumps(one_line(value), ensure_ascii=False)


def listed(values: Iterable[object]) -> str:
    """Return texts as a list on one line."""
    return f"[{', '.join(map(quoted, values))}]"


def item(parts: Iterable[tuple[str, object]]) -> str:
    """Return one item of a list, with its parts by name."""
    told = (
        f"{name}: {listed(value) if isinstance(value, list) else quoted(value)}"
        for name, value in parts
    )
    return f"- {{{', '.join(told)}}}"


def places(problems: Iterable[Problem], lines: Sequence[Line]) -> list[dict[str, str]]:
    """Return what is wrong with which place of the form: `place`, and `says` as a sentence."""
    last = len(lines) - 1
    return [
        {"place": lines[min(p.line - 1, last)][0], "says": p.sentence[:1].upper() + p.sentence[1:]}
        for p in problems
    ]
