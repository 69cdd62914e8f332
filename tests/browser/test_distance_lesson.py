"""A student works the lesson on scale and distance, and moves its demonstrations."""

from collections.abc import Callable

from cards import demonstration, pull, put, values
from playwright.sync_api import Locator, Page, expect

from navlib.coastline import cord_length, walk
from navlib.distance import ground_m, scale_after_copying
from navlib.geodesy import meridional_parts, minute_of_latitude, minute_of_longitude
from navlib.kinds.quantities import Distance
from navlib.questions.distance.shore import stretches
from navlib.units import LENGTHS, NM

Open = Callable[[str], Page]
MILES, CENTS = Distance("NM", 0.1), Distance("NM", 0.01)
KM, TENS = Distance("km", 0.1), Distance("km", 0.01)
DEMOS = {
    "units_beside": "Miles and kilometres",
    "paper_to_ground": "From paper to ground",
    "two_minutes": "Two sorts of minute",
    "latitude_border": "The border of a chart",
    "coast_in_steps": "How long is this coast?",
}
NAMES = tuple(DEMOS)


def test_the_demonstrations_reckon_as_python_does(figures: Page):
    units, paper, minutes, border, coast = (
        demonstration(figures, title) for title in DEMOS.values()
    )

    for miles in (0.5, 3.3, 6):
        put(units, "Nautical miles, NM", miles)
        values(units, MILES.write(miles * NM), KM.write(miles * NM))
        land = miles * NM / LENGTHS["statute mile"]
        expect(units.locator(".nav-value-more").last).to_have_text(f"= {land:.1f} land miles")
    put(units, "Kilometres, km", 10)
    values(units, MILES.write(10_000), KM.write(10_000))

    for one_to, length, copy in ((25_000, 110, 115), (50_000, 72, 97), (75_000, 40, 80)):
        paper.get_by_role("button", name=f"1:{one_to // 1000}").click()
        put(paper, "The leg on the sheet, mm", length)
        put(paper, "The copier is set to, %", copy)
        ruler = int(length * copy / 100 + 0.5)
        values(paper, CENTS.write(ground_m(ruler, one_to)), CENTS.write(ground_m(length, one_to)))
        more = paper.locator(".nav-value-more").first
        expect(more).to_have_text(f"= {TENS.write(ground_m(ruler, one_to))}")
        copied = f"{round(scale_after_copying(one_to, copy / 100), -2):,.0f}".replace(",", " ")
        expect(paper.locator(".nav-sentence")).to_contain_text(f"really 1:{copied}")

    for latitude in (0, 37, 59, 85):
        put(minutes, "Latitude, °", latitude)
        values(
            minutes,
            f"{minute_of_latitude(latitude):.0f} m",
            f"{minute_of_longitude(latitude):.0f} m",
        )

    for leg, level in ((56, 56), (52, 60), (60, 52), (57.5, 59)):
        put(border, "Latitude of the leg, °N", leg)
        put(border, "Height of the dividers, °N", level)
        opening = meridional_parts(leg + 1) - meridional_parts(leg - 1)
        values(border, f"{minutes_between(level, opening):.1f}", "120.0 NM")
    border.get_by_role("button", name="at the bottom edge").click()
    values(border, f"{opening:.1f}", "120.0 NM")

    ends = ("Cleaver Point", "Yoke Head")
    line = next(one.points for one in stretches("kessoray") if (one.a, one.b) == ends)
    for step in (2000, 400, 50):
        put(coast, "Step of the dividers, m", step)
        values(coast, KM.write(walk(line, step).length), KM.write(cord_length(line)))


def minutes_between(level: float, opening: float) -> float:
    """Return the minutes of latitude that an opening covers, its middle at `level` on the border."""

    def latitude(parts: float) -> float:
        low, high = 45.0, 70.0
        while high - low > 1e-9:
            middle = (low + high) / 2
            low, high = (middle, high) if meridional_parts(middle) < parts else (low, middle)
        return low

    middle = meridional_parts(level)
    return 60 * (latitude(middle + opening / 2) - latitude(middle - opening / 2))


def test_handles_go_by_pointer_and_by_keys(figures: Page):
    page = figures

    def pulled(name: str, right: float, down: float) -> Locator:
        handle = page.get_by_role("slider", name=name, exact=True)
        pull(page, handle, right, down)
        return handle

    for name, right, down, low, high in (
        ("The end of the way", -80, 0, 1, 2.9),
        ("B, the end of the leg", 60, 0, 75, 110),
        ("Latitude on the globe", 0, 80, 20, 55),
        ("The dividers at the side", 0, -60, 56.5, 60),
        ("The opening of the dividers", 0, 50, 50, 1550),
    ):
        handle = pulled(name, right, down)
        assert low <= float(handle.get_attribute("aria-valuenow") or "nan") <= high, name
    page.keyboard.press("b")  # in a notebook this would add a cell
    expect(page.locator(".jp-Cell")).to_have_count(len(DEMOS) + 1)

    for title, box, value, name, key, said in (
        (
            "units_beside",
            "Nautical miles, NM",
            3,
            "The end of the way",
            "ArrowRight",
            "3.5 NM, 6.5 km",
        ),
        (
            *("paper_to_ground", "The leg on the sheet, mm", 72, "B, the end of the leg"),
            *("Shift+ArrowLeft", "71 mm by the ruler, 1.92 NM by the bar"),
        ),
        (
            *("two_minutes", "Latitude, °", 59, "Latitude on the globe"),
            *("Shift+ArrowUp", "60 degrees: a minute of longitude is 930 metres"),
        ),
        (
            *("latitude_border", "Height of the dividers, °N", 56, "The dividers at the side"),
            *("ArrowDown", "at 55°30′N: 121.6 minutes"),
        ),
        (
            *("coast_in_steps", "Step of the dividers, m", 400, "The opening of the dividers"),
            *("ArrowLeft", "300 metres: the coast is 11.4 km long"),
        ),
    ):
        put(demonstration(page, DEMOS[title]), box, value)
        page.get_by_role("slider", name=name, exact=True).focus()
        page.keyboard.press(key)
        expect(page.locator("*:focus")).to_have_attribute("aria-valuetext", said)

    coast = demonstration(page, DEMOS["coast_in_steps"])
    put(coast, "Step of the dividers, m", 100)
    coast.get_by_role("button", name="Halve the step").press("Enter")
    expect(coast.get_by_label("Step of the dividers, m", exact=True)).to_have_value("50")
