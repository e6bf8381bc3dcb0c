"""Mapping files: read from TOML, and held against the vocabulary; what cannot be used is told at its place."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from speccheck.english import nearest
from speccheck.language.diagnostic_rules import Wording
from speccheck.language.diagnostics import Diagnostic, in_order
from speccheck.language.vocabulary.terms import Vocabulary
from speccheck.language.vocabulary.values import BareUnits, NotGiven, read_value
from speccheck.quantities import Misread
from speccheck.schedule.mapping import ANY, MappedColumn, MappedTable, Meanings, ScheduleMapping, unit_of
from speccheck.schedule.messages.settled import (
    BAD_MAPPING,
    ENTRY_NEEDS_NO_UNIT,
    ENTRY_NOT_READ,
    ENTRY_OF_NO_TERM,
    ENTRY_OF_NO_UNIT,
    ENTRY_OF_NO_VALUE,
    ENTRY_TOO_WIDE,
    MAPPING_ENTRY,
)
from speccheck.toml_files import FileKind, TomlText, read_toml_file

if TYPE_CHECKING:
    from speccheck.schedule.mapping_shape import MappedColumnEntry, MappingFile

FEWEST_LETTERS_BESIDE_STARS = 2
_KIND = FileKind(BAD_MAPPING, MAPPING_ENTRY)
_Path = tuple[str | int, ...]


@dataclass(frozen=True, slots=True)
class _Fault:
    """What is to be said of an entry: its path, the sentence with its facts, and the known name that was meant."""

    path: _Path
    said: Wording
    facts: Mapping[str, str]
    near: str | None = None


def read_mapping(path: Path, vocabulary: Vocabulary) -> tuple[ScheduleMapping | None, tuple[Diagnostic, ...]]:
    """Return what a mapping file settles, and what is wrong with it; None and errors where it cannot be used."""
    from speccheck.schedule.mapping_shape import MappingFile

    file, problems = read_toml_file(path, MappingFile, _KIND)
    if file is None:
        return None, problems
    mapping = _settled(file.entries, path.name)
    problems = _errors(mapping, file.source, vocabulary)
    return (None if problems else mapping), problems


def _settled(found: MappingFile, file: str) -> ScheduleMapping:
    """Return what the entries of a file settle."""
    header = found.header_row
    return ScheduleMapping(
        file=file,
        units=found.units,
        sheet=found.sheet,
        header_rows=tuple(header) if isinstance(header, list) else (header,) if header else (),
        ignore=tuple(found.ignore),
        repeat_blanks=None if found.repeat_blanks is None else tuple(found.repeat_blanks),
        columns={key: _column(entry) for key, entry in found.columns.items()},
        values=found.values,
        read_hidden=found.read_hidden,
        seen=tuple(found.seen),
        ignore_sheets=tuple(found.ignore_sheets),
        constants=found.constants,
        tables=tuple(MappedTable(one.constants, one.sheet, one.heading) for one in found.tables),
        legend=found.legend,
        notes=tuple(found.notes),
    )


def _column(entry: str | MappedColumnEntry) -> MappedColumn:
    if isinstance(entry, str):
        return MappedColumn(entry)
    stands_for = next(iter(entry.stands_for.items())) if entry.stands_for else None
    return MappedColumn(entry.term, entry.unit, stands_for)


def _errors(mapping: ScheduleMapping, source: TomlText, vocabulary: Vocabulary) -> tuple[Diagnostic, ...]:
    """Return an error for each term, unit, value and likeness that does not exist, in the order of the file."""
    faults = [
        *_unknown_terms(mapping, vocabulary),
        *_unknown_units(mapping, vocabulary),
        *_unknown_values(mapping, vocabulary),
        *_too_wide(mapping),
    ]
    return in_order(
        one.said.at(source.place(*one.path, value=True), source, near=one.near, **one.facts) for one in faults
    )


def _stated(mapping: ScheduleMapping) -> Iterator[tuple[_Path, str, str]]:
    """Yield each value that the file states: the path of the entry, the term, the value."""
    yield from _of_terms(("constants",), mapping.constants)
    for index, table in enumerate(mapping.tables):
        yield from _of_terms(("tables", index, "constants"), table.constants)
    for key, entry in mapping.columns.items():
        if entry.stands_for is not None:
            yield ("columns", key, "for", entry.stands_for[0]), *entry.stands_for
    for name, meanings in mapping.values.items():
        for written, meaning in meanings.items():
            if isinstance(meaning, str):
                yield ("values", name, written), name, meaning
            else:
                yield from _of_terms(("values", name, written), meaning)
    for written, meaning in mapping.legend.items():
        yield from _of_terms(("legend", written), meaning)


def _of_terms(path: _Path, values: Meanings) -> Iterator[tuple[_Path, str, str]]:
    for name, value in values.items():
        yield (*path, name), name, value


def _unknown_terms(mapping: ScheduleMapping, vocabulary: Vocabulary) -> Iterator[_Fault]:
    """Yield the path of each term that the vocabulary does not have, with what to say of it."""
    named: list[tuple[_Path, str]] = [(("columns", key, "term"), one.term) for key, one in mapping.columns.items()]
    named += [(("values", name), name) for name in mapping.values]
    named += [(path, name) for path, name, _ in _stated(mapping) if name not in mapping.values]
    named += [(("repeat-blanks", place), name) for place, name in enumerate(mapping.repeat_blanks or ())]
    for path, name in named:
        if name not in vocabulary.terms:
            yield _Fault(path, ENTRY_OF_NO_TERM, {"term": name}, nearest(name, vocabulary.terms))


def _unknown_units(mapping: ScheduleMapping, vocabulary: Vocabulary) -> Iterator[_Fault]:
    for key, entry in mapping.columns.items():
        term = vocabulary.terms.get(entry.term)
        if term is not None and entry.unit and not unit_of(entry.unit, term):
            usual = term.inch_pound if term.inch_pound == term.metric else f"{term.inch_pound} or {term.metric}"
            facts = {"unit": entry.unit, "term": term.name}
            path: _Path = ("columns", key, "unit")
            yield (
                _Fault(path, ENTRY_OF_NO_UNIT, facts | {"usual": usual})
                if usual
                else _Fault(path, ENTRY_NEEDS_NO_UNIT, facts)
            )


def _unknown_values(mapping: ScheduleMapping, vocabulary: Vocabulary) -> Iterator[_Fault]:
    for path, name, value in _stated(mapping):
        term = vocabulary.terms.get(name)
        read = read_value(value, term, BareUnits(system=mapping.units)) if term is not None else None
        if isinstance(read, Misread):
            yield _Fault(path, ENTRY_NOT_READ, {"sentence": read.message, "advice": read.help})
        elif path[0] == "columns" and isinstance(read, NotGiven):
            yield _Fault(path, ENTRY_OF_NO_VALUE, {"value": value, "term": name})


def _too_wide(mapping: ScheduleMapping) -> Iterator[_Fault]:
    """Yield the paths of texts that are hardly more than stars, which would settle nearly everything."""
    texts: list[tuple[_Path, str]] = [(("columns", key), key) for key in mapping.columns]
    for name in ("ignore", "seen", "notes", "ignore-sheets"):
        listed: tuple[str, ...] = getattr(mapping, name.replace("-", "_"))
        texts += [((name, place), text) for place, text in enumerate(listed)]
    texts += [(("values", name, text), text) for name, meanings in mapping.values.items() for text in meanings]
    texts += [(("legend", text), text) for text in mapping.legend]
    for index, table in enumerate(mapping.tables):
        texts += [(("tables", index, "sheet"), table.sheet), (("tables", index, "heading"), table.heading)]
    for path, text in texts:
        if ANY in text and sum(map(str.isalnum, text)) < FEWEST_LETTERS_BESIDE_STARS:
            yield _Fault(path, ENTRY_TOO_WIDE, {"text": text})
