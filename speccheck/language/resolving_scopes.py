"""Scopes resolved: the systems that a ruleset says the clauses of a subject govern."""

from __future__ import annotations

from speccheck.language.core import SubjectScope
from speccheck.language.names import Names
from speccheck.language.resolving_clauses import resolve_conditions, resolve_exceptions
from speccheck.language.resolving_parts import sources_of, texts_of
from speccheck.language.syntax import ScopeSyntax


def resolve_scope(names: Names, syntax: ScopeSyntax, ruleset: str) -> SubjectScope:
    """Return what a scope means; conditions with errors were reported and are left out."""
    return SubjectScope(
        syntax.subject.text,
        resolve_conditions(names, syntax.parts, "where"),
        resolve_exceptions(names, syntax.parts),
        sources_of(syntax.parts),
        texts_of(syntax.parts, "note"),
        ruleset,
        syntax.place,
    )
