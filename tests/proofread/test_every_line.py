"""Proofreading checked against brute force: every line of the grid of boundary values, judged one by one.

The grids are those of `random_rulesets`; `SPECCHECK_RANDOM_RULESETS` says how many rulesets are tried (2,000 for a
release, fewer by default so that the suite stays fast).
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import pytest

from speccheck.judge import Verdict
from speccheck.judge.judgement import Judgement
from speccheck.judge.logic import every
from speccheck.language.core import Clause, Ruleset
from speccheck.language.core.walking import tables_of, terms_of
from speccheck.proofread.clause_regions import Reading, read_together
from speccheck.proofread.conflicts import clashes
from speccheck.proofread.findings import Finding
from speccheck.proofread.gaps import table_holes
from speccheck.proofread.matching import paired_editions
from speccheck.proofread.redundant_clauses import implied_clauses, unused_parts
from speccheck.proofread.redundant_conditions import idle_conditions
from speccheck.proofread.revisions import Change, Revised, compare_revisions
from speccheck.proofread.stringency import ACCEPTING, Stringency, compare_stringency
from speccheck.proofread.witnesses import Lines
from tests.proofread.random_rulesets import EveryLine, batches, random_pair, random_ruleset

SEEDS = batches(160)


def _read(ruleset: Ruleset) -> tuple[Reading, Lines]:
    (reading,) = read_together([ruleset])
    return reading, Lines((reading,))


def _labels(found: Iterable[object], *codes: str) -> set[tuple[str, ...]]:
    return {one.clauses for one in found if isinstance(one, Finding) and one.code in codes}


@pytest.mark.parametrize("seeds", SEEDS, ids=str)
def test_holes_are_found_where_a_complete_line_cannot_be_told(seeds: Sequence[int]) -> None:
    """A clause has a hole in its table if and only if it cannot tell of a line that states everything."""
    for seed in seeds:
        ruleset = random_ruleset(seed)
        lines = EveryLine(ruleset)
        expected = {
            clause.label
            for clause in ruleset.clauses
            if any(lines.verdicts(clause)[at] is Verdict.CANNOT_TELL for at in lines.complete(clause, strictly=True))
        }
        found = {label for labels in _labels(table_holes(*_read(ruleset)), "P101", "P102") for label in labels}
        assert found == expected, seed


@pytest.mark.parametrize("seeds", SEEDS, ids=str)
def test_clashes_are_found_where_no_choice_meets_both(seeds: Sequence[int]) -> None:
    """Two clauses clash if and only if some line can be chosen to meet either of them and none to meet both."""
    for seed in seeds:
        ruleset = random_ruleset(seed)
        lines = EveryLine(ruleset)
        expected = {
            (first.label, second.label)
            for at, first in enumerate(ruleset.clauses)
            for second in ruleset.clauses[at + 1 :]
            if _clash(lines, first, second)
        }
        found = {tuple(sorted(labels)) for labels in _labels(clashes(*_read(ruleset)), "P201")}
        assert found == expected, seed


def _clash(lines: EveryLine, first: Clause, second: Clause) -> bool:
    """Say whether, with all but what is demanded held fixed, each clause is accepted, both never, and both apply."""
    read_by = {axis.term.name for c in (first, second) for t in tables_of(c.shall) for axis in t.axes}
    demands = [{term.name for term in terms_of(clause.shall)} - read_by for clause in (first, second)]
    if not demands[0] & demands[1]:
        return False
    situations: dict[tuple[object, ...], list[int]] = {}
    for at in lines.complete(first, second):
        fixed = tuple(lines.cases[at][name] for name in lines.names if name not in demands[0] | demands[1])
        situations.setdefault(fixed, []).append(at)
    verdicts = lines.verdicts(first), lines.verdicts(second)
    for members in situations.values():
        accepted = [{at for at in members if one[at] in ACCEPTING} for one in verdicts]
        shown = any(
            {one[at] for one in verdicts} == {Verdict.COMPLIES, Verdict.FAILS}
            and all(_applies(lines.judged(clause)[at]) for clause in (first, second))
            for at in members
        )
        if all(accepted) and not accepted[0] & accepted[1] and shown:
            return True
    return False


def _in_scope(judged: Judgement) -> bool:
    return every(outcome.truth for outcome in judged.scope) is True


def _applies(judged: Judgement) -> bool:
    return _in_scope(judged) and all(outcome.truth is False for outcome in judged.exceptions)


@pytest.mark.parametrize("seeds", SEEDS, ids=str)
def test_idle_wording_is_found_where_no_line_makes_a_difference(seeds: Sequence[int]) -> None:
    """Clauses that never apply, idle exceptions, requirements that nothing or everything meets: as brute force says."""
    for seed in seeds:
        ruleset = random_ruleset(seed)
        lines = EveryLine(ruleset)
        found = tuple(idle_conditions(*_read(ruleset)))
        for clause in ruleset.clauses:
            label, whole = (clause.label,), list(lines.complete(clause))
            judged = [lines.judged(clause)[at] for at in whole]
            in_scope = [one for one in judged if _in_scope(one)]
            applying = [one for one in in_scope if _applies(one)]
            assert (label in _labels(found, "P301")) is (not in_scope), seed
            assert (label in _labels(found, "P302")) is bool(in_scope and clause.exceptions and not applying), seed
            if label in _labels(found, "P301", "P302", "P303", "P304"):
                continue
            idle = all(one.basis.name != "EXCEPTED" for one in in_scope)
            if len(clause.exceptions) == 1:
                assert (label in _labels(found, "P306")) is idle, seed
            met = [one.verdict for one in applying]
            assert (label in _labels(found, "P307")) is (Verdict.COMPLIES not in met), seed
            assert (label in _labels(found, "P308")) is (set(met) == {Verdict.COMPLIES}), seed


@pytest.mark.parametrize("seeds", SEEDS, ids=str)
def test_clauses_are_implied_where_every_line_that_fails_them_fails_the_other(seeds: Sequence[int]) -> None:
    """A clause is told to be implied if and only if the lines that fail it all fail one other clause."""
    for seed in seeds:
        ruleset = random_ruleset(seed)
        lines = EveryLine(ruleset)
        expected = {
            clause.label
            for at, clause in enumerate(ruleset.clauses)
            if any(
                _implies(lines, clause, other, place < at) for place, other in enumerate(ruleset.clauses) if at != place
            )
        }
        assert {labels[0] for labels in _labels(implied_clauses(*_read(ruleset)), "P309")} == expected, seed


def _implies(lines: EveryLine, clause: Clause, other: Clause, earlier: bool) -> bool:
    """Say whether all lines that fail a clause fail the other; of two that the same lines fail, the later is idle."""
    whole = list(lines.complete(clause, other))
    failing = {at for at in whole if lines.verdicts(clause)[at] is Verdict.FAILS}
    others = {at for at in whole if lines.verdicts(other)[at] is Verdict.FAILS}
    judged = (lines.judged(other)[at] for at in lines.complete(other))
    can_be_met = any(one.verdict is Verdict.COMPLIES and _applies(one) for one in judged)
    return can_be_met and bool(failing) and failing <= others and (earlier or failing != others)


@pytest.mark.parametrize("seeds", SEEDS, ids=str)
def test_table_rows_are_unreached_where_no_line_looks_them_up(seeds: Sequence[int]) -> None:
    """A row is told never to be looked up if and only if no complete line to which a clause applies uses it."""
    for seed in seeds:
        ruleset = random_ruleset(seed)
        lines = EveryLine(ruleset)
        used, cells, two_ways = set(), 0, False
        for clause in ruleset.clauses:
            for table in tables_of(clause.shall):
                cells, two_ways = len(list(table.filled())), table.across is not None
                for at in lines.complete(clause):
                    one = lines.judged(clause)[at]
                    if _applies(one):
                        used |= {(use.row, use.column) for use in one.uses if use.cell is not None}
        found = [one for one in unused_parts(*_read(ruleset)) if isinstance(one, Finding) and one.code == "P310"]
        unused = cells - len(used) if cells else 0
        agree = bool(found) == bool(unused) if two_ways else len(found) == unused  # a whole row is told as one
        assert agree, seed


@pytest.mark.parametrize("seeds", SEEDS, ids=str)
def test_revisions_turn_what_brute_force_turns(seeds: Sequence[int]) -> None:
    """A clause is told to be stricter or looser if and only if a complete line newly fails it or no longer does."""
    for seed in seeds:
        base, revised = random_pair(seed)
        lines = EveryLine(base, revised)
        found = [one for one in compare_revisions(base, revised) if isinstance(one, Revised)]
        for place, was in paired_editions(base, revised).items():
            old, new = base.clauses[was], revised.clauses[place]
            whole = list(lines.complete(old, new))
            turns = {
                (lines.verdicts(old)[at] is Verdict.FAILS, lines.verdicts(new)[at] is Verdict.FAILS) for at in whole
            }
            changes = {one.change for one in found if one.after_label == new.label and not one.advice}
            assert (Change.STRICTER in changes) is ((False, True) in turns), seed
            assert (Change.LOOSER in changes) is ((True, False) in turns), seed


@pytest.mark.parametrize("seeds", SEEDS, ids=str)
def test_stringency_is_what_brute_force_finds(seeds: Sequence[int]) -> None:
    """A specification is looser than a clause if and only if some line is accepted by it and fails the clause."""
    for seed in seeds:
        specification, code = random_pair(seed)
        lines = EveryLine(specification, code)
        accepted = [
            at
            for at in range(len(lines.cases))
            if all(lines.verdicts(clause)[at] in ACCEPTING for clause in specification.clauses)
        ]
        for clause, found in zip(code.clauses, compare_stringency(specification, code), strict=True):
            whole = set(lines.complete(clause))
            looser = any(lines.verdicts(clause)[at] is Verdict.FAILS and at in whole for at in accepted)
            assert (found.stringency in (Stringency.LOOSER, Stringency.NOT_COMPARABLE)) is looser, seed
            stricter = any(
                lines.judged(clause)[at].basis.name == "MET" and lines.verdicts(one)[at] is Verdict.FAILS
                for one in specification.clauses
                if one.label in found.matched
                for at in lines.complete(clause, one)
            )
            assert (found.stringency in (Stringency.STRICTER, Stringency.NOT_COMPARABLE)) is stricter, seed


@pytest.mark.parametrize("seeds", SEEDS, ids=str)
def test_what_is_told_of_compared_temperatures_is_true_of_every_line(seeds: Sequence[int]) -> None:
    """Where one temperature is compared with another, whatever is told is true of all lines of the grid."""
    for seed in seeds[::4]:
        ruleset = random_ruleset(seed, orders=True)
        lines, read = EveryLine(ruleset), _read(ruleset)
        clauses = {clause.label: clause for clause in ruleset.clauses}
        idle = tuple(idle_conditions(*read))
        for (label,) in _labels(idle, "P301", "P302"):
            judged = [lines.judged(clauses[label])[at] for at in lines.complete(clauses[label])]
            assert not any(map(_applies, judged)), seed
        for (label,) in _labels(idle, "P307"):
            whole = list(lines.complete(clauses[label]))
            verdicts = {
                lines.verdicts(clauses[label])[at] for at in whole if _applies(lines.judged(clauses[label])[at])
            }
            assert Verdict.COMPLIES not in verdicts, seed
        for first, second in _labels(implied_clauses(*read), "P309"):
            both = clauses[first], clauses[second]
            failing = [{at for at in lines.complete(*both) if lines.verdicts(c)[at] is Verdict.FAILS} for c in both]
            assert failing[0] <= failing[1], seed
