"""Tables as contractors write them: what is read, what is never made up, and what is left for a person to read."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any

import pytest

from speccheck.language import load_vocabulary
from speccheck.language.vocabulary.values import NotGiven
from speccheck.schedule import Schedule, ScheduleMapping, read_schedule
from tests.schedule.building import small_vocabulary, write_workbook, written_lines
from tests.some import some


def read(folder: Path, *rows: str, mapping: ScheduleMapping | None = None, **sheet: Any) -> Schedule:
    """Return the schedule of a workbook with one sheet of these rows."""
    path = folder / "case.xlsx"
    write_workbook(path, [{"name": "Lines", "rows": "\n".join(rows), **sheet}])
    return read_schedule(path, small_vocabulary(), mapping)


def to_read(schedule: Schedule) -> list[str]:
    """Return what a person has to read."""
    return [f"{one.kind}: {one.text}" for one in schedule.unread]


def accounted(schedule: Schedule) -> tuple[int, int]:
    """Return how many filled cells were accounted for, and how many there are."""
    assert schedule.cells is not None
    return schedule.cells.accounted, schedule.cells.filled


@pytest.mark.parametrize(
    "between",
    ["Note: insulate hot below", "* Valves to match pipe", "Subtotal||4", "LEVEL 2", "Domestic something|see 2", "?|?"],
)
def test_a_heading_ends_at_every_row_that_is_no_line(between: str, tmp_path: Path) -> None:
    """Lines below a note, a total or words that nobody knows have no service: the heading above does not reach them."""
    schedule = read(tmp_path, "Size|Insul|Thk|Notes", "CHW", "2 in|FG|1 in|", between, "3 in|FG|1 in|")
    assert "service" in schedule.lines[0].data
    assert schedule.lines[-1].data["pipe size"].text == "3 in"
    assert "service" not in schedule.lines[-1].data


@pytest.mark.parametrize("heading", ["HHW|180|", "*HHW", "HHW (180 F)", "HHW, 180 F", "PIPING - HHW", "HHW||see 2"])
def test_a_heading_need_not_be_alone_in_its_row(heading: str, tmp_path: Path) -> None:
    """A temperature, a remark or a star beside a heading leaves it a heading, and ends the one above."""
    schedule = read(tmp_path, "Size|Op. temp|Notes|Insul|Thk", "CHW", "2 in|||FG|1 in", heading, "3 in|||FG|1 in")
    assert [str(line.data["service"].value) for line in schedule.lines] == ["chilled water", "heating hot water"]
    assert all(line.data["service"].inferred for line in some(schedule.lines))


def test_what_stands_beside_a_heading_holds_for_its_lines(tmp_path: Path) -> None:
    """The temperature in the row of a heading is that of the lines under it, and says where it came from."""
    schedule = read(tmp_path, "Size|Op. temp (F)|Insul|Thk", "HHW|180", "3 in||FG|1 in")
    datum = schedule.lines[0].data["operating temperature"]
    assert (datum.text, datum.place.cell, datum.note) == ("180", "B2", "from the section heading")


def test_headings_inside_of_headings(tmp_path: Path) -> None:
    """A heading right below another adds to it; a heading of the same term takes its place."""
    rows = ("Size|Thk", "OUTDOOR", "CHW", "2 in|1 in", "HHW", "3 in|1 in", "PLENUM", "4 in|1 in")
    assert written_lines(read(tmp_path, *rows)) == [
        "row 4: pipe size 2 in; thickness 1 in; service chilled water; location outdoor",
        "row 6: pipe size 3 in; thickness 1 in; service heating hot water; location outdoor",
        "row 8: pipe size 4 in; thickness 1 in; location plenum",
    ]


def test_a_size_in_a_header_is_no_unit(tmp_path: Path) -> None:
    """Columns of a thickness for one size each give a line for each cell; none is read as a thickness in inches."""
    schedule = read(tmp_path, 'Service|Thickness 1"|Thickness 2"|Thickness 3"', 'HHW|1"|1-1/2"|2"')
    assert written_lines(schedule) == [
        'row 2, 1": service heating hot water; thickness 1 in; pipe size 1 in',
        'row 2, 2": service heating hot water; thickness 1-1/2 in; pipe size 2 in',
        'row 2, 3": service heating hot water; thickness 2 in; pipe size 3 in',
    ]


def test_sizes_in_headers_beside_a_column_of_sizes_are_an_open_question(tmp_path: Path) -> None:
    """Where the lines state their sizes themselves, thicknesses under other sizes are not read."""
    schedule = read(tmp_path, 'Service|Size|Thickness 1"|Thickness 2"', 'HHW|4 in|1"|2"')
    assert written_lines(schedule) == ["row 2: service heating hot water; pipe size 4 in"]
    assert accounted(schedule) == (4, 8)


@pytest.mark.parametrize("other", ["", "-"])
def test_a_blank_is_not_filled_from_another_column_of_its_term(other: str, tmp_path: Path) -> None:
    """Two columns of one term are two proposals: what one leaves blank the other does not say."""
    schedule = read(tmp_path, "Mark|Size|Thk|Insul. thk", f"P-1|2 in|{other}|2 in")
    assert written_lines(schedule) == ["P-1: pipe size 2 in; thickness not given (2 in)"]


def test_words_in_every_column_are_the_header_of_another_table(tmp_path: Path) -> None:
    """Under a header that nobody understands nothing is read by the columns of the table above."""
    rows = ("Service|Size|Insul|Thk", "CHW|2 in|FG|1 in", "", "Fluid|Wall|Stuff|Range", "HHW|1 in|FG|2 in")
    schedule = read(tmp_path, *rows)
    assert written_lines(schedule) == [
        "row 2: service chilled water; pipe size 2 in; insulation fiberglass; thickness 1 in"
    ]
    assert "reads as a header whose words name no terms, and the 1 row under it was not read" in str(
        schedule.diagnostics
    )
    assert accounted(schedule) == (8, 16)


def test_remarks_are_read_by_a_person(tmp_path: Path) -> None:
    """Remarks on lines and notes under a table change nothing that is judged, so a person has to read each of them."""
    rows = ("Mark|Size|Thk|Remarks", "P-1|2 in|1 in|VOID", "P-2|3 in|1 in|-", "Notes:", "1. Valves left bare.")
    schedule = read(tmp_path, *rows)
    assert to_read(schedule) == ["remark: VOID", "remark: Notes:", "remark: 1. Valves left bare."]
    assert schedule.unread[0].lines == ("P-1",)
    seen = ScheduleMapping(seen=("void", "Notes:", "1. Valves left bare."))
    schedule = read(tmp_path, *rows, mapping=seen)
    assert to_read(schedule) == []
    assert accounted(schedule) == (14, 14)


def test_a_hidden_schedule_is_read_by_a_person(tmp_path: Path) -> None:
    """A hidden sheet that reads as a schedule keeps the whole from being told to comply."""
    path = tmp_path / "case.xlsx"
    write_workbook(
        path, [{"name": name, "rows": "Size|Thk\n2 in|1 in", "hidden": name == "Old"} for name in ("A", "Old")]
    )
    schedule = read_schedule(path, small_vocabulary())
    assert to_read(schedule) == ["hidden sheet: Old"]
    assert accounted(schedule) == (4, 8)


@pytest.mark.parametrize(
    ("header", "first", "second"),
    [
        ("Mark|Location|Size|Thk", "P-1|outdoor|2 in|1 in", "P-2||2 in|1 in"),
        ("Unit|Location|Size|Thk", "AHU-1|outdoor|2 in|1 in", "AHU-2||2 in|1 in"),
        ("Size|Location|Thk", "2 in|outdoor|1 in", "3 in||1 in"),
    ],
)
def test_a_blank_repeats_nothing_where_the_first_column_has_no_gaps(
    header: str, first: str, second: str, tmp_path: Path
) -> None:
    """Where every row has its tag or its size, a blank location is not the one above."""
    lines = read(tmp_path, header, first, second).lines
    assert [datum.text for line in lines if (datum := line.data["location"])] == ["outdoor", ""]


@pytest.mark.parametrize("header", ["Service|Thk|Size", "Service|Size|Thk", "Thk|Service|Size"])
def test_a_blank_thickness_repeats_nothing(header: str, tmp_path: Path) -> None:
    """What is proposed is never taken from the line above, in whatever order the columns stand."""
    cells = {"Service": ("CHW", ""), "Thk": ("1 in", ""), "Size": ("2 in", "3 in")}
    rows = ("|".join(cells[name][row] for name in header.split("|")) for row in (0, 1))
    lines = read(tmp_path, header, *rows).lines
    assert lines[1].data["thickness"].text == ""


def test_sizes_across(tmp_path: Path) -> None:
    """Services down and sizes across: each cell is a line, with its place, and its size from the header above it."""
    rows = ('Service|Op. temp (F)|<1"|1" to <1-1/2"|2" and up', 'CHW|40-60|1/2"|1"|1-1/2"')
    schedule = read(tmp_path, *rows)
    assert written_lines(schedule) == [
        'row 2, <1": service chilled water; operating temperature 40 F through 60 F; thickness 1/2 in; '
        "pipe size under 1 in",
        'row 2, 1" to <1-1/2": service chilled water; operating temperature 40 F through 60 F; thickness 1 in; '
        "pipe size 1 in to under 1-1/2 in",
        'row 2, 2" and up: service chilled water; operating temperature 40 F through 60 F; thickness 1-1/2 in; '
        "pipe size 2 in and over",
    ]
    assert [line.place.cell for line in schedule.lines] == ["C2", "D2", "E2"]
    assert schedule.lines[0].data["pipe size"].note == "from the header in C1"
    assert accounted(schedule) == (10, 10)


def test_services_across(tmp_path: Path) -> None:
    """Sizes down and services across, with a row of temperatures under the header: the same lines."""
    rows = ("Size|CHW|HHW|RS", "Op. temp (F)|42|180|20", '2"|1"|2"|1-1/2"')
    assert written_lines(read(tmp_path, *rows)) == [
        "row 3, CHW: pipe size 2 in; operating temperature 42 F; thickness 1 in; service chilled water",
        "row 3, HHW: pipe size 2 in; operating temperature 180 F; thickness 2 in; service heating hot water",
        "row 3, RS: pipe size 2 in; operating temperature 20 F; thickness 1-1/2 in; service refrigerant suction",
    ]


def test_counts_under_sizes_are_no_thicknesses(tmp_path: Path) -> None:
    """Bare numbers under sizes, where nothing says that they are thicknesses, may be pieces: they are not read."""
    schedule = read(tmp_path, 'Service|Insul|1"|2"|3"', "CHW|FG|12|4|7")
    assert all("thickness" not in line.data for line in some(schedule.lines))


def test_a_form(tmp_path: Path) -> None:
    """Names on the left and values on the right, one system below another: each system is a line."""
    rows = ("Service:|CHW", "Size:|2 in", "Thk:|1 in", "", "Service:|HHW", "Size:|3 in", "Thk:|2 in")
    schedule = read(tmp_path, *rows)
    assert written_lines(schedule) == [
        "row 1: service chilled water; pipe size 2 in; thickness 1 in",
        "row 5: service heating hot water; pipe size 3 in; thickness 2 in",
    ]
    assert schedule.lines[1].data["thickness"].place.cell == "B7"
    assert accounted(schedule) == (12, 12)


def test_blocks_side_by_side(tmp_path: Path) -> None:
    """Blocks parted by an empty column, with one header, are two tables, each under its own heading."""
    rows = (
        "PLENUM||||OUTDOOR",
        "Size|Insul|Thk||Size|Insul|Thk",
        "2 in|FG|1 in||3 in|FG|2 in",
        "4 in|FG|||4 in|FG|2 in",
    )
    schedule = read(tmp_path, *rows)
    assert [(line.data["location"].value, line.data["thickness"].text) for line in schedule.lines] == [
        ("plenum", "1 in"),
        ("plenum", ""),
        ("outdoor", "2 in"),
        ("outdoor", "2 in"),
    ]


def test_what_a_title_or_a_sheet_says_belongs_to_the_lines(tmp_path: Path) -> None:
    """A service in the title above a table, or as the name of its sheet, is that of its lines, which say so."""
    titled = read(tmp_path, "Chilled Water System Insulation", "Project: somewhere", "Size|Thk", "2 in|1 in")
    assert titled.lines[0].data["service"].note == "from the heading in A1"
    named = read(tmp_path, "Size|Thk", "2 in|1 in", name="HHW")
    assert named.lines[0].data["service"].note == "from the name of the sheet `HHW`"
    stated = read(tmp_path, "CHW", "Service|Size|Thk", "HHW|2 in|1 in|")
    assert stated.lines[0].data["service"].value == "heating hot water"


def test_a_text_above_a_table_that_may_change_it_is_read_by_a_person(tmp_path: Path) -> None:
    """A title belongs to no line; a text that begins a note, or has words such as "reduced", may not."""
    rows = ("Some School", "Date: 3 March", "All thicknesses reduced per RFI 3", "Size|Thk", "2 in|1 in")
    assert to_read(read(tmp_path, *rows)) == ["remark: All thicknesses reduced per RFI 3"]


@pytest.mark.parametrize("heading", ["SPECIFICATION REQUIREMENTS", "Required by the section", "Existing piping"])
def test_a_table_of_what_is_asked_for_is_no_proposal_untold(heading: str, tmp_path: Path) -> None:
    """One of two tables under words of something else has to be read by a person, until a mapping says it was."""
    rows = (heading, "Service|Size|Thk", "HHW|2 in|2 in", "", "SUBMITTED", "Service|Size|Thk", "HHW|2 in|1 in")
    assert to_read(read(tmp_path, *rows)) == [f"remark: {heading}"]
    assert to_read(read(tmp_path, *rows, mapping=ScheduleMapping(seen=(heading,)))) == []


@pytest.mark.parametrize("heading", ["SUPPLY AND RETURN PIPING", "Summer use", "SUBMITTED"])
def test_a_table_of_its_subject_is_a_proposal(heading: str, tmp_path: Path) -> None:
    """Words that part columns into several are, above a table, only its subject."""
    rows = (heading, "Service|Size|Thk", "HHW|2 in|2 in", "", "PIPING", "Service|Size|Thk", "HHW|3 in|1 in")
    assert "remark" not in str(to_read(read(tmp_path, *rows)))


@pytest.mark.parametrize("header", ["Max Temp (F)", "Max Temp", "High temp"])
def test_a_limit_of_two_meanings_is_not_the_temperature_of_the_line(header: str, tmp_path: Path) -> None:
    """A highest temperature may be what the line reaches or what the product bears: neither before it is settled."""
    path = tmp_path / "case.csv"
    path.write_text(f"Service,Size (in),Thk (in),{header}\nHHW,2,2,250\n", encoding="utf-8")
    vocabulary = load_vocabulary("mechanical insulation").vocabulary
    assert vocabulary is not None
    schedule = read_schedule(path, vocabulary)
    assert set(schedule.lines[0].data) <= {"service", "pipe size", "thickness", "component"}
    assert accounted(schedule)[0] < accounted(schedule)[1]


def test_a_column_of_names_beside_one_of_services_makes_no_service_doubtful(tmp_path: Path) -> None:
    """Where no cell of a column is a value of its term, and a sibling has some, the names are told as not read."""
    rows = ("Duct System|Service|Insul|Thk", "AHU-1|Supply air|FG|2 in", "AHU-2|Supply air|FG|2 in")
    schedule = read_as_shipped(tmp_path, rows)
    for line in schedule.lines:
        assert str(line.data["service"].value) == "supply air"
        assert line.data["component"].note == "from the header in A1"
        assert str(line.data["component"].value) == "duct"
    assert schedule.columns[0].note == "not understood: none of its cells is a value of `service`"
    assert accounted(schedule) == (9, 12)


def test_siblings_that_both_have_values_still_disagree(tmp_path: Path) -> None:
    """One value in a column is enough to keep it: what the two say is a question, and neither is taken."""
    rows = ("Duct System|Service|Insul|Thk", "AHU-1|Supply air|FG|2 in", "Return air|Supply air|FG|2 in")
    schedule = read_as_shipped(tmp_path, rows)
    assert [
        datum.value.why for line in schedule.lines if isinstance((datum := line.data["service"]).value, NotGiven)
    ] == [
        "two columns disagree",
        "two columns disagree",
    ]


def test_one_word_over_a_column_says_nothing_of_the_component(tmp_path: Path) -> None:
    """ "Equipment" over the pumps that pipes lead to makes no pipe a piece of equipment."""
    rows = ("Equipment|Service|Size|Insul|Thk", "Pump P-1|HHW|2 in|FG|2 in")
    schedule = read_as_shipped(tmp_path, rows)
    assert str(schedule.lines[0].data["component"].value) == "pipe"


@pytest.mark.parametrize("gap", [(), ("",)], ids=["right above", "a blank row below"])
@pytest.mark.parametrize(
    ("title", "services"),
    [("HHW", ["chilled water", "heating hot water"]), ("Some other system", ["chilled water", ""])],
)
def test_the_title_of_one_table_is_none_of_the_next(
    title: str, services: list[str], gap: tuple[str, ...], tmp_path: Path
) -> None:
    """Under a title of its own a table has what that says; where nobody knows what it says, it has no service."""
    header = "Size|Insul|Thk"
    rows = ("CHW", *gap, header, "2 in|FG|1 in", "", title, *gap, header, "3 in|FG|2 in")
    schedule = read(tmp_path, *rows)
    found = [line.data.get("service") for line in schedule.lines]
    assert [str(one.value) if one is not None else "" for one in found] == services


def test_a_table_goes_on_over_the_number_of_a_page(tmp_path: Path) -> None:
    """The header that repeats below "Page 1 of 2" begins no other table: what stands above still holds."""
    header = "Size|Insul|Thk"
    schedule = read(tmp_path, "CHW", header, "2 in|FG|1 in", "Page 1 of 2", "", header, "3 in|FG|2 in")
    assert [str(line.data["service"].value) for line in schedule.lines] == ["chilled water", "chilled water"]


def read_as_shipped(folder: Path, rows: Sequence[str]) -> Schedule:
    """Return the schedule of a workbook with one sheet of these rows, read by the shipped vocabulary."""
    path = folder / "case.xlsx"
    write_workbook(path, [{"name": "Lines", "rows": "\n".join(rows)}])
    vocabulary = load_vocabulary("mechanical-insulation").vocabulary
    assert vocabulary is not None
    return read_schedule(path, vocabulary)
