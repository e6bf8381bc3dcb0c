"""Mapping: what a person settles about a schedule that the schedule itself leaves open.

The file in which it is written has a guide of its own, `examples/mapping/README.md`; `mapping_file` reads it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property, lru_cache

from speccheck.language.vocabulary.terms import Form, Term, fold
from speccheck.quantities import canonical_unit, unit_dimensions
from speccheck.quantities.marks import plain
from speccheck.schedule.grid import column_letters

SIZE_UNITS = {"in": "in", "NPS": "NPS", "nps": "NPS", "mm": "mm", "DN": "DN", "dn": "DN"}
INSULATION = "insulation"
ANY = "*"
"""Stands for any words, or none, in a text of a mapping file: "*chilled*" is every text that has the word in it."""

Meanings = Mapping[str, str]
"""What one text means: values by the names of their terms."""


@dataclass(frozen=True, slots=True)
class MappedColumn:
    """The term that a column is, and the unit of its bare numbers ("" where the header is to say).

    `stands_for` is the one value by its term that the column stands for, where each of its cells is a line.
    """

    term: str
    unit: str = ""
    stands_for: tuple[str, str] | None = None


@dataclass(frozen=True, slots=True)
class MappedTable:
    """The constants of some tables: those of a sheet, under a heading, or both; "" for any."""

    constants: Meanings
    sheet: str = ""
    heading: str = ""

    def speaks_of(self, sheet: str, headings: Sequence[str]) -> bool:
        """Whether a table of this sheet, under these headings, is one of them."""
        if self.sheet and not matches(self.sheet, sheet):
            return False
        return not self.heading or any(matches(self.heading, heading) for heading in headings)


@dataclass(frozen=True)
class ScheduleMapping:
    """What a mapping file settles. Column keys are headers or column letters, as written; header rows count from 1.

    `repeat_blanks` are names of terms, or None to leave it to the schedule. `values` are by term, and `legend` for the
    cells of all terms: what a text means, of the term of its column or of several; `letters` are the entries of a
    legend that go by a letter or a figure alone, for the cells of insulations; `note_marks` are the marks of the notes
    of each sheet. `units_of` is whose `units` are; `legend_places` are the cells of those entries of the legend that
    the schedule has itself.
    """

    file: str = ""
    units: str = ""
    sheet: str = ""
    header_rows: tuple[int, ...] = ()
    ignore: tuple[str, ...] = ()
    repeat_blanks: tuple[str, ...] | None = None
    columns: Mapping[str, MappedColumn] = field(default_factory=dict)
    values: Mapping[str, Mapping[str, str | Meanings]] = field(default_factory=dict)
    read_hidden: bool = False
    seen: tuple[str, ...] = ()
    ignore_sheets: tuple[str, ...] = ()
    constants: Meanings = field(default_factory=dict)
    tables: tuple[MappedTable, ...] = ()
    legend: Mapping[str, Meanings] = field(default_factory=dict)
    notes: tuple[str, ...] = ()
    units_of: str = "schedule"
    legend_places: Mapping[str, str] = field(default_factory=dict)
    legend_rows: frozenset[tuple[str, int]] = frozenset()
    letters: Mapping[str, Meanings] = field(default_factory=dict)
    note_marks: frozenset[tuple[str, str]] = frozenset()

    def has_seen(self, text: str) -> bool:
        """Whether a person has read a text that is no datum: it changes nothing, or only what `tables` say of it."""
        return _among(self.seen, text) or any(one.heading and matches(one.heading, text) for one in self.tables)

    def is_note(self, text: str) -> bool:
        """Whether a row that begins with this text is a note, and no line."""
        return bool(self.notes) and _among(self.notes, text)

    def leaves_out(self, sheet: str) -> bool:
        """Whether a sheet holds no part of the schedule."""
        return _among(self.ignore_sheets, sheet)

    @cached_property
    def _by_header(self) -> Mapping[str, str]:
        return {fold(key): key for key in (*self.columns, *self.ignore)}

    @cached_property
    def _likenesses(self) -> tuple[str, ...]:
        return tuple(key for key in (*self.columns, *self.ignore) if ANY in key)

    def key_of(self, header: str, column: int | None) -> str | None:
        """Return the key under which a column is mentioned: its header first, then its letter; None for neither."""
        if not self._by_header:
            return None
        found = self._by_header.get(fold(header)) if header.strip() else None
        if found is None and header.strip():
            found = next((key for key in self._likenesses if matches(key, header)), None)
        letters = column_letters(column) if column is not None else ""
        if found is None and (letters in self.columns or letters in self.ignore):
            return letters
        return found

    def meanings(self, text: str, term: Term) -> Meanings | None:
        """Return what `text` stands for in cells of `term`, by term, or None where nothing is said of it."""
        letters = self.letters if term.name == INSULATION else None
        for meanings in (self.values.get(term.name), self.legend, letters):
            found = _looked_up(meanings, text) if meanings else None
            if found is not None:
                return {term.name: found} if isinstance(found, str) else found
        return None

    def whose_words(self, text: str) -> str:
        """Return who says what a text means: "the mapping file", or the cell of the schedule's own legend."""
        cell = next((cell for name, cell in self.legend_places.items() if fold(name) == fold(text)), "")
        return f"the legend in {cell}" if cell else "the mapping file"

    def replaced(self, text: str, term: Term) -> str | None:
        """Return the value of `term` that `text` stands for in its cells, or None where nothing is said of it."""
        if not self.values and not self.legend and not self.letters:
            return None
        return (self.meanings(text, term) or {}).get(term.name)

    def constants_of(self, sheet: str, headings: Sequence[str] = ()) -> Iterator[tuple[str, str, str]]:
        """Yield the constants of a table: term, value, and the entry that says so; the narrowest entry comes first."""
        by_width = sorted(self.tables, key=lambda table: (not table.heading, not table.sheet))
        told: set[str] = set()
        for constants, entry in (
            *((one.constants, "tables") for one in by_width if one.speaks_of(sheet, headings)),
            (self.constants, "constants"),
        ):
            for name, value in constants.items():
                if name not in told:
                    told.add(name)
                    yield name, value, entry


def _looked_up(meanings: Mapping[str, str | Meanings], text: str) -> str | Meanings | None:
    """Return the entry for a text: the one of just these words, or the first whose likeness it has."""
    folded = fold(text)
    for written, meaning in meanings.items():
        if fold(written) == folded:
            return meaning
    return next((meaning for written, meaning in meanings.items() if ANY in written and matches(written, text)), None)


def _among(texts: Sequence[str], text: str) -> bool:
    return any(matches(one, text) for one in texts)


def matches(written: str, text: str) -> bool:
    """Whether a text is the one that is written in a mapping file, where a star stands for any words.

    Case, blanks, hyphens and full stops count for nothing. A text that has a star itself is also itself.
    """
    return fold(written) == fold(text) or (ANY in written and _pattern(written).fullmatch(fold(text)) is not None)


@lru_cache(maxsize=1024)
def _pattern(written: str) -> re.Pattern[str]:
    return re.compile(r"\s*.*\s*".join(re.escape(fold(part)) for part in written.split(ANY)), re.DOTALL)


def settled(mapping: ScheduleMapping | None, units: str, usual: str, sheet: str = "") -> ScheduleMapping:
    """Return a mapping with the only sheet to read and the units of bare numbers.

    Each is what is asked for, else what the mapping has; for units that neither has, the usual ones.
    """
    mapping = mapping or ScheduleMapping()
    mapping = replace(mapping, sheet=sheet or mapping.sheet)
    if units or mapping.units or not usual:
        return replace(mapping, units=units or mapping.units)
    return replace(mapping, units=usual, units_of="ruleset")


def unit_of(text: str, term: Term) -> str:
    """Return the canonical unit that `text` is for numbers of `term`; "" where it is none."""
    if term.kind.form is Form.SIZE:
        return SIZE_UNITS.get(text.strip(), "") or SIZE_UNITS.get(canonical_unit(plain(text)) or "", "")
    unit = canonical_unit(plain(text)) if text.strip() else None
    return unit if unit and term.kind.dimension in unit_dimensions(unit) else ""
