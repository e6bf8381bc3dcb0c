"""A project begun before anything was submitted: by a spec writer with a section, and for a blank workbook."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path
from typing import Any

import pytest

from tests.browsing import expect
from tests.desk.conftest import TOP, RunningDesk
from tests.desk.hands import HANDS, Hand

SECTION = TOP / "examples" / "dairy" / "section.docx"


@pytest.fixture(params=HANDS, ids=lambda one: one.__name__.lower())
def hand(request: pytest.FixtureRequest, page: Any) -> Hand:
    """Somebody at the page: with a mouse, or with the keyboard alone."""
    page.on("filechooser", lambda chooser: chooser)
    made: Hand = request.param(page)
    return made


def test_spec_writer_begins_with_the_section(hand: Hand, desk: RunningDesk) -> None:
    """The section in Word becomes clauses to confirm, with its words beside them; the section is kept as received."""
    page = hand.page
    hand.tick("input[value='own clauses']")
    hand.give("input[name=clauses]", SECTION)
    hand.write("input[name=name]", 'A "section" <b>')
    hand.press("text=Begin without a schedule")
    hand.press("a.card:has-text('Clauses')")
    expect(page.locator("#source")).to_have_value(
        text := kept(desk, page).joinpath("project.clauses").read_text("utf-8")
    )
    assert text.count("\n  draft\n") > 20
    assert "wording" in text
    assert kept(desk, page).joinpath("section.docx").read_bytes() == SECTION.read_bytes()
    expect(page.locator(".mistakes li").first).not_to_have_text("Checking …")
    expect(page.frame_locator("iframe.prose").locator("h1")).to_have_text("No prose yet")
    hand.press("button:text-is('Undo')")
    expect(page.locator("h1")).to_have_text("Check a submittal")


def kept(desk: RunningDesk, page: Any) -> Path:
    """Return the folder of the clauses of the project that a page shows."""
    return desk.folder / str(page.url).split("/projects/")[1].split("/")[0] / "clauses"


def test_contractor_gets_a_blank_workbook_and_submits(page: Any, desk: RunningDesk) -> None:
    """From a shipped ruleset alone to a blank workbook; screens that need a submittal lead to where one is dropped."""
    openpyxl = pytest.importorskip("openpyxl")
    page.check("input[value='energy/ashrae-90.1']")
    page.fill("input[name=name]", "Not yet submitted")
    page.click("text=Begin without a schedule")
    expect(page.locator("h1")).to_have_text("Not yet submitted")
    project = page.url
    for screen in ("Matrix", "Findings", "Reading", "Papers"):
        page.click(f".desk-bar a:text-is('{screen}')")
        expect(page.locator(".lead")).to_contain_text("Nothing was submitted so far")
    page.click("a.card:has-text('Blank workbook')")
    with page.expect_download() as download:
        page.click("a.card:has-text('Blank workbook')")
    blank = openpyxl.load_workbook(BytesIO(Path(download.value.path()).read_bytes()))
    assert any("hickness" in str(cell.value) for row in blank.active for cell in row)
    page.goto(f"{project}/rounds")
    rows = b"Mark,Service,Pipe Size,Operating Temp,Thickness\nA,Chilled water,2 in,42 F,1/4 in\n"
    page.set_input_files("input[name=schedule]", {"name": "one.csv", "mimeType": "", "buffer": rows})
    page.click("text=Add it as the first round")
    expect(page.locator("main")).to_contain_text("There is one round so far")
    page.goto(project)
    expect(page.locator("#outcome")).to_be_visible()
