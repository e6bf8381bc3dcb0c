"""What each screen of a review does, on small papers: settled in three ways, copied, compared, drawn; nothing asked
of anybody else; nothing lost when the desk is killed.
"""

from __future__ import annotations

import random
import threading
import tomllib
import urllib.parse
import urllib.request
from http.client import HTTPException
from http.cookiejar import CookieJar
from pathlib import Path
from typing import Any

import pytest

from speccheck.desk.projects import Projects
from tests.browsing import comes_true, expect, watched_page
from tests.desk.conftest import RunningDesk, start_desk

ROWS = """Mark,Service,Pipe Size,Thickness,Jacket,Cover
CHW-1,Chilled water,2 in,1/2 in,WJ-2,yes
CHW-2,Chilled water,4 in,1 in,aluminum,yes
CHW-3,Chilled water,6 in,1/2 in,WJ-2,no
The owner furnishes the raw milk lines; see drawing M-101,,,,,
"""
CLAUSES = """ruleset "Invented plant, section 23 07 19"
  speaks mechanical insulation
  units  inch-pound

clause 2.1.A "Chilled water"
  where service is chilled water
  shall thickness be at least 1 in

clause 2.1.B "Jackets"
  where service is chilled water
  shall jacket be aluminum
"""


LINES = 300


@pytest.fixture
def review(page: Any, desk: RunningDesk, tmp_path: Path) -> str:
    """The address of a review with three open questions and some findings."""
    return begin(page, desk, ROWS)


def begin(page: Any, desk: RunningDesk, rows: str, name: str = "s.csv") -> str:
    """Drop rows on the first screen and return the address of the review."""
    page.goto(desk.home)
    page.set_input_files("input[name=schedule]", {"name": name, "mimeType": "", "buffer": rows.encode()})
    page.check("input[value='own clauses']")
    page.set_input_files("input[name=clauses]", {"name": "c.clauses", "mimeType": "", "buffer": CLAUSES.encode()})
    page.click("text=Check the schedule")
    page.wait_for_selector("#outcome")
    return str(page.url)


def test_three_ways_to_settle_a_question(page: Any, desk: RunningDesk, review: str) -> None:
    """This column is that term, this text means that value, this row is a note, seen: each time one question less."""
    page.goto(f"{review}/reading")
    left = page.locator(".lead b")
    expect(left).to_have_text("3")
    expect(page.locator("main section h2").first).to_have_text("Open questions")
    column = page.locator(".questions li", has_text="names no term")
    column.locator("select").select_option("within reach")
    column.locator("button:text-is('Settle')").click()
    expect(page.locator(".lead")).to_contain_text("settled just now")
    words = page.locator(".questions li", has_text="is not a value of jacket")
    words.locator("select").select_option("PVC")
    words.locator("button:text-is('Settle')").click()
    page.locator(".questions li", has_text="raw milk").locator("button").click()
    expect(page.locator(".questions li", has_text="raw milk")).to_have_count(0)
    mapping = tomllib.loads((desk.folder / review.rsplit("/", 1)[1] / "rounds/01/mapping.toml").read_text("utf-8"))
    assert mapping == {
        "columns": {"Cover": "within reach"},
        "values": {"jacket": {"WJ-2": "PVC"}},
        "seen": ["The owner furnishes the raw milk lines; see drawing M-101"],
    }
    expect(left).to_have_text("0")
    expect(page.locator(".paper-grid")).to_contain_text("jacket: PVC")


def test_a_row_that_is_a_note_is_no_line_any_more(page: Any, review: str) -> None:
    """A person says that a row which was read as a line is a note: the matrix has one line less."""
    page.goto(f"{review}/reading")
    page.select_option("select[name=key]", "CHW-3")
    page.click("text=It is a note")
    expect(page.locator("select[name=key] option", has_text="CHW-3")).to_have_count(0)
    page.goto(f"{review}/matrix")
    expect(page.locator("#grid tbody th b")).to_have_text(["CHW-1", "CHW-2"])


def test_findings_are_copied_as_text_and_as_rows(page: Any, review: str) -> None:
    """All that is shown: a sentence for each finding, or a row of a spreadsheet for each line of it."""
    page.context.grant_permissions(["clipboard-read", "clipboard-write"])
    page.goto(f"{review}/findings?verdict=fails")
    expect(page.locator("[data-finding]")).to_have_count(1)
    for kind, told in (("text", "Copy what is shown as text"), ("rows", "Copy as rows")):
        page.evaluate("navigator.clipboard.writeText('')")
        page.click(f"text={told}")
        comes_true(page, "navigator.clipboard.readText().then((text) => text !== '')")
        rows = page.evaluate("navigator.clipboard.readText()").split("\n")
        if kind == "text":
            assert [one.split(".")[0] for one in rows] == ["CHW-1, CHW-3, 2"]
        else:
            assert [one.split("\t")[:3] for one in rows] == [
                ["CHW-1", "2.1.A", "does not comply"], ["CHW-3", "2.1.A", "does not comply"],
            ]  # fmt: skip


def test_findings_are_filtered_in_the_address(page: Any, review: str) -> None:
    """The verdict, the words and what has no note yet stand in the address, which shows the same again."""
    page.goto(f"{review}/findings")
    page.fill("input[type=search]", "jacket")
    page.select_option("select[name=verdict]", "open")
    page.click(".filters-bar button:text-is('Show')")
    expect(page.locator("[data-finding]")).to_have_count(1)
    assert "text=jacket" in page.url
    page.reload()
    expect(page.locator("[data-finding]")).to_have_count(1)
    page.locator("[data-finding] summary").click()
    page.fill("textarea[name=text]", "Ask the maker.")
    page.click("text=Save the note")
    page.wait_for_selector("text=Saved.")
    page.goto(f"{review}/findings?only=open&verdict=open")
    expect(page.locator("[data-finding]")).to_have_count(0)
    page.click("text=Undo")
    page.wait_for_selector("text=The last step was undone.")
    expect(page.locator("h1")).to_have_text("Findings")


def test_rounds_tell_what_became_of_each_finding(page: Any, review: str) -> None:
    """One is closed, one is still open, one is new with a line that was added, and one change nobody asked for."""
    second = ROWS.replace("2 in,1/2 in,WJ-2", "2 in,1 in,aluminum").replace("4 in,1 in", "4 in,2 in")
    second = second.replace("The owner", "CHW-4,Chilled water,8 in,1/2 in,aluminum,no\nThe owner")
    page.goto(f"{review}/rounds")
    page.set_input_files("input[name=schedule]", {"name": "t.csv", "mimeType": "", "buffer": second.encode()})
    page.click("text=Add it as the next round")
    page.wait_for_selector("#became")
    main = page.locator("main")
    for words in ("closed", "still open", "new"):
        expect(main).to_contain_text(words)
    row = main.locator("tr", has_text="CHW-2")
    expect(row.first).to_contain_text("2 in")
    expect(main.locator("tr", has_text="CHW-4").first).to_be_visible()
    page.click("text=Undo")
    page.wait_for_selector("text=The last step was undone.")
    expect(main).to_contain_text("There is one round so far")


def test_a_cell_shows_the_row_of_the_paper(page: Any, desk: RunningDesk) -> None:
    """Of a PDF, the panel of a finding shows the row as it stands on its page, beside what was read of it."""
    platypus = pytest.importorskip("reportlab.platypus")
    path = desk.folder.parent / "ruled.pdf"
    table = [
        ["Mark", "Service", "Pipe Size", "Insulation", "Thickness"],
        ["CHW-1", "Chilled water", "2 in", "Elastomeric foam", "1/2 in"],
    ]
    grid = platypus.TableStyle([("GRID", (0, 0), (-1, -1), 0.5, "black")])
    platypus.SimpleDocTemplate(str(path), invariant=1).build([platypus.Table(table, style=grid)])
    page.goto(desk.home)
    page.set_input_files("input[name=schedule]", path)
    page.check("input[value='own clauses']")
    page.set_input_files("input[name=clauses]", {"name": "c.clauses", "mimeType": "", "buffer": CLAUSES.encode()})
    page.click("text=Check the schedule")
    page.wait_for_selector("#outcome")
    page.goto(f"{page.url}/matrix#cell-0-0")
    picture = page.locator("#panel figure.paper img")
    expect(picture).to_have_attribute("alt", "the row of CHW-1 on page 1")
    comes_true(page, "one => one.complete && one.naturalWidth > 200", picture.element_handle())
    expect(page.locator("#panel .line-data")).to_contain_text("1/2 in")


def test_the_picture_of_a_system_moves_with_a_value(page: Any, desk: RunningDesk) -> None:
    """Colder water: the curves of surface temperature and heat flow are others, and so is the answer in words."""
    page.goto(f"{desk.home}/system")
    picture = page.locator("[data-result] svg")
    before = picture.inner_html()
    page.fill("input[name='operating temperature']", "35 F")
    comes_true(page, "was => document.querySelector('[data-result] svg')?.innerHTML !== was", before)
    page.wait_for_url(lambda address: "operating+temperature=35" in address)
    page.reload()
    expect(page.locator("input[name='operating temperature']")).to_have_value("35 F")


def test_nothing_is_asked_of_anybody_else(browser: Any, desk: RunningDesk) -> None:
    """All screens of a review ask for no address but those of the desk: no telemetry, no type face from elsewhere."""
    with watched_page(browser) as page:
        asked: list[str] = []
        page.on("request", lambda one: asked.append(one.url))
        page.goto(desk.address)
        review = begin(page, desk, ROWS)
        for screen in ("", "/matrix", "/findings", "/reading", "/papers", "/rounds", "/contractor", "/clauses"):
            page.goto(f"{review}{screen}")
            page.wait_for_selector("h1:not(:has-text('Working'))")
            page.wait_for_load_state("networkidle")
        page.goto(f"{desk.home}/system")
        page.wait_for_load_state("networkidle")
        assert len(asked) > 20
        assert [one for one in asked if not one.startswith((f"{desk.home}/", "data:"))] == []


def test_killed_at_ten_moments_the_desk_loses_no_note_that_it_said_was_saved(tmp_path: Path) -> None:
    """A desk that saves note after note is killed: each file is whole, and what was answered as saved is there."""
    project = Projects(tmp_path).make("Plant", "")
    project.write(("clauses", "project.clauses"), CLAUSES, "", "clauses")
    project.write(("project.toml",), 'name = "Plant"\nagainst = "project.clauses"\n', None, "settings")
    lines = "".join(f"CHW-{number},Chilled water,{1 + number % 8} in,1/2 in\n" for number in range(LINES))
    project.write(("rounds", "01", "submittal.csv"), f"Mark,Service,Pipe Size,Thickness\n{lines}", "", "submittal")
    moments, saved, next_line = random.Random(15), set(), 0
    for _ in range(10):
        process, desk = start_desk(tmp_path)
        opener = urllib.request.build_opener(urllib.request.HTTPCookieProcessor(CookieJar()))
        opener.open(desk.address, timeout=60).read()
        killing = None
        try:
            while True:
                words = f"note {next_line}"
                form = {"round": "01", "lines": str(next_line), "clause": "0", "text": words, "status": ""}
                form |= {"seen-text": "", "seen-status": ""}
                data = urllib.parse.urlencode(form).encode()
                asked = urllib.request.Request(f"{desk.home}/projects/plant/note", data, {"Origin": desk.home})
                next_line += 1
                opener.open(asked, timeout=120).read()
                saved.add(words)
                if killing is None:  # from the first note on, which waits for the schedule to be read
                    killing = threading.Timer(moments.random() * 0.3, process.kill)
                    killing.start()
        except (OSError, HTTPException):  # the desk is gone
            process.kill()
            process.wait()
            assert process.stdout is not None
            process.stdout.close()
            if killing is not None:
                killing.join()
        told = tomllib.loads(project.read("rounds", "01", "notes.toml"))["note"]
        assert saved <= {one["text"] for one in told}
        assert [one.name for one in project.folder.rglob("*.tmp")] == []
        assert next_line < LINES
    assert len(saved) >= 10
