"""Files that cannot be used: each gives no lines and one clear error, and never an exception."""

from __future__ import annotations

import struct
import zipfile
from pathlib import Path

import pytest

from speccheck.language.diagnostics import Diagnostic, Place, Severity
from speccheck.schedule import read_schedule
from tests.schedule.building import FILES, small_vocabulary, write_workbook

SHAPE = "write a list of objects, one for each line, with a text, a number, true, false or null for each term"
AGAIN = "open the workbook in a spreadsheet program and save it again as .xlsx"
LESS = "leave only the sheets of the schedule in the file"
SHEET = {"name": "Lines", "rows": "Mark|Size|Thk\nP-1|2 in|1 in"}


def the_error_of(path: Path, *, sheet: str = "") -> Diagnostic:
    """Return the one error of an unusable file, after making sure that nothing was read of it."""
    schedule = read_schedule(path, small_vocabulary(), sheet=sheet)
    assert schedule.lines == ()
    errors = [found for found in schedule.diagnostics if found.severity is Severity.ERROR]
    assert len(errors) == 1
    return errors[0]


def error(code: str, message: str, file: str, help: str = "") -> Diagnostic:
    """Return an error about a whole file."""
    return Diagnostic(code, Severity.ERROR, message, Place(file), help)


@pytest.fixture
def workbook(tmp_path: Path) -> Path:
    """Write a small workbook that reads well."""
    path = tmp_path / "lines.xlsx"
    write_workbook(path, [SHEET])
    return path


def repacked(workbook: Path, part: str, old: str, new: str) -> Path:
    """Write a copy of a workbook in which the text of one part is changed."""
    path = workbook.with_name("changed.xlsx")
    with zipfile.ZipFile(workbook) as source, zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as target:
        for name in source.namelist():
            text = source.read(name).decode("utf-8")
            assert name != part or old in text
            target.writestr(name, text.replace(old, new) if name == part else text)
    return path


def test_a_file_that_is_not_there(tmp_path: Path) -> None:
    """A missing file and a folder are said to be no file."""
    expected = error("S101", "`none.xlsx` is not a file that can be opened", "none.xlsx", "check the name and folder")
    assert the_error_of(tmp_path / "none.xlsx") == expected
    (tmp_path / "none.xlsx").mkdir()
    assert the_error_of(tmp_path / "none.xlsx") == expected


def test_a_file_of_another_kind(tmp_path: Path) -> None:
    """A file that is no schedule by its ending is not opened."""
    path = tmp_path / "schedule.png"
    path.write_bytes(b"PNG")
    message = "`schedule.png` is not a kind of file that schedules are read from"
    help = (
        "schedules are read from .xlsx, .xlsm, .xltx, .xls, .xlsb, .ods, .docx, .pdf, .html, .htm, .mht, .csv, .tsv, "
        ".tab, .txt, .json and .toml files"
    )
    assert the_error_of(path) == error("S102", message, "schedule.png", help)


def test_a_workbook_locked_by_a_password(tmp_path: Path) -> None:
    """An encrypted workbook is a compound file (MS-CFB) with a stream EncryptedPackage (MS-OFFCRYPTO)."""
    path = tmp_path / "locked.xlsx"
    path.write_bytes(
        bytes.fromhex("D0CF11E0A1B11AE1") + bytes(504) + "EncryptedPackage".encode("utf-16-le") + bytes(480)
    )
    message = "`locked.xlsx` is locked by a password"
    assert the_error_of(path) == error("S103", message, "locked.xlsx", "save a copy without the password")


@pytest.mark.parametrize("kept", [0, 3, 100, 2000])
def test_a_download_that_broke_off(kept: int, workbook: Path) -> None:
    """A workbook of which only the beginning is there is said to be incomplete."""
    workbook.write_bytes(workbook.read_bytes()[:kept])
    assert the_error_of(workbook) == error("S104", "`lines.xlsx` is not a complete .xlsx workbook", "lines.xlsx", AGAIN)


def test_a_workbook_with_a_part_that_does_not_unpack(workbook: Path) -> None:
    """Bytes changed inside a part are found by its checksum."""
    data = bytearray(workbook.read_bytes())
    with zipfile.ZipFile(workbook) as archive:
        part = archive.getinfo("xl/worksheets/sheet1.xml")
    start = part.header_offset + 30 + len(part.filename)
    data[start + 20 : start + 40] = bytes(20)
    workbook.write_bytes(data)
    assert the_error_of(workbook) == error(
        "S104", "`lines.xlsx` is damaged and cannot be unpacked", "lines.xlsx", AGAIN
    )


def test_a_zip_file_that_is_no_workbook(tmp_path: Path) -> None:
    """A zip file without the parts of a workbook is damaged, whatever it is called."""
    path = tmp_path / "letter.xlsx"
    with zipfile.ZipFile(path, "w") as archive:
        archive.writestr("word/document.xml", "<document/>")
    message = "`letter.xlsx` is damaged and cannot be read as a workbook"
    assert the_error_of(path) == error("S104", message, "letter.xlsx", AGAIN)


def test_a_zip_bomb_is_refused_by_its_table_of_contents(tmp_path: Path) -> None:
    """A part that packs 30 MB of one character is refused for its ratio, before anything is unpacked."""
    path = tmp_path / "bomb.xlsx"
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("xl/worksheets/sheet1.xml", b" " * (30 * 1024 * 1024))
    found = the_error_of(path)
    ratio = found.message.split(" times")[0].rsplit(" ", 1)[1]
    assert found == error(
        "S105", f"`bomb.xlsx` unpacks to {ratio} times its size, and the limit is 250 times", "bomb.xlsx", LESS
    )
    assert int(ratio) > 250


def test_a_zip_bomb_that_lies_about_its_length(workbook: Path) -> None:
    """A part that unpacks to more than it says is unpacked no further, and then fails its checksum."""
    data = bytearray(workbook.read_bytes())
    with zipfile.ZipFile(workbook) as archive:
        part = archive.getinfo("xl/worksheets/sheet1.xml")
    directory = data.rindex(b"PK\x01\x02", 0, data.rindex(part.filename.encode()))
    data[directory + 24 : directory + 28] = struct.pack("<I", 10)
    workbook.write_bytes(data)
    assert the_error_of(workbook) == error(
        "S104", "`lines.xlsx` is damaged and cannot be unpacked", "lines.xlsx", AGAIN
    )


def test_too_many_parts(tmp_path: Path) -> None:
    """A workbook of thousands of parts is refused."""
    path = tmp_path / "parts.xlsx"
    with zipfile.ZipFile(path, "w") as archive:
        for number in range(2001):
            archive.writestr(f"{number}.xml", "")
    message = "`parts.xlsx` has 2001 parts, and no file with more than 2000 is read"
    assert the_error_of(path) == error("S105", message, "parts.xlsx", LESS)


def test_xml_entities_are_refused(workbook: Path) -> None:
    """A document type declaration with entities that grow (the billion laughs) makes a workbook unusable."""
    laughs = '<!DOCTYPE x [<!ENTITY a "ha"><!ENTITY b "&a;&a;&a;">]><worksheet'
    path = repacked(workbook, "xl/worksheets/sheet1.xml", "<worksheet", laughs)
    message = "`changed.xlsx` declares XML entities, which no spreadsheet and no document does"
    assert the_error_of(path) == error("S106", message, "changed.xlsx", AGAIN)


def test_a_cell_at_the_far_end_of_the_sheet(workbook: Path) -> None:
    """Two cells a million rows and sixteen thousand columns apart would have to be held with all between."""
    path = repacked(workbook, "xl/worksheets/sheet1.xml", 'r="C2"', 'r="XFD1048576"')
    message = "sheet `Lines` reaches to XFD1048576, and no sheet with more than 1,000,000 cells is read"
    assert the_error_of(path) == error("S105", message, "changed.xlsx", "delete what stands far outside the schedule")


def test_a_text_file_of_100_megabytes(tmp_path: Path) -> None:
    """A file of 100 MB is refused for its length alone; it is sparse here, and reading it would still find no text."""
    path = tmp_path / "long.csv"
    with path.open("wb") as file:
        file.truncate(100 * 1024 * 1024)
    message = "`long.csv` has 100 MB, and no schedule over 20 MB is read"
    assert the_error_of(path) == error("S105", message, "long.csv", LESS)


def test_a_file_of_bytes(tmp_path: Path) -> None:
    """A .csv file that holds zero bytes is no text."""
    path = tmp_path / "bytes.csv"
    path.write_bytes(b"Mark,Size\0\n")
    help = "save the schedule as .csv in UTF-8, or as .xlsx"
    assert the_error_of(path) == error("S108", "`bytes.csv` is not text", "bytes.csv", help)


def test_a_quotation_mark_that_is_never_closed() -> None:
    """A field that a quotation mark opens and none closes would swallow the rest of the file; it is an error."""
    message = "a quotation mark opens a field and does not close it"
    help = 'write a quotation mark inside a field twice, and enclose that field: a ditto mark is """"'
    assert the_error_of(FILES / "open_quotation.csv") == error("S108", message, "open_quotation.csv", help)


def test_ditto_marks_that_would_swallow_a_line(tmp_path: Path) -> None:
    """Two bare ditto marks in a .csv file enclose the end of one line and the start of the next; that is an error."""
    path = tmp_path / "dittos.csv"
    path.write_text('Mark,Service,Size\nP-1,CHW,1 in\nP-2,",2 in\nP-3,",3 in\n', encoding="utf-8")
    message = "a quotation mark opens a field and does not close it"
    help = 'write a quotation mark inside a field twice, and enclose that field: a ditto mark is """"'
    assert the_error_of(path) == error("S108", message, "dittos.csv", help)


@pytest.mark.parametrize(
    ("file", "place", "message"),
    [
        ("not_a_number.json", Place("not_a_number.json"), "`NaN` is not a number in JSON"),
        ("nested.json", Place("nested.json", cell="/0/thk"), "`/0/thk` is not a value that a line can have"),
        ("one_object.json", Place("one_object.json"), "this is not a list of objects"),
        ("twice.json", Place("twice.json"), "the key `size` stands twice in one object"),
        ("broken.json", Place("broken.json", 2, 9, 1), "this is not JSON here"),
    ],
)
def test_json_that_is_no_schedule(file: str, place: Place, message: str) -> None:
    """NaN (RFC 8259 has none), nested values, a single object, a key stated twice and broken JSON are errors."""
    assert the_error_of(FILES / file) == Diagnostic("S109", Severity.ERROR, message, place, SHAPE)


def test_json_that_nests_without_end(tmp_path: Path) -> None:
    """A hundred thousand opening brackets do not overflow anything."""
    path = tmp_path / "deep.json"
    path.write_text("[" * 100_000, encoding="utf-8")
    assert the_error_of(path).code == "S109"


def test_toml_that_nests_without_end(tmp_path: Path) -> None:
    """Lists in lists in lists are an error that says so, and no crash."""
    path = tmp_path / "deep.toml"
    path.write_text("lines = " + "[" * 5_000 + "]" * 5_000, encoding="utf-8")
    assert the_error_of(path) == error(
        "S111",
        "`deep.toml` has lists in lists, too deep to read",
        "deep.toml",
        "write one array of tables, such as [[product]], with a text, a number, true or false for each term",
    )


@pytest.mark.parametrize("file", ["no_schedule.csv", "empty.csv"])
def test_a_file_without_a_schedule(file: str) -> None:
    """A file in which no row reads as a header is an error, not a schedule in which everything complies."""
    help = "name the columns as the vocabulary does, or say in a mapping file which row is the header"
    assert the_error_of(FILES / file) == error(
        "S201", "no row of the file reads as the header of a schedule", file, help
    )


def test_a_schedule_without_lines() -> None:
    """A header with nothing under it is an error."""
    message = "the schedule has a header and no line under it"
    help = "check that this is the right file and sheet"
    assert the_error_of(FILES / "header_only.csv") == error("S208", message, "header_only.csv", help)


def test_a_sheet_that_is_not_there(workbook: Path) -> None:
    """Asking for a sheet that the workbook does not have names the ones that it has."""
    help = "did you mean `Lines`? the sheets are: Lines"
    assert the_error_of(workbook, sheet="Line") == error("S110", "there is no sheet `Line`", "lines.xlsx", help)


@pytest.mark.parametrize("suffix", [".xlsx", ".xlsm", ".docx", ".csv", ".json", ".html"])
def test_random_bytes_never_raise(suffix: str, tmp_path: Path) -> None:
    """Whatever bytes a file holds, reading it ends in diagnostics."""
    for number in range(50):
        path = tmp_path / f"{number}{suffix}"
        path.write_bytes(bytes((number * 37 + position * position) % 256 for position in range(number * 7)))
        assert read_schedule(path, small_vocabulary()).diagnostics
