"""House style: the same tree, every comment, nothing changed by formatting twice, and how it looks."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from speccheck.language import load_vocabulary
from speccheck.language.format.house_style import format_syntax, format_text
from speccheck.language.format.words import WIDTH
from speccheck.language.syntax.comments import comments_and_words
from speccheck.language.syntax.parsing import parse
from speccheck.language.syntax.source_text import SourceText, read_source
from speccheck.language.syntax.tree import FileSyntax
from tests.strategies.syntax import files, other_layouts

HERE = Path(__file__).parent
ROOT = HERE.parents[1]
SHIPPED = sorted([*(ROOT / "rulesets").rglob("*.clauses"), *(ROOT / "examples").rglob("*.clauses")])


def tree_of(text: str) -> FileSyntax:
    """Return the tree of a text without mistakes."""
    syntax, diagnostics = parse(SourceText("text.clauses", text))
    assert not diagnostics, "\n".join(map(str, diagnostics))
    assert syntax is not None
    return syntax


def formatted(text: str) -> str:
    """Return a text without mistakes in house style."""
    found = format_text(SourceText("text.clauses", text))
    assert isinstance(found, str), "\n".join(map(str, found))
    return found


def comments_of(text: str) -> Counter[str]:
    """Return how often each comment stands in a text."""
    return Counter(comment.text for comment in comments_and_words(SourceText("text.clauses", text))[0])


@given(files)
@settings(deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_tree_to_text_to_tree(tree: FileSyntax) -> None:
    """Parsing what was formatted gives the tree again, and formatting that changes nothing."""
    text = format_syntax(tree)
    assert tree_of(text) == tree
    assert formatted(text) == text


@given(files, st.data())
@settings(deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_any_layout_comes_to_the_house_style(tree: FileSyntax, data: st.DataObject) -> None:
    """However a text is laid out, house style keeps its tree and its comments and is the same when done twice."""
    text = data.draw(other_layouts(format_syntax(tree)))
    once = formatted(text)
    assert tree_of(once) == tree
    assert comments_of(once) == comments_of(text)
    assert formatted(once) == once


@pytest.mark.parametrize("path", SHIPPED, ids=lambda path: path.stem)
def test_shipped_files_keep_their_tree_and_comments(path: Path) -> None:
    """The shipped files mean the same in house style, no comment of theirs is lost, and twice is as once."""
    source = read_source(path)
    assert isinstance(source, SourceText)
    once = formatted(source.text)
    assert tree_of(once) == tree_of(source.text)
    assert comments_of(once) == comments_of(source.text)
    assert formatted(once) == once


@pytest.mark.parametrize("path", SHIPPED, ids=lambda path: path.stem)
def test_lines_stay_within_the_width(path: Path) -> None:
    """Only comments, tables and words that cannot be broken go over the width of a line."""
    source = read_source(path)
    assert isinstance(source, SourceText)
    for line in formatted(source.text).split("\n"):
        breakable = "--" not in line and "|" not in line and " " in line[60:].strip()
        assert len(line) <= WIDTH or not breakable, line


@pytest.mark.parametrize("name", ["ruleset", "vocabulary"])
def test_house_style(name: str) -> None:
    """Names, strings, tables, lists, conditions and comments are laid out as the guide shows them."""
    unkempt = (HERE / "layouts" / f"{name}-unkempt.clauses").read_text(encoding="utf-8")
    assert formatted(unkempt) == (HERE / "layouts" / f"{name}.clauses").read_text(encoding="utf-8")


def test_text_with_mistakes_is_left_alone() -> None:
    """Where a text cannot be read, its diagnostics come instead of a text that lacks a part."""
    source = SourceText("text.clauses", 'ruleset "a"\n  speaks b\n\nclause 1 "c"\n  shal d\n')
    found = format_text(source)
    assert not isinstance(found, str)
    assert [str(one) for one in found] == [
        "error[L101]: `shal` cannot begin a part\n"
        "  at text.clauses:5:3\n"
        "  |   shal d\n"
        "  |   ^^^^\n"
        "  help: did you mean `shall`?"
    ]


SYNONYMS = """ruleset "x"
  speaks mechanical insulation

assume location is conditioned space

table asked in inches
  by jacket, pipe size
           | up to 2 in
  PVC, alu | 1

table shown of jacket
  by service
  CHW   | alu
  steam | PVC

clause 1 "x"
  where location is innen or location is indoors
  where service is one of CHW, HHW
  shall insulation be not mineral fibre
  shall jacket be alu
  example "as in a schedule" complies
          service CHW, jacket alu
"""
"""Values by what schedules call them."""


def test_values_are_called_by_their_own_names() -> None:
    """Synonyms in conditions, headings, cells and assumptions become the value; what can mean two things stays."""
    vocabulary = load_vocabulary("mechanical insulation").vocabulary
    assert vocabulary is not None
    source = SourceText("x", SYNONYMS)
    formatted = format_text(source, vocabulary)
    assert isinstance(formatted, str)
    lines = [" ".join(line.split()) for line in formatted.splitlines()]
    assert "assume location is conditioned" in lines
    assert "PVC, aluminum | 1" in lines
    assert "chilled water | aluminum" in lines
    assert "where location is inside the building or location is indoors" in lines
    assert "where service is one of chilled water, heating hot water" in lines
    assert "shall insulation be not mineral fiber" in lines
    assert "shall jacket be aluminum" in lines
    assert "service CHW, jacket alu" in lines
    assert format_text(SourceText("x", formatted), vocabulary) == formatted
    assert "service is one of CHW, HHW" in str(format_text(source))


def test_headings_that_replace_those_of_another_table_stay() -> None:
    """An addendum names the headings of the table whose cells it replaces, whatever they are called there."""
    vocabulary = load_vocabulary("mechanical insulation").vocabulary
    text = 'ruleset "x"\n  speaks mechanical insulation\n\ntable asked in inches\n  replaces cells of "y"\n'
    text += "  by service\n  CHW | 1\n"
    assert "CHW | 1" in str(format_text(SourceText("x", text), vocabulary))
