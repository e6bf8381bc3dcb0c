"""Each user's whole job on the desk, from the file that is dropped to the file that is taken away: by mouse, and by
keyboard alone.
"""

from __future__ import annotations

import tomllib
from collections.abc import Callable
from io import BytesIO
from pathlib import Path
from typing import Any

import pytest

from tests.browsing import expect
from tests.desk.conftest import RunningDesk
from tests.desk.hands import HANDS, Hand

ROWS = [
    [
        "Mark",
        "Service",
        "Pipe Size",
        "Pipe Material",
        "Operating Temp (F)",
        "Insulation",
        "Thickness (in)",
        "Lead hand",
    ],
    ["CHW-1", "Chilled water", "2 in", "Steel", "42", "Elastomeric foam", "0.25", "A"],
    ["CHW-2", "Chilled water", "2 in", "Steel", "42", "Elastomeric foam", "1", "B"],
]
CLAUSES = """ruleset "Invented plant, section 23 07 19"
  speaks mechanical insulation
  units  inch-pound

clause 2.1.A "Chilled water"
  where service is chilled water
  shall thickness be at least 1 in
  example "thick enough" complies
          service chilled water, thickness 1 in
"""


@pytest.fixture(params=HANDS, ids=lambda one: one.__name__.lower())
def hand(request: pytest.FixtureRequest, page: Any) -> Hand:
    """Somebody at the page: with a mouse, or with the keyboard alone."""
    made: Callable[[Any], Hand] = request.param
    page.on("filechooser", lambda chooser: chooser)  # from the start, or the first window opens before it is watched
    return made(page)


@pytest.fixture
def workbook(tmp_path: Path) -> Path:
    """A schedule of two lines, as a workbook."""
    openpyxl = pytest.importorskip("openpyxl")
    path, book = tmp_path / "schedule.xlsx", openpyxl.Workbook()
    for row in ROWS:
        book.active.append(row)
    book.save(path)
    return path


@pytest.fixture
def clauses(tmp_path: Path) -> Path:
    """Clauses of one's own."""
    path = tmp_path / "mine.clauses"
    path.write_text(CLAUSES, "utf-8")
    return path


def check(hand: Hand, schedule: Path, clauses: Path, title: str) -> str:
    """Drop a schedule, choose what to check against, and return the address of the review."""
    hand.give("input[name=schedule]", schedule)
    expect(hand.page.locator("[data-drop].filled")).to_have_count(1)
    hand.tick("input[value='own clauses']")
    hand.give("input[name=clauses]", clauses)
    hand.write("input[name=name]", title)
    hand.press("text=Check the schedule")
    expect(hand.page.locator("#outcome")).to_have_text("The schedule does not comply.")
    return str(hand.page.url)


def taken(hand: Hand, selector: str) -> bytes:
    """Press what gives a file, and return the file."""
    with hand.page.expect_download() as download:
        hand.press(selector)
    return Path(download.value.path()).read_bytes()


def bar(words: str) -> str:
    """Return what names a screen in the bar above."""
    return f".desk-bar a:text-is('{words}')"


def test_reviewer(hand: Hand, desk: RunningDesk, workbook: Path, clauses: Path) -> None:
    """Drop, see the verdict, settle a column, look at a cell of the matrix, note, and take the reply along."""
    page, project = hand.page, check(hand, workbook, clauses, "Job of a reviewer")
    hand.press("a.card:has-text('open question')")
    expect(page.locator(".lead b")).to_have_text("1")
    hand.press("button:text-is('Leave this column out')")
    expect(page.locator(".lead b")).to_have_text("0")
    hand.press(bar("Matrix"))
    hand.press("#failing a, .first a")
    expect(page.locator(".findings li.named .working")).to_be_visible()
    hand.press(bar("Findings"))
    expect(page.locator("[data-finding]")).to_have_count(1)
    hand.press("summary:has-text('Add a note')")
    hand.write("textarea[name=text]", "Revise and resubmit, see 2.1.A.")
    hand.write("[data-finding] input[name=status]", "asked the contractor")
    hand.press("button:text-is('Save the note')")
    expect(page.locator(".saved")).to_have_text("Saved.")
    notes = tomllib.loads((desk.folder / project.rsplit("/", 1)[1] / "rounds/01/notes.toml").read_text("utf-8"))
    assert [(one["text"], one["status"]) for one in notes["note"]] == [
        ("Revise and resubmit, see 2.1.A.", "asked the contractor")
    ]
    hand.write("input[name=action]", "Revise and resubmit")
    reply = taken(hand, "button:text-is('Reply (page)')").decode("utf-8")
    assert "Revise and resubmit, see 2.1.A." in reply
    assert taken(hand, "button:text-is('Marked-up copy of the submittal')")[:2] == b"PK"
    assert b"CHW-1" in taken(hand, "a:text-is('Findings as rows (CSV)')")


def test_spec_writer(hand: Hand, workbook: Path, clauses: Path) -> None:
    """Write a clause with completion, see a mistake and the examples in the margin, try a line, save, take it along."""
    page, project = hand.page, check(hand, workbook, clauses, "Job of a writer")
    hand.press(bar("Clauses"))
    expect(page.locator(".margin .right")).to_have_count(2)
    expect(page.locator(".margin .right", has_text="✓")).to_have_count(1)
    hand.write("#source", '\nclause 2.1.B "Jackets"\n  where service is chilled water\n  shall jackett')
    expect(page.locator(".mistakes .error", has_text="jackett")).not_to_have_count(0)
    page.keyboard.press("Backspace")
    page.keyboard.press("Control+Space")
    expect(page.locator(".completions li", has_text="jacket").first).to_be_visible()
    page.keyboard.press("Escape")
    page.keyboard.type(" be PVC\n")
    expect(page.locator("[data-state]")).to_have_text("2 clauses, no mistake")
    hand.write("input[name=line]", "service chilled water, thickness 1/2 in, jacket PVC")
    hand.press("button:text-is('Try it')")
    expect(page.locator("[data-tried]")).to_contain_text("2.1.A does not comply")
    expect(page.locator("[data-tried]")).to_contain_text("2.1.B complies")
    hand.press("button:text-is('Save')")
    expect(page.locator(".saved")).to_have_text("Saved.")
    expect(page.frame_locator("iframe.prose").locator("body")).to_contain_text("Jackets")
    assert taken(hand, "a:text-is('Clauses (text)')").decode("utf-8").endswith("shall jacket be PVC\n")
    assert b"Jackets" in taken(hand, "a:text-is('Specification section (page)')")
    assert taken(hand, "a:text-is('Specification section (Word)')")[:2] == b"PK"
    assert page.url.startswith(project)


def test_contractor(hand: Hand, workbook: Path, clauses: Path) -> None:
    """Check before sending, see what would comply and why, and take the corrected workbook along."""
    openpyxl = pytest.importorskip("openpyxl")
    page, _ = hand.page, check(hand, workbook, clauses, "Job of a contractor")
    hand.press(bar("Contractor"))
    row = page.locator("tbody tr", has_text="CHW-1")
    expect(row).to_contain_text("2.1.A Chilled water")
    expect(row).to_contain_text("1 in")
    expect(page.locator("tbody tr", has_text="CHW-2")).to_have_count(0)
    blank = openpyxl.load_workbook(BytesIO(taken(hand, "a:has-text('Blank workbook')")))
    assert any("hickness" in str(cell.value) for row in blank.active for cell in row)
    corrected = openpyxl.load_workbook(BytesIO(taken(hand, "a:has-text('Corrected workbook')")))
    sheet = corrected.worksheets[0]
    assert float(str(sheet["G2"].value).split()[0]) >= 1
    assert str(sheet["G3"].value) == "1"


def test_system(hand: Hand, desk: RunningDesk) -> None:
    """Change a value of one system and see the answer and its picture move."""
    page = hand.page
    hand.press(bar("System"))
    before = page.locator("[data-result] pre").inner_text()
    hand.write("input[name='operating temperature']", "")
    for _ in range(20):
        page.keyboard.press("Backspace")
    page.keyboard.type("35 F")
    expect(page.locator("[data-result] pre")).not_to_have_text(before)
    expect(page.locator("[data-result] svg")).to_have_count(1)


def test_rounds(hand: Hand, workbook: Path, clauses: Path, tmp_path: Path) -> None:
    """Drop the resubmittal, see what became of each finding, undo and do it again, and take the reply to it along."""
    openpyxl = pytest.importorskip("openpyxl")
    page, project = hand.page, check(hand, workbook, clauses, "Job of two rounds")
    book = openpyxl.load_workbook(workbook)
    book.active["G2"] = "1"
    resubmittal = tmp_path / "resubmittal.xlsx"
    book.save(resubmittal)
    hand.press(bar("Findings"))
    reply = tmp_path / "reply.html"
    reply.write_bytes(taken(hand, "button:text-is('Reply (page)')"))
    hand.press(bar("Rounds"))
    hand.give("input[name=sent]", reply)
    hand.press("button:text-is('Keep it with round 1')")
    assert taken(hand, "a:has-text('reply.html')") == reply.read_bytes()
    for last in (False, True):
        hand.give("input[name=schedule]", resubmittal)
        hand.press("button:text-is('Add it as the next round')")
        expect(page.locator("#became")).to_have_text("Round 2 beside round 1")
        if not last:
            hand.press("button:text-is('Undo')")
            expect(page.locator("main")).to_contain_text("The last step was undone.")
            expect(page.locator("#became")).to_have_count(0)
    expect(page.locator("main")).to_contain_text("closed")
    hand.press("a.button:text-is('Round 1')")
    page.wait_for_url(f"{project}/rounds?round=01")
    hand.press("a.button:text-is('Round 2')")
    page.wait_for_url(f"{project}/rounds?round=02")
    hand.press(bar("Findings"))
    assert b"CHW-1" in taken(hand, "button:text-is('Reply (page)')")


def test_papers(hand: Hand, desk: RunningDesk, workbook: Path, clauses: Path, tmp_path: Path) -> None:
    """Drop the design list, see what it was read as and what it brings up, set the day, take the list out again."""
    page, project = hand.page, check(hand, workbook, clauses, "Job with papers")
    design = tmp_path / "design.csv"
    design.write_text("Service,Pipe Size\nChilled water,2 in\nSteam,4 in\n", "utf-8")
    hand.press(bar("Papers"))
    section = "section:has(#paper-design)"
    hand.give(f"{section} input[type=file]", design)
    hand.press(f"{section} form.paper-drop button")
    hand.press(f"{section} summary")
    expect(page.locator(f"{section} tbody tr")).to_have_count(2)
    expect(page.locator("section:has(#brought-up)")).to_contain_text("team")
    hand.write("input[name=on]", "")
    for _ in range(3):  # a click goes to the part of the date that it meets
        page.keyboard.press("ArrowLeft")
    page.keyboard.type("03042026")
    hand.press("button:text-is('Set the day')")
    expect(page.locator("form.undo")).to_contain_text("day of the review: 2026-03-04")
    hand.press(f"{section} button:text-is('Take it out of the review')")
    expect(page.locator(f"{section} .paper-file")).to_have_count(0)
    assert "design" not in (desk.folder / project.rsplit("/", 1)[1] / "project.toml").read_text("utf-8")


def test_start(hand: Hand, desk: RunningDesk) -> None:
    """Find a ruleset by words, begin without a schedule, take the blank workbook, and come back to the review."""
    page = hand.page
    hand.write("[data-find]", "vapor stop")
    found = page.locator("[data-ruleset]:visible")
    expect(found).not_to_have_count(0)
    name = found.first.locator("input").get_attribute("value")
    hand.tick(f"[data-ruleset]:visible input[value='{name}']")
    hand.write("input[name=name]", "Job of beginning")
    hand.press("button:text-is('Begin without a schedule')")
    expect(page.locator("h1")).to_have_text("Job of beginning")
    hand.press("a.card:has-text('Blank workbook')")
    assert taken(hand, "a:has-text('Blank workbook')")[:2] == b"PK"
    hand.press("a.home")
    hand.press("a:text-is('Job of beginning')")
    expect(page.locator("h1")).to_have_text("Job of beginning")
    hand.press("a.home")
    hand.press("button:text-is('Open the invented dairy')")
    expect(page.locator("#outcome")).to_have_text("The schedule does not comply.")
