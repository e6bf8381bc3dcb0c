"""Wording: the core back in the words of the language says what it said."""

from __future__ import annotations

from pathlib import Path

import pytest

from speccheck.language import load_ruleset, parse_ruleset, shipped_ruleset_names
from speccheck.language.core import Condition, Every, Negation, Ruleset, Some
from speccheck.language.core.walking import conditions_of
from speccheck.language.core.wording import condition_text, value_text

MISTAKES = Path(__file__).parent / "mistakes"
NAMES = "define cold\n  as operating temperature is under 60 F\n\ntable needed in in\n  by service\n  steam | 1\n\n"
# What is written in a clause, and the same in the words of the core ("" where they are the same).
WRITTEN = {
    "thickness is at least 1-1/2 in": "",
    "thickness is under 38 mm": "thickness is less than 38 mm",
    "thickness is over 1 in": "thickness is more than 1 in",
    "thickness is at most larger of needed and jacket thickness": "",
    "thickness is at least 2 times jacket thickness plus 1 in": "",
    "operating temperature minus ambient temperature is at least 10 F difference": "",
    "thickness is between 1 in and 2 in": "thickness is at least 1 in and thickness is at most 2 in",
    "pipe size is from 2 in to under 4 in": "pipe size is at least 2 in and pipe size is less than 4 in",
    "pipe size is over DN 50 to DN 100": "pipe size is more than 2 in and pipe size is at most 4 in",
    "service is steam": "",
    "service is not steam": "",
    "jacket is one of aluminum, PVC": "",
    "jacket is not one of aluminum, PVC": "not jacket is one of aluminum, PVC",
    "vapor stop locations include valves, flanges": "",
    "vapor stop locations includes any of valves, flanges": "vapor stop locations include any of valves, flanges",
    "vapor stop locations exclude valves": "",
    "thickness is given": "",
    "thickness is not given": "not thickness is given",
    "concealed": "",
    "not cold": "",
    "cold or concealed and service is steam": "",
    "(cold or concealed) and service is steam": "",
    "not (cold or concealed)": "",
}


def ruleset_of(condition: str) -> Ruleset:
    """Return a ruleset whose only clause has a scope of one condition."""
    text = f'ruleset "a"\n  speaks plain terms\n\n{NAMES}clause 1 "b"\n  where {condition}\n  shall concealed\n'
    loaded = parse_ruleset(text, "text.clauses", MISTAKES)
    assert loaded.usable, "\n".join(map(str, loaded.diagnostics))
    assert loaded.ruleset is not None
    return loaded.ruleset


def scope_of(condition: str) -> Condition:
    """Return a condition resolved."""
    return ruleset_of(condition).clauses[0].scope[0]


@pytest.mark.parametrize("written", WRITTEN)
def test_condition_in_words(written: str) -> None:
    """A condition reads as it was written, synonyms of the language and spans in their plain form."""
    assert condition_text(scope_of(written)) == (WRITTEN[written] or written)


@pytest.mark.parametrize("written", WRITTEN)
def test_words_mean_the_condition(written: str) -> None:
    """The words of a condition, read again, are that condition."""
    assert scope_of(condition_text(scope_of(written))) == scope_of(written)


def test_shall_says_be() -> None:
    """Behind a shall the verb is `be`, in every part of the condition."""
    condition = scope_of("thickness is at least 1 in and not service is steam or jacket is one of PVC, aluminum")
    assert condition_text(condition, be=True) == (
        "thickness be at least 1 in and not service be steam or jacket be one of PVC, aluminum"
    )


def flat(condition: Condition) -> Condition:
    """Return a condition with `and` in `and` taken as one: a span in words is two comparisons joined by `and`."""
    if isinstance(condition, Negation):
        return Negation(flat(condition.part))
    if not isinstance(condition, Every | Some):
        return condition
    parts = [flat(part) for part in condition.parts]
    sort = type(condition)
    return sort(tuple(inner for part in parts for inner in (part.parts if isinstance(part, sort) else (part,))))


def again(name: str, ruleset: Ruleset) -> str:
    """Return a text that builds on a ruleset and holds, one in each clause, all its conditions in words."""
    clauses = [
        f'clause {number}-{part} "a"\n  shall {condition_text(condition, be=True, system=ruleset.units)}\n'
        for number, clause in enumerate(ruleset.clauses)
        for part, condition in enumerate(conditions_of(clause))
    ]
    return f'ruleset "again"\n  builds on "{name}"\n\n' + "\n".join(clauses)


@pytest.mark.parametrize("name", shipped_ruleset_names())
def test_shipped_clauses_read_back(name: str) -> None:
    """The conditions of every shipped clause, in words and read again, are themselves."""
    ruleset = load_ruleset(name).ruleset
    assert ruleset is not None
    loaded = parse_ruleset(again(name, ruleset), "again.clauses")
    assert loaded.ruleset is not None
    assert [str(found) for found in loaded.diagnostics if found.place.file == "again.clauses"] == []
    read = [flat(clause.shall[0]) for clause in loaded.ruleset.clauses if clause.ruleset == "again"]
    assert read == [flat(condition) for clause in ruleset.clauses for condition in conditions_of(clause)]


def test_no_and_nothing_are_two_values() -> None:
    """A count of 0 equals `no` for the computer, and one of 1 `yes`; their words are their own, in any order."""
    assert [value_text(value) for value in (False, 0, True, 1)] == ["no", "0", "yes", "1"]
