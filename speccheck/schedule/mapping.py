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

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path
from typing import Any

from speccheck.language.diagnostics import Diagnostic, Place, Severity
from speccheck.language.suggestions import nearest
from speccheck.language.vocabulary.terms import Form, Term, Vocabulary, fold
from speccheck.language.vocabulary.values import BareUnits, read_value
from speccheck.quantities import Misread, canonical_unit, unit_dimensions
from speccheck.quantities.marks import plain
from speccheck.schedule import codes
from speccheck.schedule.grid import column_letters

SIZE_UNITS = {"in": "in", "NPS": "NPS", "nps": "NPS", "mm": "mm", "DN": "DN", "dn": "DN"}
_KEYS = (
    "the keys are units, sheet, header-row, ignore, ignore-sheets, repeat-blanks, read-hidden, seen, constants, "
    "columns and values"
)
_SHAPES = {
    "units": "write inch-pound or metric",
    "sheet": "write the name of one sheet",
    "header-row": "write a row number from 1, or a list of up to three",
    "ignore": "write a list of headers or column letters",
    "repeat-blanks": "write a list of terms",
    "read-hidden": "write true or false",
    "seen": "write a list of texts",
    "ignore-sheets": "write a list of names of sheets",
    "constants": "write the value as a text",
    "columns": "write the name of a term, or a term and its unit",
    "values": "write the value as a text",
}


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
    import tomllib

    place = Place(path.name)
    try:
        content = tomllib.loads(path.read_text(encoding="utf-8"))
    except OSError as error:
        message = f"`{path.name}` cannot be opened: {(error.strerror or 'no access').lower()}"
        return None, (Diagnostic(codes.BAD_MAPPING, Severity.ERROR, message, place),)
    except UnicodeDecodeError:
        message = f"`{path.name}` is not text in UTF-8"
        return None, (Diagnostic(codes.BAD_MAPPING, Severity.ERROR, message, place),)
    except tomllib.TOMLDecodeError as error:
        found = re.search(r"line (\d+), column (\d+)", str(error))
        place = Place(path.name, int(found[1]), int(found[2]), 1) if found else place
        message = f"this is not TOML: {str(error).split(' (at ')[0].lower()}"
        return None, (Diagnostic(codes.BAD_MAPPING, Severity.ERROR, message, place),)
    mapping, problems = _validated(content, path.name)
    if mapping is not None:
        problems = _unknown_names(mapping, vocabulary)
    return (None if problems else mapping), tuple(problems)


def _validated(content: dict[str, Any], file: str) -> tuple[ScheduleMapping | None, list[Diagnostic]]:
    """Return the mapping where the content has the right shape, else what is wrong with each entry."""
    from pydantic import ValidationError

    from speccheck.schedule.mapping_shape import MappingFile

    try:
        found = MappingFile.model_validate(content)
    except ValidationError as error:
        return None, list(dict.fromkeys(_misshapen(file, fault["loc"], fault["type"]) for fault in error.errors()))
    columns = {
        key: MappedColumn(entry) if isinstance(entry, str) else MappedColumn(entry.term, entry.unit)
        for key, entry in found.columns.items()
    }
    header = found.header_row
    return (
        ScheduleMapping(
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
        ),
        [],
    )


def _misshapen(file: str, location: tuple[int | str, ...], fault: str) -> Diagnostic:
    """Return the error of an entry of the wrong shape, in words of our own."""
    keys = tuple(map(str, location))
    if fault == "extra_forbidden":
        return _entry(file, keys[:1] if len(keys) == 1 else (*keys[:2], keys[-1]), "there is no such key", _KEYS)
    depth = {"columns": 2, "values": 3, "constants": 2}.get(keys[0], 1)
    return _entry(file, keys[:depth], _SHAPES[keys[0]])


def _entry(file: str, keys: tuple[str, ...], message: str, help: str = "") -> Diagnostic:
    """Return the error of one entry."""
    return Diagnostic(codes.MAPPING_ENTRY, Severity.ERROR, f"entry `{'.'.join(keys)}`: {message}", Place(file), help)


def _unknown_names(mapping: ScheduleMapping, vocabulary: Vocabulary) -> list[Diagnostic]:
    """Return an error for each term, unit and value of the mapping that does not exist."""
    file = mapping.file
    problems = []
    named: list[tuple[tuple[str, ...], str]]
    named = [(("columns", key), entry.term) for key, entry in mapping.columns.items()]
    named += [(("values", name), name) for name in mapping.values]
    named += [(("constants", name), name) for name in mapping.constants]
    named += [(("repeat-blanks",), name) for name in mapping.repeat_blanks or ()]
    for keys, name in named:
        if name not in vocabulary.terms:
            near = nearest(name, vocabulary.terms)
            help = f"did you mean `{near}`?" if near is not None else ""
            problems.append(_entry(file, keys, f"the vocabulary has no term `{name}`", help))
    for key, entry in mapping.columns.items():
        term = vocabulary.terms.get(entry.term)
        if term is not None and entry.unit and not unit_of(entry.unit, term):
            usual = term.inch_pound if term.inch_pound == term.metric else f"{term.inch_pound} or {term.metric}"
            message = f"`{entry.unit}` is not a unit of `{term.name}`"
            problems.append(_entry(file, ("columns", key, "unit"), message, f"write {usual}" if usual else ""))
    for name, value in mapping.constants.items():
        term = vocabulary.terms.get(name)
        read = read_value(value, term, BareUnits(system=mapping.units)) if term is not None else None
        if isinstance(read, Misread):
            problems.append(_entry(file, ("constants", name), read.message, read.help))
    for name, spellings in mapping.values.items():
        term = vocabulary.terms.get(name)
        for written, value in spellings.items() if term is not None else ():
            found = read_value(value, term, BareUnits(system=mapping.units)) if term is not None else None
            if isinstance(found, Misread):
                problems.append(_entry(file, ("values", name, written), found.message, found.help))
    return problems


def unit_of(text: str, term: Term) -> str:
    """Return the canonical unit that `text` is for numbers of `term`; "" where it is none."""
    if term.kind.form is Form.SIZE:
        return SIZE_UNITS.get(text.strip(), "") or SIZE_UNITS.get(canonical_unit(plain(text)) or "", "")
    unit = canonical_unit(plain(text)) if text.strip() else None
    return unit if unit and term.kind.dimension in unit_dimensions(unit) else ""
