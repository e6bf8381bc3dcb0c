"""Findings that a note answers: they are told no more one by one, and never without a word."""

from __future__ import annotations

from speccheck.language import parse_ruleset
from speccheck.language.core import Ruleset
from speccheck.proofread.proofreading import proofread
from speccheck.report.proofreading.alone import proofreading_alone

COLD = """ruleset "case"
  speaks mechanical insulation

clause 1 "Cold"
  {note}shall insulation be elastomeric foam
        or insulation be phenolic foam and vapor retarder be given
"""
TABLE = """ruleset "case"
  speaks mechanical insulation

table asked in inches
  {note}by pipe size
  up to 2 in        | 1
  over 2 in to 8 in | 1-1/2
  over 8 in         | 1

clause 1 "Steps"
  shall thickness be at least asked
"""


def ruleset(text: str, note: str = "") -> Ruleset:
    """Return a ruleset with a note at its clause or table."""
    loaded = parse_ruleset(text.replace("{note}", f'note "{note}"\n  ' if note else ""))
    assert loaded.ruleset is not None, loaded.diagnostics
    return loaded.ruleset


def told(text: str, note: str = "") -> tuple[list[str], list[str]]:
    """Return the codes of what is found and of what is said to be meant."""
    found = proofread(ruleset(text, note))
    return [one.code for one in found.findings], [one.code for one in found.meant]


def test_a_note_answers_the_finding_that_it_names() -> None:
    """At the clause or the table; a note on another finding, or of other words, answers nothing."""
    assert told(COLD) == (["P314"], [])
    assert told(COLD, "P314 is meant: foam needs no retarder") == ([], ["P314"])
    assert told(COLD, "P313 is meant") == (["P314"], [])
    assert told(COLD, "foam needs no retarder, and this is meant") == (["P314"], [])
    assert told(TABLE) == (["P106"], [])
    assert told(TABLE, "large pipe is short; P106 is meant") == ([], ["P106"])


def test_the_report_counts_and_names_what_is_meant() -> None:
    """Nobody reads that nothing was found without reading what a note took out."""
    noted = ruleset(COLD, "P314 is meant: foam needs no retarder")
    report = proofreading_alone(noted, proofread(noted))
    assert (report.status, report.heading) == (0, "Nothing was found.")
    assert report.sentences == ("1 clause proofread.", "1 more finding is said to be meant by a note: P314 of 1.")


def test_the_report_of_a_finding_says_how_to_answer_it() -> None:
    """Whoever reads a finding on what is right as it stands is told what to write."""
    plain = ruleset(COLD)
    report = proofreading_alone(plain, proofread(plain))
    assert report.sentences == (
        "1 clause proofread.",
        'What is right as it stands is not told again once a note at it says so: `note "P314 is meant: ..."`.',
    )
