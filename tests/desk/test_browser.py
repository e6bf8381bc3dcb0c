"""The desk in a real browser: each user's job from drop to download, by mouse and by keyboard alone, for everybody."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path
from typing import Any
from urllib.parse import urlencode

import pytest

from tests.browsing import PATIENCE, becomes, comes_true, expect, faults
from tests.desk.conftest import TOP, RunningDesk, start_desk
from tests.desk.screens import SCREENS, every_screen, goto, open_dairy

SCRIPT = "<script>window.planted=1</script><img src=x onerror=window.planted=1>"


def drop(page: Any, desk: RunningDesk, name: str, content: bytes, against: str, title: str) -> None:
    """Drop a file on the first screen, and wait for what came of it."""
    goto(page, desk.home)
    page.set_input_files("input[name=schedule]", {"name": name, "mimeType": "", "buffer": content})
    page.check(f"input[value='{against}']")
    page.fill("input[name=name]", title)
    page.click("text=Check the schedule")
    page.wait_for_selector("#outcome, .diagnostics")


@pytest.fixture
def ruled_pdf(tmp_path: Path) -> bytes:
    """A schedule of two lines as a PDF with ruled cells, made with ReportLab."""
    platypus = pytest.importorskip("reportlab.platypus")
    rows = [
        ["Mark", "Service", "Pipe Size", "Insulation", "Thickness"],
        ["CHW-1", "Chilled water", "2 in", "Elastomeric foam", "1 in"],
        ["CHW-2", "Chilled water", "4 in", "Elastomeric foam", "1-1/2 in"],
    ]
    grid = platypus.TableStyle([("GRID", (0, 0), (-1, -1), 0.5, "black")])
    path = tmp_path / "schedule.pdf"
    platypus.SimpleDocTemplate(str(path), invariant=1).build([platypus.Table(rows, style=grid)])
    return path.read_bytes()


def planted_nothing(page: Any) -> None:
    """What was planted has become no element and has not run, once the screen is drawn and its script has worked."""
    page.wait_for_load_state("networkidle")
    assert page.evaluate("window.planted") is None
    assert page.locator("img").count() == 0


def notes_of(desk: RunningDesk, project: str) -> list[str]:
    """Return the notes that the file of the first round holds."""
    file = desk.folder / project.rsplit("/", 1)[1] / "rounds/01/notes.toml"
    return [one["text"] for one in tomllib.loads(file.read_text("utf-8"))["note"]]


def focus_reaches(page: Any, selector: str, key: str = "Tab") -> None:
    """Press a key until what is looked for has the focus, as somebody without a mouse would."""
    for _ in range(400):
        page.keyboard.press(key)
        if page.evaluate("wanted => document.activeElement.matches(wanted)", selector):
            return
    pytest.fail(f"no key press leads to {selector}")


def test_reviewer_settles_notes_and_replies(page: Any, desk: RunningDesk) -> None:
    """A reviewer sees the verdict, settles a column so that the open questions fall, notes, and takes a reply along."""
    project = open_dairy(page, desk)
    expect(page.locator("#outcome")).to_have_text("The schedule does not comply.")
    goto(page, f"{project}/reading")
    left = page.locator(".lead b")
    before = int(left.inner_text())
    page.click("text=Leave this column out")
    expect(left).to_have_text(str(before - 1))
    page.locator("text=Read it: it changes nothing").first.click()
    expect(left).to_have_text(str(before - 2))
    page.click("text=Undo")
    page.wait_for_selector("text=The last step was undone.")
    goto(page, f"{project}/reading")
    expect(left).to_have_text(str(before - 1))
    goto(page, f"{project}/findings")
    page.locator("summary", has_text="Add a note").first.click()
    form = page.locator("details[open] form").first
    form.locator("textarea").fill("Revise, see 3.2.")
    form.locator("button").click()
    page.wait_for_selector("text=Saved.")
    assert notes_of(desk, project) == ["Revise, see 3.2."]
    with page.expect_download() as download:
        page.click("text=Reply (page)")
    assert "Revise, see 3.2." in Path(download.value.path()).read_text("utf-8")


def test_reviewer_drops_a_schedule_and_gets_a_verdict(page: Any, desk: RunningDesk) -> None:
    """One file, one ruleset, one step: the verdict on thickness that the published table of the ruleset gives."""
    rows = b"Service,Pipe Size,Insulation,Thickness\nChilled water,2 in,Elastomeric foam,1 in\n"
    page.set_input_files("input[name=schedule]", {"name": "s.csv", "mimeType": "text/csv", "buffer": rows})
    page.check("input[value='trade-practice']")
    page.fill("input[name=name]", "Small plant")
    page.click("text=Check the schedule")
    page.wait_for_selector("#outcome")
    expect(page.locator("h1")).to_have_text("Small plant")


def test_findings_alike_are_worked_through_together(page: Any, desk: RunningDesk, dairy: str) -> None:
    """One note goes to all lines of which the same is said; what would comply is shown in its place; one is copied."""
    goto(page, f"{dairy}/findings")
    together = page.locator("[data-finding]", has=page.locator("summary", has_text="to all")).first
    names = together.get_attribute("data-lines").split("\n")
    assert len(names) > 1
    together.locator("[data-proposal]").click()
    together.locator(".proposal p").nth(1).wait_for()
    together.locator("summary").click()
    together.locator("textarea").fill("Same for all of these.")
    together.locator("form button").click()
    page.wait_for_selector("text=Saved.")
    assert notes_of(desk, dairy).count("Same for all of these.") == len(names)
    page.context.grant_permissions(["clipboard-read", "clipboard-write"])
    page.locator("[data-copy-one]").first.click()
    page.wait_for_selector("text=Copied")
    first = page.locator("[data-finding]").first
    copied = page.evaluate("navigator.clipboard.readText()")
    assert copied.endswith(first.get_attribute("data-reason"))
    with page.expect_download() as download:
        page.click("text=Findings workbook")
    assert Path(download.value.path()).read_bytes()[:2] == b"PK"
    page.click("text=Undo")
    page.wait_for_selector("text=The last step was undone.")


def test_what_somebody_else_wrote_meanwhile_is_shown_beside_mine(browser: Any, desk: RunningDesk, dairy: str) -> None:
    """Two tabs change one note and one ruleset: the second sees both texts, and the file has the first."""
    context = browser.new_context()
    context.set_default_timeout(PATIENCE)
    mine, yours = context.new_page(), context.new_page()
    mine.goto(desk.address)
    for tab in (mine, yours):
        goto(tab, f"{dairy}/findings?verdict=open")
        tab.locator("[data-finding] summary").last.click()
    for tab, words in ((yours, "yours"), (mine, "mine")):
        form = tab.locator("[data-finding] form").last
        form.locator("textarea").fill(words)
        form.locator("button").click()
        tab.wait_for_selector("text=Saved." if tab is yours else "h1:has-text('changed this meanwhile')")
    becomes(mine, lambda: [one.strip() for one in mine.locator("pre").all_inner_texts()], ["yours", "mine"])
    for tab in (mine, yours):
        goto(tab, f"{dairy}/clauses")
        tab.press("#source", "Control+End")
        tab.keyboard.type(f"-- {'mine' if tab is mine else 'yours'}\n")
    yours.click("button:text-is('Save')")
    yours.wait_for_selector("text=Saved.")
    mine.click("button:text-is('Save')")
    mine.wait_for_selector("h1:has-text('changed this meanwhile')")
    expect(mine.locator("pre").first).to_contain_text("-- yours")
    expect(mine.locator("pre").last).to_contain_text("-- mine")
    yours.click("text=Undo")
    yours.wait_for_selector("text=The last step was undone.")
    goto(yours, f"{dairy}/clauses")
    assert "-- yours" not in yours.input_value("#source")
    context.close()


def test_keyboard_alone_is_enough(page: Any, desk: RunningDesk, dairy: str) -> None:
    """The skip link comes first; a note is opened, written and saved without a mouse."""
    goto(page, f"{dairy}/findings")
    page.keyboard.press("Tab")
    expect(page.locator(":focus")).to_have_text("Skip to the content")
    page.keyboard.press("Enter")
    focus_reaches(page, ".work details:not([open]) > summary")
    page.keyboard.press("Enter")
    focus_reaches(page, "textarea")
    page.keyboard.type("by keyboard")
    focus_reaches(page, "form button")
    page.keyboard.press("Enter")
    page.wait_for_selector("text=Saved.")
    expect(page.locator("textarea", has_text="by keyboard")).to_have_count(1)


def test_spec_writer_sees_mistakes_as_they_are_typed(page: Any, desk: RunningDesk, dairy: str) -> None:
    """A word that names no term is told with its line, and completion offers what could be written."""
    goto(page, f"{dairy}/clauses")
    page.wait_for_selector("text=no mistake")
    page.press("#source", "Control+End")
    page.keyboard.type('\nclause 99.1 "Trial"\n  shall thiknes be at least 1 in\n')
    expect(page.locator(".mistakes .error", has_text="thiknes")).not_to_have_count(0)
    page.keyboard.type("  shall thick")
    page.keyboard.press("Control+Space")
    expect(page.locator(".completions li", has_text="thickness")).not_to_have_count(0)


HOLE = (TOP / "examples" / "proofreading" / "bands-as-printed.clauses").read_text("utf-8")
"""A table with a hole between 140 F and 141 F, as it is printed."""


def test_spec_writer_writes_tries_proofreads_and_saves(page: Any, desk: RunningDesk) -> None:
    """Clauses of one's own, from an empty text: a hole between two bands is told with its line, a line is tried."""
    drop(page, desk, "s.csv", b"Service,Thickness\nDomestic hot water,1 in\n", "trade-practice", "Own clauses")
    project = page.url
    goto(page, f"{project}/clauses")
    page.click("text=Make a copy of my own")
    page.wait_for_selector("text=Save")
    page.fill("#source", HOLE)
    page.wait_for_selector("[data-examples] li", state="attached")
    page.wait_for_selector("[data-remarks] >> text=hole")
    page.locator("[data-remarks] button").first.click()
    expect(page.locator("#source")).to_be_focused()
    page.fill("input[name=line]", "service domestic hot water, operating temperature 180 F, thickness 1/2 in")
    page.press("input[name=line]", "Enter")
    page.wait_for_selector("[data-tried] >> text=does not comply")
    page.click("button:text-is('Save')")
    page.wait_for_selector("text=Saved.")
    frame = page.frame_locator("iframe.prose")
    frame.locator("h1").first.wait_for()
    goto(page, project)
    expect(page.locator("#outcome")).to_contain_text("cannot be determined")


def test_all_remarks_are_settled_in_one_step(page: Any, desk: RunningDesk) -> None:
    """Who has read the remarks says so once; what is left are other questions; one undoing brings the remarks back."""
    project = open_dairy(page, desk)
    goto(page, f"{project}/reading")
    left = page.locator(".lead b")
    before, remarks = int(left.inner_text()), page.locator("text=Read it: it changes nothing").count()
    assert remarks > 2
    page.click(f"text=I have read all {remarks} remarks and cells")
    expect(left).to_have_text(str(before - remarks))
    page.click("text=Undo")
    page.wait_for_selector("text=The last step was undone.")
    goto(page, f"{project}/reading")
    expect(left).to_have_text(str(before))


def test_leaving_with_a_note_that_is_not_saved_is_asked_about(page: Any, desk: RunningDesk) -> None:
    """Who follows a link with an unsaved note is asked; who stays still has the text, who has saved is not asked."""
    project = open_dairy(page, desk)
    goto(page, f"{project}/findings")
    page.locator("summary", has_text="Add a note").first.click()
    form = page.locator("details[open] form").first
    form.locator("textarea").press_sequentially("Not saved")
    asked = []
    page.on("dialog", lambda dialog: (asked.append(dialog.type), dialog.dismiss()))
    page.locator(".desk-bar a:text-is('Rounds')").click(no_wait_after=True)
    becomes(page, lambda: asked, ["beforeunload"])
    expect(form.locator("textarea")).to_have_value("Not saved")
    form.locator("button").click()
    page.wait_for_selector("text=Saved.")
    page.click(".desk-bar a:text-is('Rounds')")
    page.wait_for_selector("h1:text-is('Rounds')")
    assert asked == ["beforeunload"]


def test_a_file_that_takes_long_comes_with_a_page_that_says_so(page: Any, desk: RunningDesk, dairy: str) -> None:
    """The page that shows how far the work is never stands in a file; at the end the file comes, and a way back."""
    goto(page, f"{dairy}/findings")
    with page.expect_download() as download:
        page.click("text=Corrected workbook")
    assert download.value.suggested_filename.endswith("round-01-corrected.xlsx")
    if page.locator("[data-job]").count():
        expect(page.locator("[data-what]")).to_have_text("Done. The file is among your downloads.")
        page.click("text=Back to the page before")
    page.wait_for_selector("h1:text-is('Findings')")


def test_contractor_takes_a_blank_workbook_and_sees_corrections(page: Any, desk: RunningDesk, dairy: str) -> None:
    """From the blank workbook to the corrected one: each correction names what the line did not comply with."""
    goto(page, f"{dairy}/contractor")
    for words in ("Blank workbook", "Corrected workbook"):
        with page.expect_download() as download:
            page.click(f"text={words}")
        assert Path(download.value.path()).read_bytes()[:2] == b"PK"
    expect(page.locator("tbody tr", has_text="HHW-4")).not_to_have_count(0)


def test_resubmittal_is_compared_with_the_round_before(page: Any, desk: RunningDesk) -> None:
    """Of two lines that lacked thickness one was corrected: one finding is closed, the other stands."""
    first = b"Mark,Service,Pipe Size,Operating Temp,Insulation,Thickness\n"
    first += b"A,Chilled water,2 in,42 F,Elastomeric foam,1/4 in\n"
    first += b"B,Chilled water,2 in,42 F,Elastomeric foam,1/4 in\n"
    drop(page, desk, "one.csv", first, "energy/ashrae-90.1", "Two rounds")
    project = page.url
    goto(page, f"{project}/rounds")
    second = first.replace(b"foam,1/4 in", b"foam,2 in", 1)
    page.set_input_files("input[name=schedule]", {"name": "two.csv", "mimeType": "", "buffer": second})
    page.click("text=Add it as the next round")
    page.wait_for_selector("#became")
    expect(page.locator("main")).to_contain_text("closed")
    expect(page.locator("main")).to_contain_text("Round 2 beside round 1")


def test_long_work_is_followed_stopped_and_survives_a_closed_tab(browser: Any, desk: RunningDesk) -> None:
    """A long review shows how far it is; its tab is closed and it goes on; another is stopped and says so."""
    rows = b"Mark,Service,Pipe Size,Operating Temp,Insulation,Thickness\n" + b"".join(
        b"L-%d,Chilled water,%d in,4%d F,Elastomeric foam,%d/4 in\n" % (n, 1 + n % 8, n % 9, 1 + n % 7)
        for n in range(1500)
    )
    context = browser.new_context()
    context.set_default_timeout(PATIENCE)
    page = context.new_page()
    page.goto(desk.address)
    goto(page, desk.home)
    page.set_input_files("input[name=schedule]", {"name": "l.csv", "mimeType": "", "buffer": rows})
    page.check("input[value='trade-practice']")
    page.click("text=Check the schedule")
    page.wait_for_selector("[data-job], #outcome")  # a quick machine is done before anybody can see it work
    shown = page.locator("[data-job]")
    key = shown.get_attribute("data-job") if shown.count() else None
    project = page.url
    page.close()
    again = context.new_page()
    again.goto(project)
    again.wait_for_selector("[data-job], #outcome")
    if key is not None and again.locator("[data-job]").count():
        assert again.get_attribute("[data-job]", "data-job") == key
    again.wait_for_selector("#outcome")
    again.goto(f"{project}/contractor")
    again.wait_for_selector("[data-job]")
    expect(again.locator("[data-what]")).to_have_text(re.compile("[0-9]+ of 1500"))
    again.click("text=Stop")
    again.wait_for_selector("text=Reviews in this folder")
    goto(again, f"{project}/findings")
    expect(again.locator("[data-finding]")).not_to_have_count(0)
    context.close()


def test_a_value_of_the_system_is_changed_and_the_answer_moves(page: Any, desk: RunningDesk) -> None:
    """Twice the thickness makes the outside of a cold pipe warmer, so the text of the answer is another."""
    goto(page, f"{desk.home}/system")
    before = page.inner_text("[data-result] pre")
    page.fill("input[name='thickness']", "2 in")
    expect(page.locator("[data-result] pre")).not_to_have_text(before)
    expect(page.locator("[data-result] svg")).to_have_count(1)


def test_pdf_stands_as_a_picture_beside_what_was_read(page: Any, desk: RunningDesk, ruled_pdf: bytes) -> None:
    """A page of a PDF is drawn, and its cells are in the table beside it, each with what it was read as."""
    drop(page, desk, "s.pdf", ruled_pdf, "trade-practice", "A paper in PDF")
    goto(page, f"{page.url}/reading")
    picture = page.locator(".pages img").first
    comes_true(page, "one => one.complete && one.naturalWidth > 400", picture.element_handle())
    expect(page.locator(".paper-grid")).to_contain_text("thickness: 1 in")
    goto(page, page.url.replace("/reading", "/findings"))
    with page.expect_download() as download:
        page.click("text=Marked-up copy")
    assert Path(download.value.path()).read_bytes()[:5] == b"%PDF-"
    assert download.value.suggested_filename.endswith("marked.pdf")


def test_planted_script_never_runs(page: Any, desk: RunningDesk) -> None:
    """Script in every text of a submittal, in its name, in the name of the review and in a note stays text."""
    rows = f"Service,Pipe Size,Thickness,{SCRIPT}\nsteam {SCRIPT},2 in,1 in,{SCRIPT}\nsteam,2 in,{SCRIPT},x\n"
    file = {"name": "<img src=x onerror=alert(1)>.csv", "mimeType": "text/csv", "buffer": rows.encode()}
    page.set_input_files("input[name=schedule]", file)
    page.check("input[value='energy/ashrae-90.1']")
    page.fill("input[name=name]", SCRIPT)
    page.click("text=Check the schedule")
    page.wait_for_selector("#outcome, .diagnostics")
    project = page.url
    for screen in SCREENS:
        goto(page, f"{project}{screen}")
        planted_nothing(page)
    for field in ("thickness", "insulation", "units", "operating temperature"):
        goto(page, f"{desk.home}/system?{urlencode({field: SCRIPT})}")
        planted_nothing(page)


PLANTED = f"""ruleset "Trial {SCRIPT.replace('"', "'")}"
  speaks mechanical insulation
  units inch-pound
  caution "{SCRIPT}"

clause 1 "{SCRIPT}"
  source "{SCRIPT}" seen
  wording "{SCRIPT}"
  where service is steam
  shall thickness be at least 1 in
"""


def test_script_in_clauses_mapping_and_notes_never_runs(page: Any, desk: RunningDesk) -> None:
    """What a spec writer, a settled question and a reviewer's note say stays text on every screen and in the reply."""
    goto(page, desk.home)
    rows = f"Mark,Service,Thickness,{SCRIPT}\nA,steam,1/2 in,x\nB,{SCRIPT},1 in,x\n".encode()
    page.set_input_files("input[name=schedule]", {"name": "s.csv", "mimeType": "", "buffer": rows})
    page.check("input[value='own clauses']")
    page.set_input_files("input[name=clauses]", {"name": "p.clauses", "mimeType": "", "buffer": PLANTED.encode()})
    page.click("text=Check the schedule")
    page.wait_for_selector("#outcome")
    project = page.url
    goto(page, f"{project}/reading")
    page.click("text=Leave this column out")
    page.wait_for_selector("text=settled just now")
    goto(page, f"{project}/findings")
    page.locator("[data-finding] summary").first.click()
    form = page.locator("details[open] form").first
    form.locator("textarea").fill(SCRIPT)
    form.locator("[name=status]").fill(SCRIPT)
    form.locator("button").click()
    page.wait_for_selector("text=Saved.")
    for screen in (*SCREENS, "/clauses/prose", "/clauses/proofreading"):
        goto(page, f"{project}{screen}")
        planted_nothing(page)
    with page.expect_download() as download:
        page.goto(f"{project}/findings")
        page.click("text=Reply (page)")
    reply = Path(download.value.path())
    page.goto(reply.rename(reply.with_suffix(".html")).as_uri())
    planted_nothing(page)


def test_two_desks_on_one_folder_lose_no_note(browser: Any, desk: RunningDesk, dairy: str) -> None:
    """Two desks show one review; each saves a note, on other findings; both notes are there."""
    process, other = start_desk(desk.folder)
    try:
        contexts = [browser.new_context() for _ in range(2)]
        tabs = [context.new_page() for context in contexts]
        for number, (tab, mine) in enumerate(zip(tabs, (desk, other), strict=True)):
            tab.set_default_timeout(PATIENCE)
            tab.goto(mine.address)
            goto(tab, dairy.replace(desk.home, mine.home) + "/findings")
            tab.locator("[data-finding] summary").nth(5 + number).click()
        for number, tab in enumerate(tabs):
            form = tab.locator("[data-finding]").nth(5 + number).locator("form")
            form.locator("textarea").fill(f"from desk {number}")
            form.locator("button").click()
        for tab in tabs:
            tab.wait_for_selector("text=Saved.")
        assert {"from desk 0", "from desk 1"} <= set(notes_of(desk, dairy))
    finally:
        for context in contexts:
            context.close()
        process.terminate()
        process.wait(timeout=20)
        assert process.stdout is not None
        process.stdout.close()


@pytest.mark.parametrize("theme", ["light", "dark"])
@pytest.mark.parametrize("width", [1440, 390])
def test_every_screen_is_readable_by_everybody(
    browser: Any, desk: RunningDesk, dairy: str, begun: str, width: int, theme: str
) -> None:
    """No screen breaks a rule of axe-core (WCAG 2.2), and none is wider than its window."""
    addresses = every_screen(desk, dairy, begun)
    assert faults(browser, (width, theme), addresses, goto, first=desk.address) == []
