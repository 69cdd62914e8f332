"""A student works the lesson on tides, and moves its demonstrations."""

import math
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from itertools import pairwise

from cards import demonstration, pull, put, values
from playwright.sync_api import Page, expect

from navlib import streams
from navlib.clock import later, write_clock
from navlib.kinds.angles import Bearing
from navlib.questions.tides.diamonds import row_of
from navlib.questions.tides.draws import HEIGHT, KESSORAY, KNOTS, levels, model
from navlib.questions.tides.rates import in_words, rows
from navlib.tides import (
    STRAIGHT_LINE,
    TWELFTHS,
    Tide,
    Turn,
    Water,
    over_mast,
    overhead,
    under_keel,
    water_depth,
)
from navlib.widgets.demos import tide_data

Open = Callable[[str], Page]
NAMES = ("tide_by_rule", "tide_and_chart", "secondary_tide", "slack_to_slack", "tidal_diamond")


def minus(*written: str) -> list[str]:
    """Return texts with a minus as a figure shows it."""
    return [text.replace("-", "−") for text in written]


def midnight(day: str) -> datetime:
    _, date = tide_data.DAYS[day]
    return datetime(date.year, date.month, date.day, tzinfo=UTC)


def tides_of(day: str) -> list[Tide]:
    turns = [
        Turn(later(midnight(day), minutes), height, Water.HIGH if high else Water.LOW)
        for minutes, height, high in tide_data.day_of(day)["turns"]
    ]
    return [Tide(*two) for two in pairwise(turns)]


def test_the_demonstrations_reckon_as_python_does(figures: Page):
    a_day(figures)
    depths(figures)
    differences(figures)
    slack_to_slack(figures)
    diamonds(figures)


def a_day(figures: Page) -> None:
    demo = demonstration(figures, "The tide through a day")
    for day, words, minutes in (
        ("springs", "springs", 560),
        ("springs", "springs", 0),
        ("neaps", "neaps", 1439),
        ("mixed", "mixed tide", 330),
        ("mixed", "mixed tide", 1000),
    ):
        demo.get_by_role("button", name=words, exact=True).click()
        put(demo, "Time, UT", f"{minutes // 60:02d}{minutes % 60:02d}")
        when = midnight(day) + timedelta(minutes=minutes)
        tide = next(one for one in tides_of(day) if one.start.time <= when < one.end.time)
        water = model(tide_data.DAYS[day][0]).standard.heights(when)
        by_rule, straight = (rule.height(tide, when) for rule in (TWELFTHS, STRAIGHT_LINE))
        values(demo, *minus(*map(HEIGHT.write, (by_rule, straight, water))))

    demo.get_by_role("button", name="When it is dry").click()
    for day, level in (("springs", 3.4), ("springs", 1.6), ("neaps", 3.4)):
        demo.get_by_role("button", name=day, exact=True).click()
        put(demo, "Drying height, m", level)
        values(demo, *dry(day, level))
    put(demo, "Drying height, m", 1.6)
    values(demo, "never dry")


def dry(day: str, level: float) -> list[str]:
    """Return the spans of a day when the water lies below a level, by the rule, as written."""
    crossed = [
        (tide.rising, (TWELFTHS.time(tide, level) - midnight(day)) / timedelta(minutes=1))
        for tide in tides_of(day)
        if tide.low.height < level < tide.high.height
    ]
    crossed = [(up, minutes) for up, minutes in crossed if 0 <= minutes <= 1440]
    times = [
        write_clock(later(midnight(day), math.floor(m) if up else math.ceil(m)), named=False)
        for up, m in crossed
    ]
    if crossed[0][0]:
        times.insert(0, "")
    if len(times) % 2:
        times.append("")
    return [
        f"until {to} UT"
        if not start
        else f"from {start} UT on"
        if not to
        else f"{start} to {to} UT"
        for start, to in zip(times[::2], times[1::2], strict=True)
    ]


def depths(figures: Page) -> None:
    demo = demonstration(figures, "Over the bottom, under the bridge")
    hat = round(levels(KESSORAY).hat, 1)
    for tide, dries, draught, mast in (
        (4, 0.9, 1.4, 8),
        (1, 1.6, 1.4, 8),
        (5.4, -2, 0.2, 0.9),
        (3.3, 0.3, 0.6, 10.5),
    ):
        for name, value in (
            ("Height of tide, m", tide),
            ("Bottom: + dries, − charted depth, m", dries),
            ("Draught, m", draught),
            ("Mast above the water, m", mast),
        ):
            put(demo, name, value)
        depth = water_depth(-dries, tide)
        spare = over_mast(overhead(tide_data.clearance(), hat, tide), mast)
        values(demo, *minus(*map(HEIGHT.write, (depth, under_keel(depth, draught), spare))))


def differences(figures: Page) -> None:
    demo = demonstration(figures, "In step between two columns")
    for port in model(KESSORAY).secondary:
        demo.get_by_role("button", name=port.name).click()
        for kind, words, clock, height in (
            (Water.HIGH, "high water", 623, 4.5),
            (Water.HIGH, "high water", 1439, 5.2),
            (Water.LOW, "low water", 0, 0.3),
            (Water.LOW, "low water", 1000, 2.3),
        ):
            demo.get_by_role("button", name=words).click()
            put(demo, "Time at Kessoray Harbour, UT", f"{clock // 60:02d}{clock % 60:02d}")
            put(demo, "Height at Kessoray Harbour, m", height)
            standard = Turn(later(midnight("springs"), clock), height, kind)
            half = port.high if kind == Water.HIGH else port.low
            by = math.floor(half.minutes_at(clock / 60) + 0.5)
            there = write_clock(later(standard.time, by))
            values(demo, *minus(f"{by:+d} min", there, HEIGHT.write(port.shift(standard).height)))


def slack_to_slack(figures: Page) -> None:
    given = tide_data.fortnight()
    demo = demonstration(figures, "From slack to slack")
    for day, hour in ((1, 0), (3, 2), (11, 5), (8, 3)):
        put(demo, "Day of the fortnight, of 15", day)
        put(demo, "Minutes since slack, min", 60 * hour)
        most = streams.rate_today(*given["rates"], given["ranges"][day - 1], *given["means"])
        thirds, moments = streams.thirds(most), streams.fifty_ninety(most)
        values(demo, *map(KNOTS.write, (most, thirds[hour], moments[hour])))


def diamonds(figures: Page) -> None:
    demo = demonstration(figures, "The stream at a diamond")
    means = tide_data.mean_ranges()
    high, true = midnight("springs") + timedelta(hours=12, minutes=10), Bearing("T")
    for letter, zone, ahead, watch, today in (
        ("A", "summer: BST", 60, "1400", 3.5),
        ("B", "summer: BST", 60, "0711", 1.3),
        ("C", "winter: GMT", 0, "1110", 4.6),
        ("D", "winter: GMT", 0, "1520", 2.0),
        ("E", "summer: BST", 60, "1941", 4.1),
    ):
        demo.get_by_role("button", name=letter, exact=True).click()
        demo.get_by_role("button", name=zone).click()
        put(demo, "On the watch, ashore", watch)
        put(demo, "Range today, m", today)
        at = midnight("springs") + timedelta(hours=int(watch[:2]), minutes=int(watch[2:]) - ahead)
        row = rows(letter)[min(row_of(high, at), 6)]
        rate = streams.rate_today(row.spring_kn, row.neap_kn, today, *means)
        values(demo, in_words(row.hour), true.write(row.set_to), KNOTS.write(rate))


def test_handles_go_by_pointer_and_by_keys(figures: Page):
    page = figures
    water = page.get_by_role("slider", name="The water", exact=True)
    pull(page, water, 0, 40)
    height = float(water.get_attribute("aria-valuenow") or "nan")
    assert 1 < height < 4
    page.keyboard.press("Shift+ArrowUp")
    expect(water).to_have_attribute("aria-valuenow", f"{height + 0.1:.1f}")
    page.keyboard.press("b")  # in a notebook this would add a cell
    expect(page.locator(".jp-Cell")).to_have_count(1 + len(NAMES))

    for name, key, said in (
        ("The time", "ArrowRight", "0930 UT, 4.0 m by the twelfths"),
        ("The bottom", "ArrowUp", "dries 1.5 m"),
        ("The bottom", "PageDown", "charted depth 2.0 m"),
        ("Time at the standard port", "Shift+ArrowLeft", "1022 UT, difference −28 min"),
        ("Height at the standard port", "Shift+ArrowRight", "4.6 m, difference −0.55 m"),
        ("Time since slack", "ArrowLeft", "1 h 50 after slack, 3.9 kn"),
        ("The day", "ArrowRight", "17 July, range 4.3 m"),
        ("The watch", "ArrowLeft", "1350: 1 h after HW, sets 354°T, 0.8 kn"),
        ("The watch", "PageDown", "1210: 1 h before HW, sets 356°T, 3.6 kn"),
    ):
        page.get_by_role("slider", name=name, exact=True).focus()
        page.keyboard.press(key)
        expect(page.locator("*:focus")).to_have_attribute("aria-valuetext", said)
