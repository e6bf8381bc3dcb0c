"""The requirements of a line in a terminal: grouped by ruleset, 80 columns, sources with how sure they are."""

from __future__ import annotations

import io
from collections.abc import Sequence

from rich.console import Console

from speccheck.language import parse_ruleset
from speccheck.language.core import Ruleset
from speccheck.report.terminal.requirements import print_requirements
from speccheck.review.requirements import requirements_of, shipped_rulesets
from speccheck.schedule.words import line_in_words

RULES = """ruleset "Two clauses"
  edition "1"
  speaks mechanical insulation
  caution "Check the adopted code before relying on it."

table least in inches
  source "invented for this test" computed
  by     pipe size
  up to 2 in | 1
  over 2 in  | 2

clause 1 "Thickness"
  source  "invented for this test, too" from memory
  caution "Hot."
  where   service is steam
  shall   thickness be at least least
  should  layers be at least 2

clause 2 "Outdoors"
  where   location is outdoor
  shall   jacket be not none

clause 3 "Cold"
  where   service is chilled water
  shall   thickness be at least 1 in
"""


SILENT = """ruleset "Silent"
  speaks mechanical insulation
clause 1 "Cold"
  where   service is chilled water
  shall   thickness be at least 1 in
"""


def ruleset_of(text: str) -> Ruleset:
    """Return the ruleset of a text."""
    loaded = parse_ruleset(text)
    assert loaded.ruleset is not None, loaded.diagnostics
    return loaded.ruleset


def printed(words: str, rulesets: Sequence[Ruleset], width: int | None = None) -> str:
    """Return what is printed of a line in words."""
    line, _ = line_in_words(words, rulesets[0].vocabulary)
    file = io.StringIO()
    print_requirements(line, requirements_of(line, rulesets, inherited=False), Console(file=file), width=width)
    return file.getvalue()


def test_whole_of_what_is_printed() -> None:
    """What applies comes first, then what may and what that depends on; what does not apply is left out."""
    text = printed("service steam, pipe size 2 in to 3 in, thickness TBD", [ruleset_of(RULES), ruleset_of(SILENT)])
    assert (
        text
        == """\
the line: service steam, pipe size 2 in through 3 in
1 clause applies, 1 may, in 2 rulesets.

Two clauses, 1
  Applies
    1 Thickness
      shall thickness be at least 1 in (least, row up to 2 in) (at 2 in)
      shall thickness be at least 2 in (least, row over 2 in) (at 2-1/2 in; 3
      in)
      should layers be at least 2
      source: invented for this test, too (from memory)
      source: invented for this test (computed)
      caution: Hot.
  May apply
    2 Outdoors
      depends on: location
      shall jacket be not none
  caution: Check the adopted code before relying on it.

Nothing for this line in: Silent

This report is an aid to a reviewer and no approval. It judges only what the
schedule states, by the clauses that were written down; the contract documents
govern.
Hot surfaces, fire ratings, adhesives and their fumes, and work at height can
hurt people. Follow the adopted code, the manufacturer's instructions and
licensed practice.
"""
    )


def test_no_line_is_wider_than_80_columns_and_all_is_the_same_again() -> None:
    """All shipped rulesets fit 80 columns, without control codes, and the same line gives the same text."""
    words = "service chilled water, operating temperature 44 F, pipe size 1/2 in to 8 in, location outdoor"
    rulesets = shipped_rulesets()
    text = printed(words, rulesets)
    assert max(len(line) for line in text.splitlines()) <= 80
    assert "\x1b" not in text
    assert printed(words, rulesets) == text


def test_hostile_words_do_no_harm() -> None:
    """Control codes in a ruleset's texts are not passed on to the terminal."""
    hostile = ruleset_of(RULES.replace('"Hot."', '"Hot \u0007\u200e."'))
    text = printed("service steam, pipe size 2 in", [hostile])
    assert "\u0007" not in text
    assert "Hot" in text
