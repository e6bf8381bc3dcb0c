"""Values that mean the same: in other units, rounded to the digits that are written, or by their nominal size."""

from __future__ import annotations

import pytest

from speccheck.judge.operations import Rules
from speccheck.language import load_vocabulary
from speccheck.language.vocabulary.terms import Term, Vocabulary
from speccheck.language.vocabulary.values import NotGiven, Value, read_value
from speccheck.quantities import Misread
from speccheck.review.products import lies_in, same


@pytest.fixture(scope="module")
def vocabulary() -> Vocabulary:
    """The shipped vocabulary."""
    loaded = load_vocabulary("mechanical insulation")
    assert loaded.vocabulary is not None
    return loaded.vocabulary


def value(text: str, term: Term) -> Value | NotGiven:
    """Return what a text means for a term."""
    found = read_value(text, term)
    assert not isinstance(found, Misread), found
    return found


# Conversions: 1 in = 25.4 mm exactly; 0.25 Btu.in/(h.ft2.F) = 0.0360 W/(m.K); 15 ft = 4.572 m (ASTM/IEEE SI 10).
@pytest.mark.parametrize(
    ("term", "one", "other"),
    [
        ("thickness", "1-1/2 in", "1.5 in"),
        ("thickness", "1-1/2 in", "38.1 mm"),
        ("thickness", "1-1/2 in", "38 mm"),
        ("thickness", "1 in", "25 mm"),
        ("conductivity", "0.25 Btu.in/(h.ft2.F)", "0.036 W/(m.K)"),
        ("conductivity", "0.25 Btu.in/(h.ft2.F)", "0.0361 W/(m.K)"),
        ("vapor stop spacing", "15 ft", "4.57 m"),
        ("vapor stop spacing", "15 ft", "4.6 m"),
        ("vapor stop spacing", "none", "unlimited"),
        ("operating temperature", "44 F", "6.7 C"),
        ("operating temperature", "42 F to 48 F", "5.56 C to 8.89 C"),
        ("operating temperature", "42-48 F", "42 F through 48 F"),
        ("pipe size", "2 in", "DN 50"),
        ("pipe size", "1/2 in thru 1-1/4 in", "DN 15 to DN 32"),
        ("flame spread", "25", "25.0"),
        ("jacket emittance", "0.044", "0.0441"),
        ("vapor stop locations", "valves, flanges", "flanges & valves"),
        ("jacket", "alum", "aluminum"),
        ("product", "Embersleeve 5", "EMBERSLEEVE-5"),
        ("thickness", "TBD", "per spec"),
        ("thickness", "none", "0 in"),
    ],
)
def test_same_in_other_words(vocabulary: Vocabulary, term: str, one: str, other: str) -> None:
    """Another unit, rounding to the digits that are written, other words: no change."""
    found = vocabulary.terms[term]
    assert same(value(one, found), value(other, found), found, Rules())
    assert same(value(other, found), value(one, found), found, Rules())


@pytest.mark.parametrize(
    ("term", "one", "other"),
    [
        ("thickness", "1-1/2 in", "1 in"),
        ("thickness", "1-1/2 in", "2 in"),
        ("thickness", "2 in", "50 mm"),
        ("thickness", "1-1/2 in", "1.4 in"),
        ("conductivity", "0.25 Btu.in/(h.ft2.F)", "0.26 Btu.in/(h.ft2.F)"),
        ("conductivity", "0.25 Btu.in/(h.ft2.F)", "0.037 W/(m.K)"),
        ("vapor stop spacing", "15 ft", "18 ft"),
        ("vapor stop spacing", "15 ft", "none"),
        ("operating temperature", "44 F", "45 F"),
        ("operating temperature", "44 F", "42 F to 48 F"),
        ("operating temperature", "under 44 F", "44 F and under"),
        ("pipe size", "2 in", "2-1/2 in"),
        ("fastener count", "5", "6"),
        ("flame spread", "25", "24"),
        ("jacket emittance", "0.1", "0.05"),
        ("thickness", "1 in", "TBD"),
        ("jacket", "aluminum", "PVC"),
        ("concealed", "yes", "no"),
    ],
)
def test_not_the_same(vocabulary: Vocabulary, term: str, one: str, other: str) -> None:
    """Another value is a change, be it near: 2 in is not 50 mm unless nominal sizes may stand for it."""
    found = vocabulary.terms[term]
    assert not same(value(one, found), value(other, found), found, Rules())
    assert not same(value(other, found), value(one, found), found, Rules())


def test_nominal_metric_size_stands_for_inches_where_the_ruleset_says_so(vocabulary: Vocabulary) -> None:
    """50 mm is 2 in by a ruleset that lets nominal metric sizes stand for inch sizes."""
    term = vocabulary.terms["thickness"]
    assert same(value("2 in", term), value("50 mm", term), term, Rules(nominal_metric=True))


@pytest.mark.parametrize(
    ("stated", "shown", "holds"),
    [
        ("25 and under", "20", True),
        ("25 and under", "25", True),
        ("25 and under", "30", False),
        ("25", "20", False),
        ("20 to 30", "20 to 25", True),
    ],
)
def test_stated_range_holds_what_is_shown(vocabulary: Vocabulary, stated: str, shown: str, holds: bool) -> None:
    """A schedule that states a limit is borne out by product data within it."""
    term = vocabulary.terms["flame spread"]
    one, other = value(stated, term), value(shown, term)
    assert not isinstance(one, NotGiven)
    assert not isinstance(other, NotGiven)
    assert lies_in(one, other) is holds
