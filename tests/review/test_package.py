"""Several files as one submittal: what each was read as, lines numbered through, one outcome."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner

from speccheck.cli import speccheck
from speccheck.language import load_ruleset
from speccheck.review.package import Package, ReadAs, files_of, read_package

PAPERS = Path(__file__).parents[2] / "examples" / "papers"
HEADER = "Mark,Product,Insulation,Conductivity,Mean Temp,Thk (in),Flame Spread\n"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A submittal of five files: a schedule, its continuation, a table of product data, a data sheet, a cover."""
    inside = tmp_path / "submittal"
    inside.mkdir()
    shutil.copy(PAPERS / "schedule.csv", inside / "1-schedule.csv")
    shutil.copy(PAPERS / "tansyfoam.docx", inside)
    lines = (
        "P-2,Tansyfoam A10,elastomeric foam,,75 F,2,25\n",
        "P-3,Brindlewrap B20,fiberglass,0.26 Btu.in/(h.ft2.F),75 F,2,20\n",
    )
    (inside / "2-continuation.csv").write_text(HEADER + "".join(lines))
    (inside / "products.csv").write_text(
        "Product,Conductivity,Mean Temp,Flame Spread\nBrindlewrap B20,0.26 Btu.in/(h.ft2.F),75 F,20\n"
    )
    (inside / "cover.txt").write_text("Please find enclosed our schedule.\n")
    (inside / ".hidden").write_text("nothing")
    return inside


def _read(folder: Path) -> Package:
    ruleset = load_ruleset(PAPERS / "project.clauses").ruleset
    assert ruleset is not None
    return read_package(files_of([folder]), ruleset)


def test_each_file_is_read_as_what_it_is(folder: Path) -> None:
    """By its lines, not by its name; what is none of these keeps the whole from being told to comply."""
    package = _read(folder)
    assert {file.path.name: file.read_as for file in package.files} == {
        "1-schedule.csv": ReadAs.SCHEDULE,
        "2-continuation.csv": ReadAs.SCHEDULE,
        "cover.txt": ReadAs.NOTHING,
        "products.csv": ReadAs.PRODUCT_DATA,
        "tansyfoam.docx": ReadAs.DATA_SHEET,
    }
    assert [one.text for one in package.schedule.unread if "cover" in one.text] == ["nothing of cover.txt was read"]


def test_lines_are_numbered_through(folder: Path) -> None:
    """The lines of all schedules follow each other; a name that two files have says which file it is from."""
    schedule = _read(folder).schedule
    assert [line.name for line in schedule.lines] == [
        "P-1", "P-2 (1-schedule.csv)", "P-2 (2-continuation.csv)", "P-3",
    ]  # fmt: skip
    assert {line.place.file for line in schedule.lines} == {"1-schedule.csv", "2-continuation.csv"}
    assert schedule.name == "1-schedule.csv, 2-continuation.csv"


def test_the_command_gives_one_outcome(folder: Path) -> None:
    """The data sheet and the table are evidence without being named, and one report has the lines of both schedules."""
    page = folder.parent / "report.html"
    call = ["check", str(folder), "--against", str(PAPERS / "project.clauses"), "--page", str(page), "--full"]
    result = CliRunner().invoke(speccheck, call, standalone_mode=False)
    assert result.return_value == 2
    words = " ".join(result.output.split())
    assert "1-schedule.csv was read as a schedule, 2 lines" in words
    assert "tansyfoam.docx was read as a data sheet of Tansyfoam A10" in words
    assert "line `P-1` states conductivity 0.25 Btu.in/(h.ft2.F), and the product data of `Tansyfoam A10` 0.27" in words
    assert "P-2 (2-continuation.csv)" in page.read_text("utf-8")


def test_a_folder_alone_and_its_files_are_the_same(folder: Path) -> None:
    """Hidden files are left out, and a file that is named twice is read once."""
    files = files_of([folder])
    assert [path.name for path in files] == [
        "1-schedule.csv", "2-continuation.csv", "cover.txt", "products.csv", "tansyfoam.docx",
    ]  # fmt: skip
    assert files_of([folder, folder / "cover.txt"]) == files
