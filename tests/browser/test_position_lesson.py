"""A student works the lesson on position, and moves its demonstrations."""

from collections.abc import Callable

from cards import demonstration, pull, put, values
from playwright.sync_api import Page, expect

from navlib import gridref, latlon
from navlib.gridref import GridPlace
from navlib.grids import grid_leg
from navlib.kinds.angles import Bearing
from navlib.kinds.quantities import Distance
from navlib.questions.position import squares
from navlib.sailings import middle_latitude_sailing

Open = Callable[[str], Page]
MILES, KM = Distance("NM", 0.1), Distance("km", 0.1)
NAMES = (
    *("named_square", "romer", "two_references"),
    *("chart_border", "one_angle", "two_positions"),
)


def test_the_demonstrations_reckon_as_python_does(figures: Page):
    page = figures

    square = demonstration(page, "One place, finer and finer")
    for figures_asked in (4, 6, 8, 10):
        name = "4 figures" if figures_asked == 4 else str(figures_asked)
        square.get_by_role("button", name=name, exact=True).click()
        for east, north in ((99_962, 1_000_347), (100_005, 999_999), (86_050, 1_000_000)):
            put(square, "East, on the grid, m", east)
            put(square, "North, on the grid, m", north)
            values(square, gridref.format(east, north, figures_asked))

    romer = demonstration(page, "A romer on the map")
    for east, north in ((94_875, 999_275), (95_050, 1_000_075), (96_310, 999_020)):
        put(romer, "Corner, east, m", east)
        put(romer, "Corner, north, m", north)
        place = GridPlace(east, north)
        values(romer, gridref.format(*place))
        romer.get_by_role("button", name="upside down").click()
        values(romer, gridref.format(*squares.tenths_backwards(place)))
        romer.get_by_role("button", name="right way up").click()
        romer.get_by_role("button", name="1:50 000").click()
        other = squares.other_edge(place, 25_000)
        values(romer, gridref.format(*other) if other else "–")
        romer.get_by_role("button", name="1:25 000").click()

    two = demonstration(page, "Two references, one leg")
    for a, b in (
        ("HV 965 023", "NB 029 991"),
        ("NA 999 951", "HV 941 068"),
        ("HW 000 000", "HW 003 000"),
    ):
        put(two, "From A", a)
        put(two, "To B", b)
        leg = grid_leg(*gridref.parse(a), *gridref.parse(b))
        values(two, KM.write(leg.distance_m), Bearing("G").write(leg.bearing))
    for unclear in ("000 000", "HW 00 00", "XX 000 000", "HV 100 023"):
        put(two, "From A", unclear)
        expect(two.locator(".nav-sentence")).to_contain_text("such as HW 000 000")
        expect(two.get_by_label("From A")).to_have_value("HW 000 000")

    border = demonstration(page, "Read at the border")
    for north, east in ((1, -1), (-1, -1), (-1, 1), (1, 1)):
        border.get_by_role("button", name="North" if north > 0 else "South").click()
        border.get_by_role("button", name="East" if east > 0 else "West").click()
        put(border, "From the left edge, tenths", 17)
        put(border, "From the lower edge, tenths", 8)
        lat = 58 + (45.8 if north > 0 else 47.2) / 60
        lon = 7 + (11.7 if east > 0 else 14.3) / 60
        values(border, latlon.format(north * lat, east * lon, places=1))

    angle = demonstration(page, "One latitude, three ways")
    for seconds in (0, 59, 1104, 1799, 2801, 3599):
        put(angle, "Decimal degrees, °N", f"{58 + seconds / 3600:.5f}")
        lat = 58 + seconds / 3600
        forms = ("degrees", "minutes", "seconds")
        values(angle, *(latlon.format_latitude(lat, form) for form in forms))

    leg = demonstration(page, "Two positions, one leg")
    for latitude, east, north in ((59, 16, 8), (0, -12.3, -15), (75, 20, -0.7), (36, 17.8, -11.9)):
        put(leg, "Latitude of A, north, °", latitude)
        put(leg, "B lies east: + east, − west, ′", east)
        put(leg, "B lies north: + north, − south, ′", north)
        start = (latitude, -34.5)
        end = (latitude + north / 60, -34.5 + east / 60)
        expected = middle_latitude_sailing(*start, *end)
        values(leg, MILES.write(expected.distance_m), Bearing("T").write(expected.bearing))
        if latitude:  # B may lie south of the equator from there
            expect(leg.locator(".nav-sums").first).to_contain_text(latlon.format(*end, places=1))


def test_handles_go_by_pointer_and_by_keys(figures: Page):
    page = figures
    place = page.get_by_role("slider", name="The romer’s corner")
    pull(page, place, -60, 40)
    romer = demonstration(page, "A romer on the map")
    east, north = (
        int(romer.get_by_label(f"Corner, {way}, m", exact=True).input_value())
        for way in ("east", "north")
    )
    assert 95_000 < east < 95_500
    assert 999_400 < north < 999_750
    page.keyboard.press("Shift+ArrowRight")
    page.keyboard.press("Shift+ArrowUp")
    expect(place).to_have_attribute("aria-valuetext", gridref.format(east + 5, north + 5))
    page.keyboard.press("b")  # in a notebook this would add a cell
    expect(page.locator(".jp-Cell")).to_have_count(1 + len(NAMES))

    for name, key, said in (
        ("The minute", "ArrowRight", "58°25.40'N"),
        ("The second", "Shift+ArrowLeft", "58°25'23\"N"),
        ("A", "ArrowUp", "HV 965 028"),
    ):
        page.get_by_role("slider", name=name, exact=True).focus()
        page.keyboard.press(key)
        expect(page.locator("*:focus")).to_have_attribute("aria-valuetext", said)

    square = demonstration(page, "One place, finer and finer")
    handle = square.get_by_role("slider", name="The place", exact=True)
    handle.focus()
    for _ in range(8):  # out of the figure, which follows, and over the letters
        page.keyboard.press("ArrowRight")
    expect(handle).to_have_attribute("aria-valuetext", "HW 007 003, a square of 100 m")
