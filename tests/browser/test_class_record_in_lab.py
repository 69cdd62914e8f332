"""An instructor reads the class record, takes it away, and deletes what is kept of a learner."""

from collections.abc import Callable
from pathlib import Path

from cards import cut_off
from evening import KIND, learners, own_question, slipped
from playwright.sync_api import Page, expect
from rig import Lab

from navlib.classroom.filed import Filed

NUMBER = 161_803


def test_a_record_is_read_taken_away_and_deleted(
    open_lesson: Callable[[str], Page],
    lab: Lab,
    screenshot: Callable[[Page, str], Path],
    tmp_path: Path,
):
    cell = "from navlib.widgets import class_record\nclass_record.page()"
    lab.write("record", ["# Record", cell])
    page = open_lesson("record")
    record = page.get_by_role("region", name="The class record")
    said = record.get_by_role("status").first
    expect(record).to_contain_text("Nothing is kept yet.")

    classes = Filed(lab.folder.parent / "classes")
    session = int(classes.begin("An evening", NUMBER)["id"])
    classes.ask(session, KIND, open=True)
    ina, oskar, _ = learners(classes, session, tmp_path, 3)
    ina.hand_in(1, slipped(own_question(NUMBER, 1, 1), "variation-sign"))
    oskar.hand_in(1, dict(own_question(NUMBER, 1, 2).answers))
    record.get_by_role("button", name="Look again").press("Enter")
    row = record.get_by_role("row", name="Oskar Lund")
    expect(row).to_contain_text("1 of 1")
    expect(row.get_by_role("img", name="there")).to_be_visible()
    expect(record.get_by_role("row", name="Together")).to_contain_text("1 of 2")
    expect(record).to_contain_text("One learner put the variation on the wrong way, and has not")
    for width in (1366, 800):
        page.set_viewport_size({"width": width, "height": 768})
        assert cut_off(record, ".nav-table-room *, input, select") == []
    screenshot(page, "class-record")

    record.get_by_label("Keep sessions for").fill("365")
    record.get_by_role("button", name="Set").press("Enter")
    expect(said).to_contain_text("From now on older ones go")
    record.get_by_role("heading", name="Take it away").evaluate("(node) => node.scrollIntoView()")
    screenshot(page, "class-record-keep")

    with page.expect_download() as wanted:
        record.get_by_role("button", name="Table for a spreadsheet").press("Enter")
    assert "Ina Skarp" in Path(wanted.value.path()).read_text("utf-8-sig")

    record.get_by_label("Learner", exact=True).select_option(label="Ina Skarp")
    record.get_by_role("button", name="Delete it").press("Enter")
    expect(said).to_contain_text("write that name")
    record.get_by_label("To delete: the name, once more").fill("Ina Skarp")
    record.get_by_role("button", name="Delete it").press("Enter")
    expect(said).to_contain_text("Nothing is kept of Ina Skarp")
    expect(record.get_by_role("row", name="Ina Skarp")).to_have_count(0)
    classes.close()
