"""What a schedule leaves out filled in from product data, where a person asks for it, and said in every finding.

A value is taken only where the product data show one alone, at the condition that the line states if it states one. The
schedule does not state it all the same: each cell that it bears on says so.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from speccheck.judge import AssumedValue, Cell, Judge, Verdict
from speccheck.judge.completing import needs_of
from speccheck.judge.operations import Rules
from speccheck.language.core import Ruleset
from speccheck.language.core.walking import conditions_of
from speccheck.language.vocabulary.terms import Term
from speccheck.language.vocabulary.values import NotGiven
from speccheck.review.matrix import Matrix
from speccheck.review.products import FROM_PRODUCT_DATA, Product, product_data, product_name, properties, same
from speccheck.review.reviewing import judge_schedule
from speccheck.schedule.lines import Datum, Line, Schedule


@dataclass(frozen=True, slots=True)
class FromData:
    """A value of a term that product data show and the schedule does not state."""

    term: str
    datum: Datum

    @property
    def words(self) -> str:
        """The value and where it is from."""
        return f"{self.term} {self.datum.text} {self.datum.note}"


def fill_from_data(matrix: Matrix, sheet: Schedule) -> Matrix:
    """Return a schedule judged anew with what product data show of what its lines leave out, each cell saying so."""
    ruleset, data = matrix.ruleset, product_data(sheet)
    rules = Judge(ruleset).rules
    lines, added, products = [], [], []
    for line in matrix.schedule.lines:
        product = data.find(product_name(line))
        found = _added(line, product, ruleset, rules) if product is not None else {}
        lines.append(replace(line, data={**line.data, **found}))
        added.append(found)
        products.append(product.name if product is not None else "")
    filled = judge_schedule(replace(matrix.schedule, lines=tuple(lines)), ruleset)
    cells = (
        tuple(_saying_so(cell, terms, found, name) for cell, terms in zip(row, _terms(ruleset), strict=True))
        for row, found, name in zip(filled.told, added, products, strict=True)
    )
    return replace(matrix, schedule=filled.schedule, cells=tuple(cells))


def _terms(ruleset: Ruleset) -> list[frozenset[str]]:
    """Return the names of the terms that each clause draws on."""
    return [
        frozenset(term.name for term in needs_of(conditions_of(clause), ruleset).terms) for clause in ruleset.clauses
    ]


def _added(line: Line, product: Product, ruleset: Ruleset, rules: Rules) -> dict[str, Datum]:
    """Return what product data show, as the only value, of what a line leaves out."""
    found: dict[str, Datum] = {}
    conditions = {term.stated_at for term in properties(ruleset.vocabulary)}
    for term in properties(ruleset.vocabulary):
        if term.name in conditions or not _is_left_out(line, term.name):
            continue
        shown = product.shown_at(term, line.data.get(term.stated_at), rules)
        if not shown or any(not same(shown[0].value, other.value, term, rules) for other in shown[1:]):
            continue
        found[term.name] = _taken(shown[0], product)
        found |= _condition(line, term, product, shown[0])
    return found


def _condition(line: Line, term: Term, product: Product, shown: Datum) -> dict[str, Datum]:
    """Return the condition at which a value that is taken was measured, where the line does not state it."""
    if not term.stated_at or not _is_left_out(line, term.stated_at):
        return {}
    rows = [row for row in product.rows if row.data.get(term.name) is shown and term.stated_at in row.data]
    return {term.stated_at: _taken(rows[0].data[term.stated_at], product)} if rows else {}


def _is_left_out(line: Line, name: str) -> bool:
    datum = line.data.get(name)
    return datum is None or isinstance(datum.value, NotGiven)


def _taken(datum: Datum, product: Product) -> Datum:
    note = f"{FROM_PRODUCT_DATA}{product.name} ({datum.place}); the schedule does not state it"
    return replace(datum, note=note, inferred=True)


def _saying_so(cell: Cell, terms: frozenset[str], added: Mapping[str, Datum], product: str) -> Cell:
    """Return a cell with a note for each value that it stands on and that the schedule does not state."""
    drawn_on = {name: datum for name, datum in added.items() if name in terms}
    if not drawn_on or cell.verdict is Verdict.NOT_APPLICABLE:
        return cell
    remarks = tuple(FromData(name, datum) for name, datum in drawn_on.items())
    taken = tuple(
        AssumedValue(name, datum.value, product)
        for name, datum in drawn_on.items()
        if not isinstance(datum.value, NotGiven)
    )
    stands_on = taken if cell.verdict is Verdict.COMPLIES else ()
    return replace(cell, from_data=remarks, shown=stands_on)
