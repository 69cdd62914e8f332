"""What a protractor tells that a line was drawn by: on which north it stands, and what its arm shows."""

import math
from collections.abc import Iterator

from navlib.angles import signed
from navlib.desk.evidence.finding import USED_MM, Finding, Spot, figures
from navlib.desk.evidence.norths import NAMES
from navlib.desk.evidence.protractor import QUARTER, Laid
from navlib.language import say


def of_laying_off(
    laid: Laid, start: Spot, figure: float, compass: float | None
) -> Iterator[Finding]:
    """Yield what a protractor tells by which a line was drawn: `laid` is on that line.

    `start` is where the line should begin, `figure` what should be laid off there, `compass` the
    figure that the compass showed.
    """
    if math.dist(laid.hub, start) > USED_MM or not laid.swung:
        return
    eye = laid.eye
    # The line may be drawn along the arm or the other way, to or from the mark.
    along = min(abs(laid.astray), 180 - abs(laid.astray)) <= eye.astray
    right_figure = abs(signed(laid.arm - figure)) <= eye.astray
    shows = {"figure": figures(laid.arm), "wanted": say(NAMES[laid.wanted])}
    if abs(laid.twist) > eye.twist:
        yield _on_another_north(laid, along, right_figure)
    elif compass is not None and not right_figure and abs(signed(laid.arm - compass)) <= eye.astray:
        yield Finding(
            say(
                "The thread shows {figure} on the ring, the compass’s own figure, and the protractor "
                "stands on {wanted}."
                if eye.thread
                else "The arm shows {figure} on the ring, the compass’s own figure, and the "
                "protractor stands on {wanted}.",
                shows,
            ),
            say("The compass counts from magnetic north."),
            say("Check: the letter of its north behind each figure."),
            explains=along,
            fits=frozenset({"variation-forgotten", "grid-magnetic-forgotten"}),
        )
    elif right_figure and not along:
        yield Finding(
            say(
                "The thread shows {figure} on the ring, which is right, and the protractor lies right, "
                "but your line does not run along the thread."
                if eye.thread
                else "The arm shows {figure} on the ring, which is right, and the protractor lies "
                "right, but your line does not run along the arm.",
                shows,
            ),
            say("So it is the drawing."),
            say(
                "Check: press the thread down beside the pencil."
                if eye.thread
                else "Check: let the arm’s edge guide the pencil."
            ),
            explains=True,
        )


def _on_another_north(laid: Laid, along: bool, right_figure: bool) -> Finding:
    """Return which north it stands on, or how far it is turned from the one wanted."""
    other = laid.norths.other(laid.turn, laid.wanted, laid.eye)
    values = {
        "figure": figures(laid.arm),
        "wanted": say(NAMES[laid.wanted]),
        "stands": say(NAMES[other]) if other else "",
        "turned": f"{abs(laid.twist):.0f}",
    }
    if not right_figure:
        evidence = say(
            "The protractor stands on {stands}, not on {wanted}."
            if other
            else "The protractor is turned {turned}° from {wanted}.",
            values,
        )
    elif laid.eye.thread:
        evidence = say(
            "The thread shows {figure} on the ring, which is right, but the protractor stands on "
            "{stands}, not on {wanted}."
            if other
            else "The thread shows {figure} on the ring, which is right, but the protractor is turned "
            "{turned}° from {wanted}.",
            values,
        )
    else:
        evidence = say(
            "The arm shows {figure} on the ring, which is right, but the protractor stands on "
            "{stands}, not on {wanted}."
            if other
            else "The arm shows {figure} on the ring, which is right, but the protractor is turned "
            "{turned}° from {wanted}.",
            values,
        )
    quarter = abs(abs(laid.twist) - 90) <= QUARTER
    return Finding(
        evidence,
        say("The line is turned by as much."),
        say("Check: which north does your figure count from?"),
        explains=along and right_figure,
        fits=frozenset({"laid-on-the-easting"}) if quarter else frozenset(),
    )
