"""The register of deviations: what the engineer has accepted, for which lines, from which clause, and until when.

A register is a TOML file with a table for each deviation:

    [[deviation]]
    name = "D-3"                                # by which the letters call it
    clause = "3.3.A"
    lines = "service is glycol and orientation is vertical"
    reason = "The riser has no straight run over 18 ft."
    reference = "RFI 12, answered 2026-02-10"
    until = 2026-06-30                          # the last day on which it holds; leave it out where it has no end

`lines` is a condition in the clause language, with the terms and definitions of the ruleset; it is read here too.
"""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

from speccheck.english import did_you_mean
from speccheck.language.clause_names import clauses_by_name
from speccheck.language.core import Condition, Ruleset
from speccheck.language.diagnostics import Diagnostic, Place, Severity, in_order
from speccheck.language.resolve.names import Names
from speccheck.language.syntax.source_text import SourceText
from speccheck.language.syntax.tree import ClauseSyntax, ConditionPart, ConditionSyntax, RulesetSyntax
from speccheck.language.vocabulary.terms import fold
from speccheck.review import codes
from speccheck.toml_files import FileKind, TomlText, read_toml_file

if TYPE_CHECKING:
    from speccheck.review.file_shapes import DeviationEntry

_BEFORE = 'ruleset "r" clause C "c" where '
_AFTER = " shall x be given"


def read_condition(text: str, ruleset: Ruleset, place: Place) -> Condition | tuple[Diagnostic, ...]:
    """Return the condition that `text` states, or what is wrong with it, at its place in the file that holds it.

    `place` is where the text begins; where its file is not read line by line, the column of a mistake counts from the
    beginning of the text.
    """
    from speccheck.language.syntax.parsing import parse

    flat = " ".join(text.split())
    source = SourceText(place.file, f"{_BEFORE}{flat}{_AFTER}")
    syntax, problems = parse(source)
    found = _scope(syntax) if not problems else None
    if found is None:
        return tuple(_moved(problem, flat, place) for problem in problems) or (_not_one(flat, place),)
    names = _names(source, ruleset)
    from speccheck.language.resolve.conditions import resolve_condition

    condition = resolve_condition(names, found)
    if condition is None:
        return tuple(_moved(problem, flat, place) for problem in names.diagnostics)
    return condition


def _scope(syntax: object) -> ConditionSyntax | None:
    """Return the one condition of the one clause that was read, None where the text held more than a condition."""
    if not isinstance(syntax, RulesetSyntax) or len(syntax.items) != 1 or not isinstance(syntax.items[0], ClauseSyntax):
        return None
    parts = syntax.items[0].parts
    conditions = [part for part in parts if isinstance(part, ConditionPart)]
    if len(parts) != 2 or [part.keyword for part in conditions] != ["where", "shall"]:
        return None
    return conditions[0].condition


def _not_one(text: str, place: Place) -> Diagnostic:
    """Return that a text is more than a condition, or less."""
    message, help = f"`{text}` is not one condition", "write what would follow `where` in a clause"
    whole = replace(place, length=len(text))
    return Diagnostic(codes.REGISTER_CONDITION, Severity.ERROR, message, whole, help, _excerpt(text, place))


def _excerpt(text: str, place: Place) -> str:
    """Return a text with as many blanks before it as stand before its place."""
    return " " * max(place.column - 1, 0) + text


def _names(source: SourceText, ruleset: Ruleset) -> Names:
    """Return the names that a condition can use: those of the ruleset."""
    definitions = {fold(name): (name, meaning) for name, meaning in ruleset.definitions.items()}
    return Names(
        source,
        ruleset.vocabulary,
        {fold(name): table for name, table in ruleset.tables.items()},
        {key: name for key, (name, _) in definitions.items()},
        lambda name: definitions[fold(name)][1],
    )


def _moved(problem: Diagnostic, text: str, place: Place) -> Diagnostic:
    """Return a diagnostic of the text as it was read, at the place where it stands."""
    column = min(max(problem.place.column - len(_BEFORE), 1), len(text) + 1)
    length = max(min(problem.place.length, len(text) - column + 1), 1)
    moved = Place(place.file, place.line, place.column + column - 1 if place.column else column, length)
    return replace(problem, place=moved, excerpt=_excerpt(text, place))


NOWHERE = Place()
_KIND = FileKind(codes.BAD_REGISTER, codes.REGISTER_ENTRY, "write a table [[deviation]] for each deviation")


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
            message = f"two deviations are called `{entry.name}`"
            yield source.error(codes.REGISTER_ENTRY, message, place, "give one of them another name")
        taken.add(entry.name)


def _deviation(entry: DeviationEntry, index: int, source: TomlText, ruleset: Ruleset) -> Deviation | list[Diagnostic]:
    """Return the deviation of an entry, or what is wrong with its clause and its condition."""
    clauses = clauses_by_name(clause for clause in ruleset.clauses if clause.shall)
    problems = []
    if entry.clause not in clauses:
        help = did_you_mean(entry.clause, clauses, "name a clause by its number in the matrix")
        message = f"the ruleset has no clause `{entry.clause}` that asks for anything"
        place = source.place("deviation", index, "clause", value=True)
        problems.append(source.error(codes.DEVIATION_CLAUSE, message, place, help))
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
