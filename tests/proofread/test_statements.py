"""Statements of the writer: proved, or answered with a line that speaks against them."""

from __future__ import annotations

import random
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

import pytest

from speccheck.judge import Judge, Verdict
from speccheck.judge.examples import example_line
from speccheck.judge.operations import bare
from speccheck.language import load_ruleset
from speccheck.language.core import DemandContrast, DemandTrend, Example, Expected, Never, Ruleset, Statement
from speccheck.language.vocabulary.values import NotGiven, Single, read_value
from speccheck.proofread.demands import ACCEPTING
from speccheck.proofread.statements import StatementResult, prove_statements
from tests.proofread.random_rulesets import CHOICES, EveryLine, random_ruleset

FOLDER = Path(__file__).parent


def results() -> dict[str, StatementResult]:
    """Return what became of the statements of `stated.clauses`, by their title."""
    loaded = load_ruleset(FOLDER / "stated.clauses")
    assert loaded.diagnostics == ()
    assert loaded.ruleset is not None
    return {result.statement.title: result for result in prove_statements(loaded.ruleset)}


def test_what_holds_is_proved() -> None:
    """Statements that hold by the tables and clauses of the file, worked out by hand."""
    assert [title for title, result in results().items() if result.holds] == [
        "Larger pipe never has less",
        "Larger pipe never has less, hot or cold",
        "Hot lines never have more for smaller pipe",
        "Clauses are never looser for larger pipe",
        "Clauses are never looser for hotter pipe",
        "Outdoors is asked for no less",
        "Thickness does not hang on the jacket",
    ]


def test_what_does_not_hold_is_answered_with_a_line() -> None:
    """The whole finding, with the two values and a line; the amounts are read off the tables of the file."""
    told = {title: result.finding for title, result in results().items() if result.finding is not None}
    assert {title: str(finding.diagnostic()) for title, finding in told.items()} == {
        "Larger pipe never has more": (
            "warning[P801]: the statement `Larger pipe never has more` does not hold: steam thickness rises from 1 in "
            "at pipe size 1/8 in to 2 in at 2-1/2 in\n"
            "  at stated.clauses:27:1\n"
            "  help: for example pipe size 2-1/2 in"
        ),
        "Uneven never falls": (
            "warning[P801]: the statement `Uneven never falls` does not hold: uneven thickness falls from 3 in at "
            "pipe size 1-1/4 in to 2 in at 3-1/2 in\n"
            "  at stated.clauses:30:1\n"
            "  help: for example pipe size 3-1/2 in"
        ),
        "Outdoors is asked for no more": (
            "warning[P801]: the statement `Outdoors is asked for no more` does not hold: with outdoors no a line is "
            "accepted that clause `2` fails with outdoors yes\n"
            "  at stated.clauses:49:1\n"
            "  help: the line with outdoors no or yes; for example service steam, "
            "operating temperature 100 F, pipe size 2 in, thickness 1 in, jacket none"
        ),
    }


def test_what_rests_on_free_amounts_is_left_open() -> None:
    """An amount that is worked out from what a line states is not tried at every value, and this is said."""
    result = results()["Half of it never falls"]
    assert result.undecided is not None
    assert (result.undecided.code, result.undecided.question) == (
        "P802",
        "whether the statement `Half of it never falls` holds",
    )


# ---- brute force -----------------------------------------------------------------------------------------------------

GROWING = ("operating temperature", "pipe size")


def random_statement(ruleset: Ruleset, chance: random.Random) -> Statement:
    """Return a statement about a term of the vocabulary of random rulesets."""
    terms = ruleset.vocabulary.terms
    never = chance.choice((Never.LOOSER, Never.STRICTER))
    if chance.random() < 0.6:
        return Statement("drawn", DemandTrend(never, terms[chance.choice(GROWING)]))
    if chance.random() < 0.5:
        first = chance.random() < 0.5
        return Statement("drawn", DemandContrast(never, terms["outdoors"], first, not first))
    services = chance.sample([*CHOICES["service"], "refrigerant"], 2)
    return Statement("drawn", DemandContrast(never, terms["service"], services[0], services[1]))


@pytest.mark.parametrize("seed", range(200))
def test_answers_agree_with_every_line(seed: int) -> None:
    """On random rulesets, a statement is proved if and only if no pair of lines of the grid speaks against it."""
    chance = random.Random(seed)
    ruleset = random_ruleset(seed)
    ruleset = replace(ruleset, statements=(random_statement(ruleset, chance),))
    (result,) = prove_statements(ruleset)
    assert result.undecided is None
    assert result.holds is not _spoken_against(ruleset, ruleset.statements[0])
    if result.finding is not None:
        _assert_shown(ruleset, result)


def _spoken_against(ruleset: Ruleset, statement: Statement) -> bool:
    """Say whether one line of the grid is accepted with a value of the term, and fails with another, the wrong way."""
    claim = statement.claim
    assert not isinstance(claim, Never)
    lines = EveryLine(ruleset)
    name = claim.term.name
    if name not in lines.names:
        return False
    verdicts = [lines.verdicts(clause) for clause in ruleset.clauses]
    failing: dict[object, set[Single]] = {}
    accepted: dict[object, set[Single]] = {}
    for number, clause in enumerate(ruleset.clauses):
        for at in lines.complete(clause):
            if verdicts[number][at] is Verdict.FAILS:
                _keep(failing, lines.cases[at], name)
    for at, case in enumerate(lines.cases):
        if all(one[at] in ACCEPTING for one in verdicts):
            _keep(accepted, case, name)
    pairs = ((good, bad) for rest in accepted for good in accepted[rest] for bad in failing.get(rest, ()))
    return any(_wrong_way(statement, good, bad) for good, bad in pairs)


def _keep(found: dict[object, set[Single]], case: Mapping[str, Single | NotGiven], name: str) -> None:
    value = case[name]
    if not isinstance(value, NotGiven):
        rest = tuple((other, one) for other, one in case.items() if other != name)
        found.setdefault(rest, set()).add(value)


def _wrong_way(statement: Statement, good: Single, bad: Single) -> bool:
    claim = statement.claim
    if isinstance(claim, DemandContrast):
        wanted = (claim.first, claim.second) if claim.never is Never.LOOSER else (claim.second, claim.first)
        return (good, bad) == wanted
    return bare(good) > bare(bad) if claim.never is Never.LOOSER else bare(good) < bare(bad)


def _assert_shown(ruleset: Ruleset, result: StatementResult) -> None:
    """Check by the judge that the line of a finding is accepted with the one value, and fails with the other."""
    finding, claim = result.finding, result.statement.claim
    assert finding is not None
    assert not isinstance(claim, Never)
    words = finding.help.removeprefix(f"the line with {claim.term.name} ").split(" or ")
    judge = Judge(ruleset)
    rows = []
    for text in words:
        assert not isinstance(read_value(text, claim.term), NotGiven)
        line = example_line(Example("", Expected.FAILS, finding.example), ruleset.units)
        stated = (
            example_line(
                Example("", Expected.FAILS, (*finding.example, type(finding.example[0])(claim.term, text))),
                ruleset.units,
            )
            if finding.example
            else line
        )
        rows.append([cell.verdict for cell in judge.row(stated)])
    assert all(verdict in ACCEPTING for verdict in rows[0])
    assert Verdict.FAILS in rows[1]
