"""Headers of rulesets resolved: edition, units, tolerance and the like, put together with what the bases bring."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from speccheck.language.core import Amount, Clause, Condition, Literal, Ruleset
from speccheck.language.kinds import quantity_kind
from speccheck.language.literals import amount_of, resolve_literal
from speccheck.language.names import Names
from speccheck.language.resolving_changes import resolve_cheapest_first, resolve_stocked
from speccheck.language.resolving_parts import check_once, texts_of
from speccheck.language.syntax import Measure, RulesetSyntax, TextPart
from speccheck.language.values import BareUnits

DEFAULT_TOLERANCE = 1e-6


def units_of(syntax: RulesetSyntax) -> str:
    """Return the system of units in which bare numbers of the ruleset's examples are read."""
    return "".join(texts_of(syntax.parts, "units")[:1]) or "inch-pound"


def bare_units_of(syntax: RulesetSyntax) -> BareUnits:
    """Return what a number without a unit is in."""
    return BareUnits(system=units_of(syntax))


def put_together(
    names: Names,
    syntax: RulesetSyntax,
    bases: Sequence[Ruleset],
    definitions: Mapping[str, Condition | Amount],
    own: Sequence[Clause],
    clauses: tuple[Clause, ...],
) -> Ruleset:
    """Return the ruleset of a file: its header, its `own` clauses and all `clauses`, names and definitions resolved."""
    check_once(names, syntax.parts)
    parts = syntax.parts
    replaced = [f"{clause.replaces[0]} by {clause.name}" for clause in own if clause.replaces]
    cautions = [*(caution for base in bases for caution in base.cautions), *texts_of(parts, "caution")]
    return Ruleset(
        name=syntax.name.text,
        vocabulary=names.vocabulary,
        clauses=clauses,
        tables={table.name: table for table in names.tables.values()},
        definitions=definitions,
        edition="".join(texts_of(parts, "edition")[:1]),
        units=units_of(syntax),
        tolerance=_tolerance(names, syntax),
        nominal_metric=any(isinstance(part, TextPart) and part.keyword == "nominal metric" for part in parts),
        stocked=resolve_stocked(names, syntax, bases),
        cheapest_first=resolve_cheapest_first(names, syntax, bases),
        covers="".join(texts_of(parts, "covers")[:1]),
        leaves_out="".join(texts_of(parts, "leaves out")[:1]),
        cautions=tuple(dict.fromkeys(cautions)),
        notes=texts_of(parts, "note"),
        builds_on=tuple(base.name for base in bases),
        replaced=tuple(dict.fromkeys([*(one for base in bases for one in base.replaced), *replaced])),
    )


def _tolerance(names: Names, syntax: RulesetSyntax) -> float:
    part = next((p for p in syntax.parts if isinstance(p, TextPart) and p.keyword == "tolerance"), None)
    if part is None:
        return DEFAULT_TOLERANCE
    words = part.words[0]
    literal = resolve_literal(Measure(words.text, False, words.place), quantity_kind("ratio"), names.source)
    if not isinstance(literal, Literal):
        names.report(literal)
        return DEFAULT_TOLERANCE
    share = amount_of(literal.value)
    if not 0 <= share < 1:
        names.error("L205", f"`{words.text}` is no tolerance", words, "write a share such as `0.1 %`")
        return DEFAULT_TOLERANCE
    return share
