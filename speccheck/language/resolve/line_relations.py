"""Relations between lines resolved: which lines belong together, and what they have to have in common."""

from __future__ import annotations

from collections.abc import Sequence

from speccheck.language.core import Comparison, LineRelation, Literal, Ruleset, TermValue
from speccheck.language.messages.rulesets import (
    RELATION_ASKS_NOT_ONE_THING,
    RELATION_WITHOUT_GROUPS,
    TOTAL_WITHOUT_LIMIT,
)
from speccheck.language.resolve.clauses import (
    check_once,
    is_draft,
    resolve_conditions,
    resolve_exceptions,
    sources_of,
    takes_its_number,
    texts_of,
    words_of,
)
from speccheck.language.resolve.names import Names
from speccheck.language.syntax.tree import Item, RelationSyntax, TextPart, Words
from speccheck.language.vocabulary.terms import Term

ASKS = ("`shall have the same insulation`", "`shall have a line`", "`shall total run length be at most 50 ft`")


def resolve_relations(
    names: Names, items: Sequence[Item], ruleset: str, bases: Sequence[Ruleset], taken: set[str]
) -> tuple[LineRelation, ...]:
    """Return the relations of a file, those of the rulesets built on first; a number that is `taken` is an error."""
    found = {(one.ruleset, one.name): one for base in bases for one in base.relations}
    for item in items:
        if not isinstance(item, RelationSyntax):
            continue
        if not takes_its_number(names, item.name, "relation", "paragraph", taken):
            continue
        relation = _relation(names, item, ruleset)
        if relation is not None:
            found[ruleset, relation.name] = relation
    return tuple(found.values())


def _relation(names: Names, item: RelationSyntax, ruleset: str) -> LineRelation | None:
    check_once(names, item.parts)
    errors = len(names.diagnostics)
    alike, same = (_terms(names, words_of(item.parts, keyword)) for keyword in ("alike in", "shall have the same"))
    has_line = any(isinstance(part, TextPart) and part.keyword == "shall have a line" for part in item.parts)
    beside = resolve_conditions(names, item.parts, "beside where")
    total = _total(names, item)
    if len(names.diagnostics) > errors:
        return None
    todo = texts_of(item.parts, "todo")
    if not todo and sum((bool(same), has_line, total is not None)) != 1:
        names.tell(RELATION_ASKS_NOT_ONE_THING, item.name.place, relation=item.name.text, asks=", ".join(ASKS))
        return None
    if not todo and (not alike or (has_line and not beside) or (total is not None and beside)):
        wanted = "`alike in` and terms" if not alike else "`beside where`" if has_line else "no `beside where`"
        names.tell(RELATION_WITHOUT_GROUPS, item.name.place, relation=item.name.text, wanted=wanted)
        return None
    return LineRelation(
        item.name.text,
        item.title.text,
        ruleset,
        alike,
        same,
        has_line,
        total,
        resolve_conditions(names, item.parts, "where"),
        beside,
        resolve_exceptions(names, item.parts),
        sources_of(item.parts),
        "".join(texts_of(item.parts, "wording")[:1]),
        "".join(texts_of(item.parts, "reason")[:1]),
        texts_of(item.parts, "caution"),
        texts_of(item.parts, "note"),
        is_draft(item.parts),
        todo,
        item.place,
    )


def _terms(names: Names, words: Sequence[Words]) -> tuple[Term, ...]:
    found = []
    for one in words:
        term = names.term(one.text)
        if term is None:
            names.unknown(one)
        else:
            found.append(term)
    return tuple(found)


def _total(names: Names, item: RelationSyntax) -> Comparison | None:
    """Return what the sum of a term is compared with: a stated limit of an amount that can be added up."""
    found = resolve_conditions(names, item.parts, "shall total")
    if not found:
        return None
    (condition,) = found[:1]
    match condition:
        case Comparison(TermValue(term), relation, Literal()) if relation.is_limit and term.kind.counted_from_nothing:
            return condition
        case _:
            names.tell(TOTAL_WITHOUT_LIMIT, condition.place)
            return None
