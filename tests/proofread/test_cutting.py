"""Axes cut into atoms: all values within an atom are alike to every clause, whatever the ruleset's way of comparing."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from speccheck.judge.evaluation import evaluate
from speccheck.judge.operations import Rules
from speccheck.language import load_vocabulary, parse_ruleset
from speccheck.language.core import Ruleset
from speccheck.language.vocabulary.terms import Term
from speccheck.language.vocabulary.values import BareUnits, NotGiven, read_value
from speccheck.proofread.partition import cut, numbers_between, whole_numbers_between
from speccheck.quantities import Quantity, quantity

FOLDER = Path(__file__).parent
HEADERS = ("", "tolerance 5 %", "lets nominal metric stand for inch", "units metric")
RELATIONS = ("at least", "at most", "less than", "more than", "not", "")
LIMITS = ("1 in", "1-1/2 in", "38 mm", "40 mm", "2 in", "0.05 m")


def _term(name: str) -> Term:
    vocabulary = load_vocabulary(FOLDER / "vocabulary.clauses").vocabulary
    assert vocabulary is not None
    return vocabulary.terms[name]


def _ruleset(header: str) -> Ruleset:
    clauses = [
        f'clause {number} "c"\n  shall thickness be {relation} {limit}'
        for number, (relation, limit) in enumerate((r, li) for r in RELATIONS for li in LIMITS)
    ]
    text = "\n".join(['ruleset "cut"', '  speaks "vocabulary"', f"  {header}", *clauses])
    loaded = parse_ruleset(text, "cut.clauses", FOLDER)
    assert loaded.ruleset is not None, loaded.diagnostics
    return loaded.ruleset


RULESETS = {header: _ruleset(header) for header in HEADERS}
written = st.one_of(
    st.integers(1, 4000).map(lambda thousandths: f"{thousandths / 1000:g} in"),
    st.integers(1, 900).map(lambda tenths: f"{tenths / 10:g} mm"),
    st.sampled_from(["25 mm", "38 mm", "50 mm", "1-1/2 in", "1 in"]),
)


@pytest.mark.parametrize("header", HEADERS)
@settings(max_examples=150, deadline=None)
@given(text=written)
@example(text="38.1 mm")
def test_every_value_is_alike_to_the_one_that_stands_for_its_atom(header: str, text: str) -> None:
    """Whatever thickness a schedule states, some atom's value gets the same answer from every clause."""
    ruleset, term = RULESETS[header], _term("thickness")
    rules = Rules.of(ruleset)
    limits = [quantity(limit, "length") for limit in LIMITS]
    conditions = [clause.shall[0] for clause in ruleset.clauses]

    def answers(value: object) -> tuple[bool | None, ...]:
        case = {"thickness": value}
        return tuple(evaluate(one, case, rules).truth for one in conditions)  # type: ignore[arg-type]

    known = {answers(atom.value) for atom in cut(term, limits, [rules], ruleset.units)}
    assert answers(read_value(text, term, BareUnits())) in known


def test_hole_between_whole_degrees_is_an_atom_of_its_own() -> None:
    """Between 140 F and 141 F lies 140.5 F; below and above the marks lie values that a person would write."""
    marks = [quantity(text, "temperature") for text in ("105 F", "140 F", "141 F")]
    atoms = cut(_term("operating temperature"), marks, [Rules()], "inch-pound")
    assert isinstance(atoms[0].value, NotGiven)
    assert [atom.text for atom in atoms[1:]] == ["100 F", "105 F", "120 F", "140 F", "140.5 F", "141 F", "150 F"]


def test_what_no_schedule_can_state_has_no_atom() -> None:
    """Nothing is thinner than none, and between four and five fasteners there is none."""
    thickness = cut(_term("thickness"), [Quantity(0.0, "length", "in"), quantity("1 in", "length")], [Rules()], "")
    assert [atom.text for atom in thickness[1:]] == ["0 in", "1/2 in", "1 in", "1-1/2 in"]
    assert [atom.text for atom in cut(_term("fasteners"), [1.0, 4.0, 5.0], [Rules()], "")[1:]] == [
        *("0", "1", "2", "4", "5", "6")
    ]


def test_sizes_are_a_list() -> None:
    """Every nominal size is an atom, so that there is nothing between two neighbours."""
    texts = [atom.text for atom in cut(_term("pipe size"), (), [Rules()], "inch-pound")]
    assert texts[texts.index("1-1/4 in") :][:3] == ["1-1/4 in", "1-1/2 in", "2 in"]


@given(st.floats(-500, 500), st.floats(0.001, 100))
def test_numbers_between_lie_between(low: float, width: float) -> None:
    """Numbers that stand for a stretch lie within it, shorter ones first."""
    found = list(numbers_between(low, low + width, signed=True))
    assert found
    assert all(low < number < low + width for number in found)


@given(st.integers(-5, 50), st.integers(1, 9))
def test_whole_numbers_between_are_whole_and_never_negative(low: int, width: int) -> None:
    """A whole number of 0 or more is found between two others if and only if there is one."""
    found = list(whole_numbers_between(float(low), float(low + width)))
    assert bool(found) is any(number >= 0 for number in range(low + 1, low + width))
    assert all(low < number < low + width and number == int(number) >= 0 for number in found)
