"""Hours from high water in words, as stream tables and atlases are spoken of."""

from navlib.language import say


def in_words(hour: int) -> str:
    """Return an hour from high water in words: 2 h before HW, at HW, 3 h after HW."""
    if not hour:
        return say("at HW")
    words = "{hours} h before HW" if hour < 0 else "{hours} h after HW"
    return say(words, {"hours": abs(hour)})
