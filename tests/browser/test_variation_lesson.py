"""A student works the lesson on variation, and moves its demonstrations."""

from collections.abc import Callable

from cards import demonstration, pull, put, put_angle, values
from playwright.sync_api import Page, expect

from navlib.angles import write_east_west
from navlib.bearings import convert, off_line_distance, one_in_sixty_distance, write
from navlib.deviation import compass_error
from navlib.kinds.angles import EastWest
from navlib.magnetism import Rose, convergence_shortcut, grid_magnetic_angle
from navlib.widgets.demos.variation import HEADING_STEP, checks

Open = Callable[[str], Page]
NAMES = ("rose_ages", "wrong_way", "grid_lean", "off_the_line", "to_blame")


def test_the_demonstrations_reckon_as_python_does(figures: Page):
    page = figures
    minute, tenth = EastWest(1 / 60), EastWest(0.1)

    demo = demonstration(page, "A rose grows old")
    for printed, year, yearly, now in (
        (-4, 2020, 14, 2027),
        (-1.5, 2005, 9, 2026),
        (8.5, 1995, 0, 2030),
        (12, 2001, 11, 2030),
    ):
        put_angle(demo, "Variation as printed", printed)
        put(demo, "Year in the rose, year", year)
        put(demo, "Change in one year, minutes", minute.write(yearly / 60).removeprefix("0°"))
        put(demo, "The year in which you use it, year", now)
        exact = Rose(printed, year, yearly).variation(now)
        values(demo, minute.write(exact))
        whole = write_east_west(exact, 1.0).replace("°", "° ")
        expect(demo.locator(".nav-value-more").first).to_have_text(f"for the compass: {whole}")
    # The published slips of test_questions_variation: 4°00'W 2020 (14'E), seven years on.
    put_angle(demo, "Variation as printed", -4)
    put(demo, "Year in the rose, year", 2020)
    put(demo, "Change in one year, minutes", "14 E")
    put(demo, "The year in which you use it, year", 2027)
    for press, wrong in (
        ("Taken as printed", "4°00'W"),
        ("Change the wrong way", "5°38'W"),
        ("Minutes as decimals", "3°01'W"),
    ):
        demo.get_by_role("button", name=press).click()
        values(demo, "2°22'W", wrong)

    demo = demonstration(page, "One line, four figures")
    for true, variation, deviation in ((4, -8, 3), (356, 23, -5), (70, -8, 4)):
        put(demo, "True bearing of the mark, degrees", true)
        put_angle(demo, "Variation", variation)
        put_angle(demo, "Deviation", deviation)
        angles = {"variation": variation, "deviation": deviation, "convergence": -4.5}
        four = [write(convert(true, "T", north, **angles), north) for north in "TGMC"]
        values(demo, *four)
    # A variation of 8° W put on the wrong way: the boat steers and goes 16° to the left.
    demo.get_by_role("button", name="Variation the wrong way").click()
    right = convert(70, "T", "C", variation=-8, deviation=4)
    values(demo, *four, write(right - 16, "C"))
    expect(demo.locator(".nav-sentence")).to_contain_text("16° to the left")
    demo.get_by_role("button", name="Worked rightly").click()
    error = write_east_west(compass_error(-8, 4), 1.0).replace("°", "° ")
    expect(demo.locator(".nav-sentence")).to_contain_text(error)

    demo = demonstration(page, "How the grid leans")
    for lat, apart, variation in ((58.8, -5.25, -2.4), (58.8, 1.75, -2.4), (-39.7, -1.25, 23.2)):
        put(demo, "Latitude, degrees", f"{abs(lat)} {'N' if lat > 0 else 'S'}")
        put_angle(demo, "Longitude from the middle meridian", apart)
        put_angle(demo, "Variation", variation)
        lean = convergence_shortcut(lat, apart, 0.0)
        pair = (lean, grid_magnetic_angle(variation, lean))
        values(demo, *(tenth.write(one).replace("°", "° ") for one in pair))

    demo = demonstration(page, "What a forgotten degree costs")
    for run, degrees in ((6, 5), (4.5, 12)):
        put(demo, "Run, NM", run)
        put(demo, "Degrees forgotten, degrees", degrees)
        both = (one_in_sixty_distance(run, degrees), off_line_distance(run, degrees))
        values(demo, *(f"{one * 10:.1f}".removesuffix(".0") + " cables" for one in both))

    demo = demonstration(page, "What is to blame?")
    for cause, press in (("deviation", "Iron in boat A"), ("rock", "Rock under the reef")):
        demo.get_by_role("button", name=press).click()
        for heading in (90, 235):
            put(demo, "Heading of both boats, degrees", heading)
            out = checks()[cause][heading // HEADING_STEP]
            written = [write_east_west(float(one), 1.0).replace("°", "° ", 1) for one in out]
            cells = [one if one != "0° " else "0°" for one in written]
            expect(demo.locator("td")).to_have_text(cells)


def test_handles_go_by_pointer_and_by_keys(figures: Page):
    page = figures
    year = page.get_by_role("slider", name="The year", exact=True)
    pull(page, year, 60, 0)
    now = int(year.get_attribute("aria-valuenow") or "0")
    assert 2027 < now < 2050
    page.keyboard.press("ArrowRight")
    expect(year).to_have_attribute("aria-valuenow", str(now + 1))
    page.keyboard.press("b")  # in a notebook this would add a cell
    expect(page.locator(".jp-Cell")).to_have_count(len(NAMES) + 1)

    for name, key, said in (
        ("The mark", "ArrowRight", "075°T"),
        ("The place", "Shift+ArrowRight", "5° W of the middle meridian, convergence 4.3° W"),
        ("The boat", "ArrowLeft", "5.5 NM gone, 4.8 cables off the line"),
        ("The boats’ heading", "ArrowRight", "045°M, boat A off the reef is out 8° E"),
    ):
        page.get_by_role("slider", name=name, exact=True).focus()
        page.keyboard.press(key)
        expect(page.locator("*:focus")).to_have_attribute("aria-valuetext", said)
