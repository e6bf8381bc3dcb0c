"""OpenDocument spreadsheets: merged ranges, hidden rows and columns, and struck cells are seen, as in an .xlsx file."""

from __future__ import annotations

from pathlib import Path

from speccheck.language.diagnostics import Diagnostic, Place, Severity
from speccheck.schedule.formats.opening import open_schedule
from speccheck.schedule.grid import GridCell, MergedRange
from speccheck.schedule.messages.cells import STRUCK
from speccheck.schedule.messages.files import NOT_SEEN
from tests.schedule.formats.papers import pack_ods

SPACES = " ".join(
    f'xmlns:{name}="urn:oasis:names:tc:opendocument:xmlns:{space}:1.0"'
    for name, space in (("office", "office"), ("table", "table"), ("text", "text"), ("style", "style"))
)


WIDE, HIGH, GONE = (
    'table:number-columns-spanned="2"',
    'table:number-rows-spanned="2"',
    'table:style-name="gone"',
)
ENDLESS = 'table:number-columns-spanned="999999999999"'
PARTLY = '<text:span text:style-name="gone">4</text:span> in'


def cell(text: str, more: str = "", inside: str = "") -> str:
    """Return the XML of a cell."""
    said = f"<text:p>{inside or text}</text:p>"
    return (
        f'<table:table-cell office:value-type="string" {more}>{said}</table:table-cell>'
        if text
        else "<table:table-cell/>"
    )


def spreadsheet(path: Path, rows: str, columns: str = "") -> Path:
    """Write a spreadsheet of one sheet, with a style that strikes through."""
    styles = (
        '<office:automatic-styles><style:style style:name="gone" style:family="table-cell">'
        '<style:text-properties style:text-line-through-style="solid"/></style:style></office:automatic-styles>'
    )
    content = (
        f"<?xml version='1.0' encoding='UTF-8'?><office:document-content {SPACES}>{styles}<office:body>"
        f'<office:spreadsheet><table:table table:name="Lines">{columns}{rows}</table:table>'
        "</office:spreadsheet></office:body></office:document-content>"
    )
    pack_ods(path, content)
    return path


def test_what_is_merged_hidden_and_struck(tmp_path: Path) -> None:
    """A header over two columns, a service over two rows, a hidden row and column, and words struck in two ways."""
    rows = (
        f"<table:table-row>{cell('Service')}{cell('Size', WIDE)}"
        "<table:covered-table-cell/></table:table-row>"
        f"<table:table-row>{cell('CHW', HIGH)}{cell('2 in')}{cell('x')}</table:table-row>"
        "<table:table-row><table:covered-table-cell/>"
        f"{cell('3 in', GONE)}"
        f"{cell('4 in', '', PARTLY)}</table:table-row>"
        f'<table:table-row table:visibility="collapse">{cell("HHW")}{cell("5 in")}</table:table-row>'
    )
    columns = '<table:table-column table:number-columns-repeated="2"/><table:table-column table:visibility="collapse"/>'
    grids, diagnostics = open_schedule(spreadsheet(tmp_path / "s.ods", rows, columns))
    (grid,) = grids
    assert grid.blocks == (MergedRange(0, 1, 0, 2), MergedRange(1, 0, 2, 0))
    assert (grid.hidden_rows, grid.hidden_columns) == (frozenset({3}), frozenset({2}))
    assert grid.cells[2, 1] == GridCell("3 in", STRUCK.code)
    assert grid.cells[2, 2].trouble == STRUCK.code
    assert grid.cells[1, 1] == GridCell("2 in")
    assert diagnostics == [
        Diagnostic(
            NOT_SEEN.code,
            Severity.WARNING,
            "comments and the units of number formats are not seen in this format",
            Place("s.ods"),
            "check what the cells show beside their numbers, or save the workbook as .xlsx",
        )
    ]


def test_counts_without_end(tmp_path: Path) -> None:
    """Spans and repetitions of a billion cells end at what a sheet can have."""
    rows = f"<table:table-row>{cell('A', ENDLESS)}{cell('B')}</table:table-row>"
    repeated = 'table:number-rows-repeated="99999999" table:visibility="collapse"'
    more = f"<table:table-row {repeated}><table:table-cell/></table:table-row>"
    grids, _ = open_schedule(spreadsheet(tmp_path / "s.ods", rows + more))
    assert grids[0].cells == {(0, 0): GridCell("A"), (0, 1): GridCell("B")}
    assert grids[0].hidden_rows == frozenset()
