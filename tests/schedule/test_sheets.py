"""Workbooks of several sheets, with macros, and in the old format."""

from __future__ import annotations

from pathlib import Path

import pytest

from speccheck.language.diagnostics import Diagnostic, Place, Severity
from speccheck.schedule import Schedule, ScheduleMapping, read_schedule
from speccheck.schedule.lines import UnreadKind
from speccheck.schedule.mapping import MappedColumn
from tests.schedule.building import FILES, small_vocabulary, write_workbook, written_diagnostics, written_lines

SHEETS = [
    {"name": "Piping", "rows": "Size|Thk\n2 in|1 in\n3 in|1 in"},
    {"name": "Roof", "rows": "|Size|Thk\n|4 in|2 in"},
    {"name": "Old", "hidden": True, "rows": "Size|Thk\n6 in|3 in"},
]


@pytest.fixture
def workbook(tmp_path: Path) -> Path:
    """Write a workbook of three sheets, one of them hidden."""
    path = tmp_path / "sheets.xlsx"
    write_workbook(path, SHEETS)
    return path


def test_all_sheets_that_are_shown_are_read(workbook: Path) -> None:
    """Lines of several sheets carry the name of their sheet; the hidden sheet is left out and told."""
    schedule = read_schedule(workbook, small_vocabulary())
    assert written_lines(schedule) == [
        "Piping row 2: pipe size 2 in; thickness 1 in",
        "Piping row 3: pipe size 3 in; thickness 1 in",
        "Roof row 2: pipe size 4 in; thickness 2 in",
    ]
    assert [found.code for found in schedule.diagnostics] == ["S203"]


def test_a_hidden_sheet_without_a_schedule_is_a_note(tmp_path: Path) -> None:
    """Lists that cells are chosen from are hidden for a reason: that they were not read is no warning."""
    lists = {"name": "Lists", "hidden": True, "rows": "Makes of tape|Colors\nfoil|white"}
    write_workbook(tmp_path / "lists.xlsx", [SHEETS[0], lists])
    schedule = read_schedule(tmp_path / "lists.xlsx", small_vocabulary())
    assert written_diagnostics(schedule) == [
        "note[S203]: sheet `Lists` is hidden, and its 4 filled cells were not read\n"
        "  at lists.xlsx sheet Lists\n"
        "  help: ask for the sheet by its name"
    ]


@pytest.mark.parametrize("by_mapping", [True, False])
def test_a_sheet_that_is_asked_for_is_read_even_if_hidden(workbook: Path, by_mapping: bool) -> None:
    """Only the sheet that is asked for is read; what stands on the others is told."""
    if by_mapping:
        schedule = read_schedule(workbook, small_vocabulary(), ScheduleMapping(sheet="Old"))
    else:
        schedule = read_schedule(workbook, small_vocabulary(), ScheduleMapping(sheet="Roof"), sheet="Old")
    assert written_lines(schedule) == ["row 2: pipe size 6 in; thickness 3 in"]
    assert written_diagnostics(schedule) == [
        "note[S202]: sheet `Piping` was not asked for, and its 6 filled cells were not read\n"
        "  at sheets.xlsx sheet Piping",
        "note[S202]: sheet `Roof` was not asked for, and its 4 filled cells were not read\n  at sheets.xlsx sheet Roof",
    ]


def test_macros_are_never_run_and_that_is_said(workbook: Path) -> None:
    """A workbook with macros is read like any other, with a note."""
    path = workbook.rename(workbook.with_suffix(".xlsm"))
    schedule = read_schedule(path, small_vocabulary(), sheet="Roof")
    assert written_lines(schedule) == ["row 2: pipe size 4 in; thickness 2 in"]
    assert written_diagnostics(schedule)[0] == (
        "note[S107]: the workbook may hold macros, which are never run; its cells are read as they were last saved\n"
        "  at sheets.xlsm"
    )


def test_a_workbook_in_the_old_format_that_is_damaged(tmp_path: Path) -> None:
    """An .xls workbook is a compound file; one without a workbook in it is damaged."""
    path = tmp_path / "old.xls"
    path.write_bytes(bytes.fromhex("D0CF11E0A1B11AE1") + bytes(1016))
    schedule = read_schedule(path, small_vocabulary())
    assert schedule.lines == ()
    assert written_diagnostics(schedule) == [
        "error[S104]: `old.xls` is damaged and cannot be read as a workbook\n  at old.xls\n"
        "  help: open the workbook in a spreadsheet program and save it again as .xlsx"
    ]


def test_text_that_looks_like_a_formula_is_kept_as_text(tmp_path: Path) -> None:
    """A text cell that begins with = in a workbook is text, not a formula, and is kept as it is."""
    import openpyxl

    path = tmp_path / "text.xlsx"
    book = openpyxl.Workbook()
    sheet = book.active
    assert sheet is not None
    for row in (["Size", "Notes"], ["2 in", "x"]):
        sheet.append(row)
    sheet["B2"].value = "=1+1"
    sheet["B2"].data_type = "s"
    book.save(path)
    assert written_lines(read_schedule(path, small_vocabulary())) == ["row 2: pipe size 2 in; notes =1+1"]


HIDDEN = [{"name": "Piping", "hidden_rows": [3], "hidden_columns": ["B"], "rows": "Size|Thk\n2 in|1 in\n3 in|1 in"}]


@pytest.mark.parametrize(
    ("mapping", "lines"),
    [
        (ScheduleMapping(), ["row 2: pipe size 2 in"]),
        (ScheduleMapping(columns={"B": MappedColumn("thickness")}), ["row 2: pipe size 2 in; thickness 1 in"]),
        (
            ScheduleMapping(read_hidden=True),
            ["row 2: pipe size 2 in; thickness 1 in", "row 3: pipe size 3 in; thickness 1 in"],
        ),
    ],
)
def test_what_is_hidden_is_read_only_where_a_mapping_file_says_so(
    mapping: ScheduleMapping, lines: list[str], tmp_path: Path
) -> None:
    """Hidden rows and columns are left out; a column that the mapping file names, or all of them, come back by it."""
    path = tmp_path / "hidden.xlsx"
    write_workbook(path, HIDDEN)
    assert written_lines(read_schedule(path, small_vocabulary(), mapping)) == lines


def test_the_name_of_a_sheet_says_something_only_in_words(tmp_path: Path) -> None:
    """A sheet called "Chilled Water" gives its lines their service; one called "R" says nothing of refrigerant."""
    for name, told in (("Chilled Water", "; service chilled water"), ("R", ""), ("S", "")):
        write_workbook(tmp_path / "named.xlsx", [{"name": name, "rows": "Size|Thk\n2 in|1 in"}])
        schedule = read_schedule(tmp_path / "named.xlsx", small_vocabulary())
        assert written_lines(schedule) == [f"row 2: pipe size 2 in; thickness 1 in{told}"]


@pytest.mark.parametrize(("shown", "left"), [("0.0", 0), ("0.00", 0), ("0", 1)])
def test_digits_that_a_cell_hides_are_for_a_person_where_they_matter(tmp_path: Path, shown: str, left: int) -> None:
    """2.0 for 1.9685 in is what is proposed; 2 for 1.5 in may be either, so that nothing is read."""
    held = "1.9685" if shown != "0" else "1.5"
    write_workbook(
        tmp_path / "digits.xlsx", [{"name": "Lines", "rows": f"Size|Thk (in)\n2 in|{held}", "formats": {"B2": shown}}]
    )
    schedule = read_schedule(tmp_path / "digits.xlsx", small_vocabulary())
    said = {"0.0": "2 in", "0.00": "1.97 in", "0": "not given (2)"}[shown]
    assert written_lines(schedule) == [f"row 2: pipe size 2 in; thickness {said}"]
    message = "the cell shows `2`, and the number in it differs by more than 2 %"
    help = "write the value that is proposed, with all its digits shown"
    place = Place("digits.xlsx", sheet="Lines", cell="B2")
    told = [one for one in schedule.diagnostics if one.severity is Severity.WARNING]
    assert told == [Diagnostic("S314", Severity.WARNING, message, place, help)] * left


def test_an_old_workbook_is_never_read_as_a_whole() -> None:
    """What .xls strikes in part is not seen, so that a person has to look, unless a mapping file says that one did."""
    as_named = ScheduleMapping(seen=("Old",))
    (left,) = read_schedule(FILES / "old.xls", small_vocabulary(), as_named).unread
    assert left.kind is UnreadKind.OTHER
    assert left.text.startswith("text struck out in part, comments")
    assert read_schedule(FILES / "old.xls", small_vocabulary(), ScheduleMapping(seen=("Old", left.text))).unread == ()


def _sheet_named(folder: Path, name: str, mapping: ScheduleMapping | None = None) -> Schedule:
    """Return what is read of a workbook with one small sheet of a name."""
    write_workbook(folder / "named.xlsx", [{"name": name, "rows": "Size|Thk\n2 in|1 in"}])
    return read_schedule(folder / "named.xlsx", small_vocabulary(), mapping or ScheduleMapping())


@pytest.mark.parametrize("name", ["Superseded", "EXISTING", "Demo", "Template", "As-built", "Do not use", "Rejected"])
def test_the_name_of_a_sheet_can_leave_in_doubt_whether_its_lines_are_proposed(name: str, tmp_path: Path) -> None:
    """A sheet whose name says nothing but that it is no proposal is read, told of, and left for a person to see."""
    schedule = _sheet_named(tmp_path, name)
    assert len(schedule.lines) == 1
    assert written_diagnostics(schedule) == [
        f"warning[S214]: the table under `{name}` is perhaps not what is proposed, and was read like any other\n"
        f"  at named.xlsx sheet {name}\n"
        "  help: delete it, or say in a mapping file which row is the header, if it is not proposed"
    ]
    assert [left.text for left in schedule.unread] == [name]


@pytest.mark.parametrize("name", ["Schedule", "Existing Hospital", "Demo kitchen", "Old Mill Lane", "Sheet1", "Piping"])
def test_the_name_of_a_sheet_that_names_a_place_leaves_nothing_in_doubt(name: str, tmp_path: Path) -> None:
    """A word such as existing beside the name of a building says nothing of the lines."""
    assert _sheet_named(tmp_path, name).unread == ()


def test_a_sheet_whose_name_a_person_has_seen_is_settled(tmp_path: Path) -> None:
    """The mapping file's `seen` settles the name of a sheet as it settles a remark."""
    schedule = _sheet_named(tmp_path, "Existing", ScheduleMapping(seen=("Existing",)))
    assert schedule.unread == ()
    assert written_diagnostics(schedule) == []
