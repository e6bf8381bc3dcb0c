"""The pages about the language: the examples of the guide can be used, the page of diagnostics is current."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from speccheck.judge import rehearse
from speccheck.language import parse_ruleset
from speccheck.language.diagnostics import has_errors
from speccheck.language.format.house_style import format_text
from speccheck.language.loading import Loader
from speccheck.language.resolve.vocabularies import resolve_vocabulary
from speccheck.language.syntax.parsing import parse
from speccheck.language.syntax.source_text import SourceText
from speccheck.language.syntax.tree import VocabularySyntax
from speccheck.shipped import shipped_folder
from tests.tools.diagnostics_page import PAGE, page

GUIDE = Path(__file__).parents[2] / "grammar" / "README.md"
BLOCKS = re.findall(r"^```clauses\n(.*?)^```$", GUIDE.read_text(encoding="utf-8"), flags=re.MULTILINE | re.DOTALL)
HEADER = 'ruleset "an example of the guide"\n  speaks  mechanical insulation\n\n'
CLAUSE = '\nclause 0 "stands in for the rest of the ruleset"\n  shall   concealed\n'


def whole(block: str) -> str:
    """Return an example of the guide as a file: one that is a part of a ruleset gets a header and a clause."""
    if block.startswith(("ruleset", "vocabulary")):
        return block
    text = f"{HEADER}{block}"
    return text if re.search(r"^clause", block, flags=re.MULTILINE) else text + CLAUSE


def test_guide_has_examples() -> None:
    """The guide shows the constructs of the language in examples."""
    assert len(BLOCKS) >= 12


@pytest.mark.parametrize("block", BLOCKS, ids=lambda block: block.split("\n")[0])
def test_example_of_the_guide_can_be_used(block: str) -> None:
    """An example of the guide resolves with the shipped vocabulary, and its own examples come out as they say."""
    source = SourceText("guide.clauses", whole(block))
    syntax, diagnostics = parse(source)
    assert not diagnostics, "\n".join(map(str, diagnostics))
    if isinstance(syntax, VocabularySyntax):
        spoken = Loader().terms_spoken(syntax, source, shipped_folder("rulesets") / source.name)
        assert [str(found) for found in resolve_vocabulary(syntax, source, spoken)[1]] == []
        return
    loaded = parse_ruleset(source.text, source.name)
    told = [str(found) for found in loaded.diagnostics if found.place.file == source.name]
    assert told == []
    assert loaded.ruleset is not None
    rehearsed = [found for found in rehearse(loaded.ruleset).diagnostics if found.place.file == source.name]
    assert not has_errors(rehearsed), "\n".join(map(str, rehearsed))


@pytest.mark.parametrize("block", BLOCKS, ids=lambda block: block.split("\n")[0])
def test_example_of_the_guide_is_in_house_style(block: str) -> None:
    """The examples of the guide are laid out as the formatter lays them out."""
    formatted = format_text(SourceText("guide.clauses", whole(block)))
    assert formatted == whole(block)


def test_page_of_diagnostics_is_current() -> None:
    """The page of diagnostics is what `python -m tests.tools.diagnostics_page` makes."""
    assert PAGE.read_text(encoding="utf-8") == page()
