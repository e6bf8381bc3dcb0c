"""The page about the rulesets: every ruleset is told, its numbers are those of the files, its example can be used."""

from __future__ import annotations

import re

import pytest

from speccheck.language import load_vocabulary, parse_ruleset, shipped_ruleset_names
from speccheck.language.core import Confidence
from tests.tools.rulesets_page import PAGE, numbers, renewed

TEXT = PAGE.read_text(encoding="utf-8")
TOLD = re.findall(r"^\| `([a-z0-9./-]+)` \| ([^|]+) \| ([^|]+) \|$", TEXT, re.MULTILINE)


def test_every_shipped_ruleset_is_told_once_and_no_other() -> None:
    """Name, what it covers and after which document stand in one row for each file."""
    assert sorted(name for name, _, _ in TOLD) == sorted(shipped_ruleset_names())
    assert all(covers.strip() and after.strip() for _, covers, after in TOLD)


def test_numbers_are_those_of_the_files() -> None:
    """Clauses, cells, examples and sources as counted; `python -m tests.tools.rulesets_page` renews them."""
    assert numbers() in TEXT
    assert renewed(TEXT) == TEXT


def test_every_mark_is_explained() -> None:
    """The page says what each mark of a source means."""
    marks = set(re.findall(r"^\| `([a-z ]+)` \| [^|]+ \|$", TEXT, re.MULTILINE))
    assert marks == {str(mark) for mark in Confidence if mark is not Confidence.NOT_STATED}


def test_project_of_the_page_loads_and_replaces_what_it_says() -> None:
    """The example builds on three rulesets, uses a table of one, and takes the place of one clause."""
    (example,) = re.findall(r"```clauses\n(.+?)```", TEXT, re.DOTALL)
    loaded = parse_ruleset(example)
    assert loaded.diagnostics == ()
    assert loaded.ruleset is not None
    fire = [clause.name for clause in loaded.ruleset.clauses if clause.ruleset.startswith("Surface burning")]
    assert fire == ["1.1", "1.2", "1.3", "3.1", "3.2"]
    # Those of the project come before the two of the ruleset on condensation.
    assert [one.ruleset for one in loaded.ruleset.assumptions][:2] == ["A project", "A project"]


@pytest.mark.parametrize("term", ["dew point", "surface temperature", "heat flow"])
def test_worked_out_terms_that_the_page_names_are_in_the_vocabulary(term: str) -> None:
    """The page promises values that are worked out, and the vocabulary calls them computed."""
    vocabulary = load_vocabulary("mechanical insulation").vocabulary
    assert vocabulary is not None
    assert vocabulary.terms[term].computed
    assert term in " ".join(TEXT.split())


def test_cautions_come_first() -> None:
    """Before any ruleset is named the page says to check the adopted code and who decides."""
    head = TEXT.partition("## The rulesets")[0]
    assert "before relying on any of them" in " ".join(head.split())
    assert "licensed practice" in head
