"""The thickness that pays is one that can be had: what the ruleset says is stocked, else what is common in its units.

Costs by hand are those of a 114.3 mm pipe at 82 °C in 22 °C with 10 W/(m²·K) at its surface (ISO 12241), 0.0375 W/(m·K)
and the prices of the line, over 15 years.
"""

from __future__ import annotations

from math import log, pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from speccheck.judge import Verdict
from speccheck.language import parse_ruleset
from speccheck.language.core import Ruleset
from speccheck.physics.thickness import STOCKED_MILLIMETRES, STOCKED_THICKNESSES
from speccheck.schedule.lines import Line
from speccheck.schedule.words import line_in_words
from tests.judge.columns.agreement import by_columns, by_judge

RUN = (
    "component pipe, pipe outside diameter 114.3 mm, insulation mineral wool, operating temperature 82 C, "
    "ambient temperature 22 C, conductivity 0.0375 W/(m.K), surface coefficient method fixed coefficient, "
    "fixed surface coefficient 10 W/(m2.K), jacket emittance 0.9, run length 100 m, operating hours 5000 h, "
    "energy efficiency 80 %, jacket price per square metre 30, economic life 15"
)


def rules(units: str, said: str, clauses: str) -> Ruleset:
    """Return a ruleset in some units that says what is stocked, or nothing."""
    head = f'ruleset "What pays"\n  speaks mechanical insulation\n  units {units}\n'
    loaded = parse_ruleset(head + (f"  stocked thickness is one of {said}\n" if said else "") + clauses)
    assert loaded.ruleset is not None, loaded.diagnostics
    assert not loaded.diagnostics
    return loaded.ruleset


def line(ruleset: Ruleset, more: str) -> Line:
    """Return the run with what more is stated."""
    stated, diagnostics = line_in_words(f"{RUN}, {more}", ruleset.vocabulary, "metric")
    assert not diagnostics
    return stated


def verdicts(ruleset: Ruleset, one: Line) -> list[Verdict]:
    """Return the verdict of each clause, on which judge and columns agree."""
    judged = by_judge(ruleset, [one])
    assert judged == by_columns(ruleset, [one])
    return [verdict for verdict, _ in judged[0]]


@pytest.mark.parametrize(
    ("units", "said", "enough", "short"),
    [
        ("metric", "", "40 mm", "39.9 mm"),
        ("inch-pound", "", "38.1 mm", "38 mm"),
        ("metric", "45 mm, 35 mm", "45 mm", "40 mm"),
        ("inch-pound", "45 mm, 35 mm", "45 mm", "40 mm"),
    ],
)
def test_the_same_run_is_asked_for_what_can_be_had(units: str, said: str, enough: str, short: str) -> None:
    """By hand 40 mm cost 28,216 (30 mm 29,886, 50 mm 28,322), 1-1/2 in 28,363 (2 in 28,382), 45 mm 28,105."""
    ruleset = rules(units, said, 'clause 1 "Pays"\n  shall thickness be at least economic thickness\n')
    prices = "energy price 0.08, insulation price per cubic metre 4000"
    assert verdicts(ruleset, line(ruleset, f"{prices}, thickness {enough}")) == [Verdict.COMPLIES]
    assert verdicts(ruleset, line(ruleset, f"{prices}, thickness {short}")) == [Verdict.FAILS]


def cost(thickness: float, price: float, insulation: float) -> float:
    """Return the cost of a metre over the life, by hand."""
    outside = 0.1143 + 2 * thickness
    watts = 60 / (log(outside / 0.1143) / (2 * pi * 0.0375) + 1 / (10 * pi * outside))
    covered = insulation * pi / 4 * (outside**2 - 0.1143**2) + (30 * pi * outside if thickness else 0.0)
    return 15 * watts * 5 / 0.8 * price + covered


@settings(max_examples=25, deadline=None)
@given(
    st.sampled_from(["inch-pound", "metric"]),
    st.lists(st.integers(5, 200), max_size=6, unique=True),
    st.integers(2, 100),
    st.integers(5, 200),
)
def test_judge_and_columns_choose_as_a_plain_search(units: str, said: list[int], price: int, insulation: int) -> None:
    """Held against each stocked thickness, what pays is for both the cheapest of a plain loop over all, and none."""
    common = STOCKED_MILLIMETRES if units == "metric" else STOCKED_THICKNESSES
    stocked = sorted(each / 1000 for each in said) or list(common)
    clauses = "".join(
        f'clause {number} "At most"\n  shall economic thickness be at most {each * 1000:.6g} mm\n'
        for number, each in enumerate(stocked, start=1)
    )
    ruleset = rules(units, ", ".join(f"{each} mm" for each in said), clauses)
    stated = f"energy price {price / 100}, insulation price per cubic metre {insulation * 100}, thickness 25 mm"
    best = min((0.0, *stocked), key=lambda each: cost(each, price / 100, insulation * 100))
    expected = [Verdict.COMPLIES if best <= each else Verdict.FAILS for each in stocked]
    assert verdicts(ruleset, line(ruleset, stated)) == expected
