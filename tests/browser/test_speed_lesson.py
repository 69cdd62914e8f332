"""A student works the lesson on time, distance and speed, and moves its demonstrations."""

from collections.abc import Callable
from datetime import UTC, datetime

from cards import demonstration, pull, put, values
from playwright.sync_api import Page, expect

from navlib import speed
from navlib.clock import later, write_clock
from navlib.kinds.quantities import Distance, Speed
from navlib.kinds.times import Duration
from navlib.units import NM

Open = Callable[[str], Page]
TIME, MILES, KNOTS = Duration(), Distance("NM", 0.1), Speed()
NAMES = ("one_leg", "two_speeds", "clock_sum", "stream_turns")
MIDNIGHT = datetime(2026, 7, 1, tzinfo=UTC)


def test_the_demonstrations_reckon_as_python_does(figures: Page):
    page = figures

    leg = demonstration(page, "Distance, speed and time")
    for miles, knots in ((3.4, 3), (0.7, 4.5), (8, 2.5)):
        put(leg, "Distance, NM", miles)
        put(leg, "Speed over the ground, kn", knots)
        values(leg, TIME.write(speed.time_taken(miles * NM, knots)))
    leg.get_by_role("button", name="the distance").click()
    put(leg, "Speed over the ground, kn", 4)
    put(leg, "Time, min", 50)
    values(leg, MILES.write(speed.distance_run(4, 50)))
    leg.get_by_role("button", name="the speed").click()
    put(leg, "Distance, NM", 2.8)
    put(leg, "Time, min", 56)
    values(leg, KNOTS.write(speed.speed_needed(2.8 * NM, 56)))

    trip = demonstration(page, "Out and home")
    for out, home in ((4, 2), (6, 2), (3.5, 5), (3, 3)):
        put(trip, "Speed out, kn", out)
        put(trip, "Speed home, kn", home)
        mean = speed.mean_speed([2 * NM, 2 * NM], [out, home])
        values(trip, KNOTS.write(mean), KNOTS.write((out + home) / 2))

    clock = demonstration(page, "A clock sum in hops")
    for back, press in ((False, "When am I there?"), (True, "When must I leave?")):
        clock.get_by_role("button", name=press).click()
        for known, minutes in ((23 * 60 + 25, 68), (0, 1), (23 * 60 + 59, 300), (600, 120)):
            start = later(MIDNIGHT, known)
            put(clock, "The time I know, UT", write_clock(start, named=False))
            put(clock, "Time it takes, min", minutes)
            other = speed.latest_departure if back else speed.eta
            values(clock, write_clock(start), write_clock(other(start, minutes)))
            on_watch = write_clock(other(start, minutes), "Europe/London")
            expect(clock.locator(".nav-value-more").last).to_have_text(f"on the watch {on_watch}")

    stream = demonstration(page, "The stream turns")
    for water, rate, turn in ((3, -1, 90), (3, -1, 60), (2.5, 1.5, 20), (5, 1.5, 240), (4, 0, 0)):
        put(stream, "Speed through the water, kn", water)
        put(stream, "Stream at first: + with you, − against you, kn", rate)
        put(stream, "It turns after, min", turn)
        whole = speed.time_with_turns(6 * NM, water, [rate, -rate], [turn])
        still = speed.time_taken(6 * NM, water)
        values(stream, TIME.write(whole), TIME.write(still))


def test_handles_go_by_pointer_and_by_keys(figures: Page):
    page = figures
    boat = page.get_by_role("slider", name="The boat")
    pull(page, boat, -60, 0)
    gone = float(boat.get_attribute("aria-valuenow") or "nan")
    assert 1 < gone < 3.4
    page.keyboard.press("Shift+ArrowRight")
    expect(boat).to_have_attribute("aria-valuenow", f"{gone + 0.1:.1f}")
    page.keyboard.press("b")  # in a notebook this would add a cell
    expect(page.locator(".jp-Cell")).to_have_count(5)

    for name, key, said in (
        ("The other end", "ArrowLeft", "1 h 05: 0030 UT"),
        ("Time home", "Shift+ArrowLeft", "57 min at 2.1 kn"),
        ("Time home", "Shift+ArrowRight", "1 h 00 at 2.0 kn"),
        ("The turn of the stream", "ArrowLeft", "after 1 h 20, 2.7 NM gone"),
    ):
        page.get_by_role("slider", name=name, exact=True).focus()
        page.keyboard.press(key)
        expect(page.locator("*:focus")).to_have_attribute("aria-valuetext", said)
