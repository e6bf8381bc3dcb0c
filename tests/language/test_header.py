"""The header of a ruleset, read without the parser, against what the parser reads."""

from __future__ import annotations

import pytest

from speccheck.language import load_ruleset, shipped_ruleset_names
from speccheck.language.ruleset_files import located
from speccheck.language.syntax.header import read_header


@pytest.mark.parametrize("name", shipped_ruleset_names())
def test_header_is_what_the_whole_file_says(name: str) -> None:
    """Name, edition, place, what is covered and the cautions are those of the ruleset as it is loaded."""
    header, ruleset = read_header(located(name).read_text(encoding="utf-8")), load_ruleset(name).ruleset
    assert ruleset is not None
    assert (header.name, header.text("covers")) == (ruleset.name, ruleset.covers)
    assert header.text("jurisdiction") == ruleset.jurisdiction


def test_only_the_header_is_read() -> None:
    """A clause's cautions, words of the header inside strings, and comments are no part of the header."""
    text = (
        '-- covers "a comment"\nruleset "One; covers more"\n  covers "pipe --\n  and duct"\n  caution "a" -- note "b"\n'
        '  caution "c"\n\nclause 1 "Two"\n  caution "not this"\n  where covers is no'
    )
    header = read_header(text)
    assert header.name == "One; covers more"
    assert dict(header.texts) == {
        "ruleset": ("One; covers more",), "covers": ("pipe -- and duct",), "caution": ("a", "c"),
    }  # fmt: skip


@pytest.mark.parametrize("text", ["", 'clause 1 "A"\n', "words", 'ruleset "open'])
def test_text_that_begins_otherwise_has_no_name(text: str) -> None:
    """A file that is empty, begins with a clause, or leaves its name open has no name, and raises nothing."""
    assert read_header(text).name == ""
