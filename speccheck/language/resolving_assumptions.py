"""Assumptions resolved: the term, the value that stands for it, and the conditions under which it does."""

from __future__ import annotations

from speccheck.language.core import Assumption, Condition
from speccheck.language.diagnostics import Diagnostic
from speccheck.language.kinds import Form
from speccheck.language.literals import resolve_literal
from speccheck.language.names import Names
from speccheck.language.resolving_amounts import resolve_choice
from speccheck.language.resolving_conditions import resolve_condition
from speccheck.language.resolving_parts import sources_of, texts_of
from speccheck.language.syntax import AssumptionSyntax, ConditionPart, Words
from speccheck.language.values import Single
from speccheck.language.vocabulary import Term


def resolve_assumption(names: Names, syntax: AssumptionSyntax, ruleset: str) -> Assumption | None:
    """Return what is assumed, or None after its errors were reported."""
    term = names.term(syntax.name.text)
    if term is None:
        names.unknown(syntax.name)
        return None
    value = _value(names, syntax, term)
    scope = _scope(names, syntax)
    if value is None or scope is None:
        return None
    return Assumption(
        term, value, scope, sources_of(syntax.parts), texts_of(syntax.parts, "note"), ruleset, syntax.place
    )


def _value(names: Names, syntax: AssumptionSyntax, term: Term) -> Single | None:
    if isinstance(syntax.value, Words):
        if term.kind.form is Form.CHOICE:
            return resolve_choice(names, syntax.value, term)
        help = "assume a quantity, a size, a number, or a value of a term with a closed list"
        names.error("L203", f"`{syntax.value.text}` is not {term.kind.described}", syntax.value, help)
        return None
    if term.kind.form not in (Form.QUANTITY, Form.SIZE, Form.COUNT, Form.NUMBER):
        message = f"`{syntax.value.text}` is not {term.kind.described}"
        names.report(names.source.error("L203", message, syntax.value.place, f"name a value of `{term.name}`"))
        return None
    literal = resolve_literal(syntax.value, term.kind, names.source)
    if isinstance(literal, Diagnostic):
        names.report(literal)
        return None
    return literal.value


def _scope(names: Names, syntax: AssumptionSyntax) -> tuple[Condition, ...] | None:
    parts = [part.condition for part in syntax.parts if isinstance(part, ConditionPart)]
    found = [resolve_condition(names, part) for part in parts]
    whole = tuple(condition for condition in found if condition is not None)
    return whole if len(whole) == len(parts) else None
