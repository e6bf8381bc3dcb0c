"""Cells with several facts, read as a reviewer reads them.

What the words mean is common practice, no source; a supply and a return temperature written as a pair are the range
between them. The texts are our own.
"""

from __future__ import annotations

import csv
from functools import cache
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from speccheck.language.loading import load_vocabulary
from speccheck.language.vocabulary.terms import Vocabulary
from speccheck.language.vocabulary.values import BareUnits, NotGiven, read_value, write_value
from speccheck.phrases import Phrase, read_cell
from speccheck.quantities import Misread
from speccheck.schedule.phrases_of_cells import phrase_value
from speccheck.shipped import shipped_folder
from tests.some import some

INCHES = BareUnits(system="inch-pound")


@cache
def shipped() -> Vocabulary:
    """Return the shipped vocabulary."""
    return load_vocabulary(shipped_folder("rulesets") / "mechanical-insulation.clauses").vocabulary


def said(text: str, term: str) -> Phrase:
    """Read a cell in a column of a term, bare numbers in inch-pound units."""
    return read_cell(text, shipped().terms[term], shipped(), INCHES)


def written(phrase: Phrase) -> dict[str, str]:
    """Write the facts of a phrase by term."""
    return {fact.term.name: write_value(fact.value, shipped().terms[fact.term.name]) for fact in phrase.facts}


@pytest.mark.parametrize(
    ("term", "text", "facts"),
    [
        ("service", "CHWS piping", {"service": "chilled water", "component": "pipe"}),
        ("service", "Dom. HW supply", {"service": "domestic hot water", "flow": "supply"}),
        ("service", "Water, chilled", {"service": "chilled water"}),
        (
            "service",
            "Domestic hot water (130F)",
            {"service": "domestic hot water", "operating temperature": "130 F"},
        ),
        ("insulation", "Rigid fiberglass w/ FSK", {"insulation": "fiberglass", "facing": "foil scrim kraft"}),
        ("insulation", '2" cellular glass', {"thickness": "2 in", "insulation": "cellular glass"}),
        ("jacket", "ASJ + 30 mil PVC", {"facing": "all-service jacket", "jacket thickness": "30 mil", "jacket": "PVC"}),
        ("thickness", '2" FG w/ASJ', {"thickness": "2 in", "insulation": "fiberglass", "facing": "all-service jacket"}),
        ("jacket", ".024 alum", {"jacket thickness": "0.024 in", "jacket": "aluminum"}),
        ("operating temperature", "200/180", {"operating temperature": "180 F through 200 F"}),
        (
            "conductivity",
            "0.27 @ 100°F",
            {"conductivity": "0.27 Btu.in/(h.ft2.F)", "conductivity mean temperature": "100 F"},
        ),
        ("flame spread", "20/45", {"flame spread": "20", "smoke developed": "45"}),
        ("location", "Mech. Rm. 214", {"location": "mechanical room", "room": "214"}),
    ],
)
def test_each_fact_goes_to_its_term(term: str, text: str, facts: dict[str, str]) -> None:
    """All that a cell says is found, and nothing is left over."""
    phrase = said(text, term)
    assert (written(phrase), phrase.left_over, phrase.questions) == (facts, (), ())


def test_two_services_are_two_values() -> None:
    """A list of services names each of them, with words that they share said again."""
    phrase = said("Domestic cold & hot water", "service")
    assert phrase.values_of("service") == ("domestic cold water", "domestic hot water")
    assert not phrase.left_over


@pytest.mark.parametrize("text", ["HWS", "Hot water", "CW"])
def test_words_of_two_services_are_a_question(text: str) -> None:
    """An abbreviation that means two services in the trade is no value by itself."""
    phrase = said(text, "service")
    assert phrase.values_of("service") == ()
    assert len(phrase.questions[0].values) > 1


@pytest.mark.parametrize(
    ("term", "text", "left"),
    [
        ("jacket", "PVC at elbows", ["elbows"]),
        ("insulation", "fiberglass, reduced", ["reduced"]),
        ("insulation", "fiberglass (calcium silicate at hangers)", ["calcium silicate", "hangers"]),
        ("jacket", "aluminum (4)", ["4"]),
    ],
)
def test_words_that_nobody_knows_are_left_over(term: str, text: str, left: list[str]) -> None:
    """What might change the value is shown as not understood, with its place in the text."""
    phrase = said(text, term)
    assert [span.text for span in phrase.left_over] == left
    assert all(text[span.start : span.end] == span.text for span in some(phrase.left_over))


def test_alternatives_are_no_value() -> None:
    """A cell that offers a choice of two settles neither."""
    assert said("ASJ or PSK", "facing").alternatives


_VALUES = st.sampled_from(
    [
        (term, choice.name)
        for term in ("service", "insulation", "jacket", "location")
        for choice in shipped().terms[term].choices
    ]
)


@given(_VALUES, st.sampled_from(["{}", "{} system", "({})", "{}, typical", "{} for piping"]), st.booleans())
def test_a_written_value_reads_back_or_stays_open(value: tuple[str, str], wording: str, capitals: bool) -> None:
    """A value in whatever wording is read as itself or not at all, never as another one."""
    term, name = value
    text = wording.format(name.upper() if capitals else name)
    assert set(said(text, term).values_of(term)) <= {name}


@given(st.integers(33, 500), st.integers(33, 500), st.sampled_from(["{}/{}", "{}F/{}F", "EWT {} / LWT {}"]))
def test_a_pair_of_temperatures_is_the_range_between_them(one: int, other: int, wording: str) -> None:
    """Supply and return temperatures in either order give the same range."""
    phrase = said(wording.format(one, other), "operating temperature")
    low, high = sorted((one, other))
    expected = f"{low} F through {high} F" if low < high else f"{low} F"
    assert written(phrase) in ({"operating temperature": expected}, {})


def texts() -> list[tuple[str, str, str, str]]:
    """Return the texts of `cells.csv`: the term of the column, the text, its value ("" for open), what else it says.

    Every row was decided by what the words mean in the trade, whatever the reader made of them (common practice, no
    source). `remark` says why a text is open, and where a reviewer reads more than the reader does.
    """
    with (Path(__file__).parent / "cells.csv").open(encoding="utf-8") as file:
        return [(row["term"], row["text"], row["value"], row["beside"]) for row in csv.DictReader(file)]


@pytest.mark.parametrize(("term", "text", "value", "beside"), texts())
def test_a_text_is_read_as_a_reviewer_reads_it_or_left_open(term: str, text: str, value: str, beside: str) -> None:
    """Texts of the trade, each checked by hand: the value, what else the cell says, and open where either is in doubt.

    Open are words of two meanings, two values in one cell, what is taken back ("no PVC"), and words that nobody knows.
    """
    asked = shipped().terms[term]
    found = read_value(text, asked, INCHES)
    if isinstance(found, Misread):
        said_of_it = phrase_value(text, asked, shipped(), INCHES)
        found = NotGiven(text) if said_of_it is None else said_of_it[0]
    assert ("" if isinstance(found, NotGiven) else write_value(found, asked)) == value
    phrase = said(text, term)
    facts = {
        name: words for name, words in written(phrase).items() if name != term and len(phrase.values_of(name)) == 1
    }
    assert not value or "; ".join(f"{name}={words}" for name, words in facts.items()) == beside


_WORDS = """1_in 1-1/2" .016 2 up_to over max and / @ ( ) k_= R-6 42F fiberglass alum PVC ASJ jacket pipe CHW - or
20_mil 25/50 pcf % fiberglass_up_to_2"
"""


@given(
    st.sampled_from(["insulation", "jacket", "thickness", "service", "location", "facing"]),
    st.lists(
        st.sampled_from([word.replace("_", " ") for word in _WORDS.split()]),
        min_size=1,
        max_size=7,
    ),
)
def test_any_words_are_read_or_left_over(term: str, words: list[str]) -> None:
    """Whatever words stand in a cell, reading comes to an end, and facts and words left over lie within the text."""
    text = " ".join(words)
    phrase = said(text, term)
    assert all(0 <= one.start < one.end <= len(text) for one in (*phrase.facts, *phrase.left_over, *phrase.questions))
