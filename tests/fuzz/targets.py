"""The ways into the program that take what a user wrote, each as a function of bytes, with examples to begin with."""

from __future__ import annotations

import tempfile
import zipfile
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from io import BytesIO
from pathlib import Path

from speccheck.editor.analysing import analyse
from speccheck.editor.completing import suggestions
from speccheck.judge import judge_lines
from speccheck.language.format.house_style import format_text
from speccheck.language.loading import load_ruleset, load_vocabulary, parse_ruleset
from speccheck.language.resolve.rulesets import Ruleset
from speccheck.language.syntax.source_text import SourceText
from speccheck.language.vocabulary.terms import Vocabulary
from speccheck.language.vocabulary.values import BareUnits, read_value
from speccheck.phrases import read_cell
from speccheck.quantities import read
from speccheck.review.deviations import read_register
from speccheck.review.notes import read_notes
from speccheck.review.received import read_received
from speccheck.schedule import read_mapping, read_schedule
from speccheck.shipped import shipped_folder
from speccheck.specification.blocks import blocks_of
from speccheck.specification.sentences import read_sentence

TOP = Path(__file__).parents[2]
DAIRY = TOP / "examples" / "dairy"


@dataclass(frozen=True)
class Target:
    """One way in: what it takes, what it does with the bytes, and examples."""

    name: str
    takes: str
    run: Callable[[bytes], object]
    examples: Callable[[], list[bytes]]


@cache
def vocabulary() -> Vocabulary:
    """Return the shipped vocabulary."""
    return load_vocabulary(shipped_folder("rulesets") / "mechanical-insulation.clauses").vocabulary


@cache
def ruleset() -> Ruleset:
    """Return the clauses of trade practice, which need no shipped values."""
    loaded = load_ruleset(shipped_folder("rulesets") / "trade-practice.clauses")
    assert loaded.ruleset is not None
    return loaded.ruleset


def text(data: bytes) -> str:
    """Return bytes as text; surrogates that stand alone stay, as a program that hands text over may hold them."""
    try:
        return data.decode("utf-8", errors="surrogatepass")
    except UnicodeDecodeError:
        return data.decode("utf-8", errors="replace")


@cache
def _folder() -> Path:
    return Path(tempfile.mkdtemp(prefix="fuzz-"))


def _file(name: str, data: bytes) -> Path:
    path = _folder() / name
    path.write_bytes(data)
    return path


def _quantity(data: bytes) -> object:
    return read(text(data))


def _cell(data: bytes) -> object:
    words = text(data)
    terms = [vocabulary().terms[name] for name in ("thickness", "pipe size", "service", "insulation", "location")]
    bare = BareUnits(system="inch-pound")
    return [(read_value(words, term, bare), read_cell(words, term, vocabulary(), bare)) for term in terms]


def _clauses(data: bytes) -> object:
    words = text(data)
    return parse_ruleset(words, vocabulary=vocabulary()), format_text(SourceText("fuzz.clauses", words))


def _editor(data: bytes) -> object:
    analysis = analyse(text(data), _folder() / "fuzz.clauses")
    return [suggestions(analysis, line, 4) for line in range(1, min(len(analysis.source.lines), 8))]


def _sentence(data: bytes) -> object:
    words = text(data)
    return [read_sentence(words, vocabulary()), tuple(blocks_of(words.splitlines(), "fuzz.txt"))]


def _schedule(name: str) -> Callable[[bytes], object]:
    def run(data: bytes) -> object:
        schedule = read_schedule(_file(name, data), vocabulary(), usual_units="inch-pound")
        return judge_lines(ruleset(), schedule.lines)

    return run


def _part(ending: str, template: Callable[[], bytes], part: str) -> Callable[[bytes], object]:
    """Return what reads a file of parts of which one is given, as a whole."""

    def run(data: bytes) -> object:
        held = BytesIO()
        with zipfile.ZipFile(BytesIO(template())) as old, zipfile.ZipFile(held, "w") as new:
            for name in old.namelist():
                new.writestr(name, data if name == part else old.read(name))
        return read_schedule(_file("fuzz" + ending, held.getvalue()), vocabulary(), usual_units="inch-pound")

    return run


def _beside(name: str, reader: Callable[[Path], object]) -> Callable[[bytes], object]:
    return lambda data: reader(_file(name, data))


@cache
def _workbook() -> bytes:
    import openpyxl

    book = openpyxl.Workbook()
    sheet = book.active
    assert sheet is not None
    for row in _ROWS:
        sheet.append(row)
    sheet.merge_cells("A5:B5")
    held = BytesIO()
    book.save(held)
    return held.getvalue()


@cache
def _document() -> bytes:
    import docx

    document = docx.Document()
    document.add_heading("Chilled water", 2)
    table = document.add_table(rows=len(_ROWS), cols=len(_ROWS[0]))
    for row, words in zip(table.rows, _ROWS, strict=True):
        for cell, word in zip(row.cells, words, strict=True):
            cell.text = str(word)
    held = BytesIO()
    document.save(held)
    return held.getvalue()


_ROWS = [
    ["Mark", "Service", "Pipe size (in)", "Insulation", "Thickness (in)", "Location"],
    ["CHW-1", "chilled water", "2", "fiberglass w/ ASJ", "1-1/2", "outdoor"],
    ["CHW-2", "chilled water", "4", "elastomeric", "1", "mechanical room"],
    ["HHW-1", "heating hot water", '1-1/2" - 3"', "fiberglass", '1" or 2"', "concealed"],
    ["note", "", "", "", "", ""],
]


def _parts(template: Callable[[], bytes], part: str) -> Callable[[], list[bytes]]:
    def examples() -> list[bytes]:
        with zipfile.ZipFile(BytesIO(template())) as archive:
            return [archive.read(part)]

    return examples


def _files(*paths: str) -> Callable[[], list[bytes]]:
    return lambda: [(TOP / path).read_bytes() for path in paths]


def _lines(*words: str) -> Callable[[], list[bytes]]:
    return lambda: [word.encode() for word in words]


_SEPARATED = "\n".join(",".join(f'"{word}"'.replace('""', '"') for word in row) for row in _ROWS).encode()
_OBJECTS = b'[{"service": "chilled water", "pipe size": "2 in", "thickness": "1 in", "insulation": "fiberglass"}]'
_TABLE = b'[[line]]\nservice = "chilled water"\n"pipe size" = "2 in"\nthickness = 25.4\ndate = 2024-05-01\n'
_HTML = b"<html><body><h2>Steam</h2><table>" + b"".join(
    b"<tr>" + b"".join(b"<td>" + word.encode() + b"</td>" for word in row) + b"</tr>" for row in _ROWS
)
_SHEET, _WORDS = "xl/worksheets/sheet1.xml", "word/document.xml"
_MAPPINGS = ("examples/mapping/mapping.toml", "examples/dairy/mapping.toml")

TARGETS = {
    target.name: target
    for target in (
        Target(
            "quantities", "the words of an amount", _quantity, _lines('1-1/2"', "25 mm", "0.27 Btu.in/(h.ft2.F)", "<1")
        ),
        Target(
            "cells", "the words of a cell", _cell, _lines("1-1/2 FG w/ASJ + PVC jkt", "DHW & DHWR", "DN 15-32", "25/50")
        ),
        Target(
            "clauses",
            "a ruleset",
            _clauses,
            _files("tests/judge/columns/vocabulary.clauses", "rulesets/safety.clauses"),
        ),
        Target("editor", "a text in an editor", _editor, _files("rulesets/safety.clauses")),
        Target(
            "sentences",
            "sentences of a section",
            _sentence,
            _lines("Insulation shall be at least 1 inch thick below 60 F."),
        ),
        Target("csv", "a separated file", _schedule("fuzz.csv"), lambda: [_SEPARATED]),
        Target("json", "a JSON file", _schedule("fuzz.json"), lambda: [_OBJECTS]),
        Target("toml", "a TOML file", _schedule("fuzz.toml"), lambda: [_TABLE]),
        Target("html", "a page", _schedule("fuzz.html"), lambda: [_HTML]),
        Target("worksheet", "a sheet of a workbook", _part(".xlsx", _workbook, _SHEET), _parts(_workbook, _SHEET)),
        Target(
            "styles",
            "the styles of a workbook",
            _part(".xlsx", _workbook, "xl/styles.xml"),
            _parts(_workbook, "xl/styles.xml"),
        ),
        Target("word", "the words of a document", _part(".docx", _document, _WORDS), _parts(_document, _WORDS)),
        Target(
            "mapping",
            "a mapping file",
            _beside("fuzz.toml", lambda path: read_mapping(path, vocabulary())),
            _files(*_MAPPINGS),
        ),
        Target(
            "deviations",
            "a register of deviations",
            _beside("fuzz.toml", lambda path: read_register(path, ruleset())),
            _files("examples/dairy/second-round/deviations.toml"),
        ),
        Target(
            "notes",
            "a reviewer's notes",
            _beside("fuzz.toml", lambda path: read_notes(path, ruleset())),
            _lines('[[note]]\nline = { service = "CHW" }\nclause = "1"\ndate = 2024-02-29\ntext = "x"\n'),
        ),
        Target(
            "received",
            "a register of what was received",
            _beside("fuzz.toml", lambda path: read_received(path, ruleset())),
            _files("examples/dairy/received.toml"),
        ),
    )
}
