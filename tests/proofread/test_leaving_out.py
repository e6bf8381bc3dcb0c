"""Clauses that a line does better by when it leaves a datum out: told in full, and checked against every line."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path

import pytest

from speccheck.judge import Verdict
from speccheck.language import parse_ruleset
from speccheck.language.core import Clause, Given, Ruleset
from speccheck.language.core.walking import conditions_of, tables_of, terms_of, walk
from speccheck.language.vocabulary.values import NotGiven
from speccheck.proofread.clause_regions import read_together
from speccheck.proofread.findings import Finding
from speccheck.proofread.leaving_out import omissions_that_help
from speccheck.proofread.witnesses import Lines
from tests.proofread.random_rulesets import EveryLine, batches, random_ruleset
from tests.proofread.showing import shown

FOLDER = Path(__file__).parent
PASSING = (Verdict.COMPLIES, Verdict.NOT_APPLICABLE)
HELP = (
    "ask for it without `is given`, so that a line without it cannot be determined; or write `judged only where {} is "
    "stated`, or `assume` a value"
)


def _ruleset(text: str) -> Ruleset:
    loaded = parse_ruleset(f'ruleset "case"\n  speaks "vocabulary"\n{text}', "case.clauses", FOLDER)
    assert loaded.usable, [str(found) for found in loaded.diagnostics]
    assert loaded.ruleset is not None
    return loaded.ruleset


def _found(ruleset: Ruleset) -> list[Finding]:
    (reading,) = read_together([ruleset])
    return list(omissions_that_help(reading, Lines((reading,))))


def test_scope_that_asks_whether_a_datum_is_given_is_told_in_full() -> None:
    """By hand: 1 fastener fails, and a line that does not tell how many there are is not judged."""
    (one,) = _found(_ruleset('clause 1 "t"\n  where fasteners are given\n  shall fasteners be at least 4'))
    assert (one.code, one.clauses, one.message, one.help, one.place.line) == (
        "P315",
        ("1",),
        "clause `1` is not for a line that leaves `fasteners` out, and fails the line that states it",
        HELP.format("fasteners"),
        4,
    )
    assert one.example_text == "fasteners 1"


@pytest.mark.parametrize(
    ("clause", "message"),
    [
        (
            "shall fasteners be not given or fasteners be at least 4",
            "clause `1` is met by a line that leaves `fasteners` out, and fails the line that states it",
        ),
        (
            "shall fasteners be at least 4\n  except where jacket is not given",
            "clause `1` is not for a line that leaves `jacket` out, and fails the line that states it",
        ),
        (
            "where service is steam and not (outdoors is not given)\n  shall fasteners be at least 4",
            "clause `1` is not for a line that leaves `outdoors` out, and fails the line that states it",
        ),
    ],
)
def test_requirements_and_exceptions_that_ask_so_are_told_too(clause: str, message: str) -> None:
    """By hand: each clause fails a line with 1 fastener and makes nothing of it once it says less."""
    assert [one.message for one in _found(_ruleset(f'clause 1 "t"\n  {clause}'))] == [message]


@pytest.mark.parametrize(
    "text",
    [
        pytest.param('clause 1 "t"\n  shall fasteners be at least 4', id="asked plainly"),
        pytest.param(
            'clause 1 "t"\n  judged only where fasteners are stated\n  shall fasteners be at least 4',
            id="judged only where it is stated, which the report counts",
        ),
        pytest.param(
            'clause 1 "t"\n  where outdoors is given and outdoors\n  shall fasteners be at least 4\n'
            'clause 2 "t"\n  where not (outdoors is given and outdoors)\n  shall fasteners be at least 5',
            id="another clause asks for more where it is left out",
        ),
        pytest.param(
            "assume outdoors is yes\n"
            'clause 1 "t"\n  where outdoors is given and outdoors\n  shall fasteners be at least 4',
            id="a value is assumed for it",
        ),
        pytest.param(
            'clause 1 "t"\n  where outdoors is not given or outdoors\n  shall fasteners be at least 4',
            id="what is not stated is judged as the worst",
        ),
    ],
)
def test_nothing_is_told_where_leaving_out_does_not_help(text: str) -> None:
    """By hand: without the datum each of these lines fails all the same, is open, or is told not to be checked."""
    assert _found(_ruleset(text)) == []


@pytest.mark.parametrize("seeds", batches(160), ids=str)
def test_omissions_are_found_where_a_line_does_better_without_a_datum(seeds: Sequence[int]) -> None:
    """A clause and a term are told if and only if brute force has a line that passes without the term alone."""
    told = 0
    for seed in seeds:
        ruleset = random_ruleset(seed)
        found = _found(ruleset)
        assert {(one.clauses[0], one.message.split("`")[3]) for one in found} == set(_helped(ruleset)), seed
        assert all(shown(one, ruleset) for one in found)
        told += len(found)
    assert told > 0


def _helped(ruleset: Ruleset) -> Iterator[tuple[str, str]]:
    """Yield the clauses and the terms of which some line says less and passes, and no like clause stops it."""
    lines = EveryLine(ruleset)
    places = {tuple(case[name] for name in lines.names): at for at, case in enumerate(lines.cases)}
    for clause in ruleset.clauses:
        others = [one for one in ruleset.clauses if one is not clause and _demanded(one) & _demanded(clause)]
        for term in dict.fromkeys(n.term.name for n in walk(conditions_of(clause)) if isinstance(n, Given)):
            for at in lines.complete(clause):
                case = lines.cases[at]
                if isinstance(case[term], NotGiven) or lines.verdicts(clause)[at] is not Verdict.FAILS:
                    continue
                less = places[tuple(NotGiven() if name == term else case[name] for name in lines.names)]
                if all(lines.verdicts(one)[less] in PASSING for one in (clause, *others)):
                    yield clause.label, term
                    break


def _demanded(clause: Clause) -> set[str]:
    read_by = {axis.term.name for table in tables_of(clause.shall) for axis in table.axes}
    return {term.name for term in terms_of(clause.shall)} - read_by
