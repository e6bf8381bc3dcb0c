"""Amounts in prose: where they stand, what they are, and how they are to be met.

What the words mean is plain English and common practice, no source. Sections and the wording of clauses share them.
"""

from __future__ import annotations

import pytest

from speccheck.phrases.worded_amounts import amounts_in


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("not less than 1-1/2 inches thick", [("at least", "1-1/2 in", "thickness")]),
        ("a minimum of 1 1/2″", [("at least", "1-1/2 in", "")]),
        ("2 inches or more", [("at least", "2 in", "")]),
        ("below 60 degrees F", [("less than", "60 F", "")]),
        ("at -20 F", [("", "-20 F", "")]),
        ("between 40 F and 60 F", [("", "40 F", ""), ("", "60 F", "")]),
        ("under NPS 1-1/4", [("less than", "NPS 1-1/4", "")]),
        ("at R-6 or RSI 1", [("", "R-6", ""), ("", "RSI 1", "")]),
        ("not more than 0.02 perm", [("at most", "0.02 perm", "")]),
        ("1 m2.K/W at 10 C", [("", "1 m2.K/W", ""), ("", "10 C", "")]),
        ("0.05 lb/gal maximum", [("at most", "0.05 lb/gal", "")]),
        ("at 45 degrees", [("", "45 deg", "")]),
        ("in 2 in the plant room", [("", "2", "")]),
        ('clause 1 "Thickness"', [("", "1", "")]),
        ("the 2nd coat", []),
        ("ASTM C547", []),
    ],
)
def test_amounts_are_found_in_prose(text: str, found: list[tuple[str, str, str]]) -> None:
    """Each amount has its relation, its number with the unit as it is spelled everywhere, and what it is along."""
    assert [(one.relation, one.text, one.along) for one in amounts_in(text)] == found


def test_an_amount_says_where_it_stands() -> None:
    """The whole of it, and its number with the unit as the sentence has them."""
    text = "Insulate with not less than 1½″ thick fiberglass."
    (amount,) = amounts_in(text)
    assert text[amount.start : amount.end] == "not less than 1½″ thick"
    assert text[amount.number_start :].startswith(amount.written)
    assert amount.written == "1½″"
