"""Proofreading checked against z3 on random rulesets: each question answered by formulas over real numbers besides.

The formulas are those of `formulas`, the rulesets those of `random_rulesets`, which `SPECCHECK_RANDOM_RULESETS` makes
as many as wanted. What has no example line, because there is no such line, is what the solver is most needed for.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

import pytest

from speccheck.language.core import Clause, Comparison, Condition, Every, Includes, OneOf, Ruleset
from speccheck.language.core.walking import conditions_of, tables_of, terms_of, walk
from speccheck.language.diagnostics import Place
from speccheck.proofread.clause_regions import Reading, read_together
from speccheck.proofread.conflicts import clashes
from speccheck.proofread.findings import Finding, Undecided
from speccheck.proofread.gaps import subject_gaps, table_holes
from speccheck.proofread.redundant_clauses import implied_clauses, implied_together, unused_parts
from speccheck.proofread.redundant_conditions import idle_conditions
from speccheck.proofread.witnesses import Lines
from tests.proofread.random_rulesets import batches, random_ruleset, scoped_ruleset

z3 = pytest.importorskip("z3")
f = pytest.importorskip("tests.proofread.formulas")

SEEDS = batches(40)
Question = Callable[[Reading, Lines], Iterable[Finding | Undecided]]


def _found(question: Question, ruleset: Ruleset) -> list[Finding]:
    """Return what is found; nothing may stay open."""
    (reading,) = read_together([ruleset])
    found = list(question(reading, Lines((reading,))))
    assert not any(isinstance(one, Undecided) for one in found)
    return [one for one in found if isinstance(one, Finding)]


def _told(found: Iterable[Finding], *codes: str) -> set[str]:
    """Return the labels of the clauses that findings of some codes name."""
    return {label for one in found if one.code in codes for label in one.clauses}


# ---- gaps --------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("seeds", SEEDS, ids=str)
def test_solver_agrees_on_holes_of_tables(seeds: Sequence[int]) -> None:
    """A clause has a hole if and only if some line states everything and the clause neither passes nor fails it."""
    for seed in seeds:
        ruleset = random_ruleset(seed, shares=True)
        open_clauses = {
            clause.label
            for clause in ruleset.clauses
            if tables_of(clause.shall)
            and f.satisfiable(f.possible(clause, strictly=True), z3.Not(f.accepts(clause)), z3.Not(f.fails(clause)))
        }
        assert _told(_found(table_holes, ruleset), "P101", "P102") == open_clauses, seed


@pytest.mark.parametrize("seeds", SEEDS, ids=str)
def test_solver_agrees_on_gaps_in_a_scope(seeds: Sequence[int]) -> None:
    """A subject has a gap if and only if some line in its scope is out of every clause of the subject."""
    for seed in seeds:
        ruleset = scoped_ruleset(seed)
        (scope,) = ruleset.scopes
        clauses = [clause for clause in ruleset.clauses if clause.subject == scope.subject]
        leaving = [part.condition for part in scope.exceptions]
        asked = [*scope.conditions, *leaving]
        asked += [condition for clause in clauses for condition in _where(clause)]
        inside = (f.line(asked, asked), f.holds(scope.conditions), *(f.formulas(one)[1] for one in leaving))
        gap = bool(clauses) and f.satisfiable(*inside, *(f.out(clause) for clause in clauses))
        codes = {one.code for one in _found(subject_gaps, ruleset)}
        assert codes == ({"P103"} if gap else set() if clauses else {"P104"}), seed


def _where(clause: Clause) -> list[Condition]:
    return [*clause.scope, *(part.condition for part in clause.exceptions)]


# ---- clashes -----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("seeds", SEEDS, ids=str)
def test_solver_agrees_on_clashes(seeds: Sequence[int]) -> None:
    """Two clauses clash if and only if, all but what is demanded given, each can be accepted, and never both."""
    for seed in seeds:
        ruleset = random_ruleset(seed, shares=True)
        expected = {
            (first.label, second.label)
            for at, first in enumerate(ruleset.clauses)
            for second in ruleset.clauses[at + 1 :]
            if _clash(first, second)
        }
        assert {tuple(sorted(one.clauses)) for one in _found(clashes, ruleset)} == expected, seed


def _clash(first: Clause, second: Clause) -> bool:
    read_by = {axis.term.name for one in (first, second) for table in tables_of(one.shall) for axis in table.axes}
    demands = [{term.name: term for term in terms_of(one.shall)} for one in (first, second)]
    if not (demands[0].keys() & demands[1].keys()) - read_by:
        return False
    chosen = [term for name, term in {**demands[0], **demands[1]}.items() if name not in read_by]
    possible = f.possible(first, second)
    torn = z3.Or(*(z3.And(f.complies(one), f.fails(other)) for one, other in ((first, second), (second, first))))
    if not f.satisfiable(possible, torn):
        return False
    free = [variable for term in chosen for variable in f.variables(term)]
    ways = [z3.And(possible, f.accepts(one)) for one in (first, second)]
    return bool(
        f.satisfiable(
            possible,
            torn,
            *(f.for_some(free, way) for way in ways),
            z3.Not(f.for_some(free, z3.And(*ways))),
        )
    )


# ---- redundant wording -------------------------------------------------------------------------------------------


@pytest.mark.parametrize("seeds", SEEDS, ids=str)
def test_solver_agrees_on_clauses_that_apply_to_nothing(seeds: Sequence[int]) -> None:
    """Never in scope, always excepted, never met, always met, an exception that takes nothing out: by formulas."""
    for seed in seeds:
        ruleset = random_ruleset(seed, shares=True)
        found = _found(idle_conditions, ruleset)
        for clause in ruleset.clauses:
            scope, whole = f.holds(clause.scope), f.possible(clause)
            in_scope, applies = f.satisfiable(whole, scope), f.satisfiable(whole, f.applies(clause))
            assert (clause.label in _told(found, "P301")) is not in_scope, seed
            assert (clause.label in _told(found, "P302")) is (in_scope and bool(clause.exceptions) and not applies), (
                seed
            )
            if clause.label in _told(found, "P301", "P302", "P303", "P304"):
                continue
            idle = bool(clause.exceptions) and not f.satisfiable(whole, scope, f.excepted(clause))
            assert (clause.label in _told(found, "P306")) is idle, seed
            assert (clause.label in _told(found, "P307")) is not f.satisfiable(whole, f.complies(clause)), seed
            unmet = f.satisfiable(whole, f.applies(clause), z3.Not(f.holds(clause.shall)))
            assert (clause.label in _told(found, "P308")) is not unmet, seed


@pytest.mark.parametrize("seeds", SEEDS, ids=str)
def test_solver_agrees_on_conditions_that_never_or_always_hold(seeds: Sequence[int]) -> None:
    """A comparison is told never, or always, to hold if and only if no value of its term makes it true, or false."""
    for seed in seeds:
        ruleset = random_ruleset(seed, shares=True)
        found = _found(idle_conditions, ruleset)
        expected: dict[str, set[Place]] = {"P303": set(), "P304": set()}
        for clause in ruleset.clauses:
            for node in walk(conditions_of(clause)):
                if isinstance(node, Comparison | OneOf | Includes):
                    truth, falsity = (f.satisfiable(f.line([node]), formula) for formula in f.formulas(node))
                    if not truth or not falsity:
                        expected["P304" if truth else "P303"].add(node.place)
        assert {code: {one.place for one in found if one.code == code} for code in expected} == expected, seed


@pytest.mark.parametrize("seeds", SEEDS, ids=str)
def test_solver_agrees_on_conditions_that_change_nothing(seeds: Sequence[int]) -> None:
    """A condition under `where` is told to change nothing if and only if no line, whatever it leaves out, turns."""
    for seed in seeds:
        ruleset = random_ruleset(seed, shares=True)
        found = _found(idle_conditions, ruleset)
        for clause in ruleset.clauses:
            if clause.label not in _told(found, "P301", "P302", "P303", "P304"):
                assert (clause.label in _told(found, "P305")) is _says_too_much(clause), seed


def _says_too_much(clause: Clause) -> bool:
    parts = [part for one in clause.scope for part in (one.parts if isinstance(one, Every) else (one,))]
    return len(parts) > 1 and any(
        not f.satisfiable(f.line(parts), z3.Or(f.holds(parts) != f.holds(others), f.fail(parts) != f.fail(others)))
        for others in ([other for other in parts if other is not part] for part in parts)
    )


@pytest.mark.parametrize("seeds", SEEDS, ids=str)
def test_solver_agrees_on_rows_never_looked_up(seeds: Sequence[int]) -> None:
    """Cells are told to be idle that no line to which a clause applies looks up; as many of them, with one axis."""
    for seed in seeds:
        ruleset = random_ruleset(seed, shares=True)
        reading = [(clause, table) for clause in ruleset.clauses for table in tables_of(clause.shall)]
        idle = {
            (row, column)
            for _, table in reading
            for row, column, _ in table.filled()
            if not any(_looks_up(clause, row, column) for clause, _ in reading)
        }
        found = sum(one.code == "P310" for one in _found(unused_parts, ruleset))
        whole_rows = any(len(table.axes) > 1 for _, table in reading)  # told as one
        assert (bool(found) == bool(idle)) if whole_rows else (found == len(idle)), seed


def _looks_up(clause: Clause, row: int, column: int) -> bool:
    (table,) = tables_of(clause.shall)
    return bool(f.satisfiable(f.possible(clause), f.applies(clause), f.leads_to(table, row, column)))


@pytest.mark.parametrize("seeds", SEEDS, ids=str)
def test_solver_agrees_on_implied_clauses(seeds: Sequence[int]) -> None:
    """A clause told to be implied fails on no line that the other accepts; one not told so does, against each other."""
    for seed in seeds:
        ruleset = random_ruleset(seed, shares=True)
        expected = {
            clause.label
            for at, clause in enumerate(ruleset.clauses)
            if any(_implies(clause, other, place < at) for place, other in enumerate(ruleset.clauses) if place != at)
        }
        assert {one.clauses[0] for one in _found(implied_clauses, ruleset)} == expected, seed


def _implies(clause: Clause, other: Clause, earlier: bool) -> bool:
    whole, own = f.possible(clause, other), f.fails(clause)
    if not f.satisfiable(whole, own) or not f.satisfiable(f.possible(other), f.complies(other)):
        return False
    implied = not f.satisfiable(whole, own, z3.Not(f.fails(other)))
    return bool(implied and (earlier or f.satisfiable(whole, f.fails(other), z3.Not(own))))


@pytest.mark.parametrize("seeds", SEEDS, ids=str)
def test_solver_agrees_on_clauses_implied_together(seeds: Sequence[int]) -> None:
    """Without the clauses told to be implied together the rest fail the same lines, and none of the rest can go too."""
    for seed in seeds:
        ruleset = random_ruleset(seed, shares=True)
        found = _found(lambda reading, lines: implied_together(reading, lines, ()), ruleset)
        met = [one for one in ruleset.clauses if f.satisfiable(f.possible(one), f.complies(one))]
        whole = f.possible(*ruleset.clauses)
        left = [one for one in met if f.satisfiable(whole, f.fails(one))]
        for finding in found:
            clause, *others = (one for label in finding.clauses for one in left if one.label == label)
            assert not f.satisfiable(whole, f.fails(clause), *(z3.Not(f.fails(one)) for one in others)), seed
            left.remove(clause)
        for clause in left:
            others = [z3.Not(f.fails(one)) for one in left if one is not clause]
            assert f.satisfiable(whole, f.fails(clause), *others), seed


# ---- amounts compared with one another ------------------------------------------------------------------------------


@pytest.mark.parametrize("seeds", SEEDS, ids=str)
def test_solver_agrees_where_temperatures_are_compared(seeds: Sequence[int]) -> None:
    """Where one temperature is compared with another, clauses apply to nothing, or are never met, as formulas say."""
    for seed in seeds:
        ruleset = random_ruleset(seed, orders=True)
        found = _found(idle_conditions, ruleset)
        clause = ruleset.clauses[0]
        whole = f.possible(clause)
        assert (clause.label in _told(found, "P301")) is not f.satisfiable(whole, f.holds(clause.scope)), seed
        if clause.label not in _told(found, "P301", "P302", "P303", "P304"):
            assert (clause.label in _told(found, "P307")) is not f.satisfiable(whole, f.complies(clause)), seed
        expected = {
            one.label
            for at, one in enumerate(ruleset.clauses)
            if any(_implies(one, other, place < at) for place, other in enumerate(ruleset.clauses) if place != at)
        }
        assert {one.clauses[0] for one in _found(implied_clauses, ruleset)} == expected, seed
