"""Plain numbers as people write them: 0.7, .7, 0,7, 1 300, 1¾, 1 3/4; alone or with a unit."""

import re
import unicodedata
from dataclasses import dataclass

from navlib.language import either
from navlib.notation import Unclear, decimal_comma, tidy

_SIGN = "¼½¾⅐-⅞"
_MIXED = re.compile(rf"(?:(\d+) ?)?([{_SIGN}])")
_SLASH = re.compile(r"(?<![\d./,])(?:(\d+) )?(\d)/([2-9]|10)(?![\d./,])")
_NUMBER = re.compile(r"[-+]?(?:\d+\.?\d*|\.\d+)")
_LEADING = re.compile(rf"([-+]? ?[\d.,{_SIGN}][\d.,/ {_SIGN}]*)(.*)")


@dataclass(frozen=True)
class Figure:
    """A number as written; `decimals` counts its figures after the point (0 for a fraction)."""

    value: float
    decimals: int


def decimal_fractions(text: str) -> str:
    """Return `text` with written fractions as decimals: 1¾ h and 1 3/4 h become 1.75 h."""

    def whole_and(whole: str | None, part: float) -> str:
        return f"{int(whole or 0) + part:.10f}".rstrip("0").rstrip(".")

    text = _MIXED.sub(lambda m: whole_and(m[1], unicodedata.numeric(m[2])), text)
    return _SLASH.sub(lambda m: whole_and(m[1], int(m[2]) / int(m[3])), text)


def read_figure(text: str, example: str = "1.5") -> Figure:
    """Return the number written in `text`, which holds nothing else.

    Raises Unclear for what is no number, and for 1,300, which could be 1300 or 1.3.
    """
    given = tidy(text)
    if re.search(r"(?<![\d.,])[1-9]\d{0,2},\d{3}(?![\d.,])", given):
        problem = "the comma could mark thousands or a decimal"
        raise Unclear(given, problem, either([given.replace(",", ""), given.replace(",", ".")]))
    decimal = decimal_fractions(given)
    plain = re.sub(r"(?<![\d.,]),(?=\d)", ".", decimal_comma(decimal))
    plain = re.sub(r"(?<=\d) (?=\d{3}(?!\d))|(?<=[-+]) ", "", plain)
    if not _NUMBER.fullmatch(plain):
        raise Unclear(given, "no number can be read here", example)
    after = plain.partition(".")[2] if decimal == given else ""
    return Figure(float(plain), len(after))


def read_with_unit(text: str, example: str) -> tuple[Figure, str]:
    """Return the number that `text` begins with and the words after it, as written.

    Leaves out "about", "~" and "=" in front. Raises Unclear where no number leads.
    """
    given = tidy(text)
    match = _LEADING.fullmatch(re.sub(r"^(?:about|approx\.?|[~≈=]) ?", "", given, flags=re.I))
    if match is None:
        raise Unclear(given, "it does not begin with a number", example)
    return read_figure(match[1], example), match[2].strip()
