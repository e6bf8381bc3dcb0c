"""Which words of a cell belong together, by the rules of `grammar/phrases.lark`.

What belongs together is how the trade writes: common practice, no source. The texts are our own.
"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from speccheck.language.vocabulary.values import BareUnits
from speccheck.phrases.lexicon import lexicon_of
from speccheck.phrases.parsing import Node, tree_of
from speccheck.phrases.terminals import Source, Terminal, terminals_of
from speccheck.phrases.words import words_of
from tests.phrases.test_cells import said, shipped, written


def source(text: str, term: str) -> Source:
    """Return a text as a cell in a column of a term, bare numbers in inch-pound units."""
    lexicon = lexicon_of(shipped(), shipped().terms[term])
    return Source(text, words_of(text), lexicon, BareUnits(system="inch-pound"))


def drawn(text: str, term: str) -> str:
    """Return the tree of a text: the words of each terminal, in the brackets of the rules that put them together."""
    words = source(text, term)

    def of(part: Node | Terminal) -> str:
        if isinstance(part, Node):
            inner = " ".join(of(each) for each in part.parts)
            return inner if part.rule in ("chain", "thing", "filler", "cell", "link") else f"{part.rule}[{inner}]"
        return text[words.words[part.first].start : words.words[part.end - 1].end]

    return of(tree_of(terminals_of(words)))


@pytest.mark.parametrize(
    ("term", "text", "tree"),
    [
        ("insulation", '2" fiberglass', 'measured[2" described[fiberglass]]'),
        ("insulation", '2" thick fiberglass', 'measured[2" thick described[fiberglass]]'),
        ("jacket", "aluminum jacket, 0.016 in", "described[aluminum jacket , 0.016 in]"),
        ("jacket", "aluminum (0.016 in)", "described[aluminum remark[( quantity[0.016 in] )]]"),
        (
            "insulation",
            "PVC 20 mil over 1-1/2 in fiberglass",
            "described[PVC 20 mil] over measured[1-1/2 in described[fiberglass]]",
        ),
        ("conductivity", "0.25 @ 75 F", "quantity[0.25 condition[@ 75 F]]"),
        ("insulation", "fiberglass, k = 0.23", "described[fiberglass ,] named[k = quantity[0.23]]"),
        ("jacket", "20 mil PVC or aluminum", "measured[20 mil described[PVC]] or described[aluminum]"),
        ("service", "chilled water in the garage", "described[chilled water] within[in the garage]"),
        ("service", "garage exhaust", "described[garage] described[exhaust]"),
        ("insulation", "fiberglass ASTM E84", "described[fiberglass] standard[ASTM E84]"),
        ("insulation", "fiberglass, 2 layers of 1 in", "described[fiberglass ,] layers[2 layers of 1 in]"),
    ],
)
def test_words_are_put_together(term: str, text: str, tree: str) -> None:
    """An amount goes to the value beside it, a temperature to what was measured at it, a place to "in"."""
    assert drawn(text, term) == tree


@pytest.mark.parametrize(
    ("term", "text", "facts"),
    [
        ("insulation", 'Stainless steel jacket, 0.010"', {"jacket": "stainless steel", "jacket thickness": "0.01 in"}),
        (
            "conductivity",
            "0.25/75F",
            {"conductivity": "0.25 Btu.in/(h.ft2.F)", "conductivity mean temperature": "75 F"},
        ),
        ("insulation", "0.016 in thick aluminum", {"jacket thickness": "0.016 in", "jacket": "aluminum"}),
        (
            "service",
            "Chilled water - 42F supply, 56F return",
            {"service": "chilled water", "operating temperature": "42 F through 56 F"},
        ),
        (
            "service",
            "HHW 180F sup & 160F ret",
            {"service": "heating hot water", "operating temperature": "160 F through 180 F"},
        ),
        ("service", "DHW 140F supply and return", {"service": "domestic hot water", "operating temperature": "140 F"}),
        ("thickness", "over 25 mm, ASJ", {"thickness": "over 25 mm", "facing": "all-service jacket"}),
        ("insulation", 'PVC over 1-1/2" fiberglass', {"jacket": "PVC", "thickness": "1-1/2 in"}),
        (
            "insulation",
            "40 psi, elastomeric @ 30 mil PVC",
            {"insulation": "elastomeric foam", "jacket thickness": "30 mil", "jacket": "PVC"},
        ),
        (
            "insulation",
            'k = 0.27 @ 75F / 1"',
            {"conductivity": "0.27 Btu.in/(h.ft2.F)", "conductivity mean temperature": "75 F", "thickness": "1 in"},
        ),
    ],
)
def test_an_amount_is_of_the_value_that_it_stands_beside(term: str, text: str, facts: dict[str, str]) -> None:
    """A thickness beside a jacket is that of the jacket, however many words its name has."""
    assert facts.items() <= written(said(text, term)).items()


def test_an_amount_is_not_read_without_its_unit() -> None:
    """A length in a column of flame spread is no number, though "in" joins words elsewhere."""
    phrase = said("2 in", "flame spread")
    assert (written(phrase), [span.text for span in phrase.left_over]) == ({}, ["2"])


def test_an_amount_that_no_term_near_has_is_left_over() -> None:
    """What a conductivity is measured at is a temperature: a pressure behind a slash is none."""
    phrase = said("0.25 / 20 psi", "conductivity")
    assert [span.text for span in phrase.left_over] == ["20 psi"]
    assert written(phrase) == {"conductivity": "0.25 Btu.in/(h.ft2.F)"}


@given(
    st.lists(
        st.sampled_from(
            [
                "(",
                ")",
                "/",
                "&",
                "or",
                "@",
                "in",
                "the",
                "garage",
                "PVC",
                "HWS",
                "20 mil",
                "k =",
                "xyz",
                ",",
                "2",
                "and",
            ]
        ),
        max_size=12,
    ).map(" ".join)
)
def test_any_words_are_a_phrase(text: str) -> None:
    """Whatever the order of words, each of them is in the tree once."""
    words = source(text, "insulation")
    terminals = terminals_of(words)
    assert [word for each in terminals for word in words.words[each.first : each.end]] == list(words.words)
    assert tree_of(terminals).rule == "cell"


def depth(part: Node | Terminal) -> int:
    """Return how many rules stand inside one another."""
    return 1 + max(map(depth, part.parts), default=0) if isinstance(part, Node) else 0


@pytest.mark.parametrize("brackets", [1, 8, 9, 90])
def test_brackets_further_inside_than_anybody_writes_are_passed_over(brackets: int) -> None:
    """However many open, what stands in them is found, and the tree grows no deeper than with eight."""
    deepest = depth(tree_of(terminals_of(source("(" * 8 + "fiberglass" + ")" * 8, "insulation"))))
    for text in ("(" * brackets + "fiberglass" + ")" * brackets, "(" * brackets + "fiberglass"):
        assert "fiberglass" in drawn(text, "insulation")
        assert depth(tree_of(terminals_of(source(text, "insulation")))) <= deepest
