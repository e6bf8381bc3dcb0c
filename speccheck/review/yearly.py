"""What lines cost a year: those that do not comply as proposed and bare, and as they would be corrected.

Nothing is said where neither the schedule nor the ruleset states a price of energy.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from speccheck.english import count
from speccheck.judge.completing import complete, needs_of
from speccheck.judge.judgement import Verdict
from speccheck.judge.operations import Rules
from speccheck.judge.outcomes import Outcomes
from speccheck.language.core import Ruleset
from speccheck.language.core.conditions import Given
from speccheck.language.diagnostics import Place
from speccheck.review import codes
from speccheck.review.matrix import Matrix
from speccheck.review.observations import Observation, note
from speccheck.schedule.lines import Line

PRICE, COST, BARE = "energy price", "yearly cost", "bare yearly cost"


@dataclass(frozen=True, slots=True)
class YearlySum:
    """What lines cost a year, proposed and otherwise, in the currency of the project, and how many are not known."""

    lines: int
    proposed: float
    otherwise: float
    unknown: int


def states_a_price(lines: Sequence[Line], ruleset: Ruleset) -> bool:
    """Return whether anybody states what energy costs."""
    return any(one.term.name == PRICE for one in ruleset.assumptions) or any(PRICE in line.data for line in lines)


def yearly_sum(before: Sequence[Line], after: Sequence[Line], ruleset: Ruleset, name: str = COST) -> YearlySum:
    """Return what lines cost a year and what they cost otherwise: other lines, or by another computed value."""
    pairs = list(zip(_costs(before, ruleset, COST), _costs(after, ruleset, name), strict=True))
    known = [(cost, other) for cost, other in pairs if cost is not None and other is not None]
    return YearlySum(
        len(known), sum(cost for cost, _ in known), sum(other for _, other in known), len(pairs) - len(known)
    )


def _costs(lines: Sequence[Line], ruleset: Ruleset, name: str) -> list[float | None]:
    """Return a yearly cost of each line, None where it cannot be determined or the line covers a range."""
    term = ruleset.vocabulary.terms.get(name)
    if term is None:
        return [None] * len(lines)
    needs, conditions = needs_of([Given(term)], ruleset), Outcomes(Rules(system=ruleset.units))
    cases = [{key: datum.value for key, datum in line.data.items()} for line in lines]
    values = [complete(case, needs, conditions).case.get(name) for case in cases]  # type: ignore[arg-type]
    return [value if isinstance(value, float) else None for value in values]


def yearly_observations(matrix: Matrix) -> tuple[Observation, ...]:
    """Return what the lines that do not comply cost a year, in one sentence; nothing where no price is stated."""
    lines = matrix.schedule.lines
    failing = [
        line
        for line, row in zip(lines, matrix.cells, strict=True)
        if any(cell.verdict is Verdict.FAILS for cell in row)
    ]
    if not failing or not states_a_price(lines, matrix.ruleset):
        return ()
    found = yearly_sum(failing, failing, matrix.ruleset, BARE)
    who = count(found.lines, "line that does not comply costs", "lines that do not comply cost")
    message = f"{who} {found.proposed:,.0f} a year as proposed, and would cost {found.otherwise:,.0f} bare"
    if not found.lines:
        message = "what the lines that do not comply cost a year cannot be determined"
    elif found.unknown:
        message += f"; of {count(found.unknown, 'more line', 'more lines')} it cannot be determined"
    help = "in the currency of the energy price, by energy price, operating hours and energy efficiency as stated"
    names = tuple(line.name for line in failing)
    return (note(codes.YEARLY_SUM, message, Place(matrix.schedule.name), help, names),)
