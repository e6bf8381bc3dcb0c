"""Mapping files: what they settle, and what is said of the ones that cannot be used."""

from __future__ import annotations

from pathlib import Path

import pytest

from speccheck.schedule import ScheduleMapping, read_mapping, read_schedule
from tests.schedule.building import (
    FILES,
    small_vocabulary,
    write_workbook,
    written_columns,
    written_diagnostics,
    written_lines,
)

ROWS = """
Project notes | Size | Thk
Service | Dia. | How thick | Rev | Op. temp | Finish
Chilled Wtr Sup | 2 | 25 | A | 42 | red
 | 4 | 38 | B | 45 | red"""


@pytest.fixture
def workbook(tmp_path: Path) -> Path:
    """Write a workbook that leaves several things open, and whose first row looks like a header."""
    path = tmp_path / "open.xlsx"
    write_workbook(path, [{"name": "Lines", "rows": ROWS.strip("\n")}])
    return path


def usable(file: str) -> ScheduleMapping:
    """Return the mapping of a file without faults."""
    mapping, problems = read_mapping(FILES / file, small_vocabulary())
    assert problems == ()
    assert mapping is not None
    return mapping


def test_a_mapping_file_settles_what_the_schedule_leaves_open(workbook: Path) -> None:
    """Header row, columns by header and by letter, units, values, columns to ignore and blanks are as the file says."""
    schedule = read_schedule(workbook, small_vocabulary(), usable("settles.toml"))
    assert written_columns(schedule) == [
        "A2 Service = service",
        "B2 Dia. = pipe size",
        "C2 How thick = thickness in mm",
        "D2 Rev = ?",
        "E2 Op. temp = operating temperature",
        "F2 Finish = ?",
    ]
    assert written_lines(schedule) == [
        "row 3: service chilled water; pipe size 2 in; thickness 25 mm; operating temperature 42 F",
        "row 4: pipe size 4 in; thickness 38 mm; operating temperature 45 F",
    ]
    assert schedule.diagnostics == ()
    assert schedule.lines[0].data["service"].note == "read as `chilled water` by the mapping file"
    assert schedule.lines[0].data["thickness"].note == "unit mm from the column"
    assert schedule.lines[0].data["operating temperature"].note == "unit of the inch-pound schedule"


def test_blanks_repeat_where_the_mapping_file_says_so(workbook: Path) -> None:
    """`repeat-blanks` names the terms whose blanks repeat the value above; the note still says where."""
    mapping = ScheduleMapping(header_rows=(2,), units="metric", repeat_blanks=("service",))
    schedule = read_schedule(workbook, small_vocabulary(), mapping)
    assert schedule.lines[1].data["service"].note == "repeated from A3"
    assert any(text.startswith("note[S306]: 1 blank cell of column A") for text in written_diagnostics(schedule))


def test_entries_for_columns_that_are_not_there(workbook: Path) -> None:
    """An entry for a column that the schedule does not have is told, with the header that it may have meant."""
    mapping = ScheduleMapping("map.toml", header_rows=(2,), ignore=("Finnish", "Z"))
    texts = written_diagnostics(read_schedule(workbook, small_vocabulary(), mapping))
    assert "warning[S403]: the schedule has no column `Finnish`\n  at map.toml\n  help: did you mean `Finish`?" in texts
    assert (
        "warning[S403]: the schedule has no column `Z`\n  at map.toml\n  help: write the header as the schedule has it"
        in texts
    )


@pytest.mark.parametrize(
    ("file", "expected"),
    [
        (
            "unknown_names.toml",
            [
                "error[S402]: the vocabulary has no term `thicknes`\n  at unknown_names.toml:3:5\n"
                '  | A = "thicknes"\n  |     ^^^^^^^^^^\n  help: did you mean `thickness`?',
                "error[S402]: `F` is not a unit of `thickness`\n  at unknown_names.toml:4:34\n"
                '  | B = { term = "thickness", unit = "F" }\n  |                                  ^^^\n'
                "  help: write in or mm",
                "error[S402]: `hot watr` is not a value of `service`\n  at unknown_names.toml:6:9\n"
                '  | "hot" = "hot watr"\n  |         ^^^^^^^^^^\n'
                "  help: did you mean `heating hot water`? the values of `service` are: chilled water, "
                "heating hot water, refrigerant suction",
                "error[S402]: the vocabulary has no term `colour`\n  at unknown_names.toml:7:1\n"
                "  | [values.colour]\n  | ^^^^^^^^^^^^^^^\n  help: name a term of the vocabulary: `speccheck terms`",
            ],
        ),
        (
            "wrong_shape.toml",
            [
                'error[S402]: `units` cannot be `"imperial"`\n  at wrong_shape.toml:1:9\n'
                '  | units = "imperial"\n  |         ^^^^^^^^^^\n  help: write "inch-pound" or "metric"',
                "error[S402]: `header-row` cannot be `0`\n  at wrong_shape.toml:2:14\n"
                "  | header-row = 0\n  |              ^\n"
                "  help: write a row number from 1, or a list of up to three",
                'error[S402]: there is no key `colour`\n  at wrong_shape.toml:3:1\n  | colour = "red"\n  | ^^^^^^\n'
                "  help: did you mean `columns`?",
                "error[S402]: `columns.A` cannot be `3`\n  at wrong_shape.toml:5:5\n  | A = 3\n  |     ^\n"
                "  help: write the name of a term, or a term and its unit",
            ],
        ),
        (
            "not_toml.toml",
            ["error[S401]: this is not TOML: invalid value\n  at not_toml.toml:1:9\n  | units = \n  |         ^"],
        ),
        ("none.toml", ["error[S401]: `none.toml` cannot be opened: no such file or directory\n  at none.toml"]),
        (
            "code_page_1252.csv",
            [
                "error[S401]: `code_page_1252.csv` is not text in UTF-8\n  at code_page_1252.csv\n"
                "  help: save it as text in UTF-8"
            ],
        ),
    ],
)
def test_what_is_wrong_with_a_mapping_file(file: str, expected: list[str]) -> None:
    """Every fault of a mapping file is told in full, and nothing of it is used."""
    mapping, problems = read_mapping(FILES / file, small_vocabulary())
    assert mapping is None
    assert [str(problem) for problem in problems] == expected
