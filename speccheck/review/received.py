"""The register of what was received: documents, samples and reports, for which materials or lines, and of which date.

A register is a TOML file with a table for each thing that came, or a CSV file with a row for each:

    [[received]]
    document = "data sheet"                       # what it is, as the section calls it
    name = "Data sheet MW-3"
    of = { insulation = "mineral wool" }          # what it is of, by the terms of the vocabulary
    lines = ["P-1", "P-2"]                        # or for which lines of the schedule
    dated = 2025-06-01

A CSV file has the columns `document`, `name`, `dated` and `lines` (parted by `;`); every other column is a term.
"""

from __future__ import annotations

import csv
import datetime
import io
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path

from speccheck.english import nearest
from speccheck.language.core import DocumentKind, Ruleset
from speccheck.language.diagnostics import Diagnostic, Place, in_order
from speccheck.language.vocabulary.terms import Term, fold
from speccheck.language.vocabulary.values import BareUnits, NotGiven, Single, read_value
from speccheck.quantities import Interval, Misread
from speccheck.review.messages.registers import (
    BAD_RECEIVED,
    NO_COLUMN_OF_DOCUMENTS,
    NO_KIND_RECEIVED,
    RECEIVED_ENTRY,
    RECEIVED_NOT_READ,
    RECEIVED_OF_NO_TERM,
    RECEIVED_OF_NO_VALUE,
    RECEIVED_ON_NO_DATE,
)
from speccheck.toml_files import FileKind, read_toml_file

_KIND = FileKind(BAD_RECEIVED, RECEIVED_ENTRY, "write a table [[received]] for each thing that came")
_KINDS = {fold(kind.value): kind for kind in DocumentKind}
_OWN = ("document", "name", "dated", "lines")
MOST_BYTES = 20_000_000


@dataclass(frozen=True, slots=True)
class ReceivedDocument:
    """One thing that was received: its kind, what it is of by the names of terms, for which lines, and its date."""

    kind: DocumentKind
    name: str
    of: Mapping[str, Single] = field(default_factory=dict)
    lines: tuple[str, ...] = ()
    dated: datetime.date | None = None
    place: Place = field(default=Place(), compare=False)

    def __str__(self) -> str:
        dated = f", dated {self.dated.isoformat()}" if self.dated else ""
        return f"{self.name or self.kind.value}{dated}"


@dataclass(frozen=True, slots=True)
class ReceivedRegister:
    """What was received, in the order of the file, and the file's name without folders."""

    name: str
    entries: tuple[ReceivedDocument, ...]


@dataclass(frozen=True, slots=True)
class _Raw:
    """An entry as it is written, and where."""

    document: str
    name: str
    of: Mapping[str, str]
    lines: tuple[str, ...]
    dated: datetime.date | str | None
    place: Place


def read_received(path: Path, ruleset: Ruleset) -> tuple[ReceivedRegister | None, tuple[Diagnostic, ...]]:
    """Return the register of a file; None and errors where any of it cannot be used."""
    raw, problems = _rows(path) if path.suffix.lower() == ".csv" else _tables(path)
    if raw is None:
        return None, problems
    found: list[ReceivedDocument] = []
    faults = list(problems)
    for one in raw:
        entry = _entry(one, ruleset)
        if isinstance(entry, ReceivedDocument):
            found.append(entry)
        else:
            faults += entry
    return (None if faults else ReceivedRegister(path.name, tuple(found))), in_order(faults)


# ---- files -------------------------------------------------------------------------------------------------------


def _tables(path: Path) -> tuple[list[_Raw] | None, tuple[Diagnostic, ...]]:
    from speccheck.review.file_shapes import ReceivedFile

    file, problems = read_toml_file(path, ReceivedFile, _KIND)
    if file is None:
        return None, problems
    entries = enumerate(file.entries.received)
    raw = [
        _Raw(one.document, one.name, one.of, tuple(one.lines), one.dated, file.source.place("received", number))
        for number, one in entries
    ]
    return raw, ()


def _rows(path: Path) -> tuple[list[_Raw] | None, tuple[Diagnostic, ...]]:
    """Return the rows of a CSV file, each at its line."""
    try:
        if path.stat().st_size > MOST_BYTES:
            raise OSError("it is larger than 20 MB")
        text = path.read_text("utf-8-sig")
    except (OSError, UnicodeDecodeError) as problem:
        return None, (RECEIVED_NOT_READ.at(Place(path.name), file=path.name, problem=problem),)
    reader = csv.DictReader(io.StringIO(text))
    heads = [head.strip().casefold() for head in reader.fieldnames or ()]
    if "document" not in heads:
        said = NO_COLUMN_OF_DOCUMENTS.at(Place(path.name, 1), file=path.name, columns=", ".join(_OWN))
        return None, (said,)
    return list(_raw_rows(reader, path.name)), ()


def _raw_rows(reader: csv.DictReader[str], name: str) -> Iterator[_Raw]:
    for row in reader:
        cells = {str(head).strip(): (cell or "").strip() for head, cell in row.items() if isinstance(cell, str)}
        own = {head.casefold(): cell for head, cell in cells.items() if head.casefold() in _OWN}
        of = {head: cell for head, cell in cells.items() if cell and head.casefold() not in _OWN}
        lines = tuple(part.strip() for part in own.get("lines", "").split(";") if part.strip())
        if own.get("document") or of or lines:
            place = Place(name, reader.line_num)
            yield _Raw(own.get("document", ""), own.get("name", ""), of, lines, own.get("dated") or None, place)


# ---- entries -----------------------------------------------------------------------------------------------------


def _entry(raw: _Raw, ruleset: Ruleset) -> ReceivedDocument | list[Diagnostic]:
    """Return an entry with its words understood, or what is wrong with them."""
    faults: list[Diagnostic] = []
    kind = _KINDS.get(fold(raw.document))
    if kind is None:
        kinds = [one.value for one in DocumentKind]
        near = nearest(raw.document, kinds)
        faults.append(NO_KIND_RECEIVED.at(raw.place, near=near, words=raw.document, kinds=", ".join(kinds)))
    of: dict[str, Single] = {}
    for name, text in raw.of.items():
        found = _value(name, text, raw, ruleset)
        if isinstance(found, Diagnostic):
            faults.append(found)
        else:
            of[found[0].name] = found[1]
    dated = _date(raw.dated)
    if raw.dated and dated is None:
        faults.append(RECEIVED_ON_NO_DATE.at(raw.place, words=raw.dated))
    if faults or kind is None:
        return faults
    return ReceivedDocument(kind, raw.name, of, raw.lines, dated, raw.place)


def _value(name: str, text: str, raw: _Raw, ruleset: Ruleset) -> tuple[Term, Single] | Diagnostic:
    """Return the term that a name is and the value that a text has for it."""
    term = ruleset.vocabulary.find(name)
    if term is None:
        return RECEIVED_OF_NO_TERM.at(raw.place, near=nearest(name, ruleset.vocabulary.terms), words=name)
    value = read_value(text, term, BareUnits(system=ruleset.units))
    if isinstance(value, Misread | NotGiven | Interval):
        return RECEIVED_OF_NO_VALUE.at(raw.place, words=text, term=term.name)
    return term, value


def _date(stated: datetime.date | str | None) -> datetime.date | None:
    if not isinstance(stated, str):
        return stated
    try:
        return datetime.date.fromisoformat(stated)
    except ValueError:
        return None
