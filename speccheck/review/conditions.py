"""A condition in the clause language that stands outside a ruleset, such as the lines of a deviation.

It is read as the scope of a clause would be, in the terms, definitions and tables of a ruleset.
"""

from __future__ import annotations

from dataclasses import replace

from speccheck.language.core import Condition, Ruleset
from speccheck.language.diagnostics import Diagnostic, Place
from speccheck.language.resolve.names import Names
from speccheck.language.syntax.source_text import SourceText
from speccheck.language.syntax.tree import ClauseSyntax, ConditionPart, ConditionSyntax, RulesetSyntax
from speccheck.language.vocabulary.terms import fold
from speccheck.review.messages.registers import NOT_ONE_CONDITION

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
    whole = replace(place, length=len(text))
    return NOT_ONE_CONDITION.at(whole, _excerpt(text, place), condition=text)


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
