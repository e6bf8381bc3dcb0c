"""Texts that hold no name of any term are told from headers before anything else is asked of them."""

from __future__ import annotations

import random
from pathlib import Path

import pytest

from speccheck.language import load_vocabulary
from speccheck.schedule import HeaderReader
from speccheck.schedule.header_spellings import NamesByWord
from speccheck.shipped import shipped_folder

NAMES = NamesByWord(("pipe size", "insulation thickness", "k", "R-value", "outside diameter"))


@pytest.mark.parametrize(
    "text",
    [
        "Pipe Size",
        "SIZE OF PIPE, nominal",
        "Insul. Thk (mm)",
        "Jacket / Thickness",
        "k @ 75F",
        "Pipe\nsize",
        "R value",
        "R-Values",
        "Dia. (outside)",
        "Thickness²",
    ],
)
def test_a_text_with_all_words_of_a_name_may_be_a_header(text: str) -> None:
    """However the words are shortened, turned round, and parted by marks."""
    assert NAMES.may_be_in(text)


@pytest.mark.parametrize("text", ["Chilled water", '1-1/2" fiberglass', "pipe", "Size", "insulation", "P-1", ""])
def test_a_text_without_all_words_of_any_name_is_no_header(text: str) -> None:
    """One word of a name of two is not enough."""
    assert not NAMES.may_be_in(text)


def test_no_name_of_the_vocabulary_is_lost_among_other_words() -> None:
    """Each spelling of each term, with what stands before and behind names in headers, is read as that term still."""
    vocabulary = load_vocabulary(Path(shipped_folder("rulesets")) / "mechanical-insulation.clauses").vocabulary
    assert vocabulary is not None
    reader = HeaderReader(vocabulary)
    around = ("{}", "{}*", "{} (see note 2)", "{}:", " {} †")
    drawn = random.Random(7)
    for spelling, name in vocabulary.spellings.items():
        for shape in around:
            found = reader.match(shape.format(drawn.choice((spelling, spelling.upper(), spelling.replace(" ", "\n")))))
            assert found is not None, spelling
            assert found.name == name or found.term is None, spelling
