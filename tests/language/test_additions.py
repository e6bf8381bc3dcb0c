"""A project's vocabulary adds to a closed list of another one: values, families and what schedules call the term."""

from __future__ import annotations

from pathlib import Path

import pytest

from speccheck.judge import rehearse
from speccheck.language import load_ruleset

OUR_TERMS = """vocabulary "our terms"

add to insulation
  also   "thermal covering"
  family "natural fiber" is hemp wool, mineral wool
  one of
    hemp wool  also "hemp"
"""
RULES = """ruleset "ours"
  speaks mechanical insulation, our terms

clause 1 "no natural fiber"
  shall insulation be not natural fiber
  example "new value, by what schedules call it" fails
          thermal covering hemp
  example "value of the shipped list in the family" fails
          insulation mineral wool
  example "another" complies
          insulation cellular glass
"""


def load(folder: Path, terms: str, rules: str = RULES):  # type: ignore[no-untyped-def]
    """Return what a ruleset beside a vocabulary of its own is loaded as."""
    (folder / "our-terms.clauses").write_text(terms, "utf-8")
    (folder / "ours.clauses").write_text(rules, "utf-8")
    return load_ruleset(folder / "ours.clauses")


def test_values_are_added_to_a_shipped_list(tmp_path: Path) -> None:
    """A new value, a family over new and old ones, and a new name of the term are known in clauses and in schedules."""
    loaded = load(tmp_path, OUR_TERMS)
    assert loaded.diagnostics == ()
    assert loaded.ruleset is not None
    assert [one.diagnostics for one in [rehearse(loaded.ruleset)]] == [()]
    names = [choice.name for choice in loaded.ruleset.vocabulary.terms["insulation"].choices]
    assert names[-2:] == ["hemp wool", "none"]
    assert "fiberglass" in names


@pytest.mark.parametrize(
    ("terms", "message"),
    [
        (
            OUR_TERMS.replace("add to insulation", "add to insulaton"),
            "the addition to `insulaton` in our-terms.clauses is to a term that no vocabulary of the ruleset has",
        ),
        (
            OUR_TERMS.replace('also "hemp"', 'also "foam glass"'),
            "the addition to `insulation` in our-terms.clauses calls a new value `foam glass`, by which `cellular "
            "glass` goes already",
        ),
        (
            OUR_TERMS.replace("is hemp wool, mineral wool", "is hemp wool, gold"),
            "the addition to `insulation` in our-terms.clauses has `gold` in a family, which is no value of "
            "`insulation`",
        ),
        (
            'vocabulary "our terms"\n\nadd to thickness\n  one of thick, thin\n',
            "the addition to `thickness` in our-terms.clauses has values, and `thickness` is a length",
        ),
    ],
)
def test_what_cannot_be_added_is_told(tmp_path: Path, terms: str, message: str) -> None:
    """An unknown term, words that are taken, a family of strangers, and values of what has no list are errors."""
    rules = RULES if "insulation" in terms and "gold" not in terms else RULES.replace("natural fiber", "fiberglass")
    found = [one for one in load(tmp_path, terms, rules).diagnostics if one.code == "L201"]
    assert message in [one.message for one in found]
