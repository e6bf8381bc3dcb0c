"""What lines cost a year, and what carbon that is: those that do not comply as proposed, bare, and with the thickness
that clauses require; and lines as they would be corrected.

Nothing is said of cost where neither the schedule nor the ruleset states a price of energy, and nothing of carbon
without a carbon factor.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from speccheck.english import count
from speccheck.judge.completing import complete_all, needs_of
from speccheck.judge.evaluation import ConditionOutcome
from speccheck.judge.judgement import Judgement, Verdict
from speccheck.judge.judging import Judge
from speccheck.judge.operations import Rules
from speccheck.judge.outcomes import Outcomes
from speccheck.language.core import Clause, Comparison, Every, NamedCondition, Ruleset, TermValue
from speccheck.language.core.conditions import Given
from speccheck.language.core.walking import conditions_of, terms_of
from speccheck.language.diagnostics import Place
from speccheck.quantities import Quantity
from speccheck.review.matrix import Matrix
from speccheck.review.messages.registers import COMES_TO_IN_A_YEAR
from speccheck.review.observations import Observation, observed
from speccheck.schedule.lines import Datum, Line

THICKNESS, OUTSIDE = "thickness", "insulation outside diameter"


@dataclass(frozen=True, slots=True)
class YearlyMeasure:
    """What is summed up: a computed value, that of the bare line, the input that asks for both, and the words."""

    value: str
    bare: str
    asked_by: str
    costs: tuple[str, str]
    would: str
    unit: str
    whence: str


COST = YearlyMeasure(
    "yearly cost",
    "bare yearly cost",
    "energy price",
    ("costs", "cost"),
    "cost",
    "",
    "in the currency of the energy price, by energy price, operating hours and energy efficiency as stated",
)
CARBON = YearlyMeasure(
    "yearly carbon",
    "bare yearly carbon",
    "carbon factor",
    ("emits", "emit"),
    "emit",
    " kg of carbon",
    "by carbon factor, operating hours and energy efficiency as stated",
)
MEASURES = (COST, CARBON)


@dataclass(frozen=True, slots=True)
class YearlySum:
    """What lines come to in a year, proposed and otherwise, and of how many that is not known."""

    lines: int
    proposed: float
    otherwise: float
    unknown: int


def is_asked(measure: YearlyMeasure, lines: Sequence[Line], ruleset: Ruleset) -> bool:
    """Return whether anybody states what energy costs, or what carbon it stands for."""
    name = measure.asked_by
    return any(one.term.name == name for one in ruleset.assumptions) or any(name in line.data for line in lines)


def yearly_sum(
    before: Sequence[Line], after: Sequence[Line | None], ruleset: Ruleset, value: str, otherwise: str = ""
) -> YearlySum:
    """Return what lines come to in a year and what otherwise: other lines, or another computed value.

    Lines without another one are left out of the sum, and not counted.
    """
    chosen = [(line, other) for line, other in zip(before, after, strict=True) if other is not None]
    found = _values([line for line, _ in chosen], ruleset, value)
    others = _values([other for _, other in chosen], ruleset, otherwise or value)
    pairs = list(zip(found, others, strict=True))
    known = [(first, second) for first, second in pairs if first is not None and second is not None]
    return YearlySum(
        len(known), sum(first for first, _ in known), sum(second for _, second in known), len(pairs) - len(known)
    )


def _values(lines: Iterable[Line], ruleset: Ruleset, name: str) -> list[float | None]:
    """Return a yearly value of each line, None where it cannot be determined or the line covers a range."""
    term = ruleset.vocabulary.terms.get(name)
    if term is None:
        return [None for _ in lines]
    needs, conditions = needs_of([Given(term)], ruleset), Outcomes(Rules.of(ruleset))
    cases = [{key: datum.value for key, datum in line.data.items()} for line in lines]
    completed = complete_all(cases, needs, conditions)  # type: ignore[arg-type]
    values = [whole.case.get(name) for whole in completed]
    return [value if isinstance(value, float) else None for value in values]


def required_lines(lines: Sequence[Line], ruleset: Ruleset) -> list[Line | None]:
    """Return the lines with the least thickness that all clauses require of them, None where none is known."""
    judge = Judge(ruleset)
    asking = (clause for clause in ruleset.clauses if clause.shall)
    clauses = [each for each in asking if any(term.name == THICKNESS for term in terms_of(conditions_of(each)))]
    return [_required(line, clauses, judge) for line in lines]


def _required(line: Line, clauses: Sequence[Clause], judge: Judge) -> Line | None:
    """Return a line with the greatest of the thicknesses that clauses which apply to it ask at least."""
    asked: list[Quantity] = []
    for clause in clauses:
        judgements = judge.judgements(clause, line)
        if len(judgements) != 1:
            return None
        asked += _least_thicknesses(judgements[0])
    if not asked:
        return None
    most = max(asked, key=lambda one: one.value)
    datum = line.data.get(THICKNESS, Datum(most, str(most)))
    data = {name: each for name, each in line.data.items() if name != OUTSIDE}
    return replace(line, data={**data, THICKNESS: replace(datum, value=most, text=str(most))})


def _least_thicknesses(judgement: Judgement) -> Iterator[Quantity]:
    """Yield the least thicknesses that a clause asks for, those of alternatives left out."""
    if judgement.verdict in (Verdict.NOT_APPLICABLE, Verdict.NOT_CHECKED):
        return
    open_yet: list[ConditionOutcome] = list(judgement.shall)
    while open_yet:
        outcome = open_yet.pop()
        match outcome.node:
            case Comparison(TermValue(term), relation, _) if term.name == THICKNESS and relation.is_minimum:
                value = outcome.amounts[1].value
                if isinstance(value, Quantity):
                    yield value
            case Every() | NamedCondition():
                open_yet += outcome.parts


def yearly_observations(matrix: Matrix) -> tuple[Observation, ...]:
    """Return what the lines that do not comply come to in a year, a sentence each for cost and carbon if asked for."""
    lines = matrix.schedule.lines
    failing = [
        line
        for line, row in zip(lines, matrix.cells, strict=True)
        if any(cell.verdict is Verdict.FAILS for cell in row)
    ]
    asked = [measure for measure in MEASURES if failing and is_asked(measure, lines, matrix.ruleset)]
    required = required_lines(failing, matrix.ruleset) if asked else []
    names, place = tuple(line.name for line in failing), Place(matrix.schedule.name)
    return tuple(
        observed(
            COMES_TO_IN_A_YEAR.at(place, sums=_told(measure, failing, required, matrix.ruleset), whence=measure.whence),
            names,
        )
        for measure in asked
    )


def _told(measure: YearlyMeasure, failing: Sequence[Line], required: Sequence[Line | None], ruleset: Ruleset) -> str:
    """Return in words what failing lines come to in a year: as proposed, bare, and with the thickness required."""
    found = yearly_sum(failing, failing, ruleset, measure.value, measure.bare)
    one, more = measure.costs
    who = count(found.lines, f"line that does not comply {one}", f"lines that do not comply {more}")
    if not found.lines:
        return f"what the lines that do not comply {more} a year cannot be determined"
    would, unit = measure.would, measure.unit
    told = f"{who} {found.proposed:,.0f}{unit} a year as proposed, and would {would} {found.otherwise:,.0f}{unit} bare"
    with_required = yearly_sum(failing, required, ruleset, measure.value)
    if with_required.lines:
        which = "they" if with_required.lines == found.lines else f"{with_required.lines} of them"
        told += f"; with the thickness that clauses require {which} would {would} {with_required.otherwise:,.0f}{unit}"
        told += "" if which == "they" else f" instead of {with_required.proposed:,.0f}{unit}"
    if found.unknown:
        told += f"; of {count(found.unknown, 'more line', 'more lines')} it cannot be determined"
    return told
