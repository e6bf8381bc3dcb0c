"""What an editor is told of a text, without a server: mistakes, names, what could be written, examples."""

from __future__ import annotations

from pathlib import Path

import pytest

from speccheck.editor.analysing import analyse, rehearsed
from speccheck.editor.completing import suggestions
from speccheck.editor.hovering import hover_text, locations
from speccheck.editor.naming import name_at, name_meant
from speccheck.language import load_ruleset, shipped_ruleset_names
from speccheck.shipped import shipped_folder
from tests.some import some

RULESETS = shipped_folder("rulesets")
VOCABULARY = (RULESETS / "mechanical-insulation.clauses").read_text(encoding="utf-8")
HEADER = 'ruleset "a"\n  speaks mechanical insulation\n\n'
BROKEN = HEADER + 'clause 1 "b"\n  where service is \n  shall thickness be at least 1 in\n'


@pytest.mark.parametrize("name", shipped_ruleset_names()[::4])
def test_a_shipped_file_is_read_as_it_is_loaded(name: str) -> None:
    """The text of a shipped ruleset comes to the ruleset that loading it gives, with nothing to complain of."""
    path = RULESETS / f"{name}.clauses"
    found = analyse(path.read_text(encoding="utf-8"), path)
    assert found.diagnostics == ()
    assert found.ruleset is not None
    loaded = load_ruleset(name).ruleset
    assert loaded is not None
    assert [clause.examples for clause in found.ruleset.clauses] == [clause.examples for clause in loaded.clauses]
    assert found.ruleset.clauses == loaded.clauses


def test_line_ends_and_marks_of_other_systems_are_read() -> None:
    """Line ends of other systems and a mark at the start of the file change nothing."""
    path = RULESETS / "fire.clauses"
    text = path.read_text(encoding="utf-8")
    assert analyse("\ufeff" + text.replace("\n", "\r\n"), path).ruleset == analyse(text, path).ruleset


def test_a_vocabulary_is_read_too() -> None:
    """A vocabulary has terms and no clauses, and its names mean something."""
    found = analyse(VOCABULARY, RULESETS / "mechanical-insulation.clauses")
    assert (found.ruleset, found.diagnostics) == (None, ())
    assert "thickness" in found.names
    assert rehearsed(found).clauses == ()


def test_the_longest_name_at_a_position_is_meant() -> None:
    """`vapor stop spacing` is one name wherever in it the position lies; what is no name is none."""
    names = analyse(BROKEN, Path("a.clauses")).names
    line = "  shall   vapor stop spacing be at most 15 ft"
    for column in range(line.index("vapor"), line.index(" be")):
        named = name_at(line, column, names)
        assert named is not None
        assert line[named.start : named.end] == "vapor stop spacing"
    assert name_at(line, line.index("15"), names) is None
    assert name_at("", 0, names) is None


def test_a_value_is_one_of_the_term_before_it() -> None:
    """`none` is a value of many terms, and behind `jacket is` it is one of the jacket."""
    names = analyse(BROKEN, Path("a.clauses")).names
    line = "  where jacket is none"
    alone, behind = name_at(line, line.index("none"), names), name_meant(line, line.index("none"), names)
    assert alone is not None
    assert behind is not None
    assert len(alone.meanings) > 1
    assert hover_text(behind, "inch-pound").startswith("**none**: value of jacket")


def test_a_text_that_cannot_be_parsed_is_still_helped() -> None:
    """Where a value is missing, the values of the term are offered, and names keep their meaning."""
    found = analyse(BROKEN, Path("a.clauses"))
    assert [one.code for one in found.diagnostics][:1] == ["L101"]
    offered = suggestions(found, 4, len("  where service is "))
    assert [one.text for one in offered if one.sort == "value"][:2] == ["chilled water", "ice water"]
    assert "thickness" in [one.text for one in offered if one.sort == "term"]


def test_a_definition_is_shown_with_its_source() -> None:
    """Hovering over a definition of the text shows what it means, where it comes from, and its note."""
    text = (
        HEADER
        + """define cold
  source "VA 22 07 11" seen
  note   "fluid, not surface"
  as     operating temperature is at most 60 F
"""
    )
    named = name_at("cold", 0, analyse(text, Path("a.clauses")).names)
    assert named is not None
    assert hover_text(named, "inch-pound") == (
        "**cold**: definition\n\noperating temperature is at most 60 F\n\nSource: VA 22 07 11 (seen)\n\n"
        "fluid, not surface"
    )


def test_what_can_be_compared_is_offered_first() -> None:
    """Behind `thickness be at least` come lengths: the ruleset's own table, then terms, then tables of others."""
    text = (
        HEADER.rstrip()
        + """
  builds on "energy/irc-2024"

define cold
  as operating temperature is less than 60 F

table needed in inches
  by pipe size
  up to 2 in | 1
  over 2 in  | 2

clause 1 "b"
  shall   thickness be at least need
"""
    )
    found = analyse(text, Path("a.clauses"))
    row = next(at for at, line in enumerate(text.split("\n")) if "shall" in line)
    offered = [one.text for one in suggestions(found, row, len("  shall   thickness be at least need"))]
    named = [offered.index(name) for name in ("needed", "thickness", "IRC hot water thickness", "cold", "service")]
    assert named == sorted(named)
    own = [one.text for one in suggestions(found, row, len("  shall   c")) if one.sort in ("definition", "term")]
    assert own[0] == "cold"


def test_words_that_begin_a_line_are_offered_at_its_start() -> None:
    """At the start of a line of a clause its parts are offered, and the words that begin the next item."""
    found = analyse(BROKEN, Path("a.clauses"))
    offered = {one.text for one in suggestions(found, 5, 2)}
    assert {"where", "shall", "except", "example", "clause", "table", "statement"} <= offered


def test_terms_lie_in_the_vocabulary_and_tables_where_they_are_written() -> None:
    """The place of a term is its line in the shipped vocabulary, that of a table its line in its ruleset."""
    path = RULESETS / "energy" / "ashrae-90.1.clauses"
    found = analyse(path.read_text(encoding="utf-8"), path)
    for word, file in (("thickness", "mechanical-insulation.clauses"), ("energy heating thickness", path.name)):
        named = name_at(word, 0, found.names)
        assert named is not None
        place = locations(named, path)[0]
        assert place.path.name == file
        line = place.path.read_text(encoding="utf-8").split("\n")[place.place.line - 1]
        assert word in line


def test_examples_are_counted_by_clause() -> None:
    """Each clause of the file has as many examples as stand there, and all of a shipped file come out."""
    path = RULESETS / "fire.clauses"
    found = rehearsed(analyse(path.read_text(encoding="utf-8"), path))
    assert found.diagnostics == ()
    assert all(one.right == one.count for one in some(found.clauses))
    text = path.read_text(encoding="utf-8")
    assert sum(one.count for one in found.clauses) == text.count("\n  example ")
    lines = [number for number, row in enumerate(text.split("\n"), 1) if row.startswith("  example ")]
    assert [(place.line, right) for place, right in found.examples] == [(line, True) for line in lines]


def test_hover_shows_text_of_others_as_text() -> None:
    """Marks that Markdown would take for its own are shown as they are."""
    text = HEADER + 'table t in in\n  source "<b>*x*</b>"\n  by pipe size\n  2 in | 1\n'
    names = analyse(text, Path("a.clauses")).names
    named = name_at("t", 0, names)
    assert named is not None
    assert "Source: \\<b\\>\\*x\\*\\</b\\>" in hover_text(named, "inch-pound")
