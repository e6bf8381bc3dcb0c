"""What a vocabulary says of its terms beside kind and values, for reviews to draw on."""

from __future__ import annotations

from speccheck.language import load_vocabulary
from speccheck.language.format.house_style import format_text
from speccheck.language.resolve.vocabularies import resolve_vocabulary
from speccheck.language.syntax.parsing import parse
from speccheck.language.syntax.source_text import SourceText
from speccheck.language.syntax.tree import VocabularySyntax
from speccheck.language.vocabulary.terms import Vocabulary
from tests.some import some

TEXT = """vocabulary "with marks"

term remark  text
  never compared

term component
  tells systems apart
  one of
    pipe   also "piping"
    valve  also "valves"
           means "what closes a pipe"
           part of "pipe"
    spool  part of "pipe"

term conductivity  conductivity
  needs evidence
  stated at mean temperature

term mean temperature  temperature

term density  density
  stated in table
  needs evidence

term report date  text
  dates conductivity, density
"""


def vocabulary() -> Vocabulary:
    """Return the vocabulary above, which has nothing wrong."""
    source = SourceText("v.clauses", TEXT)
    syntax, diagnostics = parse(source)
    assert isinstance(syntax, VocabularySyntax)
    found, problems = resolve_vocabulary(syntax, source)
    assert (*diagnostics, *problems) == ()
    return found


def test_marks_reach_the_terms() -> None:
    """Each mark is on the term that says it, and on no other."""
    terms = vocabulary().terms
    assert [name for name, term in terms.items() if term.tells_apart] == ["component"]
    assert [term.name for term in vocabulary().tabulated] == ["density"]
    assert [name for name, term in terms.items() if term.never_compared] == ["remark"]
    assert [name for name, term in terms.items() if term.needs_evidence] == ["conductivity", "density"]
    assert {name: term.stated_at for name, term in terms.items() if term.stated_at} == {
        "conductivity": "mean temperature"
    }
    assert {name: term.dates for name, term in terms.items() if term.dates} == {
        "report date": ("conductivity", "density")
    }
    assert {one.name: one.part_of for one in terms["component"].choices} == {
        "pipe": "",
        "valve": "pipe",
        "spool": "pipe",
    }


def test_house_style_keeps_marks() -> None:
    """What is in the house style comes out of the formatter as it was."""
    assert format_text(SourceText("v.clauses", TEXT)) == TEXT


def test_shipped_vocabulary_marks_what_reviews_need() -> None:
    """A system is known by its service, size and temperature; a conductivity is stated at a mean temperature."""
    loaded = load_vocabulary("mechanical-insulation").vocabulary
    assert loaded is not None
    terms = loaded.terms
    assert {name for name, term in terms.items() if term.never_compared} == {"mark", "notes"}
    assert all(terms[name].tells_apart for name in ("service", "pipe size", "operating temperature", "location"))
    assert not any(terms[name].tells_apart for name in ("thickness", "insulation", "jacket"))
    assert all(term.proposed for term in some(one for one in terms.values() if one.needs_evidence))
    assert terms["conductivity"].stated_at == "conductivity mean temperature"


def test_marks_take_no_word_from_names() -> None:
    """A shipped ruleset names a definition `service limit tabulated`: a mark of one's own word would end such names."""
    text = 'ruleset "r"\n\ndefine limit tabulated\n  as remark is given\n'
    assert not [found for found in parse(SourceText("r.clauses", text))[1] if found.code == "L101"]
