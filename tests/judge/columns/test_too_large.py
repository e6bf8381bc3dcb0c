"""Results too large to be worked with: where they begin is one rule, the judge's and the columns' alike."""

from __future__ import annotations

import math

import pytest

from speccheck.judge import Verdict
from speccheck.judge.operations import TOO_LARGE
from speccheck.language.core import Ruleset
from speccheck.quantities import Quantity
from speccheck.schedule.lines import Datum, Line
from tests.conformance.cases import load
from tests.judge.columns.agreement import by_columns, by_judge

BELOW = math.nextafter(TOO_LARGE, 0)
WORKED, NOT_WORKED = Verdict.COMPLIES, Verdict.CANNOT_TELL


def rules(asked: str) -> Ruleset:
    """Return a ruleset of one clause."""
    loaded = load(f'ruleset "case"\nspeaks "vocabulary"\nclause 1 "Large"\nshall {asked}\n')
    assert loaded.ruleset is not None, loaded.diagnostics
    return loaded.ruleset


def verdict_of(asked: str, line: Line) -> Verdict:
    """Return the verdict that judge and columns agree on."""
    ruleset = rules(asked)
    judged = by_judge(ruleset, [line])
    assert judged == by_columns(ruleset, [line])
    return judged[0][0][0]


@pytest.mark.parametrize(
    ("result", "left", "right", "verdict"),
    [
        ("plus", BELOW, 0.0, WORKED),
        ("plus", TOO_LARGE / 2, TOO_LARGE / 2, NOT_WORKED),
        ("plus", TOO_LARGE, 0.0, NOT_WORKED),
        ("minus", TOO_LARGE, 0.0, NOT_WORKED),
        ("minus", TOO_LARGE, TOO_LARGE, WORKED),
        ("times", BELOW, 1.0, WORKED),
        ("times", 1e125, 1e125, NOT_WORKED),
        ("times", 1e200, 1e200, NOT_WORKED),
        ("divided by", BELOW, 1.0, WORKED),
        ("divided by", 1e200, 1e-50, NOT_WORKED),
        ("divided by", 1.0, 0.0, NOT_WORKED),
    ],
)
def test_a_result_of_1e250_is_not_worked_with(result: str, left: float, right: float, verdict: Verdict) -> None:
    """Below it the calculation has a result, and from it on the verdict cannot be determined, whoever judges.

    Once the columns worked on to the end of the machine's numbers, 1.8e308, and said that such a line complied.
    """
    line = Line("1", {"flame spread": Datum(left), "smoke developed": Datum(right)})
    assert verdict_of(f"flame spread {result} smoke developed be at least 0", line) is verdict


@pytest.mark.parametrize(("ratio", "verdict"), [(500.0, Verdict.FAILS), (900.0, NOT_WORKED), (1e6, NOT_WORKED)])
def test_a_thickness_adjusted_to_1e250_is_not_worked_with(ratio: float, verdict: Verdict) -> None:
    """A layer as thick as the radius, 2^(K/k) radii when adjusted: 2^500 is 3e150, 2^900 is 8e270, 2^1e6 no number."""
    line = Line(
        "1",
        {
            "thickness": Datum(Quantity(0.0254, "length", "in")),
            "jacket thickness": Datum(Quantity(0.0508, "length", "in")),
            "conductivity": Datum(Quantity(0.25 * 0.1442279 * ratio, "conductivity", "Btu.in/(h.ft2.F)")),
        },
    )
    asked = "thickness be at least 1 in adjusted from 0.25 Btu.in/(h.ft2.F) to conductivity around jacket thickness"
    assert verdict_of(asked, line) is verdict
