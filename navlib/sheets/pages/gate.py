"""The gate times: when the stream stands slack in the strongest gate, for one month."""

from collections.abc import Sequence
from datetime import date, datetime, timedelta

from navlib.clock import zone_info, zone_name
from navlib.language import say
from navlib.language.days import month_in_year
from navlib.sheets.pages.leaf import LEFT, RIGHT, TOP, Leaf, position
from navlib.sheets.pages.months import LAST_DAY, PITCH, Head, month_cells
from navlib.sheets.pages.printed import clock_note, midnight, month_of
from navlib.sheets.pages.rates import set_figures
from navlib.sheets.paper import Page
from navlib.waters import Diamond, Water

_TIME, _SET = 24.0, 49.0
"""Millimetres from the left of a column to the time, and to the end of the set."""


def gate_page(water: Water, year: int, month: int, letter: str | None = None) -> Page:
    """Return the slack times at a diamond for one month, and the set that follows each.

    Without its `letter` it is the diamond with the strongest stream. Times are in the zone of the
    standard port's table.
    """
    diamond = water.tides.diamond(letter) if letter else main_gate(water)
    zone = water.tides.standard.zone
    first, count = month_of(year, month)
    found = slacks(water, diamond, first, count, zone)
    leaf = Leaf()
    leaf.head(
        diamond.name,
        f"Diamond {diamond.letter}, {position(water, diamond.place)}, {water.settings.title}",
        "Slack water",
        f"{first:%B %Y}",
    )
    leaf.paragraph(
        LEFT, TOP + 0.6, clock_note(zone, water.settings.clock, first, count), RIGHT - LEFT, 8
    )
    names = {zone_name(when, zone) for times in found.values() for when in times}
    named = names.pop() if len(names) == 1 else "clock"
    heads: tuple[Head, ...] = ((_TIME, f"Slack {named}", "left"), (_SET, "then sets", "right"))
    most = max(4, *(len(times) for times in found.values()))
    step = (PITCH - 1.6) / most
    size = min(10.4, step * 2.15)
    for day, (x, y) in month_cells(leaf, first, count, heads).items():
        for k, when in enumerate(found[day]):
            line = y + 0.6 + step * (k + 0.8)
            leaf.write(x + _TIME, line, f"{when:%H%M}", size, weight="bold")
            turned = set_figures(set_after(water, diamond, when))
            leaf.write(x + _SET, line, turned, size, align="right")
    leaf.foot(
        "Computed for invented waters, for training; not for navigation. From the same model as the "
        "diamonds and the stream atlas. Wind is in no prediction: slack may come half an hour "
        "earlier or later, and it is short at springs.",
        "Times to the nearest minute. “then sets” is the way the stream flows to an hour later, "
        "degrees true.",
        top=LAST_DAY + 16.0,
    )
    total = sum(len(times) for times in found.values())
    return leaf.page(
        say(
            "Slack water at diamond {letter}, {name}, {month}: {total} times, each with the set of "
            "the stream that follows.",
            {
                "letter": diamond.letter,
                "name": diamond.name,
                "month": month_in_year(first),
                "total": total,
            },
        )
    )


def main_gate(water: Water) -> Diamond:
    """Return the diamond at which the spring stream is strongest."""
    return max(water.tides.diamonds, key=lambda d: max(r.spring_kn for r in water.tides.rows(d)))


def slacks(
    water: Water, diamond: Diamond, first: date, count: int, zone: str
) -> dict[date, Sequence[datetime]]:
    """Return each day's slack times at a diamond, on the clock of `zone`."""
    days: dict[date, list[datetime]] = {first + timedelta(days=n): [] for n in range(count)}
    start, end = (midnight(d, zone) for d in (first, first + timedelta(days=count)))
    spare = timedelta(minutes=1)
    for when in water.tides.slack_times(diamond.place, start - spare, end + spare):
        local = when.astimezone(zone_info(zone))
        if local.date() in days:
            days[local.date()].append(local)
    return {day: tuple(times) for day, times in days.items()}


def set_after(water: Water, diamond: Diamond, slack: datetime) -> float:
    """Return the set in degrees true one hour after slack water."""
    set_to, _ = water.tides.stream(diamond.place, slack + timedelta(hours=1))
    return float(set_to)
