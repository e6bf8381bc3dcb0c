"""Word documents: merged cells, tracked changes, struck text, and what stands beside the tables."""

from __future__ import annotations

import zipfile
from pathlib import Path

import pytest

from speccheck.language.diagnostics import Diagnostic, Place, Severity
from speccheck.schedule.formats.word_tables import read_word
from speccheck.schedule.grid import GridCell, MergedRange
from speccheck.schedule.messages.cells import STRUCK
from speccheck.schedule.messages.tables import OTHER_TABLE
from speccheck.schedule.schedule import read_schedule
from tests.schedule.building import small_vocabulary

_WORD = "http://schemas.openxmlformats.org/wordprocessingml/2006/main"
_OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"


def document(path: Path, body: str, page: str = "") -> Path:
    """Write a document out of the XML of its body, and of what is printed at the top of each page."""
    relation = f'<Relationship Id="a" Type="{_OFFICE}/officeDocument" Target="word/document.xml"/>'
    top = f'<Relationship Id="h" Type="{_OFFICE}/header" Target="header1.xml"/>'
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("_rels/.rels", f"<Relationships>{relation}</Relationships>")
        archive.writestr("word/document.xml", f'<w:document xmlns:w="{_WORD}"><w:body>{body}</w:body></w:document>')
        if page:
            archive.writestr("word/_rels/document.xml.rels", f"<Relationships>{top}</Relationships>")
            archive.writestr("word/header1.xml", f'<w:hdr xmlns:w="{_WORD}" xmlns:v="v">{page}</w:hdr>')
    return path


def run(words: str, properties: str = "") -> str:
    """Return the XML of a run."""
    return f"<w:r><w:rPr>{properties}</w:rPr><w:t>{words}</w:t></w:r>"


def cell(content: str, properties: str = "") -> str:
    """Return the XML of a cell with one paragraph."""
    return f"<w:tc><w:tcPr>{properties}</w:tcPr><w:p>{content}</w:p></w:tc>"


def table(*rows: str) -> str:
    """Return the XML of a table."""
    return "<w:tbl>" + "".join(f"<w:tr>{row}</w:tr>" for row in rows) + "</w:tbl>"


def test_merged_cells_and_the_texts_around(tmp_path: Path) -> None:
    """Headings stand in rows above the table, notes below it; merged cells are ranges; breaks part lines."""
    body = (
        f"<w:p>{run('CHILLED WATER')}</w:p>"
        + table(
            cell(run("Size"), '<w:gridSpan w:val="2"/>') + cell(run("a") + "<w:r><w:br/></w:r>" + run("b")),
            cell(run("x"), '<w:vMerge w:val="restart"/>') + cell(run("1")) + cell(run("2")),
            cell("", "<w:vMerge/>") + cell(run("3")) + cell(run("4")),
        )
        + f"<w:p>{run('Note 1')}</w:p>"
    )
    grids, diagnostics = read_word(document(tmp_path / "d.docx", body))
    assert diagnostics == []
    assert {at: one.text for at, one in grids[0].cells.items()} == {
        **{(0, 0): "CHILLED WATER", (1, 0): "Size", (1, 2): "a\nb", (2, 0): "x", (2, 1): "1", (2, 2): "2"},
        **{(3, 1): "3", (3, 2): "4", (5, 0): "Note 1"},
    }
    assert set(grids[0].blocks) == {MergedRange(1, 0, 1, 1), MergedRange(2, 0, 3, 0)}


@pytest.mark.parametrize(
    ("content", "expected"),
    [
        (f"<w:del>{run('1')}</w:del>" + run("2"), GridCell("2")),
        ("<w:del><w:r><w:delText>1</w:delText></w:r></w:del>" + run("2"), GridCell("2")),
        (f"<w:moveFrom>{run('1')}</w:moveFrom>" + run("2"), GridCell("2")),
        (run("1", "<w:strike/>") + run(" 2"), GridCell("1 2", STRUCK.code)),
        (run("1", '<w:strike w:val="false"/>'), GridCell("1")),
        (run("1", "<w:dstrike/>"), GridCell("1", STRUCK.code)),
        (run("9", "<w:vanish/>") + run("2"), GridCell("2")),
        (run("2") + run("1", '<w:vertAlign w:val="superscript"/>'), GridCell("2¹")),
    ],
)
def test_what_is_not_proposed_is_not_read(content: str, expected: GridCell, tmp_path: Path) -> None:
    """Deleted, moved and hidden words are left out, struck ones are in trouble, and a raised figure stays raised."""
    grids, diagnostics = read_word(document(tmp_path / "d.docx", table(cell(content))))
    assert grids[0].cells == {(0, 0): expected}
    assert diagnostics == []


def test_inserted_text_is_read_and_told(tmp_path: Path) -> None:
    """What a tracked change inserts is proposed as long as nobody rejects it; a deleted row is none."""
    deleted = "<w:trPr><w:del/></w:trPr>" + cell(run("gone"))
    body = table(cell(f"<w:ins>{run('2')}</w:ins>"), deleted)
    grids, diagnostics = read_word(document(tmp_path / "d.docx", body))
    assert grids[0].cells == {(0, 0): GridCell("2")}
    message = "text that tracked changes insert was read as proposed, at A1"
    help = "accept or reject the changes before the document is submitted"
    place = Place("d.docx", sheet="table 1", cell="A1")
    assert diagnostics == [Diagnostic("S315", Severity.WARNING, message, place, help)]


def test_text_boxes_and_pictures_have_to_be_read_by_a_person(tmp_path: Path) -> None:
    """A text box is told once, though documents write it twice, and so are a picture and a table within a cell."""
    box = f"<w:txbxContent><w:p>{run('valves bare')}</w:p></w:txbxContent>"
    alternate = f"<m:AlternateContent><m:Choice>{box}</m:Choice><m:Fallback>{box}</m:Fallback></m:AlternateContent>"
    body = table(cell(run("1") + alternate + "<p:pic/>") + "<w:tc>" + table(cell(run("in"))) + "<w:p/></w:tc>")
    body = body.replace("<m:AlternateContent>", '<m:AlternateContent xmlns:m="m">')
    grids, _ = read_word(document(tmp_path / "d.docx", body.replace("<p:pic/>", '<p:pic xmlns:p="p"/>')))
    assert [(str(one.kind), one.text, one.place.cell) for one in grids[0].unread] == [
        ("other content", "the text box `valves bare` was not read", "A1"),
        ("picture", "a picture was not read", "A1"),
        ("other content", "a table within a cell was not read as a table", "B1"),
    ]


def test_lists_between_tables(tmp_path: Path) -> None:
    """The items of a list stand as rows above the table that follows, and no item becomes a cell of a table."""
    item = '<w:p><w:pPr><w:numPr><w:ilvl w:val="0"/><w:numId w:val="1"/></w:numPr></w:pPr>{}</w:p>'
    between = item.format(run("Valves are bare.")) + item.format(run("Flanges are bare."))
    body = table(cell(run("Mark")) + cell(run("Thk"))) + between + table(cell(run("Mark")) + cell(run("Size")))
    grids, diagnostics = read_word(document(tmp_path / "d.docx", body))
    assert diagnostics == []
    assert [{at: one.text for at, one in grid.cells.items()} for grid in grids] == [
        {(0, 0): "Mark", (0, 1): "Thk"},
        {(0, 0): "Valves are bare.", (1, 0): "Flanges are bare.", (2, 0): "Mark", (2, 1): "Size"},
    ]
    assert [str(grids[1].place(row, 0)) for row in range(3)] == [
        "d.docx text around table 2 A1",
        "d.docx text around table 2 A2",
        "d.docx table 2 A1",
    ]


def test_what_is_printed_on_each_page_is_kept_and_what_takes_the_table_back_is_told(tmp_path: Path) -> None:
    """A watermark is a shape with words along a path; either it or the words of a header may say "superseded"."""
    mark = '<w:p><w:r><w:pict><v:shape><v:textpath string="SUPERSEDED"/></v:shape></w:pict></w:r></w:p>'
    page = f"<w:p>{run('Tarn Lane')}{run(' School')}</w:p>{mark}"
    rows = table(cell(run("Pipe size")) + cell(run("Thickness")), cell(run("2 in")) + cell(run("1 in")))
    path = document(tmp_path / "marked.docx", rows, page)
    (grid,), _ = read_word(path)
    assert grid.page_titles == ("Tarn Lane School", "SUPERSEDED")
    schedule = read_schedule(path, small_vocabulary())
    message = "the table under `SUPERSEDED` is perhaps not what is proposed, and was read like any other"
    assert [one.message for one in schedule.diagnostics if one.code == OTHER_TABLE.code] == [message]
    assert [one.text for one in schedule.unread] == ["SUPERSEDED"]
