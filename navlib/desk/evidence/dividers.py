"""What dividers tell that stand on the border of a chart."""

import math
from collections.abc import Iterator, Sequence

from navlib.desk.evidence.finding import OFF_MM, Finding, Spot
from navlib.language import say
from navlib.sheets.window import MercatorWindow, Window
from navlib.units import NM

BORDER_MM = 8.0
"""How near both points of the dividers stand to the frame when they stand on its border."""
READ_NM = 0.06
"""How near a distance must be to what the border shows to be read off it, miles."""


def border_of(points: Sequence[Spot], window: Window) -> str:
    """Return which border both points of the dividers stand on: “side”, “top”, “bottom” or none."""
    frame = window.frame
    if all(min(abs(x - frame.left), abs(x - frame.right)) <= BORDER_MM for x, _ in points):
        return "side"
    for name, level in (("top", frame.top), ("bottom", frame.bottom)):
        if all(abs(y - level) <= BORDER_MM for _, y in points):
            return name
    return ""


def shown_nm(points: Sequence[Spot], window: MercatorWindow, on: str) -> float:
    """Return the minutes between the points on a border, which a learner counts for miles."""
    (lat1, lon1), (lat2, lon2) = (window.lat_lon_at(*point) for point in points)
    return 60 * abs(float(lat2 - lat1 if on == "side" else lon2 - lon1))


def of_dividers(
    points: Sequence[Spot], window: Window, read_m: float | None, leg_mm: float | None
) -> Iterator[Finding]:
    """Yield what dividers tell that stand on the border of a chart.

    `read_m` is the distance that the learner gave, or drew; `leg_mm` what they should span.
    """
    on = border_of(points, window)
    if not on or not isinstance(window, MercatorWindow):
        return
    opening, shown = math.dist(*points), shown_nm(points, window, on)
    read = None if read_m is None else read_m / NM
    matches = read is not None and abs(read - shown) <= max(READ_NM, 0.03 * shown)
    if on != "side":
        yield Finding(
            say(
                "The dividers stand on the top border."
                if on == "top"
                else "The dividers stand on the bottom border."
            ),
            say(
                "There a minute is a minute of longitude, shorter than a mile everywhere but at the "
                "equator."
            ),
            say("Check: take miles from the side, level with the leg."),
            explains=matches,
            fits=frozenset({"longitude-scale", "other-border"}),
        )
    elif leg_mm is not None and abs(opening - leg_mm) > OFF_MM:
        opened = {"opening": f"{opening:.0f}", "leg": f"{leg_mm:.0f}"}
        yield Finding(
            say(
                "The dividers are open {opening} mm, and the leg is {leg} mm on the sheet.", opened
            ),
            say("They moved on the way, or were not set on both places."),
            say("Check: carry them back to the leg."),
            explains=matches,
            rules_out=frozenset({"longitude-scale"}),
        )
    elif matches:
        yield Finding(say("The dividers stand as they should."), good=True)
    elif read is not None:
        yield _counted(read, shown)


def _counted(read: float, shown: float) -> Finding:
    """Return what was miscounted on the side border by dividers that stand right, in minutes."""
    figure = say(
        "The dividers stand right, and span {shown} minutes of latitude, not {read}.",
        {"shown": f"{shown:.1f}", "read": f"{read:.1f}"},
    )
    whole = abs(read - shown)
    halved = abs(read % 1 - shown % 1 / 2) < READ_NM or abs(read % 1 - shown % 1 * 2) < READ_NM
    if abs(whole - round(whole)) <= READ_NM and round(whole) >= 1:
        why, fits = say("A whole minute was miscounted."), frozenset({"leg-left-out"})
    elif int(read) == int(shown) and halved:
        why = say("The small divisions were counted at the wrong worth.")
        fits = frozenset({"divisions-for-tenths", "wrong-division"})
    elif min(abs(read - shown / 2), abs(read - 2 * shown)) <= READ_NM:
        why = say("The bars of the border were counted at the wrong worth.")
        fits = frozenset({"bars-for-minutes"})
    else:
        return Finding(
            figure,
            say("So it is not the dividers."),
            say("Check: how did you come from minutes to your figure?"),
            rules_out=frozenset({"longitude-scale"}),
        )
    return Finding(
        figure,
        why,
        say("Check: count from one numbered minute to the next before you begin."),
        explains=True,
        fits=fits,
        rules_out=frozenset({"longitude-scale"}),
    )
