"""The texts in a front-end module: what it gives to `say`, as one string."""

import json
import re
from collections.abc import Iterator

_LITERAL = r'"(?:[^"\\\n]|\\.)*"'
_SAID = re.compile(rf"(?<![.\w])say\(\s*({_LITERAL}(?:\s*\+\s*{_LITERAL})*)")
_CALL = re.compile(r"(?<![.\w])say\(")


def said(script: str) -> Iterator[tuple[int, str]]:
    """Yield the line and the text of each `say("…")`, pieces joined by + taken together."""
    for call in _SAID.finditer(script):
        pieces = re.findall(_LITERAL, call[1])
        line = script.count("\n", 0, call.start()) + 1
        yield line, "".join(json.loads(piece) for piece in pieces)


def unwritten(script: str) -> list[str]:
    """Return the calls of `say` whose text is not written out, so that no list could hold it."""
    at = {call.start() for call in _SAID.finditer(script)}
    calls = (call.start() for call in _CALL.finditer(script))
    return [script[n : n + 40].split("\n")[0] for n in calls if n not in at]
