"""What lines that do not comply cost a year: the sum in a review, and what corrections would save."""

from __future__ import annotations

from pathlib import Path

import pytest

from speccheck.language import parse_ruleset
from speccheck.language.core import Ruleset
from speccheck.physics.calculations.all import work_out
from speccheck.report.terminal.corrections import yearly_words
from speccheck.review import judge_schedule
from speccheck.review.corrections import mend_schedule
from speccheck.review.matrix import Matrix
from speccheck.review.reviewing import review_matrix
from speccheck.schedule.lines import Line, Schedule
from speccheck.schedule.words import line_in_words

RULES = """ruleset "Hot pipe and what it costs"
  speaks mechanical insulation

assume operating hours is 5000 h

assume energy efficiency is 80 %

clause 1 "Thickness"
  where operating temperature is at least 105 F
  shall thickness be at least 2 in
"""
PRICE = "\nassume energy price is 0.08\n"
PIPE = (
    "component pipe, pipe outside diameter 4.5 in, operating temperature 180 F, ambient temperature 70 F, "
    "insulation mineral wool, conductivity 0.26 Btu.in/(h.ft2.F), jacket emittance 0.9, thickness {}"
)
LINES = {
    "P-1": PIPE.format("1 in, run length 300 ft"),
    "P-2": PIPE.format("1/2 in, run length 100 ft"),
    "P-3": PIPE.format("1 in"),
    "P-4": PIPE.format("2 in, run length 100 ft"),
}
EXPECTED = (Path(__file__).parent / "V901-yearly.expected").read_text(encoding="utf-8").strip()


def reviewed(rules: str) -> Matrix:
    """Return the review of the lines."""
    ruleset = parse_ruleset(rules).ruleset
    assert ruleset is not None
    read = [Line(name, line_in_words(words, ruleset.vocabulary)[0].data) for name, words in LINES.items()]
    matrix = review_matrix(judge_schedule(Schedule("hot.csv", tuple(read)), ruleset))
    assert review_matrix(matrix).observations == matrix.observations
    return matrix


def yearly(thickness: float, metres: float, value: str) -> float:
    """Return a computed cost of the pipe, worked out apart from any review."""
    given = {
        "component": "pipe", "pipe outside diameter": 0.1143, "operating temperature": 355.3722,
        "ambient temperature": 294.2611, "insulation": "mineral wool", "conductivity": 0.26 * 0.1442279,
        "greatest jacket emittance": 0.9, "thickness": thickness * 0.0254, "run length": metres,
        "operating hours": 5000 * 3600.0, "energy efficiency": 0.8, "energy price": 0.08, "carbon factor": 0.2,
    }  # fmt: skip
    found = work_out(value, given).value
    assert found is not None
    return found


def test_lines_that_do_not_comply_are_summed_up() -> None:
    """Two of the three failing lines have a sum, the third lacks its length; the one that complies is left out."""
    (found,) = reviewed(RULES + PRICE).observations
    cost = yearly(1, 91.44, "yearly cost") + yearly(0.5, 30.48, "yearly cost")
    bare = yearly(1, 91.44, "bare yearly cost") + yearly(0.5, 30.48, "bare yearly cost")
    assert str(found.diagnostic) == EXPECTED
    assert f"cost {cost:,.0f} a year as proposed" in found.diagnostic.message
    assert f"would cost {bare:,.0f} bare" in found.diagnostic.message
    required = yearly(2, 121.92, "yearly cost")  # clause 1 asks 2 in of both
    assert f"with the thickness that clauses require they would cost {required:,.0f}" in found.diagnostic.message
    assert found.lines == ("P-1", "P-2", "P-3")
    assert not found.leaves_open


def test_carbon_is_summed_up_beside_the_cost() -> None:
    """Where a carbon factor is stated the same lines have a second sentence, and so have their corrections."""
    matrix = reviewed(RULES + PRICE + "\nassume carbon factor is 0.2\n")
    _, found = matrix.observations
    before = yearly(1, 91.44, "yearly carbon") + yearly(0.5, 30.48, "yearly carbon")
    bare = yearly(1, 91.44, "bare yearly carbon") + yearly(0.5, 30.48, "bare yearly carbon")
    required = yearly(2, 121.92, "yearly carbon")
    assert found.diagnostic.message == (
        f"2 lines that do not comply emit {before:,.0f} kg of carbon a year as proposed, and would emit "
        f"{bare:,.0f} kg of carbon bare; with the thickness that clauses require they would emit "
        f"{required:,.0f} kg of carbon; of 1 more line it cannot be determined"
    )
    _, words = yearly_words(matrix, list(mend_schedule(matrix)))
    assert words == (
        f"As proposed 2 lines emit {before:,.0f} kg of carbon a year, with the first changes {required:,.0f} kg of "
        "carbon. Of 1 more line it cannot be determined."
    )


def test_the_strictest_clause_decides_what_is_required() -> None:
    """Of two clauses that ask 2 in and 3 in the greater counts; one that does not apply and an alternative do not."""
    more = """
clause 2 "More"
  shall thickness be at least 3 in

clause 3 "Cold"
  where operating temperature is at most 60 F
  shall thickness be at least 5 in

clause 4 "Or else"
  shall thickness be at least 4 in or insulation be mineral wool
"""
    (found,) = reviewed(RULES + more + PRICE).observations
    required = yearly(3, 91.44 + 30.48 + 30.48, "yearly cost")
    assert f"with the thickness that clauses require they would cost {required:,.0f};" in found.diagnostic.message


def test_where_no_clause_asks_a_thickness_none_is_required() -> None:
    """Of lines that fail for another reason the sum says nothing of a required thickness."""
    rules = RULES.replace("thickness be at least 2 in", "insulation be fiberglass")
    (found,) = reviewed(rules + PRICE).observations
    assert "require" not in found.diagnostic.message


def test_without_a_price_nothing_is_said() -> None:
    """Where neither ruleset nor schedule states a price there is no sum, in the review and beside corrections."""
    matrix = reviewed(RULES)
    assert matrix.observations == ()
    assert yearly_words(matrix, list(mend_schedule(matrix))) == ()


def test_corrections_say_what_they_save() -> None:
    """As proposed and with the first changes: both lines with 2 in, each cost worked out apart from the review."""
    matrix = reviewed(RULES + PRICE)
    (words,) = yearly_words(matrix, list(mend_schedule(matrix)))
    before = yearly(1, 91.44, "yearly cost") + yearly(0.5, 30.48, "yearly cost")
    after = yearly(2, 121.92, "yearly cost")
    assert words == (
        f"As proposed 2 lines cost {before:,.0f} a year, with the first changes {after:,.0f}. "
        "Of 1 more line it cannot be determined."
    )


@pytest.mark.parametrize("rules", [RULES + PRICE])
def test_nothing_fails_nothing_is_summed(rules: str) -> None:
    """A schedule that complies has no such sum."""
    ruleset: Ruleset | None = parse_ruleset(rules.replace("at least 2 in", "at least 1/4 in")).ruleset
    assert ruleset is not None
    read = [Line(name, line_in_words(words, ruleset.vocabulary)[0].data) for name, words in LINES.items()]
    assert review_matrix(judge_schedule(Schedule("hot.csv", tuple(read)), ruleset)).observations == ()
