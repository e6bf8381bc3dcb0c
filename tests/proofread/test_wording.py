"""Wording: phrases that leave open what is asked, and numbers of the wording that the rule beside it does not have."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from speccheck.language import load_ruleset
from speccheck.language.core import Ruleset
from speccheck.proofread.wording.numbers import numbers_of_wording
from speccheck.proofread.wording.vague import PHRASES_FILE, vague_phrases, wording_findings
from speccheck.quantities import NominalSize
from tests.some import some

FOLDER = Path(__file__).parent


def ruleset_of(name: str | Path) -> Ruleset | None:
    """Return a ruleset, None where the file is a vocabulary."""
    return load_ruleset(name).ruleset


def test_each_finding_is_told_in_full() -> None:
    """Vague phrases and foreign numbers are told with their clause and what to do; all else in the file is silent."""
    ruleset = ruleset_of(FOLDER / "worded.clauses")
    assert ruleset is not None
    assert [str(found.diagnostic()) for found in wording_findings(ruleset)] == [
        "warning[P701]: the wording of clause `1` says `as required`, which leaves open what is asked\n"
        "  at worded.clauses:14:1\n"
        "  help: name who requires it and what: a number or a list or another clause",
        "warning[P701]: the wording of clause `1` says `suitable`, which leaves open what is asked\n"
        "  at worded.clauses:14:1\n"
        "  help: say for what and by which value it is so",
        "warning[P701]: the wording of clause `1` says `and/or`, which leaves open what is asked\n"
        "  at worded.clauses:14:1\n"
        "  help: say `or` or `and` or name both cases",
        "warning[P701]: the wording of clause `1` says `where exposed`, which leaves open what is asked\n"
        "  at worded.clauses:14:1\n"
        "  help: define what counts as exposed: to view or to weather or to touch",
        "warning[P702]: the wording of clause `3` says `1 in`, which is no number of its rule\n"
        "  at worded.clauses:24:1\n"
        "  help: the rule has `1-1/2 in`",
    ]


@pytest.mark.parametrize(
    ("text", "stated"),
    [
        ("1-1/2 in thick", ["1-1/2 in"]),
        ("1½″ thick", ["1½″"]),
        ("a 1-inch layer", ["1-inch"]),
        ("from 105 F to 140 F", ["105 F", "140 F"]),
        ("60 °C (140 °F)", ["60 °C", "140 °F"]),
        ("at R-6 or RSI 1", ["R-6", "RSI 1"]),
        ("DN 50 and smaller", ["DN 50"]),
        ("0.27 Btu.in/(h.ft2.F) at 75 F", ["0.27 Btu.in/(h.ft2.F)", "75 F"]),
        ("1,200 F", ["1,200 F"]),
        ("not over 25 and 450", []),
        ("ASTM C547, Table 6.8.3-1, section 23 07 19", []),
        ("in 2 in the plant room", []),
        ("", []),
    ],
)
def test_quantities_are_found_in_free_text(text: str, stated: list[str]) -> None:
    """Quantities with their units are found as they are written; bare numbers and the numbers of sections are not."""
    assert [number.text for number in numbers_of_wording(text)] == stated


def test_a_length_can_mean_a_nominal_size() -> None:
    """`2 in` is a length and a nominal size, `2.2 in` a length alone."""
    first, second = numbers_of_wording("2 in and 2.2 in")
    assert isinstance(first.size, NominalSize)
    assert second.size is None
    assert {one.dimension for one in first.quantities} == {"length"}


def test_the_list_of_phrases_is_in_order() -> None:
    """Each phrase stands once, in lower case, with what to write instead; the longest is tried first."""
    with PHRASES_FILE.open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    phrases = [row["phrase"] for row in rows]
    assert len(set(phrases)) == len(phrases)
    assert all(phrase == phrase.casefold().strip() for phrase in some(phrases))
    assert all(row["instead"] for row in some(rows))
    lengths = [len(one.phrase) for one in vague_phrases()]
    assert lengths == sorted(lengths, reverse=True)
