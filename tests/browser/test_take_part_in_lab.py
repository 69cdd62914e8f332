"""Taking part without a class server, in a real browser: from the session file to the hand-in file."""

from collections.abc import Callable
from pathlib import Path

import pytest
from hands import Hands
from playwright.sync_api import Page, expect

from navlib.classroom.class_files import AskedHere, SessionFile, read_answers, session_text
from navlib.classroom.handing import Seat

SESSION = SessionFile(
    4711,
    "2026-11-25T18:00:00+00:00",
    "An evening",
    False,
    (
        AskedHere(1, "bearings.true-to-magnetic", True, True, None, "open"),
        AskedHere(2, "position.plot-position", True, False, None, "open"),
    ),
)


@pytest.fixture
def session_file(tmp_path: Path) -> Path:
    file = tmp_path / "evening.class.json"
    file.write_text(session_text(SESSION), encoding="utf-8")
    return file


def test_from_the_session_file_to_the_file_that_is_handed_in(
    open_lesson: Callable[[str], Page], session_file: Path, tmp_path: Path
):
    seat = Seat(session_text(SESSION), "Runa Sand", 7, tmp_path)
    right = seat.now()["questions"][0]
    page = open_lesson("class")
    page.get_by_label("Session file").set_input_files(session_file)
    page.get_by_label("Your name").fill("Runa Sand")
    page.get_by_label("Your seat").fill("seven")
    page.get_by_role("button", name="Begin").click()
    expect(page.get_by_role("alert")).to_contain_text("Give your seat as a number")
    page.get_by_label("Your seat").fill("7")
    page.get_by_label("Your seat").press("Enter")
    expect(page.locator(".nav-text")).to_contain_text(right["text"].split("\n")[0])

    page.locator(".nav-box input").fill("042 M")
    page.locator(".nav-box input").press("Enter")
    expect(page.locator(".nav-summary")).to_contain_text("Sent at")
    expect(page.locator(".nav-part")).to_have_attribute("data-outcome", "wrong")

    page.get_by_role("button", name="Question 2").click()
    page.get_by_role("button", name="Make a pencil mark").click()
    hands = Hands(page, page.locator(".nav-asked"))
    hands.see()
    page.mouse.click(*hands.screen((90.0, 70.0)))
    page.get_by_role("button", name="Send", exact=True).click()
    expect(page.locator(".nav-hand-in")).to_contain_text("2 of 2 questions are answered")

    with page.expect_download() as saved:
        page.get_by_role("button", name="Save the file to hand in").click()
    assert saved.value.suggested_filename == "Runa-Sand-07.answers.json"
    handed = read_answers(Path(saved.value.path()).read_text(encoding="utf-8"))
    assert (handed.number, handed.seat, handed.name) == (4711, 7, "Runa Sand")
    assert [one.position for one in handed.answers] == [1, 2]
    assert handed.answers[0].answers == {"magnetic": "042 M"}
    assert len(handed.answers[1].lies["pencil mark"]) == 1

    page.reload()
    page.get_by_role("button", name="Go on with “An evening” as Runa Sand").click()
    expect(page.locator(".nav-box input")).to_have_value("042 M")
