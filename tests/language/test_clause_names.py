"""The names of clauses: those that reports write, and those by which somebody may ask for one."""

from __future__ import annotations

import pytest

from speccheck.language.clause_names import clauses_by_name, labelled
from speccheck.language.core import Clause


def clause(name: str, called: str, ruleset: str) -> Clause:
    """Return a clause of a ruleset by its number, the name that `builds on` gives the ruleset, and its title."""
    return Clause(name, "a clause", ruleset, called=called)


PROJECT = labelled(
    [
        clause("1.1", "condensation", "Condensation on cold insulation"),
        clause("1.2", "condensation", "Condensation on cold insulation"),
        clause("1.1", "supports/shields", "Shields at hangers"),
        clause("1.1", "", "Invented dairy"),
        clause("2.6", "", "Invented dairy"),
    ]
)


def test_inherited_clauses_are_told_apart_by_the_name_of_their_ruleset() -> None:
    """Where rulesets share a number, all their numbers go behind their names; the project's own clauses keep theirs."""
    labels = ["condensation 1.1", "condensation 1.2", "supports/shields 1.1", "1.1", "2.6"]
    assert [one.label for one in PROJECT] == labels


def test_inherited_clauses_of_numbers_of_their_own_keep_these() -> None:
    """A ruleset with no number in common with others needs no name before them."""
    found = labelled([clause("90.1-1", "energy/ashrae-90.1", "Energy"), clause("1.1", "", "Invented dairy")])
    assert [one.label for one in found] == ["90.1-1", "1.1"]


def test_rulesets_of_one_name_are_told_apart_by_their_titles() -> None:
    """Two files of one name in two folders are two rulesets, and both are named in full."""
    found = labelled([clause("1", "common", "Common, of the owner"), clause("1", "common", "Common, of the office")])
    assert [one.label for one in found] == ["1 (Common, of the owner)", "1 (Common, of the office)"]


@pytest.mark.parametrize(
    ("name", "position"),
    [
        ("condensation 1.1", 0),
        ("1.1 (condensation)", 0),
        ("1.1 (Condensation on cold insulation)", 0),
        ("1.2", 1),
        ("condensation 1.2", 1),
        ("1.1", 3),
        ("1.1 (Invented dairy)", 3),
        ("2.6", 4),
    ],
)
def test_a_clause_is_found_by_each_of_its_names(name: str, position: int) -> None:
    """By its label, by the name of its ruleset, and by the title of its ruleset."""
    assert clauses_by_name(PROJECT)[name] is PROJECT[position]


def test_a_number_alone_is_no_name_where_several_inherited_clauses_have_it() -> None:
    """Which of them was meant would be a guess."""
    assert "1.1" not in clauses_by_name(labelled(PROJECT[:3]))
