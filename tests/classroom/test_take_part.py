"""Learners with real browsers on a real class server: what each sees, sends and gets back, through
a network that comes and goes, and what another page might try with their login.
"""

import json
import os
import signal
from collections.abc import Callable, Iterator
from typing import Any
from urllib.parse import urlsplit

import pytest
from hall import PIN, WORD, Caller, Class, wait_for
from playwright.sync_api import Browser, BrowserContext, Error, Page, expect
from rig import PATIENCE_MS

from navlib.chain.question import Question
from navlib.classroom.judging import question_of
from navlib.marking import mark
from navlib.pictures.pencilled import key_lies

KIND = "bearings.true-to-magnetic"
TABLET = {"width": 768, "height": 1024}
ELSEWHERE = "http://elsewhere.example/"


@pytest.fixture(scope="module")
def teach(room: Class) -> Caller:
    return room.caller("instructor")


@pytest.fixture(scope="module")
def come_in(room: Class, browser: Browser) -> Iterator[Callable[[str], Page]]:
    """Log somebody in at the door, as a person does, and return the page that they land on."""
    contexts: list[BrowserContext] = []
    pages: dict[str, Page] = {}
    mishaps: list[str] = []

    def come(name: str, word: str = WORD, at: str = "/") -> Page:
        if name not in pages:
            contexts.append(browser.new_context(viewport=TABLET, has_touch=True))
            contexts[-1].set_default_timeout(PATIENCE_MS)
            page = pages[name] = contexts[-1].new_page()
            page.on("pageerror", lambda error: mishaps.append(str(error)))
            page.on("console", lambda said: refused(said.text))
            page.goto(room.hall.root + at)
            through_the_door(page, name, word)
        return pages[name]

    def refused(said: str) -> None:
        if "Content Security Policy" in said:
            mishaps.append(said)

    yield come
    for context in contexts:
        context.close()
    assert not mishaps, "\n".join(mishaps)


def through_the_door(page: Page, name: str, word: str = WORD) -> None:
    page.get_by_label("Your name").fill(name)
    page.get_by_label("Your PIN").fill(PIN)
    page.get_by_label("Class word").fill(word)
    page.get_by_role("button", name="Come in").click()
    page.wait_for_url("**/services/class/")


def begin(teach: Caller, title: str = "An evening") -> dict[str, Any]:
    """Begin a session; those before it end."""
    for session in teach.get("sessions")["sessions"]:
        if session["ended"] is None:
            teach.patch(f"sessions/{session['id']}", {"ended": True})
    return dict(teach.post("sessions", {"title": title}))


def ask(teach: Caller, session: dict[str, Any], kind: str = KIND, **more: object) -> dict[str, Any]:
    sent = {"kind": kind, "open": True, **more}
    return dict(teach.post(f"sessions/{session['id']}/questions", sent))


def record(teach: Caller, session: dict[str, Any], name: str) -> list[dict[str, str]]:
    rows = teach.get(f"sessions/{session['id']}/record")["answers"]
    return [row["answers"] for row in rows if row["name"] == name]


def own(teach: Caller, session: dict[str, Any], asked: dict[str, Any], name: str) -> Question:
    """Return the question as somebody in the session has it."""
    people = teach.get(f"sessions/{session['id']}/record")["people"]
    seat = next(one["seat"] for one in people if one["name"] == name)
    return question_of(asked, session["number"], seat)


def slipped(question: Question) -> str:
    """Return the answer of who makes one slip and no other."""
    route = next(iter(question.chain.routes(question.givens, "magnetic", most=1)))
    return question.chain.by_name["magnetic"].kind.write(route.value)


def test_a_session_from_the_door_to_the_reveal(
    room: Class, teach: Caller, come_in: Callable[..., Page]
):
    session = begin(teach, "Tern Reef <i>evening</i>")
    ina, oskar = come_in("Ina Skarp"), come_in("Oskar Lund")
    for page, name in ((ina, "Ina Skarp"), (oskar, "Oskar Lund")):
        expect(page.get_by_role("heading", level=1)).to_have_text("Tern Reef <i>evening</i>")
        expect(page.locator(".nav-class-who")).to_contain_text(f"{name}, seat")
        expect(page.locator("main")).to_contain_text("The first question comes here by itself")

    asked = ask(teach, session)
    clock = {"clock": {"ends": None, "left_s": 425}}
    teach.patch(f"sessions/{session['id']}", {"stage": clock})
    mine = {name: own(teach, session, asked, name) for name in ("ina-skarp", "oskar-lund")}
    assert mine["ina-skarp"].text != mine["oskar-lund"].text, "each has own values"
    for page, question in zip((ina, oskar), mine.values(), strict=True):
        expect(page.locator(".nav-text")).to_contain_text(question.text.split("\n")[0])
        expect(page.get_by_role("timer")).to_contain_text("7:05")

    box = ina.locator(".nav-box input")
    box.fill(mine["ina-skarp"].answers["magnetic"])
    box.press("Enter")
    expect(ina.locator(".nav-summary")).to_contain_text("You will be told later")

    wrong = slipped(mine["oskar-lund"])
    oskar.context.set_offline(True)
    oskar.locator(".nav-box input").fill(wrong)
    oskar.get_by_role("button", name="Send", exact=True).click()
    kept = "kept on this device, and will be sent when the network is back"
    expect(oskar.locator(".nav-line")).to_contain_text(kept)
    assert record(teach, session, "oskar-lund") == [], "nothing was sent"
    with pytest.raises(Error, match="ERR_INTERNET_DISCONNECTED"):
        oskar.reload()
    oskar.close()
    before = room.hall.service_pid
    os.kill(before, signal.SIGKILL)
    wait_for(lambda: room.hall.service_pid != before, "the service begins again")
    oskar.context.set_offline(False)
    oskar = oskar.context.new_page()
    oskar.goto(f"{room.hall.root}/services/class/")
    expect(oskar.locator(".nav-summary")).to_contain_text("You will be told later")
    expect(oskar.locator(".nav-box input")).to_have_value(wrong)
    expect(oskar.locator(".nav-line-shown")).to_have_count(0)
    assert record(teach, session, "oskar-lund") == [{"magnetic": wrong}], "once, and still Oskar"

    teach.patch(f"questions/{asked['id']}", {"state": "revealed"})
    says = mark(mine["oskar-lund"], {"magnetic": wrong}).parts[0].says
    expect(oskar.locator(".nav-said")).to_contain_text(says[0])
    expect(oskar.locator(".nav-working li")).to_have_text(list(mine["oskar-lund"].working()))
    expect(ina.locator(".nav-part")).to_have_attribute("data-outcome", "right")
    expect(ina.get_by_role("button", name="Send")).to_have_count(0)
    teach.patch(f"sessions/{session['id']}", {"ended": True})
    expect(ina.locator("main")).to_contain_text("This session has ended")


def test_what_waits_while_the_page_stays_is_sent_in_order_and_once(
    teach: Caller, come_in: Callable[..., Page]
):
    session = begin(teach)
    ina = come_in("Ina Skarp")
    ask(teach, session)
    box = ina.locator(".nav-box input")
    expect(box).to_have_value("")
    ina.context.set_offline(True)
    for answer in ("041 M", "042 M"):
        box.fill(answer)
        box.press("Enter")
    expect(ina.locator(".nav-line")).to_contain_text("2 answers are kept on this device")
    ina.context.set_offline(False)
    expect(ina.locator(".nav-line-shown")).to_have_count(0)
    expect(ina.locator(".nav-summary")).to_contain_text("Sent at")
    assert record(teach, session, "ina-skarp") == [{"magnetic": "041 M"}, {"magnetic": "042 M"}]


def test_what_waits_on_a_shared_device_goes_out_under_its_writers_name_alone(
    room: Class, teach: Caller, come_in: Callable[..., Page]
):
    session = begin(teach)
    page = come_in("Mira Holt")
    ask(teach, session)
    box = page.locator(".nav-box input")
    page.context.route("**/api/answers", lambda route: route.abort())
    box.fill("041 M")
    box.press("Enter")
    expect(page.locator(".nav-line")).to_contain_text("kept on this device")
    page.get_by_role("link", name="I am not Mira Holt").click()
    page.context.unroute("**/api/answers")
    page.goto(room.hall.root)
    through_the_door(page, "Jory Vane")
    expect(page.locator(".nav-class-who")).to_contain_text("Jory Vane, seat")
    expect(box).to_have_value("")
    box.fill("042 M")
    box.press("Enter")
    expect(page.locator(".nav-summary")).to_contain_text("Sent at")
    assert record(teach, session, "mira-holt") == []
    assert record(teach, session, "jory-vane") == [{"magnetic": "042 M"}]
    page.get_by_role("link", name="I am not Jory Vane").click()
    page.goto(room.hall.root)
    through_the_door(page, "Mira Holt")
    expect(page.locator(".nav-summary")).to_contain_text("Sent at")
    assert record(teach, session, "mira-holt") == [{"magnetic": "041 M"}]


def test_the_sheet_is_worked_on_and_stays_as_it_lies(teach: Caller, come_in: Callable[..., Page]):
    session = begin(teach)
    ina = come_in("Ina Skarp")
    ask(teach, session, "bearings.map-to-compass")
    drawn = ina.locator(".nav-stage img")
    expect(drawn).to_be_visible()
    assert drawn.evaluate("async (image) => { await image.decode(); return image.naturalWidth; }")
    ina.get_by_role("button", name="Put the protractor away").click()
    ina.locator(".nav-box input").first.fill("begun")
    ina.reload()
    expect(ina.get_by_role("button", name="Take the protractor")).to_be_visible()
    expect(ina.locator(".nav-box input").first).to_have_value("begun")


def test_an_answer_may_be_drawn(room: Class, teach: Caller, come_in: Callable[..., Page]):
    session = begin(teach)
    come_in("Ina Skarp")
    ina = room.caller("ina-skarp")
    ina.post("join", {})
    asked = ask(teach, session, "position.plot-position", tell=True)
    question = own(teach, session, asked, "ina-skarp")
    (name, *_) = question.asks
    sent = {"key": "drawn-on-the-sheet", "question": asked["id"], "answers": {name: " "}}
    told = ina.post("answers", {**sent, "lies": key_lies(question)})
    assert told["parts"][name]["outcome"] == "right"
    assert ina.post("answers", {**sent, "lies": key_lies(question)})["again"]
    assert ina.ask("POST", "answers", {**sent, "lies": [1]}).status_code == 400


def test_a_login_is_no_use_to_any_other_page(
    room: Class, teach: Caller, come_in: Callable[..., Page]
):
    session = begin(teach)
    ina = come_in("Ina Skarp")
    asked = ask(teach, session)
    expect(ina.locator(".nav-box input")).to_have_count(1)
    here = f"{room.hall.root}/services/class/"
    mark_of = ina.locator("main").get_attribute("data-pass")
    content = {"key": "from-elsewhere", "question": asked["id"], "answers": {"magnetic": "042 M"}}

    # As a browser sends it that shows another page.
    elsewhere = ina.context.new_page()
    elsewhere.route(ELSEWHERE, lambda route: route.fulfill(body="<p>", content_type="text/html"))
    elsewhere.goto(ELSEWHERE)
    for kind in ("text/plain", "application/json"):
        elsewhere.evaluate(
            """async ([address, kind, body]) => {
                for (const mode of ["no-cors", "cors"]) {
                    const sent = {method: "POST", mode, body, credentials: "include",
                                  headers: {"Content-Type": kind}};
                    await fetch(address, sent).catch(() => null);
                }
            }""",
            [f"{here}api/answers", kind, json.dumps(content)],
        )
    elsewhere.close()

    # As a program sends it that has the cookie.
    ask_with = ina.context.request
    passed = {"X-Class-Pass": mark_of}
    for headers in (
        {},
        {"X-Class-Pass": "0" * 64},
        {**passed, "Origin": "http://elsewhere.example"},
        {**passed, "Origin": "null"},
        {**passed, "Sec-Fetch-Site": "cross-site"},
        {**passed, "Sec-Fetch-Site": "same-site"},
    ):
        reply = ask_with.post(f"{here}api/answers", data=content, headers=headers)
        assert reply.status == 403, headers
    assert ask_with.delete(f"{here}api/mine").status == 403
    assert record(teach, session, "ina-skarp") == [], "none of it was taken"

    instructor = come_in("instructor", room.hall.staff_word, "/services/class/")
    staff_pass = {"X-Class-Pass": instructor.locator("main").get_attribute("data-pass")}
    for who, headers in ((ask_with, passed), (instructor.context.request, staff_pass)):
        me = who.get(f"{here}api/me", headers=headers)
        assert me.json()["roles"] == ["take-part"]
        for path in (f"questions/{asked['id']}/board", "sessions", "people"):
            assert who.get(f"{here}api/{path}", headers=headers).status == 403
    login = next(one for one in ina.context.cookies() if one["name"] == "service-class")
    assert (login["path"], login["httpOnly"], login["sameSite"]) == (
        "/services/class/",
        True,
        "Lax",
    )


def test_a_page_is_shown_under_no_other_and_runs_nothing_else(room: Class):
    reply = room.browser("ina-skarp").client.get("/services/class/")
    policy = reply.headers["Content-Security-Policy"]
    assert "default-src 'self'" in policy
    assert "frame-ancestors 'none'" in policy
    assert "unsafe" not in policy


def test_learners_land_on_the_page_and_staff_in_their_lessons(room: Class):
    for name, way in (("ina-skarp", "/services/class/"), ("toke-brandt", "/hub/spawn")):
        reply = room.browser(name).client.get("/hub/", follow_redirects=False)
        assert urlsplit(reply.headers["Location"]).path == way


def test_a_name_with_markup_is_text_and_its_owner_can_have_all_deleted(
    teach: Caller, come_in: Callable[..., Page]
):
    session = begin(teach)
    runa = come_in("<b>Runa</b> Sand")
    expect(runa.locator(".nav-class-who")).to_contain_text("<b>Runa</b> Sand, seat")
    expect(runa.locator("main b")).to_have_count(0)
    ask(teach, session)
    runa.locator(".nav-box input").fill("<i>042</i>")
    runa.get_by_role("button", name="Send", exact=True).click()
    expect(runa.locator(".nav-summary")).to_contain_text("not all of it can be read")
    runa.get_by_text("What is kept about me").click()
    expect(runa.locator(".nav-mine li")).to_contain_text("<i>042</i>")
    runa.get_by_role("button", name="Delete it").click()
    runa.get_by_role("button", name="Yes, delete it").click()
    assert len(record(teach, session, "b-runa-b-sand")) == 1, "it is asked twice"
    runa.get_by_role("button", name="Delete it for good").click()
    expect(runa.locator("main")).to_contain_text("is deleted")
    assert record(teach, session, "b-runa-b-sand") == []
    runa.get_by_role("button", name="Join again").click()
    expect(runa.locator(".nav-box input")).to_have_value("")
