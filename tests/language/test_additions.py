"""A project's vocabulary adds to a closed list of another one: values, families and what schedules call the term."""

from __future__ import annotations

from pathlib import Path

import pytest

from speccheck.editor.analysing import analyse
from speccheck.judge import rehearse
from speccheck.language import load_ruleset, load_vocabulary

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
    ("terms", "told"),
    [
        (
            OUR_TERMS.replace("add to insulation", "add to insulaton"),
            """error[L201]: `insulaton` is no term of any vocabulary that the ruleset speaks
  at our-terms.clauses:3:8
  | add to insulaton
  |        ^^^^^^^^^
  help: did you mean `insulation`?""",
        ),
        (
            OUR_TERMS.replace('also "hemp"', 'also "foam glass"'),
            """error[L201]: `foam glass` is another name of the value `cellular glass` of `insulation` already
  at our-terms.clauses:7:22
  |     hemp wool  also "foam glass"
  |                      ^^^^^^^^^^
  help: write `cellular glass` in clauses, or give the new value another name""",
        ),
        (
            OUR_TERMS.replace("is hemp wool, mineral wool", "is hemp wool, gold"),
            """error[L201]: `gold` is no value of `insulation`, and stands in a family of it
  at our-terms.clauses:5:40
  |   family "natural fiber" is hemp wool, gold
  |                                        ^^^^
  help: name values of `insulation`, or add this one to them with `one of`""",
        ),
        (
            'vocabulary "our terms"\n\nadd to thickness\n  one of thick, thin\n',
            """error[L201]: values are added to `thickness`, which is a length
  at our-terms.clauses:3:8
  | add to thickness
  |        ^^^^^^^^^
  help: add values to a term that has a list of them""",
        ),
    ],
)
def test_what_cannot_be_added_is_told_where_it_stands(tmp_path: Path, terms: str, told: str) -> None:
    """An unknown term, words that are taken, a family of strangers, values of no list: in the vocabulary's own line."""
    rules = RULES if "insulation" in terms and "gold" not in terms else RULES.replace("natural fiber", "fiberglass")
    found = [one for one in load(tmp_path, terms, rules).diagnostics if one.place.file == "our-terms.clauses"]
    assert [str(one) for one in found] == [told]


PLAIN_RULES = RULES.replace("natural fiber", "fiberglass").replace("thermal covering hemp", "insulation fiberglass")
"""Rules in the words of the shipped vocabulary alone."""
OWN_TERMS = """vocabulary "our terms"
  speaks mechanical insulation

term leachable chlorides  ratio
  of insulation
"""


def test_a_mark_may_name_a_term_of_a_vocabulary_that_is_spoken(tmp_path: Path) -> None:
    """A project's own term can be the property of an insulation, which the shipped vocabulary has."""
    loaded = load(tmp_path, OWN_TERMS, PLAIN_RULES)
    assert loaded.diagnostics == ()
    assert loaded.ruleset is not None
    assert loaded.ruleset.vocabulary.terms["leachable chlorides"].of == "insulation"
    path = tmp_path / "our-terms.clauses"
    assert analyse(OWN_TERMS, path).diagnostics == load_vocabulary(path).diagnostics == ()


def test_vocabularies_that_speak_one_another_are_read(tmp_path: Path) -> None:
    """Two vocabularies that name one another end in what is known, and in no endless reading."""
    (tmp_path / "their-terms.clauses").write_text('vocabulary "their terms"\n  speaks our terms\n\nterm sort  text\n')
    terms = OWN_TERMS.replace("speaks mechanical insulation", "speaks their terms").replace("of insulation", "of sort")
    assert load(tmp_path, terms, PLAIN_RULES).diagnostics == ()


def test_a_mark_of_a_vocabulary_that_speaks_no_other_is_told_what_to_write(tmp_path: Path) -> None:
    """Without the header the name is not known, and the help says which header knows it."""
    terms = OWN_TERMS.replace("  speaks mechanical insulation\n", "")
    assert [str(one) for one in load(tmp_path, terms, PLAIN_RULES).diagnostics] == [
        """error[L201]: `insulation` is no term of this vocabulary
  at our-terms.clauses:4:6
  |   of insulation
  |      ^^^^^^^^^^
  help: name a term of it; those of another one are known where the header says so: `speaks mechanical insulation`"""
    ]
