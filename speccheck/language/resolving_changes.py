"""What a ruleset says of changes resolved: in which values a term is stocked, and which changes are cheaper."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from speccheck.language.core import OneOf, Ruleset, TermValue
from speccheck.language.names import Names
from speccheck.language.resolving_conditions import resolve_condition
from speccheck.language.syntax import ConditionPart, RulesetSyntax, TextPart
from speccheck.language.values import Single


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
            message = "`stocked` does not say in which values a term can be had"
            help = "write a term and its values: `stocked thickness is one of 1/2 in, 1 in, 1-1/2 in`"
            names.report(names.source.error("L207", message, part.condition.place, help))
        elif condition.amount.term.name in said:
            message = f"the stocked values of `{condition.amount.term.name}` are said twice"
            names.report(names.source.error("L309", message, part.place, "join the two, or leave one out"))
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
                names.error("L301", f"`{words.text}` stands twice in one order", words, "leave one of them out")
            else:
                found = (*found, term.name)
    return found
