"""The engineering rulesets know no unit: each example in the other system of units has the same verdicts and values."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from speccheck.judge import judge_lines
from speccheck.judge.completing import complete, needs_of
from speccheck.judge.examples import example_line
from speccheck.judge.operations import Rules
from speccheck.judge.outcomes import Outcomes
from speccheck.judge.vectorized import columns_of, judge_columns
from speccheck.language.core import Ruleset
from speccheck.language.core.walking import conditions_of
from speccheck.language.vocabulary.terms import Term
from speccheck.language.vocabulary.values import read_value
from speccheck.quantities import Quantity
from speccheck.schedule.lines import Datum, Line
from tests.rulesets.leaving_out import rules

ENGINEERING = (
    "condensation",
    "condensation-hours",
    "corrosion-under-insulation",
    "design-conductivity",
    "runs",
    "safety",
    "surroundings",
    "vapor-control/moisture-gain",
    "yearly-energy",
)
CLOSE = 1e-9


def in_the_other_units(line: Line, terms: dict[str, Term]) -> Line:
    """Return a line with each quantity written in the other usual unit of its term, and read anew from its words."""
    data: dict[str, Datum] = {}
    for name, datum in line.data.items():
        value = datum.value
        if isinstance(value, Quantity) and math.isfinite(value.value):
            term = terms[name]
            unit = term.inch_pound if value.unit == term.metric else term.metric
            words = f"{value.in_unit(unit):.15g} {unit}"
            read = read_value(words, term)
            assert isinstance(read, Quantity), words
            assert math.isclose(read.value, value.value, rel_tol=1e-12, abs_tol=1e-12), words
            data[name] = replace(datum, value=read, text=words)
        else:
            data[name] = datum
    return replace(line, data=data)


def computed_of(line: Line, ruleset: Ruleset) -> list[dict[str, float]]:
    """Return what is worked out of a line for each clause, by the computed term, in SI."""
    case = {name: datum.value for name, datum in line.data.items()}
    found = []
    for clause in ruleset.clauses:
        needs = needs_of(conditions_of(clause), ruleset)
        completed = complete(case, needs, Outcomes(Rules.of(ruleset))).case  # type: ignore[arg-type]
        values = {term.name: completed.get(term.name) for term in needs.computed}
        found.append({name: value.value for name, value in values.items() if isinstance(value, Quantity)})
    return found


@pytest.mark.parametrize("name", ENGINEERING)
def test_the_other_units_change_nothing(name: str) -> None:
    """Judge and columns agree on each line in both units, verdicts stay, and computed values within 1e-9."""
    ruleset = rules(name)
    lines = [example_line(example, ruleset.units) for clause in ruleset.clauses for example in clause.examples]
    others = [in_the_other_units(line, dict(ruleset.vocabulary.terms)) for line in lines]
    assert any(line.data != other.data for line, other in zip(lines, others, strict=True))
    first, second = (judge_lines(ruleset, each) for each in (lines, others))
    for line, row, other in zip(lines, first, second, strict=True):
        assert [cell.verdict for cell in row] == [cell.verdict for cell in other], line.name
    for each, judged in ((lines, first), (others, second)):
        columns = judge_columns(ruleset, columns_of(each, ruleset))
        told = [[columns.verdict(row, number) for number in range(len(ruleset.clauses))] for row in range(len(each))]
        assert told == [[cell.verdict for cell in row] for row in judged]
    for line, other in zip(lines, others, strict=True):
        for values, again in zip(computed_of(line, ruleset), computed_of(other, ruleset), strict=True):
            assert values.keys() == again.keys()
            for term, value in values.items():
                assert again[term] == pytest.approx(value, rel=CLOSE, abs=1e-12), (line.name, term)
