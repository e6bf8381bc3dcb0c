"""Findings that the writer has answered: a note that says `P314 is meant` at the clause or the table.

They are counted and named in every report, so that nobody takes a ruleset for one in which nothing was found.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from speccheck.language.core import Clause, LineRelation, RequiredDocument, Ruleset, Statement, SubjectScope, Table
from speccheck.proofread.findings import Finding

Noted = Clause | RequiredDocument | LineRelation | Table | SubjectScope | Statement


def is_meant(finding: Finding, ruleset: Ruleset) -> bool:
    """Say whether a note on what a finding is of says that it is meant as it stands."""
    said = re.compile(rf"\b{finding.code} is meant\b")
    return any(said.search(note) for one in _of(finding, ruleset) for note in one.notes)


def _of(finding: Finding, ruleset: Ruleset) -> Iterator[Noted]:
    """Yield the items of a ruleset that a finding is of: those that it names, and the one at its place."""
    named: tuple[Clause | RequiredDocument | LineRelation, ...]
    named = (*ruleset.clauses, *ruleset.documents, *ruleset.relations)
    yield from (one for one in named if _label(one) in finding.clauses)
    unnamed: tuple[Table | SubjectScope | Statement, ...]
    unnamed = (*ruleset.tables.values(), *ruleset.scopes, *ruleset.statements)
    yield from (one for one in unnamed if one.place == finding.place)


def _label(one: Clause | RequiredDocument | LineRelation) -> str:
    return one.label if isinstance(one, Clause) else one.name
