"""What a ruleset declares beside its clauses, resolved: definitions (each at its first use, circles found),
assumptions, stocked values and cheap changes, and the systems that its clauses are to govern.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from speccheck.language.core import Amount, Assumption, Condition, OneOf, Ruleset, SubjectScope, TermValue
from speccheck.language.diagnostics import Diagnostic
from speccheck.language.messages.meaning import ASSUMED_VALUE_NOT_IN_LIST, CANNOT_BE_ASSUMED, STOCKED_WITHOUT_VALUES
from speccheck.language.messages.rulesets import (
    DEFINITION_NAME_TAKEN,
    DEFINITIONS_IN_CIRCLE,
    STOCKED_TWICE,
    VALUE_TWICE_IN_ORDER,
)
from speccheck.language.resolve.amounts import resolve_amount, resolve_choice
from speccheck.language.resolve.clauses import resolve_conditions, resolve_exceptions, sources_of, texts_of
from speccheck.language.resolve.conditions import resolve_condition
from speccheck.language.resolve.literals import resolve_literal
from speccheck.language.resolve.names import Names
from speccheck.language.syntax.tree import (
    AssumptionSyntax,
    ConditionPart,
    DefinitionSyntax,
    RulesetSyntax,
    ScopeSyntax,
    TextPart,
    Words,
)
from speccheck.language.vocabulary.terms import Form, Term, fold
from speccheck.language.vocabulary.values import Single


class Definitions:
    """The definitions of one ruleset, with those of the rulesets that it builds on."""

    def __init__(self, names: Names, written: Iterable[DefinitionSyntax], bases: Iterable[Ruleset]) -> None:
        self.names = names
        self._meanings: dict[str, Condition | Amount | None] = {}
        self._written: dict[str, DefinitionSyntax] = {}
        self._open: list[str] = []
        for base in bases:
            for name, meaning in base.definitions.items():
                names.definition_names[fold(name)] = name
                self._meanings[fold(name)] = meaning
        for item in written:
            self._take(item)
        names.definition = self.meaning

    def _take(self, item: DefinitionSyntax) -> None:
        """Take a definition under its name, if nothing else has it."""
        key = fold(item.name.text)
        if key in self.names.definition_names or self.names.term(item.name.text) is not None:
            self.names.tell(DEFINITION_NAME_TAKEN, item.name.place, name=item.name.text)
            return
        self.names.definition_names[key] = item.name.text
        self._written[key] = item

    def resolve_all(self) -> Mapping[str, Condition | Amount]:
        """Return the meanings of all definitions that have one, used or not."""
        for key in self._written:
            self.meaning(key)
        return {
            self.names.definition_names[key]: meaning for key, meaning in self._meanings.items() if meaning is not None
        }

    def meaning(self, name: str) -> Condition | Amount | None:
        """Return the meaning of a definition, resolving it at its first use; circles are reported and mean nothing."""
        key = fold(name)
        if key in self._open:
            self._report_circle([*self._open[self._open.index(key) :], key])
            return None
        if key not in self._meanings:
            self._open.append(key)
            self._meanings[key] = self._resolve(self._written[key])
            self._open.pop()
        return self._meanings[key]

    def _resolve(self, item: DefinitionSyntax) -> Condition | Amount | None:
        if item.is_amount:
            return resolve_amount(self.names, item.meaning)  # type: ignore[arg-type]
        return resolve_condition(self.names, item.meaning)  # type: ignore[arg-type]

    def _report_circle(self, circle: list[str]) -> None:
        written = " -> ".join(f"`{self.names.definition_names[one]}`" for one in circle)
        self.names.tell(DEFINITIONS_IN_CIRCLE, self._written[circle[0]].name.place, definitions=written)


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
        if term.kind.form is Form.YES_NO and syntax.value.text in ("yes", "no"):
            return syntax.value.text == "yes"
        if term.kind.form is Form.TEXT:
            return syntax.value.text
        names.tell(CANNOT_BE_ASSUMED, syntax.value.place, value=syntax.value.text, kind=term.kind.described)
        return None
    if term.kind.form not in (Form.QUANTITY, Form.SIZE, Form.COUNT, Form.NUMBER):
        names.tell(
            ASSUMED_VALUE_NOT_IN_LIST,
            syntax.value.place,
            value=syntax.value.text,
            kind=term.kind.described,
            term=term.name,
        )
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


def resolve_stocked(names: Names, syntax: RulesetSyntax, bases: Sequence[Ruleset]) -> Mapping[str, tuple[Single, ...]]:
    """Return the stocked values by the names of their terms; what the ruleset says goes before what its bases say."""
    found = {name: values for base in bases for name, values in base.stocked.items()}
    said: set[str] = set()
    for part in syntax.parts:
        if not isinstance(part, ConditionPart):
            continue
        condition = resolve_condition(names, part.condition)
        if condition is None:
            continue
        if not isinstance(condition, OneOf) or not isinstance(condition.amount, TermValue):
            names.tell(STOCKED_WITHOUT_VALUES, part.condition.place)
        elif condition.amount.term.name in said:
            names.tell(STOCKED_TWICE, part.place, term=condition.amount.term.name)
        else:
            said.add(condition.amount.term.name)
            found[condition.amount.term.name] = condition.options
    return found


def resolve_cheapest_first(names: Names, syntax: RulesetSyntax, bases: Sequence[Ruleset]) -> tuple[str, ...]:
    """Return the names of terms, the one whose change is cheapest first; without an own order that of the last base."""
    found = next((base.cheapest_first for base in reversed(bases) if base.cheapest_first), ())
    for part in syntax.parts:
        if not isinstance(part, TextPart) or part.keyword != "cheapest first":
            continue
        found = ()
        for words in part.words:
            term = names.term(words.text)
            if term is None:
                names.unknown(words)
            elif term.name in found:
                names.tell(VALUE_TWICE_IN_ORDER, words.place, value=words.text)
            else:
                found = (*found, term.name)
    return found


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
