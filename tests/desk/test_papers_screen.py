"""Papers beside a submittal, and a submittal of several files: dropped, read, found by, taken out, undone."""

from __future__ import annotations

import json
import re
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from speccheck.cli import speccheck
from speccheck.desk.papers import matrix_of
from speccheck.desk.projects import Project, Projects
from speccheck.desk.work_papers import beside
from speccheck.report.sections import sections
from tests.browsing import PATIENCE, expect
from tests.desk.conftest import TOP, RunningDesk
from tests.desk.hands import Mouse
from tests.schedule.formats.papers import write_ruled_pdf, write_unruled_pdf

DAIRY = TOP / "examples" / "dairy"
SECOND = DAIRY / "second-round"
FILES = {
    "design": SECOND / "design-list.csv",
    "products": SECOND / "products.toml",
    "deviations": SECOND / "deviations.toml",
    "received": DAIRY / "received.toml",
}


def add(page: Any, kind: str, file: Path) -> None:
    """Put a paper of a kind in its place."""
    form = page.locator(f"section:has(#paper-{kind}) form:has(input[type=file])")
    form.locator("input[type=file]").set_input_files(file)
    form.locator("button").click()
    expect(page.locator(f"section:has(#paper-{kind}) .paper-file")).to_have_count(1)


@pytest.fixture
def page(browser: Any, desk: RunningDesk) -> Iterator[Any]:
    """A page that has the cookie of the desk; an answer that refuses something stands on the console of a browser."""
    context = browser.new_context(viewport={"width": 1440, "height": 900}, accept_downloads=True)
    context.set_default_timeout(PATIENCE)
    opened = context.new_page()
    opened.goto(desk.address)
    yield opened
    context.close()


@pytest.fixture
def second_round(page: Any, desk: RunningDesk) -> str:
    """The address of a project whose submittal is the dairy's second round."""
    page.set_input_files("input[name=schedule]", SECOND / "resubmittal.xlsx")
    page.check("input[value='own clauses']")
    page.set_input_files("input[name=clauses]", DAIRY / "project.clauses")
    page.fill("input[name=name]", "Second round")
    page.click("text=Check the schedule")
    page.wait_for_selector("#outcome")
    return str(page.url)


def test_papers_are_dropped_read_and_checked_against(page: Any, desk: RunningDesk, second_round: str) -> None:
    """All four kinds: what each was read as, and every observation that `check` makes with the same files."""
    page.goto(f"{second_round}/papers")
    for kind, file in FILES.items():
        add(page, kind, file)
    page.fill("input[name=on]", "2026-03-04")
    page.click("text=Set the day")
    expect(page.locator("form.undo")).to_contain_text("day of the review: 2026-03-04")
    rows = page.locator("section:has(#paper-deviations) tbody tr")
    written = tomllib.loads(FILES["deviations"].read_text("utf-8"))["deviation"]
    expect(rows).to_have_count(len(written))
    expect(page.locator("section:has(#paper-design) .paper-file tbody tr")).to_have_count(
        len(FILES["design"].read_text("utf-8").splitlines()) - 2
    )
    project = Project(desk.folder / second_round.rsplit("/", 1)[1])
    assert str(project.settings.on) == "2026-03-04"
    wanted = {
        "schedule": str(SECOND / "resubmittal.xlsx"), "against": str(DAIRY / "project.clauses"), "on": "2026-03-04",
        "design": str(FILES["design"]), "products": [str(FILES["products"])],
        "deviations": str(FILES["deviations"]), "received": str(FILES["received"]),
    }  # fmt: skip
    for section in sections(matrix_of(wanted)):
        shown = page.locator("section", has=page.locator(f"h2:text-is('{section.title}')")).last.locator("tbody tr")
        expect(shown).to_have_count(len(section.rows))
    page.click(".desk-bar a:text-is('Findings')")
    expect(page.locator(".lead")).to_contain_text("papers beside it")
    page.click(".desk-bar a:text-is('Matrix')")
    expect(page.locator("#products, #design").first).to_be_attached()


def test_a_paper_that_cannot_be_used_is_told_and_taken_out(page: Any, desk: RunningDesk, second_round: str) -> None:
    """A register with a mistake stops every verdict and says where; taken out, the review is there."""
    page.goto(f"{second_round}/papers")
    bad = desk.folder / "bad.toml"
    bad.write_text('[[deviation]]\nname = "D-1"\nclause = "no such clause"\n', "utf-8")
    add(page, "deviations", bad)
    expect(page.locator(".paper-file")).to_contain_text("nothing is judged until it is replaced or taken out")
    expect(page.locator(".paper-file .diagnostics li")).not_to_have_count(0)
    page.goto(f"{second_round}/findings")
    expect(page.locator("h1")).to_have_text("Nothing was judged")
    page.click("text=look at what stands beside the submittal")
    page.click("text=Take it out of the review")
    expect(page.locator(".paper-file")).to_have_count(0)
    page.goto(f"{second_round}/findings")
    expect(page.locator("[data-finding]")).not_to_have_count(0)
    page.click("text=Undo")
    page.wait_for_selector("text=The last step was undone.")
    page.goto(f"{second_round}/papers")
    expect(page.locator(".paper-file")).to_have_count(1)


def test_a_file_of_another_kind_is_refused(page: Any, second_round: str) -> None:
    """A register of deviations is a TOML file; a workbook in its place is told so, and nothing is kept."""
    page.goto(f"{second_round}/papers")
    form = page.locator("section:has(#paper-deviations) form:has(input[type=file])")
    form.locator("input[type=file]").set_input_files(SECOND / "resubmittal.xlsx")
    form.locator("button").click()
    expect(page.locator("main")).to_contain_text(".xlsx is not read here; give one of these: .toml")


def test_several_files_are_one_submittal(page: Any, desk: RunningDesk) -> None:
    """Two schedules and a data sheet in one go: the lines of both, the sheet as evidence, a marked copy of each."""
    openpyxl = pytest.importorskip("openpyxl")
    folder = desk.folder.parent / "package"
    folder.mkdir(exist_ok=True)
    header = ["Mark", "Product", "Insulation", "Conductivity", "Mean Temp", "Thk (in)", "Flame Spread"]
    for name, mark in (("North wing", "N-1"), ("South wing", "S-1")):
        book = openpyxl.Workbook()
        book.active.append(header)
        row = [mark, "Tansyfoam A10", "elastomeric foam", "0.25 Btu.in/(h.ft2.F)", "75 F", "1", "25"]
        book.active.append(row)
        book.save(folder / f"{name}.xlsx")
    sheet = TOP / "examples" / "papers" / "tansyfoam.docx"
    page.set_input_files("input[name=schedule]", [folder / "North wing.xlsx", folder / "South wing.xlsx", sheet])
    expect(page.locator("[data-drop] .words").first).to_have_text("North wing.xlsx, South wing.xlsx, tansyfoam.docx")
    page.check("input[value='own clauses']")
    page.set_input_files("input[name=clauses]", TOP / "examples" / "papers" / "project.clauses")
    page.fill("input[name=name]", "A package")
    page.click("text=Check the schedule")
    page.wait_for_selector("#outcome")
    address = page.url
    kept = sorted(one.name for one in (desk.folder / "a-package/rounds/01/submittal").iterdir())
    assert kept == ["01-north-wing.xlsx", "02-south-wing.xlsx", "03-tansyfoam.docx"]
    page.goto(f"{address}/reading")
    read = page.locator("main .plain-list li")
    expect(read).to_have_text([
        re.compile("01-north-wing.xlsx was read as a schedule, 1 line"),
        re.compile("02-south-wing.xlsx was read as a schedule, 1 line"),
        re.compile("03-tansyfoam.docx was read as a data sheet of Tansyfoam A10"),
    ])  # fmt: skip
    page.goto(f"{address}/matrix")
    expect(page.locator("#grid tbody th b")).to_have_text(["N-1", "S-1"])
    page.goto(f"{address}/findings")
    for name in ("01-north-wing.xlsx", "02-south-wing.xlsx"):
        with page.expect_download() as download:
            page.click(f"text=Marked-up copy of {name}")
        assert Path(download.value.path()).read_bytes()[:2] == b"PK"
        assert download.value.suggested_filename == f"a-package-round-01-marked-{name}"


def test_a_package_is_judged_as_check_judges_it(tmp_path: Path) -> None:
    """The same folder, given to `check` and to the desk: the same verdict in the same words, the same table of data."""
    folder = tmp_path / "sent"
    folder.mkdir()
    for name in ("schedule.csv", "tansyfoam.docx"):
        (folder / name).write_bytes((TOP / "examples" / "papers" / name).read_bytes())
    against = str(TOP / "examples" / "papers" / "project.clauses")
    report = tmp_path / "report.json"
    words = ["check", str(folder), "--against", against, "--json", str(report)]
    CliRunner().invoke(speccheck, words, standalone_mode=False)
    told = json.loads(report.read_text("utf-8"))["observations"]
    found = matrix_of({"schedule": str(folder), "against": against})
    assert [one.diagnostic.message for one in found.observations] == [one["message"] for one in told]
    assert told


def test_each_paper_is_read_by_itself(tmp_path: Path) -> None:
    """One that cannot be used is told with its place, and the others are still read."""
    project = Projects(tmp_path).make("A plant", "trade-practice")
    project.write(("papers", "deviations.toml"), "[[deviation]]\nname = 3\n", "", "")
    project.write(("rounds", "01", "submittal.csv"), "Mark,Service\nA,chilled water\n", "", "")
    papers = {
        "schedule": str(project.submittal("01")), "against": "trade-practice",
        "deviations": str(project.inside("papers", "deviations.toml")), "design": str(FILES["design"]),
    }  # fmt: skip
    found = beside({"papers": papers}, lambda *_: None)
    assert [(one["kind"], one["usable"], bool(one["rows"])) for one in found["papers"]] == [
        ("design", True, True), ("deviations", False, False),
    ]  # fmt: skip
    assert "deviations.toml" in found["papers"][1]["problems"][-1]["message"]
    assert found["sections"] == []


SHEET = (
    ("Tansyfoam A10", ""),
    ("Thermal conductivity at 75 °F", "0.28 Btu·in/(h·ft²·°F)"),
    ("Density", "3 pcf"),
    ("Flame spread index", "25"),
)


@pytest.mark.parametrize("ruled", [True, False])
def test_a_data_sheet_in_pdf_is_dropped_and_held_to_the_lines(
    page: Any, desk: RunningDesk, ruled: bool, tmp_path: Path
) -> None:
    """It is read as a sheet of its product, page by page; what it shows differently is told with both values."""
    schedule = tmp_path / "schedule.csv"
    schedule.write_text(
        "Mark,Product,Insulation,Conductivity,Mean Temp,Thk (in),Flame Spread\n"
        "N-1,Tansyfoam A10,elastomeric foam,0.25 Btu.in/(h.ft2.F),75 F,1,25\n",
        "utf-8",
    )
    sheet = tmp_path / "tansyfoam.pdf"
    (write_ruled_pdf if ruled else write_unruled_pdf)(sheet, SHEET)
    page.set_input_files("input[name=schedule]", schedule)
    page.check("input[value='own clauses']")
    page.set_input_files("input[name=clauses]", TOP / "examples" / "papers" / "project.clauses")
    page.fill("input[name=name]", "A data sheet")
    page.click("text=Check the schedule")
    page.wait_for_selector("#outcome")
    page.goto(f"{page.url}/papers")
    form = "section:has(#paper-products) form:has(input[type=file])"
    hand = Mouse(page)
    hand.give(f"{form} input[type=file]", sheet)
    hand.press(f"{form} button")
    paper = page.locator("section:has(#paper-products) .paper-file")
    expect(paper).to_have_count(1)
    expect(paper).to_contain_text("Tansyfoam A10")
    expect(paper).to_contain_text("0.28")
    observation = page.locator("tr", has_text="line N-1 states conductivity")
    expect(observation).to_have_count(1)
    expect(observation).to_contain_text("0.25 Btu.in/(h.ft2.F), and the product data of Tansyfoam A10 0.28 Btu")
    expect(observation).to_contain_text("on page 1 of products-01-tansyfoam.pdf")
    expect(page.locator("tr", has_text="line N-1 states flame spread 25, shown on page 1")).to_have_count(1)
