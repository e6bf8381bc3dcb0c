"""What a mapping file can say of a schedule beyond its columns: constants, likenesses, notes, legends, bands."""

from __future__ import annotations

from pathlib import Path

import pytest

from speccheck.schedule import Schedule, ScheduleMapping, read_mapping, read_schedule
from tests.schedule.building import small_vocabulary, write_workbook, written_diagnostics, written_lines


def mapping(tmp_path: Path, text: str) -> ScheduleMapping:
    """Return the mapping of a file with this text, which has no faults."""
    path = tmp_path / "map.toml"
    path.write_text(text, encoding="utf-8")
    found, problems = read_mapping(path, small_vocabulary())
    assert problems == ()
    assert found is not None
    return found


def read(tmp_path: Path, settles: str, *sheets: tuple[str, str]) -> Schedule:
    """Read a workbook of named sheets with the mapping that `settles` it."""
    path = tmp_path / "book.xlsx"
    write_workbook(path, [{"name": name, "rows": rows.strip("\n")} for name, rows in sheets])
    return read_schedule(path, small_vocabulary(), mapping(tmp_path, settles))


LINES = """
Mark | Service | Thk (in) | Location
A | CHW | 1 | outdoor
B | HHW | 2 |
C | HHW | 2 | TBD"""


def test_constants_hold_where_a_line_states_nothing(tmp_path: Path) -> None:
    """What a line states stays, a blank takes the constant, and words in the place of a value stay open."""
    schedule = read(tmp_path, '[constants]\nlocation = "plenum"\njacket = "PVC"', ("Lines", LINES))
    assert written_lines(schedule) == [
        "A: service chilled water; thickness 1 in; location outdoor; jacket PVC",
        "B: service heating hot water; thickness 2 in; location plenum; jacket PVC",
        "C: service heating hot water; thickness 2 in; location not given (TBD); jacket PVC",
    ]


def test_the_narrowest_constant_counts(tmp_path: Path) -> None:
    """A constant under a heading wins over one of its sheet, and that over one of all lines."""
    settles = """
[constants]
jacket = "none"
[[tables]]
sheet = "Roof*"
constants = { jacket = "PVC", location = "outdoor" }
[[tables]]
heading = "*cold room*"
constants = { jacket = "aluminum" }
"""
    rows = "Mark | Service | Thk (in)\nA | CHW | 1\n\nPiping in the cold room\nMark | Service | Thk (in)\nB | CHW | 2"
    schedule = read(tmp_path, settles, ("Roof 1", rows), ("Cellar", rows.replace("A |", "C |").replace("B |", "D |")))
    assert written_lines(schedule) == [
        "A: service chilled water; thickness 1 in; jacket PVC; location outdoor",
        "B: service chilled water; thickness 2 in; jacket aluminum; location outdoor",
        "C: service chilled water; thickness 1 in; jacket none",
        "D: service chilled water; thickness 2 in; jacket aluminum",
    ]


def test_constants_hold_under_a_section_heading(tmp_path: Path) -> None:
    """A heading between the lines of one table begins where it stands, and ends at the next."""
    rows = "Mark | Service | Thk (in)\nKitchen\nA | CHW | 1\nB | CHW | 1\nOffices\nC | CHW | 2"
    settles = '[[tables]]\nheading = "Kitchen"\nconstants = { jacket = "aluminum" }'
    assert written_lines(read(tmp_path, settles, ("Lines", rows))) == [
        "A: service chilled water; thickness 1 in; jacket aluminum",
        "B: service chilled water; thickness 1 in; jacket aluminum",
        "C: service chilled water; thickness 2 in",
    ]


def test_tables_that_are_not_there(tmp_path: Path) -> None:
    """An entry for a sheet or a heading that the schedule does not have is told."""
    settles = """
[[tables]]
sheet = "Roof"
constants = { jacket = "PVC" }
[[tables]]
heading = "*cold*"
constants = { jacket = "PVC" }
"""
    assert [text for text in written_diagnostics(read(tmp_path, settles, ("Lines", LINES))) if "S403" in text] == [
        "warning[S403]: the schedule has no heading `*cold*`\n  at map.toml\n"
        "  help: write the words above the table as they stand, or a part of them between stars: `*chilled*`",
        "warning[S403]: the schedule has no sheet `Roof`\n  at map.toml\n"
        "  help: write the name of the sheet as it stands",
    ]


def test_a_star_stands_for_any_words(tmp_path: Path) -> None:
    """Columns, values, remarks and sheets go by likeness; the entry of just the words comes before a likeness."""
    settles = """
ignore = ["Rev*"]
ignore-sheets = ["Old*"]
seen = ["*by others"]
[columns]
"How thick*" = { term = "thickness", unit = "in" }
[values.service]
"*chilled*" = "chilled water"
"Not chilled" = "heating hot water"
"""
    rows = """
Mark | Service | How thick is it | Rev. 3
A | Chilled Wtr Sup | 1 | x
B | Wtr, CHILLED | 1 | x
C | not chilled | 2 | x
Valves by others"""
    schedule = read(tmp_path, settles, ("Lines", rows), ("Old lines", LINES))
    assert written_lines(schedule) == [
        "A: service chilled water; thickness 1 in",
        "B: service chilled water; thickness 1 in",
        "C: service heating hot water; thickness 2 in",
    ]
    assert schedule.unread == ()


def test_rows_that_are_notes(tmp_path: Path) -> None:
    """A row that the mapping file calls a note gives no line and ends no section; it waits to be seen."""
    rows = "Mark | Service | Thk (in)\nKitchen\nA | CHW | 1\nRefer to A-1 | see there | 5\nB | CHW | 2"
    settles = 'notes = ["Refer to*"]\n[[tables]]\nheading = "Kitchen"\nconstants = { jacket = "PVC" }\n'
    schedule = read(tmp_path, settles, ("Lines", rows))
    assert written_lines(schedule) == [
        "A: service chilled water; thickness 1 in; jacket PVC",
        "B: service chilled water; thickness 2 in; jacket PVC",
    ]
    assert [one.text for one in schedule.unread] == ["Refer to A-1", "see there", "5"]
    seen = 'seen = ["Refer to A-1", "see there", "5"]\n' + settles
    assert read(tmp_path, seen, ("Lines", rows)).unread == ()


def test_one_text_gives_two_terms(tmp_path: Path) -> None:
    """A text of one column, and a text of the legend in any, give the values of several terms."""
    settles = """
[columns]
Type = "insulation"
[values.service]
"CHW roof" = { service = "chilled water", location = "outdoor" }
[legend]
"P-1" = { insulation = "fiberglass", jacket = "PVC" }
"""
    rows = "Mark | Service | Type | Thk (in)\nA | CHW roof | P-1 | 1\nB | HHW | P-1 | 2"
    schedule = read(tmp_path, settles, ("Lines", rows))
    assert written_lines(schedule) == [
        "A: service chilled water; insulation fiberglass; thickness 1 in; location outdoor; jacket PVC",
        "B: service heating hot water; insulation fiberglass; thickness 2 in; jacket PVC",
    ]
    assert [str(found) for found in schedule.diagnostics] == []


def test_a_legend_that_the_line_contradicts_is_a_disagreement(tmp_path: Path) -> None:
    """What the line states of the second term stays open where the legend says something else."""
    settles = '[columns]\nType = "insulation"\n[legend]\n"P-1" = { insulation = "fiberglass", jacket = "PVC" }\n'
    rows = "Mark | Service | Type | Jacket\nA | CHW | P-1 | aluminum"
    schedule = read(tmp_path, settles, ("Lines", rows))
    assert written_lines(schedule) == [
        "A: service chilled water; insulation fiberglass; jacket not given (aluminum / P-1)"
    ]
    assert written_diagnostics(schedule) == [
        "warning[S307]: two cells of the line disagree on `jacket`: `aluminum` in D2 and `P-1` in C2\n"
        "  at book.xlsx sheet Lines C2\n  help: correct one of them"
    ]


def test_columns_that_stand_for_a_size(tmp_path: Path) -> None:
    """A column that stands for a band of sizes gives a line for each cell, whatever its header says."""
    settles = """
[columns]
"Small" = { term = "thickness", unit = "in", for = { "pipe size" = "up to 1-1/4 in" } }
"Large" = { term = "thickness", unit = "in", for = { "pipe size" = "over 1-1/4 in" } }
"""
    schedule = read(tmp_path, settles, ("Lines", "Mark | Service | Small | Large\nA | CHW | 1 | 1-1/2"))
    assert written_lines(schedule) == [
        "A, Small: service chilled water; thickness 1 in; pipe size 1-1/4 in and under",
        "A, Large: service chilled water; thickness 1-1/2 in; pipe size over 1-1/4 in",
    ]


def test_a_column_without_a_header_goes_by_its_letter(tmp_path: Path) -> None:
    """Cells under no header are read as the mapping file says."""
    rows = "Mark | Service |  | Location\nA | CHW | 1 in | outdoor"
    schedule = read(tmp_path, '[columns]\nC = "thickness"', ("Lines", rows))
    assert written_lines(schedule) == ["A: service chilled water; thickness 1 in; location outdoor"]
    assert written_diagnostics(schedule) == []


@pytest.mark.parametrize(
    ("entry", "problem"),
    [
        (
            'seen = ["*"]',
            'error[S402]: `*` would stand for nearly every text\n  at map.toml:1:9\n  | seen = ["*"]\n  |         ^^^\n'
            "  help: write more of the words beside the `*`",
        ),
        (
            '[legend]\n"P-1" = { insulation = "straw" }',
            "error[S402]: `straw` is not a value of `insulation`\n  at map.toml:2:24\n"
            '  | "P-1" = { insulation = "straw" }\n  |                        ^^^^^^^\n'
            "  help: the values of `insulation` are: elastomeric foam, fiberglass, cellular glass",
        ),
        (
            '[[tables]]\nsheet = "A"\nconstants = { colour = "red" }',
            "error[S402]: the vocabulary has no term `colour`\n  at map.toml:3:24\n"
            '  | constants = { colour = "red" }\n  |                        ^^^^^\n'
            "  help: name a term of the vocabulary: `speccheck terms`",
        ),
        (
            '[[tables]]\nsheet = "A"',
            "error[S402]: the key `tables.constants` is missing\n  at map.toml:1:1\n  | [[tables]]\n  | ^^^^^^^^^^\n"
            '  help: write terms and their values: { location = "outdoor" }',
        ),
        (
            '[columns]\nA = { term = "thickness", fro = { "pipe size" = "2 in" } }',
            "error[S402]: there is no key `columns.A.fro`\n  at map.toml:2:27\n"
            '  | A = { term = "thickness", fro = { "pipe size" = "2 in" } }\n  |                           ^^^\n'
            "  help: did you mean `for`?",
        ),
        (
            '[columns]\nA = { term = "thickness", for = { "pipe size" = "small" } }',
            "error[S402]: `small` is not a number\n  at map.toml:2:49\n"
            '  | A = { term = "thickness", for = { "pipe size" = "small" } }\n'
            "  |                                                 ^^^^^^^\n"
            "  help: write a number with its unit, such as 1-1/2 in or 180 F, or a range, such as 2 in to 6 in",
        ),
    ],
)
def test_mistakes_are_told_at_their_place(tmp_path: Path, entry: str, problem: str) -> None:
    """Each mistake has its line and column, and the help says what to write."""
    path = tmp_path / "map.toml"
    path.write_text(entry, encoding="utf-8")
    found, problems = read_mapping(path, small_vocabulary())
    assert (found, [str(one) for one in problems]) == (None, [problem])


def test_columns_headed_by_sizes_are_thicknesses_where_a_mapping_file_says_so(tmp_path: Path) -> None:
    """Numbers under sizes may be anything; one entry for all of the columns makes each cell a line of its own."""
    rows = ("Lines", "System|Insul|DN 15-25|DN 32+\nCHW|FG|1|2")
    unread = read(tmp_path, 'units = "inch-pound"', rows)
    assert written_lines(unread) == ["row 2: service chilled water; insulation fiberglass"]
    settled = read(tmp_path, 'units = "inch-pound"\n[columns]\n"DN *" = "thickness"', rows)
    assert written_lines(settled) == [
        "row 2, DN 15-25: service chilled water; insulation fiberglass; thickness 1 in; pipe size 1/2 in through 1 in",
        "row 2, DN 32+: service chilled water; insulation fiberglass; thickness 2 in; pipe size 1-1/4 in and over",
    ]
