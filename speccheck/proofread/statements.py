"""Statements: what the writer holds to be true of the rules, proved for every line or answered with one against it.

An amount that never falls is tried at every part of the axes of its terms, which is all there is where it comes from
tables and stated values. Clauses that are never looser are compared with themselves: the region of the lines that they
accept with the one value against that of the lines that they fail with the other (see `clause_regions`). Every line
that speaks against a statement was judged with both values.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import product

from speccheck.judge.evaluation import amount as amount_of
from speccheck.judge.evaluation import evaluate
from speccheck.judge.operations import Rules, bare
from speccheck.language.core import (
    AmountTrend,
    Assignment,
    Comparison,
    DemandContrast,
    DemandTrend,
    Never,
    Relation,
    Ruleset,
    Statement,
)
from speccheck.language.core.walking import comparisons, terms_of
from speccheck.language.core.wording import amount_text, value_text
from speccheck.language.vocabulary.values import NotGiven, Single
from speccheck.proofread.demands import Demands, ValueOfTerm
from speccheck.proofread.findings import Finding, Undecided
from speccheck.proofread.finite_amounts import is_plain, is_settled
from speccheck.proofread.messages.clauses import (
    STATEMENT_OF_AMOUNT_FAILS,
    STATEMENT_OF_DEMANDS_FAILS,
    WHETHER_STATEMENT_HOLDS,
)
from speccheck.proofread.partition import Atom
from speccheck.proofread.variables import axes_of

# How many cases of an amount are tried before the question is left open.
MOST_CASES = 200_000
TOO_MANY = "the terms of the amount can differ in too many ways"
NOT_EXACT = "no line speaks against it, but amounts are worked out from others, and not every value was tried"


@dataclass(frozen=True)
class StatementResult:
    """A statement, and the finding against it, what left it open, or neither: then it holds for every line."""

    statement: Statement
    finding: Finding | None = None
    undecided: Undecided | None = None

    @property
    def holds(self) -> bool:
        """Whether the statement was proved."""
        return self.finding is None and self.undecided is None


def prove_statements(ruleset: Ruleset) -> tuple[StatementResult, ...]:
    """Return what became of each statement of a ruleset, in the order in which they are written."""
    return tuple(_proved(ruleset, statement) for statement in ruleset.statements)


def _proved(ruleset: Ruleset, statement: Statement) -> StatementResult:
    match statement.claim:
        case AmountTrend():
            return _amount_trend(ruleset, statement, statement.claim)
        case DemandTrend(never, term):
            demands = Demands(ruleset, statement, term)
            values = demands.rising_values()
            pairs = [(low, high) for at, high in enumerate(values) for low in values[:at]]
        case DemandContrast(never, term, first, second):
            demands = Demands(ruleset, statement, term)
            pairs = [(demands.value(second), demands.value(first))]
    # Looser: accepted with the second of a pair and failed with the first; stricter: the other way round.
    if never is Never.STRICTER:
        pairs = [(accepted, failed) for failed, accepted in pairs]
    return _answered(statement, demands, pairs)


def _answered(
    statement: Statement, demands: Demands, pairs: Sequence[tuple[ValueOfTerm, ValueOfTerm]]
) -> StatementResult:
    """Return a line that is accepted with the second value of a pair and failed with the first one, if there is one."""
    for failed, accepted in pairs:
        found = demands.against(failed, accepted)
        if found is not None:
            name = demands.term.name
            finding = Finding(
                STATEMENT_OF_DEMANDS_FAILS.at(
                    statement.place,
                    statement=statement.title,
                    term=name,
                    accepted=accepted.text,
                    clause=found.clause.label,
                    failed=failed.text,
                ),
                (found.clause.label,),
                found.example,
            )
            return StatementResult(statement, finding)
    return StatementResult(statement) if demands.certain else _open(statement, demands.why)


def _open(statement: Statement, why: str) -> StatementResult:
    question = WHETHER_STATEMENT_HOLDS.at(statement.place, statement=statement.title)
    return StatementResult(statement, undecided=Undecided(question, (), why))


# ---- amounts -----------------------------------------------------------------------------------------------------


def _amount_trend(ruleset: Ruleset, statement: Statement, claim: AmountTrend) -> StatementResult:
    conditions = (*statement.conditions, Comparison(claim.amount, Relation.EQUAL, claim.amount))
    axes = axes_of([ruleset], conditions)
    names = [term.name for term in terms_of([claim.amount, *statement.conditions])]
    if claim.term.name not in names:
        return StatementResult(statement)
    others = [name for name in names if name != claim.term.name]
    atoms = {name: axes.named(name).atoms for name in names}
    rising = sorted(_given(atoms[claim.term.name]), key=lambda atom: bare(_single(atom)))
    if len(rising) * math.prod(len(atoms[name]) for name in others) > MOST_CASES:
        return _open(statement, TOO_MANY)
    rules = Rules.of(ruleset)
    for chosen in product(*(atoms[name] for name in others)):
        case = dict(zip(others, chosen, strict=True))
        turned = _turn(statement, claim, case, rising, rules)
        if turned is not None:
            return StatementResult(statement, _amount_finding(statement, claim, case, turned, ruleset))
    plain = all(map(is_plain, comparisons(statement.conditions)))
    return StatementResult(statement) if is_settled(claim.amount) and plain else _open(statement, NOT_EXACT)


@dataclass(frozen=True)
class _Point:
    """An amount at one value of the term that grows."""

    atom: Atom
    amount: Single


def _turn(
    statement: Statement, claim: AmountTrend, case: Mapping[str, Atom], rising: Sequence[Atom], rules: Rules
) -> tuple[_Point, _Point] | None:
    """Return two points between which the amount goes the way that it never should."""
    furthest: _Point | None = None
    for point in _points(statement, claim, case, rising, rules):
        if furthest is not None and _wrong_way(furthest.amount, point.amount, claim.never, rules):
            return furthest, point
        if furthest is None or _wrong_way(point.amount, furthest.amount, claim.never, rules):
            furthest = point
    return None


def _points(
    statement: Statement, claim: AmountTrend, case: Mapping[str, Atom], rising: Sequence[Atom], rules: Rules
) -> Iterator[_Point]:
    """Yield the amount at each value of the term at which it is known and the conditions hold."""
    for atom in rising:
        values = {name: one.value for name, one in (*case.items(), (claim.term.name, atom))}
        if all(evaluate(condition, values, rules).truth is True for condition in statement.conditions):
            value = amount_of(claim.amount, values, rules).value
            if value is not None:
                yield _Point(atom, value)


def _wrong_way(before: Single, after: Single, never: Never, rules: Rules) -> bool:
    low, high = (after, before) if never is Never.FALLS else (before, after)
    return bare(low) < bare(high) and not math.isclose(bare(low), bare(high), rel_tol=rules.tolerance)


def _amount_finding(
    statement: Statement, claim: AmountTrend, case: Mapping[str, Atom], turned: tuple[_Point, _Point], ruleset: Ruleset
) -> Finding:
    first, second = turned
    values = [value_text(point.amount, ruleset.units) for point in turned]
    terms = ruleset.vocabulary.terms
    given = {name: atom for name, atom in case.items() if not isinstance(atom.value, NotGiven)}
    example = tuple(
        Assignment(terms[name], atom.text) for name, atom in (*given.items(), (claim.term.name, second.atom))
    )
    return Finding(
        STATEMENT_OF_AMOUNT_FAILS.at(
            statement.place,
            statement=statement.title,
            amount=amount_text(claim.amount),
            never=claim.never,
            before=values[0],
            term=claim.term.name,
            from_value=first.atom.text,
            after=values[1],
            to_value=second.atom.text,
        ),
        (),
        example,
    )


def _given(atoms: Sequence[Atom]) -> list[Atom]:
    return [atom for atom in atoms if not isinstance(atom.value, NotGiven)]


def _single(atom: Atom) -> Single:
    assert not isinstance(atom.value, NotGiven), atom
    return atom.value
