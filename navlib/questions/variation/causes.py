"""When the compass does not agree: judge from checks against the chart what is to blame."""

import random
from collections.abc import Mapping
from itertools import product
from typing import Any

from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Slip, Step
from navlib.kinds.angles import EastWest
from navlib.kinds.choices import Choice
from navlib.language import say, to_say
from navlib.questions.picture import Table

VARIATION, DEVIATION, ROCK, HAND = "variation", "deviation", "rock", "scatter"

_PATTERN = {
    VARIATION: "both boats are out by about the same, in both places and on every heading",
    DEVIATION: "only boat {boat} is out, and by something else on each heading",
    ROCK: "both boats are out by about the same, on both headings, but only off {place}",
    HAND: "nothing is out by more than 2°, to either side",
}
"""What the checks look like for each cause."""


def _unless(cause_told: str) -> Any:
    return lambda cause: cause_told if cause != cause_told else None


BLAME = Step(
    "blame",
    Choice(
        {
            VARIATION: "the variation they use: wrong or too old",
            DEVIATION: "iron in one boat: deviation",
            ROCK: "rock in one place: a local anomaly",
            HAND: "nothing: so much a hand compass always scatters",
        }
    ),
    lambda cause: cause,
    how="Look along the rows and down the columns: does it go with the boat, the heading, the place, "
    "or with none of them?",
    line="Look: {pattern}. To blame: {blame}",
    check="Compare the two boats first, then the two headings, then the two places.",
    slips=(
        Slip(
            "variation-blamed",
            _unless(VARIATION),
            "Yours, {yours}, would put every check out by the same, whatever the boat, heading or "
            "place. Here {pattern}. Check: old variation is the same for everyone, everywhere.",
        ),
        Slip(
            "deviation-blamed",
            _unless(DEVIATION),
            "Yours, {yours}, would stay with one boat and change as it turns. Here {pattern}. Check: "
            "iron goes where the boat goes and turns with it.",
        ),
        Slip(
            "rock-blamed",
            _unless(ROCK),
            "Yours, {yours}, would show in one place for both boats and be gone in the other. Here "
            "{pattern}. Check: rock stays where it is.",
        ),
        Slip(
            "hand-blamed",
            _unless(HAND),
            "Yours, {yours}, would be a degree or two, now to this side and now to that. Here "
            "{pattern}. Check: 5° and more, again and again to one side, is no scatter.",
        ),
    ),
)

_PLACES = (
    to_say("the long reef"),
    to_say("the north head"),
    to_say("the west skerry"),
    to_say("the ferry pier"),
    to_say("the old jetty"),
)
_OUT = EastWest(1.0)


def _draw(source: random.Random) -> Mapping[str, Any]:
    cause = source.choice(list(_PATTERN))
    places = [say(place) for place in source.sample(_PLACES, 2)]
    headings = source.sample((0, 45, 90, 135, 180, 225, 270, 315), 2)
    boat, out = source.randrange(2), source.choice((-1, 1)) * source.randint(6, 11)
    iron = source.choice(((7, -6), (-5, 8), (9, 5), (-6, -10)))
    scatter = [_scatter(source, cause) for _ in "AB"]
    rows = []
    for row, (place, heading) in enumerate(product((0, 1), (0, 1))):
        checks = [
            scatter[i][row] + _pulled(cause, out, iron, i == boat, place, heading) for i in (0, 1)
        ]
        written = (_OUT.write(float(check)) for check in checks)
        rows.append(
            (say("off {place}", {"place": places[place]}), f"{headings[heading]:03d}°", *written)
        )
    pattern = say(_PATTERN[cause], {"boat": "AB"[boat], "place": places[0]})
    return {"cause": cause, "pattern": pattern, "rows": tuple(rows)}


def _scatter(source: random.Random, cause: str) -> list[int]:
    """Return what a hand adds to four checks; where that is all there is, to both sides alike."""
    if cause == HAND:
        return source.sample(source.choice(((-2, -1, 1, 2), (-2, 0, 0, 2), (-1, -1, 1, 2))), 4)
    return source.choices((-1, 0, 1), k=4)


def _pulled(
    cause: str, out: int, iron: tuple[int, int], own: bool, place: int, heading: int
) -> int:
    """Return what the cause adds to one check, in degrees, east positive."""
    if cause == DEVIATION:
        return iron[heading] if own else 0
    return out if cause == VARIATION or (cause == ROCK and place == 0) else 0


def _table(givens: Mapping[str, Any]) -> Table:
    return Table(
        say("Magnetic bearing from the chart less bearing read: how far each compass is out"),
        (say("Place"), say("Heading"), say("Boat A"), say("Boat B")),
        givens["rows"],
    )


TYPES = (
    QuestionType(
        "variation.what-is-to-blame",
        "What is to blame?",
        "variation",
        2,
        Chain(dict.fromkeys(("cause", "pattern", "rows")), (BLAME,)),
        _draw,
        "Two boats check their compasses as marks come in line: off two places, and on two headings "
        "in each. The table shows by how much each was out.\n\nWhat is to blame?",
        {"blame": "To blame"},
        _table,
    ),
)
