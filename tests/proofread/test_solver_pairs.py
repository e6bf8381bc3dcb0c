"""Two rulesets compared, checked against z3: revisions by meaning, and a specification against a code."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from speccheck.proofread.matching import paired_editions
from speccheck.proofread.revisions import Change, Revised, compare_revisions
from speccheck.proofread.stringency import Stringency, compare_stringency
from tests.proofread.random_rulesets import batches, random_pair

z3 = pytest.importorskip("z3")
f = pytest.importorskip("tests.proofread.formulas")

SEEDS = batches(40)
LOOSER = (Stringency.LOOSER, Stringency.NOT_COMPARABLE)
STRICTER = (Stringency.STRICTER, Stringency.NOT_COMPARABLE)


@pytest.mark.parametrize("seeds", SEEDS, ids=str)
def test_solver_agrees_on_revisions(seeds: Sequence[int]) -> None:
    """A clause is told to be stricter or looser if and only if some line newly fails it or no longer does.

    Nothing is told of a clause if and only if no line, whatever it leaves out, is out of it, passes or fails otherwise.
    """
    for seed in seeds:
        base, revised = random_pair(seed)
        changes = compare_revisions(base, revised)
        assert all(isinstance(one, Revised) for one in changes), seed
        found = [one for one in changes if isinstance(one, Revised)]
        for place, was in paired_editions(base, revised).items():
            old, new = base.clauses[was], revised.clauses[place]
            told = {one.change for one in found if one.after_label == new.label and one.change.of_meaning}
            whole = f.possible(old, new)
            assert (Change.STRICTER in told) is f.satisfiable(whole, f.fails(new), z3.Not(f.fails(old))), seed
            assert (Change.LOOSER in told) is f.satisfiable(whole, f.fails(old), z3.Not(f.fails(new))), seed
            if not told:
                turns = z3.Or(*(way(old) != way(new) for way in (f.out, f.fails, _passes)))
                assert not f.satisfiable(whole, turns), seed


def _passes(clause: object) -> object:
    return z3.And(f.holds(clause.shall), z3.Not(f.out(clause)))  # type: ignore[attr-defined]


@pytest.mark.parametrize("orders", [False, True], ids=["terms alone", "temperatures compared"])
@pytest.mark.parametrize("seeds", SEEDS, ids=str)
def test_solver_agrees_on_stringency(seeds: Sequence[int], orders: bool) -> None:
    """A specification is looser than a clause if and only if all of it accepts some line that the clause fails.

    It is stricter if and only if some line complies with the clause and fails one that demands something of the same.
    """
    for seed in seeds:
        specification, code = random_pair(seed, orders=orders)
        accepts = [f.accepts(one) for one in specification.clauses]
        statable = f.line([condition for one in specification.clauses for condition in f.conditions_of(one)])
        for clause, found in zip(code.clauses, compare_stringency(specification, code), strict=True):
            assert found.stringency is not Stringency.UNDECIDED, seed
            looser = f.satisfiable(statable, f.possible(clause), f.fails(clause), *accepts)
            assert (found.stringency in LOOSER) is looser, seed
            stricter = any(
                f.satisfiable(f.possible(clause, one), f.complies(clause), f.fails(one))
                for one in specification.clauses
                if one.label in found.matched
            )
            assert (found.stringency in STRICTER) is stricter, seed
