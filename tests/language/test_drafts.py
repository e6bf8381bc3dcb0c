"""Drafts, clauses with something left to do, and paragraphs that nothing checks."""

from __future__ import annotations

from pathlib import Path

import pytest

from speccheck.language import load_ruleset, parse_ruleset
from speccheck.language.core import UncheckedReason
from speccheck.language.diagnostics import Severity

HEAD = 'ruleset "t"\n  speaks mechanical insulation\n\n'
DRAFT = 'clause 2.1 "Walls"\n  draft\n  shall thickness be at least 1 in\n'
TODO = 'clause 2.2 "Jackets"\n  todo "`as directed` was not understood"\n  wording "Jackets as directed."\n'
UNCHECKED = 'not checked 1.3.B "Samples" because document "a sample to submit" wording "Submit samples."\n'


@pytest.mark.parametrize(
    ("clause", "message", "help"),
    [
        (
            DRAFT,
            "clause `2.1` is a draft that nobody has confirmed",
            "read it beside its wording, and take the line `draft` out if it says the same",
        ),
        (
            TODO,
            "clause `2.2` is not finished: `as directed` was not understood",
            "write the clause as the wording means it, and take the line `todo` out; or say `not checked`",
        ),
    ],
)
def test_a_clause_that_nobody_confirmed_stops_those_who_judge(clause: str, message: str, help: str) -> None:
    """It is an error with its place for whoever judges, and no complaint for whoever reads the ruleset."""
    loaded = parse_ruleset(HEAD + clause)
    assert not loaded.usable
    found = loaded.diagnostics[0]
    assert (found.code, found.severity, found.place.line) == ("L311", Severity.ERROR, 4)
    assert (found.message, found.help) == (message, help)
    assert parse_ruleset(HEAD + clause, drafts=True).usable


def test_a_draft_stops_also_from_the_cache_and_through_a_ruleset_built_on(tmp_path: Path) -> None:
    """Loading twice, or building on the file, does not lose that a clause is a draft."""
    base, project = tmp_path / "base.clauses", tmp_path / "project.clauses"
    base.write_text(HEAD + DRAFT, encoding="utf-8")
    project.write_text('ruleset "p"\n  speaks mechanical insulation\n  builds on "base"\n', encoding="utf-8")
    for path in (base, base, project, project):
        assert not load_ruleset(path).usable
        assert load_ruleset(path, drafts=True).usable


def test_a_paragraph_that_nothing_checks_keeps_its_reason_and_words() -> None:
    """Number, title, reason, the words behind it and the wording come through; it is no clause."""
    ruleset = parse_ruleset(HEAD + UNCHECKED).ruleset
    assert ruleset is not None
    assert ruleset.clauses == ()
    (paragraph,) = ruleset.unchecked
    assert (paragraph.name, paragraph.title) == ("1.3.B", "Samples")
    assert paragraph.reason is UncheckedReason.DOCUMENT
    assert (paragraph.because, paragraph.wording) == ("a sample to submit", "Submit samples.")


@pytest.mark.parametrize("other", [UNCHECKED, 'clause 1.3.B "S"\n  shall thickness be at least 1 in\n'])
def test_a_paragraph_is_either_checked_or_not(other: str) -> None:
    """The number of a clause, or of another paragraph that nothing checks, is refused."""
    loaded = parse_ruleset(HEAD + other + UNCHECKED)
    found = next(found for found in loaded.diagnostics if found.code == "L301")
    assert found.message == "paragraph `1.3.B` is said not to be checked, and stands as a clause or twice"
    assert found.help == "leave out one of the two, or correct the number"


def test_a_reason_that_is_not_in_the_list_is_answered_with_the_list() -> None:
    """A writer who invents a reason is told which there are."""
    loaded = parse_ruleset(HEAD + 'not checked 1.1 "X"\n  because lazy\n')
    found = loaded.diagnostics[0]
    assert found.severity is Severity.ERROR
    assert "`other section`" in found.help


def test_a_ruleset_that_asks_for_documents_alone_is_one() -> None:
    """A section can ask for papers and nothing else; a ruleset with neither clause nor document judges nothing."""
    document = 'document 1.3.A "Data sheets"\n  submit data sheet of each insulation\n'
    assert parse_ruleset(HEAD + document).usable
    assert [found.code for found in parse_ruleset(HEAD).diagnostics] == ["L308"]
