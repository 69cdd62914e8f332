"""What readers of written answers share: tidying text, and saying what was not understood."""

import re
import unicodedata
from functools import lru_cache

from navlib.language import say

LONGEST = 120
"""Characters looked at; a longer answer is cut, never refused for its length alone."""

_SAME = str.maketrans(
    {
        "’": "'", "‘": "'", "′": "'", "´": "'", "`": "'", "ʹ": "'",
        "”": '"', "“": '"', "″": '"', "ʺ": '"',
        "−": "-", "–": "-", "—": "-", "‐": "-", "‑": "-",
        "º": "°", "˚": "°", "∘": "°",
        "·": ".", "٫": ".",
        "×": "x",
    }
)  # fmt: skip


class Misread(ValueError):
    """An answer that cannot be read; the message is for the person who wrote it.

    Parameters: `given` is what was written, `problem` what is wrong with it as a sentence without
    its full stop, `example` how it could be written instead.
    """

    def __init__(self, given: str, problem: str, example: str) -> None:
        self.given, self.problem, self.example = given, problem, example
        super().__init__(
            say(
                "“{given}”: {problem}. Write it like this: {example}",
                {"given": given, "problem": say(problem), "example": example},
            )
        )


class Unclear(Misread):
    """It could mean more than one thing: ask, do not guess."""


class Impossible(Misread):
    """It cannot be an answer of this kind at all, such as a bearing of 412°."""


def tidy(text: str) -> str:
    """Return `text` with one form of each prime, dash, degree and decimal sign, and single spaces.

    Characters that cannot be seen become spaces; at most `LONGEST` characters are kept.
    """
    return _tidied(text[: 4 * LONGEST])


@lru_cache(maxsize=4096)  # the same words are read again for every slip that is tried
def _tidied(text: str) -> str:
    text = unicodedata.normalize("NFC", text).translate(_SAME)
    text = text.replace("''", '"')
    text = "".join(c if c.isprintable() else " " for c in text)
    return re.sub(r"\s+", " ", text).strip()[:LONGEST]


def decimal_comma(text: str) -> str:
    """Return `text` with a decimal comma between figures written as a point.

    Only where a decimal is plainly meant: `0,7` is 0.7, but `96580,1002347` keeps its comma.
    """
    return re.sub(r"(?<![\d.,])(\d{1,4}),(\d{1,3})(?![\d.,])", r"\1.\2", text)
