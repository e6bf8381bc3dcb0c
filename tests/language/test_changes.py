"""What a ruleset and a vocabulary say for those who look for what would comply."""

from __future__ import annotations

from pathlib import Path

import pytest

from speccheck.language import load_ruleset, parse_ruleset
from speccheck.language.core import Ruleset
from speccheck.language.format.house_style import format_text
from speccheck.language.resolve.vocabularies import resolve_vocabulary
from speccheck.language.syntax.parsing import parse
from speccheck.language.syntax.source_text import SourceText
from speccheck.language.syntax.tree import VocabularySyntax
from speccheck.language.vocabulary.terms import Vocabulary

HEADER = 'ruleset "a"\n  speaks mechanical insulation\n'
CLAUSE = '\nclause 1 "b"\n  shall concealed\n'
VOCABULARY = """vocabulary "of proposals"

heading "Building"

term service
  one of hot, cold

term coating  yes or no
  proposed

heading "Proposal" proposed

term insulation
  one of foam, glass

term conductivity  conductivity
  of    insulation

term site temperature  temperature
  not proposed
"""


def resolved(header: str, folder: Path | None = None) -> Ruleset:
    """Return the ruleset with these lines in its header, which has to be usable."""
    loaded = parse_ruleset(HEADER + header + CLAUSE, folder=folder)
    assert loaded.usable, [str(one) for one in loaded.diagnostics]
    assert loaded.ruleset is not None
    return loaded.ruleset


def vocabulary() -> Vocabulary:
    """Return the vocabulary above."""
    source = SourceText("v.clauses", VOCABULARY)
    syntax, diagnostics = parse(source)
    assert isinstance(syntax, VocabularySyntax)
    assert not diagnostics
    found, problems = resolve_vocabulary(syntax, source)
    assert problems == ()
    return found


def test_stocked_values_and_order_reach_the_core() -> None:
    """Stocked amounts are in SI, stocked choices by their names; the order has the names of terms."""
    ruleset = resolved(
        "  stocked thickness is one of 1 in, 50 mm\n  stocked jacket is one of PVC, aluminum\n"
        "  changes cheapest first seam closure, jacket\n"
    )
    thickness, jacket = ruleset.stocked["thickness"], ruleset.stocked["jacket"]
    assert [one.value for one in thickness] == pytest.approx([0.0254, 0.05], rel=1e-12)  # type: ignore[union-attr]
    assert jacket == ("PVC", "aluminum")
    assert ruleset.cheapest_first == ("seam closure", "jacket")


def test_own_word_goes_before_that_of_a_base(tmp_path: Path) -> None:
    """What a base says of stock and order holds, unless the ruleset says something of the same term or an order."""
    base = "  stocked thickness is one of 1 in\n  stocked layers is one of 2\n  changes cheapest first jacket\n"
    (tmp_path / "base.clauses").write_text(HEADER + base + CLAUSE, encoding="utf-8")
    top = HEADER + '  builds on "base"\n  stocked thickness is one of 2 in, 3 in\n' + CLAUSE.replace("1", "2")
    (tmp_path / "top.clauses").write_text(top, encoding="utf-8")
    ruleset = load_ruleset(tmp_path / "top.clauses").ruleset
    assert ruleset is not None
    assert (len(ruleset.stocked["thickness"]), ruleset.stocked["layers"]) == (2, (2.0,))
    assert ruleset.cheapest_first == ("jacket",)


def test_headings_and_terms_say_what_is_proposed() -> None:
    """A heading says it for its terms, and a term for itself; `of` names the term whose property another one is."""
    terms = vocabulary().terms
    assert [name for name, term in terms.items() if term.proposed] == ["coating", "insulation", "conductivity"]
    assert {name: term.of for name, term in terms.items() if term.of} == {"conductivity": "insulation"}


@pytest.mark.parametrize(
    "text",
    [
        VOCABULARY,
        HEADER
        + "  stocked thickness is one of 1 in, 50 mm\n  changes cheapest first seam closure, jacket\n"
        + CLAUSE.replace("shall concealed", "shall   concealed"),
    ],
)
def test_house_style_keeps_every_word(text: str) -> None:
    """What is in the house style comes out of the formatter as it was, new words and all."""
    assert format_text(SourceText("a.clauses", text)) == text.replace("speaks mechanical", "speaks  mechanical")


def test_shipped_vocabulary_keeps_buildings_and_proposals_apart() -> None:
    """Service, size, temperatures and location are the building's; thickness, jacket and seams are proposed."""
    terms = resolved("").vocabulary.terms
    building = (
        "service",
        "pipe size",
        "operating temperature",
        "ambient temperature",
        "location",
        "installation temperature",
    )
    proposed = (
        "insulation",
        "thickness",
        "jacket",
        "seam closure",
        "vapor stop spacing",
        "hanger position",
        "adhesive VOC content",
    )
    assert [name for name in building if terms[name].proposed] == []
    assert [name for name in proposed if not terms[name].proposed] == []
