"""How figures stand in print: a true minus, and a figure on one line with what belongs to it."""

import re

_MINUS = re.compile(r"(?<![\w.'\"°)-])-(?=\d)")
_KEPT = re.compile(
    r"(?<=\d) (?=(?:NM|kn|mm|cm|km|m|min|h)\b)"  # 4.8 NM
    r"|(?<=\d{4}) (?=[A-Z]{2,5}\b)"  # 0418 UT
    r"|(?<=\d h) (?=\d\d\b)"  # 3 h 56
    r"|(?<=1:\d) (?=\d{3}\b)|(?<=1:\d\d) (?=\d{3}\b)|(?<=1:\d{3}) (?=\d{3}\b)"  # 1:50 000
)


def as_printed(text: str) -> str:
    """Return a text with minus signs in place of hyphens, and no line end within a quantity."""
    return _MINUS.sub("−", _KEPT.sub("\N{NO-BREAK SPACE}", text))
