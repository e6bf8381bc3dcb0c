"""Workbooks of legal XML that no usual program writes, and of XML that is out to harm: marks never part from values."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from speccheck.language.diagnostics import Diagnostic, Place, Severity
from speccheck.schedule.formats.workbook import read_workbook
from speccheck.schedule.grid import Grid, GridCell, MergedRange, column_letters
from speccheck.schedule.messages import cells as rules
from speccheck.schedule.messages.cells import DATE_IN_CELL, NOT_SHOWN, ROUNDED
from tests.schedule.formats.parts import CELSIUS, DATE, ONE_DECIMAL, STRUCK, WHITE, number, raw_workbook, row, text

_OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
ROWS = (
    row(text("Size"), text("Thk"), text("Temp")),
    row(text("2 in"), number(1.5, STRUCK), number(82, CELSIUS)),
    row(text("3 in"), number(2, WHITE), number(45000, DATE), attributes='hidden="1"'),
)
CELLS = {
    (0, 0): GridCell("Size"),
    (0, 1): GridCell("Thk"),
    (0, 2): GridCell("Temp"),
    (1, 0): GridCell("2 in"),
    (1, 1): GridCell("1.5", rules.STRUCK.code),
    (1, 2): GridCell("82 °C"),
    (2, 0): GridCell("3 in"),
    (2, 1): GridCell("2", NOT_SHOWN.code),
    (2, 2): GridCell("2023-03-15", DATE_IN_CELL.code),
}


def the_grid(path: Path) -> Grid:
    """Return the one grid of a workbook that reads well."""
    grids, diagnostics = read_workbook(path)
    assert [one for one in diagnostics if one.severity is Severity.ERROR] == []
    assert len(grids) == 1
    return grids[0]


def referenced(lower: bool = False) -> str:
    """Return the rows with every reference written out."""
    cells = []
    for index, rows in enumerate(ROWS, start=1):
        letters = iter("abc" if lower else "ABC")
        pieces = rows.replace("<row ", f'<row r="{index}" ').split("<c ")
        cells.append(pieces[0] + "".join(f'<c r="{next(letters)}{index}" {piece}' for piece in pieces[1:]))
    return "".join(cells)


@pytest.mark.parametrize(
    ("rows", "options"),
    [
        ("".join(ROWS), {}),
        (referenced(), {}),
        (referenced(lower=True), {}),
        (referenced(), {"prefix": "x"}),
        (referenced(), {"places": ("odd/w.xml", "data/one", "looks/l.bin")}),
        (referenced(), {"name": "A > B &amp; C"}),
        (f"<!-- <row r='9'><c r='A9'><v>1</v></c></row> -->{referenced()}<!-- > -->", {}),
        (referenced().replace('hidden="1"', "ht='0.00'"), {}),
        (referenced().replace('hidden="1"', 'hidden="true"'), {}),
    ],
)
def test_values_and_marks_are_the_same_however_the_parts_are_written(
    rows: str, options: dict[str, object], tmp_path: Path
) -> None:
    """References left out or in lower case, prefixes, parts elsewhere, an unescaped sign in the name of the sheet and
    comments change nothing: struck, white, hidden, formats and dates are seen.
    """
    grid = the_grid(raw_workbook(tmp_path / "odd.xlsx", rows, **options))  # type: ignore[arg-type]
    assert grid.cells == CELLS
    assert grid.hidden_rows == frozenset({2})


@given(steps=st.lists(st.lists(st.integers(0, 5), min_size=1, max_size=6), min_size=1, max_size=5), data=st.data())
def test_rows_and_cells_follow_the_one_before_where_they_do_not_say_where_they_are(
    steps: list[list[int]], data: st.DataObject, tmp_path_factory: pytest.TempPathFactory
) -> None:
    """Cells are written at random distances, with their references or, where they follow on, perhaps without."""
    expected, rows, at = {}, [], -1
    for cells in steps:
        at += cells[0] + 1
        written, column = [], -1
        for step in cells:
            column += step + 1
            left_out = step == 0 and data.draw(st.booleans())
            expected[at, column] = GridCell(f"{at} {column}")
            written.append(text(f"{at} {column}", reference="" if left_out else f"{column_letters(column)}{at + 1}"))
        says = cells[0] > 0 or data.draw(st.booleans())
        rows.append(row(*written, attributes=f'r="{at + 1}"' if says else ""))
    path = tmp_path_factory.mktemp("steps") / "steps.xlsx"
    assert the_grid(raw_workbook(path, "".join(rows))).cells == expected


def test_merged_cells_and_hidden_columns(tmp_path: Path) -> None:
    """Merged ranges and hidden columns are seen, in whatever order their ends are written, as far as cells go."""
    around = '<cols><col min="2" max="16384" hidden="1"/></cols>{}<mergeCells><mergeCell ref="b2:A1"/></mergeCells>'
    grid = the_grid(raw_workbook(tmp_path / "merged.xlsx", row(text("a"), text("b"), text("c")), around=around))
    assert grid.blocks == (MergedRange(0, 0, 1, 1),)
    assert grid.hidden_columns == frozenset({1, 2})


@pytest.mark.parametrize(
    ("rows", "message"),
    [
        (row(text("a", reference="XFE1")), "has a cell at `XFE1`, and a sheet ends at XFD1048576"),
        (row(text("a", reference="ABCDEF1")), "has a cell at `ABCDEF1`, and a sheet ends at XFD1048576"),
        (row(text("a", reference="A1048577")), "has a cell at `A1048577`, and a sheet ends at XFD1048576"),
        (row(text("a", reference="A0")), "has a cell at `A0`, and a sheet ends at XFD1048576"),
        (row(text("a"), attributes='r="99999999999"'), "has a row `99999999999`, and a sheet ends at 1,048,576"),
        (
            row(text("a")) + row(text("a", reference="xfd1048576"), attributes='r="1048576"'),
            "reaches to XFD1048576, and no sheet with more than 1,000,000 cells is read",
        ),
    ],
)
def test_cells_beyond_the_sheet_are_refused(rows: str, message: str, tmp_path: Path) -> None:
    """No reference makes the reader hold what lies between: it is refused where it stands, by the name of the sheet."""
    path = raw_workbook(tmp_path / "far.xlsx", rows)
    help = "delete what stands far outside the schedule"
    place = Place("far.xlsx")
    assert read_workbook(path) == ([], [Diagnostic("S105", Severity.ERROR, f"sheet `Lines` {message}", place, help)])


@pytest.mark.parametrize(
    ("rows", "message"),
    [
        (row(text("a", reference="A1"), text("b", reference="A1")), "sheet `Lines` has two cells at A1"),
        ("<row><c><v>1</c></row>", "`odd.xlsx` is damaged: a part of it is not XML"),
        ("<a>" * 300 + "</a>" * 300, "`odd.xlsx` nests more than 250 elements"),
        (row('<c t="s"><v>4</v></c>'), "sheet `Lines` speaks of text 4, which the workbook does not have"),
    ],
)
def test_sheets_that_contradict_themselves_are_refused(rows: str, message: str, tmp_path: Path) -> None:
    """Two cells in one place, broken XML, elements without end and texts that are not there: nothing is guessed."""
    grids, diagnostics = read_workbook(raw_workbook(tmp_path / "odd.xlsx", rows))
    assert (grids, [(one.code, one.message) for one in diagnostics]) == ([], [("S104", message)])


def test_a_number_format_without_end_is_refused(tmp_path: Path) -> None:
    """A format of thousands of brackets is longer than any program writes one."""
    path = raw_workbook(tmp_path / "long.xlsx", row(number(1)))
    book = raw_workbook(tmp_path / "long2.xlsx", row(number(1)), parts={})
    import zipfile

    with zipfile.ZipFile(path) as source, zipfile.ZipFile(book, "w") as target:
        for name in source.namelist():
            target.writestr(name, source.read(name).replace(b'formatCode="0.0"', b'formatCode="' + b"[" * 9000 + b'"'))
    message = "`long2.xlsx` has a number format of 9,000 characters"
    help = "choose another number format; the limit is 1,000 characters"
    assert read_workbook(book) == ([], [Diagnostic("S105", Severity.ERROR, message, Place("long2.xlsx"), help)])


def test_too_many_filled_cells_are_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A sheet is read no further than the limit of filled cells, which is set lower here."""
    monkeypatch.setattr("speccheck.schedule.formats.sheet.MOST_FILLED_CELLS", 50)
    path = raw_workbook(tmp_path / "full.xlsx", row(*[number(1)] * 51))
    message = "sheet `Lines` has more than 50 filled cells, which is the limit"
    help = "leave only the schedule in the file"
    assert read_workbook(path) == ([], [Diagnostic("S105", Severity.ERROR, message, Place("full.xlsx"), help)])


def test_what_is_shown_is_read_and_the_hidden_digits_are_told(tmp_path: Path) -> None:
    """50 mm are 1.9685 in, shown as 2.0: 2 is what was proposed. 1.54 as 1.5 differs by more than 2 %: neither is."""
    rows = row(number(1.9685, ONE_DECIMAL), number(1.54, ONE_DECIMAL), number(3, ONE_DECIMAL))
    grids, diagnostics = read_workbook(raw_workbook(tmp_path / "mm.xlsx", rows))
    assert list(grids[0].cells.values()) == [GridCell("2"), GridCell("1.5", ROUNDED.code), GridCell("3")]
    help = "write the value that is proposed, with all its digits shown"
    assert diagnostics == [
        Diagnostic(
            "S314",
            Severity.NOTE,
            "A1 shows `2` and holds 1.9685: what is shown was read",
            Place("mm.xlsx", sheet="Lines", cell="A1"),
            help,
        ),
    ]


def test_what_stands_beside_the_cells_has_to_be_read_by_a_person(tmp_path: Path) -> None:
    """Comments, pictures, text boxes and embedded documents are told at their cells, each as something unread."""
    drawing = (
        '<d:wsDr xmlns:d="d" xmlns:a="a"><d:twoCellAnchor><d:from><d:col>1</d:col><d:row>4</d:row></d:from><d:pic/>'
        "</d:twoCellAnchor><d:oneCellAnchor><d:from><d:col>0</d:col><d:row>8</d:row></d:from><d:sp><d:txBody><a:p>"
        "<a:r><a:t>All valves </a:t></a:r><a:r><a:t>bare</a:t></a:r></a:p></d:txBody></d:sp></d:oneCellAnchor></d:wsDr>"
    )
    kinds = [("comments", "../c.xml"), ("drawing", "/d/d.xml"), ("oleObject", "o.bin")]
    related = "".join(f'<Relationship Id="{kind}" Type="{_OFFICE}/{kind}" Target="{to}"/>' for kind, to in kinds)
    parts = {
        "xl/worksheets/_rels/sheet1.xml.rels": f"<Relationships>{related}</Relationships>",
        "xl/c.xml": '<comments><commentList><comment ref="b2"/></commentList></comments>',
        "d/d.xml": drawing,
    }
    grids, diagnostics = read_workbook(raw_workbook(tmp_path / "beside.xlsx", row(text("a")), parts=parts))
    told = [
        ("other content", "the comment attached to B2 was not read", "B2"),
        ("picture", "the picture at B5 was not read", "B5"),
        ("other content", "the text box `All valves bare` was not read", "A9"),
        ("other content", "a document embedded in the sheet was not read", ""),
    ]
    assert [(str(one.kind), one.text, one.place.cell) for one in grids[0].unread] == told
    assert [(one.code, one.message, one.place.cell) for one in diagnostics] == [
        ("S211", message, cell) for _, message, cell in told
    ]


def test_cells_that_a_condition_strikes_are_for_a_person(tmp_path: Path) -> None:
    """A look that strikes where a condition holds leaves its cells in doubt; one that only colours does not."""
    looks = "<dxfs><dxf><fill/></dxf><dxf><font><strike/></font></dxf></dxfs>"
    rules = "".join(
        f'<conditionalFormatting sqref="{cells}"><cfRule type="expression" dxfId="{look}"/></conditionalFormatting>'
        for cells, look in (("A1:B1", 0), ("A2:B3 D2", 1))
    )
    path = raw_workbook(tmp_path / "struck.xlsx", row(text("a")), around="{}" + rules, looks=looks)
    (grid,), diagnostics = read_workbook(path)
    message = "the condition under which A2:B3, D2 is struck through was not worked out"
    place = Place("struck.xlsx", sheet="Lines", cell="A2")
    assert [(one.text, one.place) for one in grid.unread] == [(message, place)]
    help = "write what matters into the cells themselves"
    assert diagnostics == [Diagnostic("S211", Severity.WARNING, message, place, help)]


def test_what_is_printed_on_each_page_is_kept_without_its_codes(tmp_path: Path) -> None:
    """Fonts, sizes, colours and fields are codes; a doubled ampersand is one; each part and line is a text."""
    head = '<headerFooter><oddHeader>&amp;L&amp;"Arial,Bold"&amp;14Pipes &amp;&amp; ducts&amp;CPage &amp;P of &amp;N'
    foot = "</oddHeader><oddFooter>&amp;R&amp;KFF0000SUPERSEDED\nRev 2</oddFooter></headerFooter>"
    grid = the_grid(raw_workbook(tmp_path / "titles.xlsx", row(text("a")), around="{}" + head + foot))
    assert grid.page_titles == ("Pipes & ducts", "Page of", "SUPERSEDED", "Rev 2")
