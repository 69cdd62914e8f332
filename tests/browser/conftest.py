"""A real browser on a real JupyterLab, opened the way a learner opens it.

`open_lesson(name)` gives the page of a lesson that is awake; the lessons are the project's own and
those that tests write into the same temporary folder.
"""

import shutil
from collections.abc import Callable, Iterator

import nbformat
import pytest
from pages import fresh_page
from playwright.sync_api import Browser, Page, expect
from rig import LESSONS, Lab, notebook, served, wait_until


@pytest.fixture(scope="session")
def lab(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Lab]:
    own = tmp_path_factory.mktemp("lab")
    folder = own / "lessons"
    if LESSONS.is_dir():
        shutil.copytree(LESSONS, folder)
    folder.mkdir(exist_ok=True)
    nbformat.write(notebook("first", ["# First"], lesson=True), folder / "first.ipynb")
    with served(folder, "first", own) as lab:
        yield lab


@pytest.fixture(scope="module")
def unanswered(lab: Lab) -> None:
    """Each file of tests begins with a learner who has answered nothing, whoever ran before."""
    lab.end_kernels()
    for file in lab.record.parent.glob(f"{lab.record.name}*"):
        file.unlink()


@pytest.fixture
def page(browser: Browser, lab: Lab, unanswered: None) -> Iterator[Page]:
    """A fresh browser with nothing remembered; what it leaves running is ended afterwards."""
    # JupyterLab says so itself of what a restarted kernel no longer answers.
    said = "Canceled future"
    with fresh_page(browser, lab, said, viewport={"width": 1366, "height": 768}) as page:
        yield page


@pytest.fixture
def open_lesson(page: Page, lab: Lab) -> Callable[[str], Page]:
    """Open the lesson of a name, and return its page when the lesson is awake."""

    def opened(name: str) -> Page:
        page.goto(lab.address(name))
        wait_until(page, "alive")
        return page

    return opened


@pytest.fixture
def figures(request: pytest.FixtureRequest, open_lesson: Callable[[str], Page], lab: Lab) -> Page:
    """A lesson of those demonstrations alone that the test's file names: it opens sooner."""
    names: tuple[str, ...] = request.module.NAMES
    shown = [f"from navlib.widgets import demos\ndemos.{name}()" for name in names]
    lab.write("figures", ["# Figures", *shown])
    page = open_lesson("figures")
    expect(page.locator(".nav-demo")).to_have_count(len(names))
    return page
