"""The register of deviations: what the engineer has accepted, for which lines, from which clause, and until when.

A register is a TOML file with a table for each deviation:

    [[deviation]]
    name = "D-3"                                # by which the letters call it
    clause = "3.3.A"
    lines = "service is glycol and orientation is vertical"
    reason = "The riser has no straight run over 18 ft."
    reference = "RFI 12, answered 2026-02-10"
    until = 2026-06-30                          # the last day on which it holds; leave it out where it has no end

`lines` is a condition in the clause language, with the terms and definitions of the ruleset.
"""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from speccheck.english import nearest
from speccheck.language.clause_names import clauses_by_name
from speccheck.language.core import Condition, Ruleset
from speccheck.language.diagnostics import NOWHERE, Diagnostic, Place, in_order
from speccheck.review.conditions import read_condition
from speccheck.review.messages.registers import (
    BAD_REGISTER,
    DEVIATION_OF_NO_CLAUSE,
    DEVIATIONS_OF_ONE_NAME,
    REGISTER_ENTRY,
)
from speccheck.toml_files import FileKind, TomlText, read_toml_file

if TYPE_CHECKING:
    from speccheck.review.file_shapes import DeviationEntry

_KIND = FileKind(BAD_REGISTER, REGISTER_ENTRY, "write a table [[deviation]] for each deviation")


@dataclass(frozen=True, slots=True)
class Deviation:
    """One accepted deviation: `lines` says for which lines, `until` is the last day on which it holds, None for ever.

    `clause` is the label of the clause; `words` is the condition as written.
    """

    name: str
    clause: str
    lines: Condition
    words: str
    reason: str
    reference: str
    until: datetime.date | None = None
    place: Place = NOWHERE

    def __str__(self) -> str:
        until = f", until {self.until.isoformat()}" if self.until else ""
        return f"{self.name}: {self.reason} ({self.reference}{until})"


@dataclass(frozen=True, slots=True)
class Register:
    """The accepted deviations in the order of the file, and the file's name without folders."""

    name: str
    deviations: tuple[Deviation, ...]


def read_register(path: Path, ruleset: Ruleset) -> tuple[Register | None, tuple[Diagnostic, ...]]:
    """Return the register of a file; None and errors where any of it cannot be used."""
    from speccheck.review.file_shapes import RegisterFile

    file, problems = read_toml_file(path, RegisterFile, _KIND)
    if file is None:
        return None, problems
    found: list[Deviation] = []
    faults = list(_named_twice(file.entries.deviation, file.source))
    for index, entry in enumerate(file.entries.deviation):
        deviation = _deviation(entry, index, file.source, ruleset)
        if isinstance(deviation, Deviation):
            found.append(deviation)
        else:
            faults += deviation
    return (None if faults else Register(path.name, tuple(found))), in_order(faults)


def _named_twice(entries: Sequence[DeviationEntry], source: TomlText) -> Iterator[Diagnostic]:
    """Yield an error for each deviation with the name of one above it."""
    taken: set[str] = set()
    for index, entry in enumerate(entries):
        if entry.name in taken:
            place = source.place("deviation", index, "name", value=True)
            yield DEVIATIONS_OF_ONE_NAME.at(place, source, deviation=entry.name)
        taken.add(entry.name)


def _deviation(entry: DeviationEntry, index: int, source: TomlText, ruleset: Ruleset) -> Deviation | list[Diagnostic]:
    """Return the deviation of an entry, or what is wrong with its clause and its condition."""
    clauses = clauses_by_name(clause for clause in ruleset.clauses if clause.shall)
    problems = []
    if entry.clause not in clauses:
        place = source.place("deviation", index, "clause", value=True)
        problems.append(
            DEVIATION_OF_NO_CLAUSE.at(place, source, near=nearest(entry.clause, clauses), clause=entry.clause)
        )
    lines = read_condition(entry.lines, ruleset, source.place_within("deviation", index, "lines"))
    if isinstance(lines, tuple):
        return [*problems, *lines]
    if problems:
        return problems
    return Deviation(
        entry.name,
        clauses[entry.clause].label,
        lines,
        " ".join(entry.lines.split()),
        entry.reason,
        entry.reference,
        entry.until,
        source.place("deviation", index),
    )
