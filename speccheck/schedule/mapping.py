"""Mapping files: what a person settles about a schedule that the schedule itself leaves open.

A mapping file is TOML; every key may be left out:

    units = "inch-pound"            # of numbers without a unit: "inch-pound" or "metric"
    sheet = "Piping"                # the only sheet to read
    header-row = 5                  # or [5, 6] for a header of two rows
    ignore = ["Rev", "H"]           # columns to leave out, by header or letter
    repeat-blanks = ["service"]     # terms whose blank cells repeat the value above; [] for none
    read-hidden = true              # read rows and columns that are hidden
    seen = ["valves by others"]     # remarks, notes and headings that a person has read, and that change nothing
    ignore-sheets = ["Cover"]       # sheets that hold no part of the schedule

    [columns]                       # header or letter = term, or term and unit; "Jacket / Thk" for a header of two rows
    "Pipe Dia." = "pipe size"
    D = { term = "thickness", unit = "in" }

    [constants]                     # what holds for every line that does not state it
    location = "mechanical room"

    [values.service]                # words of the schedule = value of the term
    "Chilled Wtr Sup" = "chilled water"
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING

from speccheck.language.diagnostics import Diagnostic, in_order
from speccheck.language.suggestions import nearest
from speccheck.language.vocabulary.terms import Form, Term, Vocabulary, fold
from speccheck.language.vocabulary.values import BareUnits, read_value
from speccheck.quantities import Misread, canonical_unit, unit_dimensions
from speccheck.quantities.marks import plain
from speccheck.schedule import codes
from speccheck.schedule.grid import column_letters
from speccheck.toml_files import FileKind, TomlText, read_toml_file

if TYPE_CHECKING:
    from speccheck.schedule.mapping_shape import MappingFile

SIZE_UNITS = {"in": "in", "NPS": "NPS", "nps": "NPS", "mm": "mm", "DN": "DN", "dn": "DN"}
_KIND = FileKind(codes.BAD_MAPPING, codes.MAPPING_ENTRY)


@dataclass(frozen=True, slots=True)
class MappedColumn:
    """The term that a column is, and the unit of its bare numbers ("" where the header is to say)."""

    term: str
    unit: str = ""


@dataclass(frozen=True)
class ScheduleMapping:
    """What a mapping file settles. Column keys are headers or column letters, as written; header rows count from 1.

    `repeat_blanks` are names of terms, or None to leave it to the schedule.
    """

    file: str = ""
    units: str = ""
    sheet: str = ""
    header_rows: tuple[int, ...] = ()
    ignore: tuple[str, ...] = ()
    repeat_blanks: tuple[str, ...] | None = None
    columns: Mapping[str, MappedColumn] = field(default_factory=dict)
    values: Mapping[str, Mapping[str, str]] = field(default_factory=dict)
    read_hidden: bool = False
    seen: tuple[str, ...] = ()
    ignore_sheets: tuple[str, ...] = ()
    constants: Mapping[str, str] = field(default_factory=dict)

    @cached_property
    def _seen(self) -> frozenset[str]:
        return frozenset(map(fold, self.seen))

    def has_seen(self, text: str) -> bool:
        """Whether a person has read a text that is no datum, and says that it changes nothing."""
        return fold(text) in self._seen

    @cached_property
    def _by_header(self) -> Mapping[str, str]:
        return {fold(key): key for key in (*self.columns, *self.ignore)}

    def key_of(self, header: str, column: int | None) -> str | None:
        """Return the key under which a column is mentioned: its header first, then its letter; None for neither."""
        if not self._by_header:
            return None
        found = self._by_header.get(fold(header)) if header.strip() else None
        letters = column_letters(column) if column is not None else ""
        if found is None and (letters in self.columns or letters in self.ignore):
            return letters
        return found

    def replaced(self, text: str, term: Term) -> str | None:
        """Return the value that `text` stands for in cells of `term`, or None where nothing is said of it."""
        spellings = self.values.get(term.name)
        if not spellings:
            return None
        return next((value for written, value in spellings.items() if fold(written) == fold(text)), None)


def read_mapping(path: Path, vocabulary: Vocabulary) -> tuple[ScheduleMapping | None, tuple[Diagnostic, ...]]:
    """Return what a mapping file settles, and what is wrong with it; None and errors where it cannot be used."""
    from speccheck.schedule.mapping_shape import MappingFile

    file, problems = read_toml_file(path, MappingFile, _KIND)
    if file is None:
        return None, problems
    mapping = _settled(file.entries, path.name)
    problems = tuple(_unknown_names(mapping, file.source, vocabulary))
    return (None if problems else mapping), problems


def _settled(found: MappingFile, file: str) -> ScheduleMapping:
    """Return what the entries of a file settle."""
    columns = {
        key: MappedColumn(entry) if isinstance(entry, str) else MappedColumn(entry.term, entry.unit)
        for key, entry in found.columns.items()
    }
    header = found.header_row
    return ScheduleMapping(
        file,
        found.units,
        found.sheet,
        tuple(header) if isinstance(header, list) else (header,) if header else (),
        tuple(found.ignore),
        None if found.repeat_blanks is None else tuple(found.repeat_blanks),
        columns,
        found.values,
        found.read_hidden,
        tuple(found.seen),
        tuple(found.ignore_sheets),
        found.constants,
    )


def _unknown_names(mapping: ScheduleMapping, source: TomlText, vocabulary: Vocabulary) -> Iterator[Diagnostic]:
    """Yield an error for each term, unit and value of the mapping that does not exist, in the order of the file."""
    found = [*_unknown_terms(mapping, vocabulary), *_unknown_units(mapping, vocabulary)]
    found += _unknown_values(mapping, vocabulary)
    errors = (
        source.error(codes.MAPPING_ENTRY, message, source.place(*path, value=True), help)
        for path, message, help in found
    )
    yield from in_order(errors)


_Fault = tuple[tuple[str | int, ...], str, str]


def _unknown_terms(mapping: ScheduleMapping, vocabulary: Vocabulary) -> Iterator[_Fault]:
    """Yield the path of each term that the vocabulary does not have, with what to say of it."""
    named: list[tuple[tuple[str | int, ...], str]]
    named = [(("columns", key, "term"), entry.term) for key, entry in mapping.columns.items()]
    named += [(("values", name), name) for name in mapping.values]
    named += [(("constants", name), name) for name in mapping.constants]
    named += [(("repeat-blanks", place), name) for place, name in enumerate(mapping.repeat_blanks or ())]
    for path, name in named:
        if name not in vocabulary.terms:
            near = nearest(name, vocabulary.terms)
            help = f"did you mean `{near}`?" if near is not None else "name a term of the vocabulary: `speccheck terms`"
            yield path, f"the vocabulary has no term `{name}`", help


def _unknown_units(mapping: ScheduleMapping, vocabulary: Vocabulary) -> Iterator[_Fault]:
    for key, entry in mapping.columns.items():
        term = vocabulary.terms.get(entry.term)
        if term is not None and entry.unit and not unit_of(entry.unit, term):
            usual = term.inch_pound if term.inch_pound == term.metric else f"{term.inch_pound} or {term.metric}"
            message = f"`{entry.unit}` is not a unit of `{term.name}`"
            yield ("columns", key, "unit"), message, f"write {usual}" if usual else "leave the unit out"


def _unknown_values(mapping: ScheduleMapping, vocabulary: Vocabulary) -> Iterator[_Fault]:
    stated = [(("constants", name), name, value) for name, value in mapping.constants.items()]
    spelled = [
        (("values", name, written), name, value)
        for name, spellings in mapping.values.items()
        for written, value in spellings.items()
    ]
    for path, name, value in (*stated, *spelled):
        term = vocabulary.terms.get(name)
        read = read_value(value, term, BareUnits(system=mapping.units)) if term is not None else None
        if isinstance(read, Misread):
            yield path, read.message, read.help


def unit_of(text: str, term: Term) -> str:
    """Return the canonical unit that `text` is for numbers of `term`; "" where it is none."""
    if term.kind.form is Form.SIZE:
        return SIZE_UNITS.get(text.strip(), "") or SIZE_UNITS.get(canonical_unit(plain(text)) or "", "")
    unit = canonical_unit(plain(text)) if text.strip() else None
    return unit if unit and term.kind.dimension in unit_dimensions(unit) else ""
