"""Every finding that says something of lines has an example line, and the judge, asked again, finds on it what it says.

The findings are those of random rulesets and of `wanting.clauses`, which has one of everything; examples proposed for
changes that go unnoticed are checked against the judge in `test_slips`, those of statements in `test_statements`.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from pathlib import Path

import pytest

from speccheck.language import load_ruleset
from speccheck.language.core import Ruleset
from speccheck.proofread.findings import Finding
from speccheck.proofread.proofreading import proofread
from speccheck.proofread.revisions import Change, Revised, compare_revisions
from speccheck.proofread.stringency import Stringency, compare_stringency
from speccheck.report.all_codes import chapters
from tests.proofread.random_rulesets import batches, random_pair, random_ruleset, scoped_ruleset
from tests.proofread.showing import looser_shown, revision_shown, shown, stricter_shown

WANTING = Path(__file__).parent / "wanting.clauses"
SEEDS = batches(80)
# Findings that say that there are lines of some kind. All others say that there are none, or speak of words alone.
WITH_EXAMPLE = {"P101", "P102", "P103", "P105", "P201", "P202", "P302", "P308", "P309", "P315"}
# Nothing can meet the clause: where nothing can fail it either, no line shows it.
MAY_HAVE_EXAMPLE = {"P307"}
WITHOUT_EXAMPLE = {"P104", "P106", "P301", "P303", "P304", "P305", "P306", "P310", "P311", "P312", "P313", "P314"} | {
    f"P7{number:02}" for number in range(1, 14)
}
ELSEWHERE = {"P316", "P401", "P501", "P502", "P503", "P504", "P505", "P601", "P602", "P801", "P802"}


def _assert_shown(found: Iterable[Finding], ruleset: Ruleset) -> set[str]:
    """Check the examples of findings, and return their codes."""
    codes = set()
    for one in found:
        codes.add(one.code)
        assert one.code in WITH_EXAMPLE | MAY_HAVE_EXAMPLE | WITHOUT_EXAMPLE, one
        assert bool(one.example) is (one.code in WITH_EXAMPLE) or one.code in MAY_HAVE_EXAMPLE, one
        assert not one.example or shown(one, ruleset), one
    return codes


def test_every_kind_of_finding_is_asked_for_its_example() -> None:
    """The kinds of findings above are all that there are, and `wanting.clauses` has each that proofreading gives."""
    assert set(chapters()["Proofreading"]) == WITH_EXAMPLE | MAY_HAVE_EXAMPLE | WITHOUT_EXAMPLE | ELSEWHERE
    ruleset = load_ruleset(WANTING).ruleset
    assert ruleset is not None
    codes = _assert_shown(proofread(ruleset).findings, ruleset)
    assert codes >= WITH_EXAMPLE | MAY_HAVE_EXAMPLE


@pytest.mark.parametrize("seeds", SEEDS, ids=str)
def test_examples_show_what_is_found(seeds: Sequence[int]) -> None:
    """In rulesets with and without a declared scope, and where temperatures are compared, examples show findings."""
    for seed in seeds:
        for ruleset in (random_ruleset(seed), scoped_ruleset(seed), random_ruleset(seed, orders=True)):
            _assert_shown(proofread(ruleset).findings, ruleset)


@pytest.mark.parametrize("seeds", SEEDS, ids=str)
def test_lines_show_how_a_specification_stands_to_a_code(seeds: Sequence[int]) -> None:
    """Whatever is told to be looser or stricter has its line, and the judges of both say so."""
    for seed in seeds:
        specification, code = random_pair(seed)
        for one in compare_stringency(specification, code):
            looser = one.stringency in (Stringency.LOOSER, Stringency.NOT_COMPARABLE)
            stricter = one.stringency in (Stringency.STRICTER, Stringency.NOT_COMPARABLE)
            assert (bool(one.looser), bool(one.stricter)) == (looser, stricter), seed
            assert not looser or looser_shown(one, specification, code), seed
            assert not stricter or stricter_shown(one, specification, code), seed


@pytest.mark.parametrize("seeds", SEEDS, ids=str)
def test_lines_show_what_a_revision_changes(seeds: Sequence[int]) -> None:
    """Each change of meaning has its line, on which the judges say before and after what the change says."""
    for seed in seeds:
        base, revised = random_pair(seed)
        for one in compare_revisions(base, revised):
            assert isinstance(one, Revised), seed
            assert one.example or one.change in (
                Change.ADDED,
                Change.DROPPED,
                Change.RENUMBERED,
            ), seed
            assert not one.example or revision_shown(one, base, revised), seed
