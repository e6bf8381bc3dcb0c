"""Tables without rules as spreadsheets and reports print them: what a reader sees at once, told by places alone."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import pytest

from speccheck.schedule.formats.pdf_tables import read_pdf
from speccheck.schedule.grid import Grid, MergedRange
from speccheck.schedule.messages.cells import UNSURE_CELL

Drawn = Sequence[tuple[float, float, str]]


def read(path: Path, drawn: Drawn) -> list[Grid]:
    """Return what is read of texts at places, in Helvetica of 8 points; a place right of `-x` is where a text ends."""
    from reportlab.pdfgen.canvas import Canvas

    canvas = Canvas(str(path), pagesize=(612, 792), invariant=1)
    canvas.setFont("Helvetica", 8)
    for x, y, text in drawn:
        (canvas.drawString if x > 0 else canvas.drawRightString)(abs(x), y, text)
    canvas.save()
    return read_pdf(path)[0]


def texts(grid: Grid) -> list[list[str]]:
    """Return the texts of each row."""
    return [list(grid.texts_of(row)) for row in grid.columns_by_row]


def test_numbers_set_against_the_next_column(tmp_path: Path) -> None:
    """Numbers on the right of their column, two points before the text of the next one, are values of their own."""
    drawn = [(60, 700, "Item"), (110, 700, "Temp"), (160, 700, "Insulation")]
    for row, (number, temperature, text) in enumerate((("1", "42", "Fiberglass"), ("2", "180", "Cellular glass"))):
        y = 686 - 14 * row
        drawn += [(-108, y, number), (-158, y, temperature), (160, y, text)]
    grid = read(tmp_path / "t.pdf", drawn)[0]
    assert texts(grid) == [["Item", "Temp", "Insulation"], ["1", "42", "Fiberglass"], ["2", "180", "Cellular glass"]]
    assert [grid.columns_by_row[row] for row in range(3)] == [(0, 1, 2)] * 3


def test_a_mixed_number_is_not_parted(tmp_path: Path) -> None:
    """Of numbers set on the right, `1 1/2` stays whole, though its fraction begins where another fraction does."""
    drawn = [(60, 700, "Mark"), (-190, 700, "Thickness"), (60, 686, "P-1"), (-190, 686, "1/2"), (60, 672, "P-2")]
    grid = read(tmp_path / "t.pdf", [*drawn, (-190, 672, "1 1/2"), (60, 658, "P-3"), (-190, 658, "2")])[0]
    assert texts(grid) == [["Mark", "Thickness"], ["P-1", "1/2"], ["P-2", "1 1/2"], ["P-3", "2"]]


def test_a_header_over_several_columns(tmp_path: Path) -> None:
    """A header that stretches over two columns is merged over both; its neighbours stay headers of one."""
    drawn = [(60, 700, "Mark"), (120, 700, "Fire hazard classification"), (260, 700, "Jacket")]
    drawn += [(120, 686, "Flame"), (180, 686, "Smoke")]
    drawn += [(60, 672, "P-1"), (120, 672, "25"), (180, 672, "50"), (260, 672, "PVC")]
    grid = read(tmp_path / "t.pdf", drawn)[0]
    assert grid.blocks == (MergedRange(0, 1, 0, 2),)
    assert texts(grid) == [
        ["Mark", "Fire hazard classification", "Jacket"],
        ["Flame", "Smoke"],
        ["P-1", "25", "50", "PVC"],
    ]


def test_a_text_that_may_go_on_is_unsure(tmp_path: Path) -> None:
    """`AND` goes on in the next line; `DRAIN` may be the end of the line above or a heading, and neither is read."""
    drawn = [(60, 700, "SERVICE"), (200, 700, "THICKNESS")]
    drawn += [(60, 690, "HEATING SUPPLY AND"), (200, 690, "1"), (60, 680, "RETURN")]
    drawn += [
        (60, 670, "COOLING COIL CONDENS."),
        (200, 670, "2"),
        (60, 660, "DRAIN"),
        (60, 650, "STEAM"),
        (200, 650, "3"),
    ]
    grid = read(tmp_path / "t.pdf", drawn)[0]
    found = {cell.text: cell.trouble for cell in grid.cells.values()}
    assert found["HEATING SUPPLY AND\nRETURN"] == ""
    assert found["COOLING COIL CONDENS."] == found["DRAIN"] == UNSURE_CELL.code


def test_letters_of_two_points(tmp_path: Path) -> None:
    """A wide sheet printed on one page has lines two points apart: they are not run into each other."""
    from reportlab.pdfgen.canvas import Canvas

    canvas = Canvas(str(tmp_path / "t.pdf"), pagesize=(612, 792), invariant=1)
    canvas.setFont("Helvetica", 1.6)
    for row, (mark, size) in enumerate((("Mark", "Size"), ("P-1", "2 in"), ("P-2", "3 in"))):
        canvas.drawString(60, 700 - 2 * row, mark)
        canvas.drawString(80, 700 - 2 * row, size)
    canvas.save()
    assert texts(read_pdf(tmp_path / "t.pdf")[0][0]) == [["Mark", "Size"], ["P-1", "2 in"], ["P-2", "3 in"]]


def test_cells_set_in_the_middle_of_their_rows(tmp_path: Path) -> None:
    """Where cells of two lines stand half a line above and below the others, no line of print is read as a row."""
    drawn = [(60, 700, "Mark"), (120, 700, "Temp"), (200, 700, "Insulation")]
    drawn += [(60, 680, "P-1"), (120, 684.6, "42 to"), (120, 675.4, "48"), (200, 680, "fiberglass")]
    drawn += [(60, 655, "P-2"), (120, 659.6, "40 to"), (120, 650.4, "44"), (200, 655, "fiberglass")]
    grids = read(tmp_path / "t.pdf", drawn)
    read_as = {cell.text for grid in grids for cell in grid.cells.values() if not cell.trouble}
    assert not {"42 to", "48", "40 to", "44"} & read_as


@pytest.mark.parametrize(("quantities", "header"), [(("40", "1,250"), "none"), (("40", "1,250", "125"), "Qty")])
def test_a_number_between_two_headers(quantities: Sequence[str], header: str, tmp_path: Path) -> None:
    """It is of the header on its left where several numbers end at one place, else of none: never of the one behind."""
    drawn = [(60, 700, "Mark"), (110, 700, "Qty"), (-230, 700, "Remarks"), (260, 700, "Thickness")]
    for row, quantity in enumerate(quantities):
        y = 680 - 20 * row
        drawn += [(60, y, f"P-{row}"), (110 if "," in quantity else -180, y, quantity), (260, y, "1 1/2")]
    grid = read(tmp_path / "t.pdf", drawn)[0]
    headers = {column: grid.text(0, column) for column in grid.columns_by_row[0]}
    told = {headers.get(column, "none"): grid.text(1, column) for column in grid.columns_by_row[1]}
    assert told == {"Mark": "P-0", header: "40", "Thickness": "1 1/2"}


def test_words_that_no_blank_joins_are_unsure_where_some_are_drawn(tmp_path: Path) -> None:
    """Two headers as close as words of one are never read as one, on a page that draws blanks within texts."""
    drawn = [(40, 720, "PIPE INSULATION"), (60, 700, "Mark"), (110, 700, "Temp."), (135, 700, "Location")]
    drawn += [(60, 680, "P-1"), (-131, 680, "42"), (135, 680, "plenum")]
    drawn += [(60, 660, "P-2"), (-131, 660, "350"), (135, 660, "tunnel")]
    for grid in read(tmp_path / "t.pdf", drawn):
        joined = [at for at, cell in grid.cells.items() if "Temp. Location" in cell.text or "42 plenum" in cell.text]
        assert {grid.cells[at].trouble for at in joined} <= {UNSURE_CELL.code}
