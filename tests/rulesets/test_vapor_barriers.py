"""Permeance of vapor barriers by temperature, checked against the printed table.

Source: Thermal Insulation Handbook, southern Africa, April 2001, 4.6.3 (seen), for air of +10 C. 1 g/(s.MN) is
1000 ng/(s.m2.Pa), and 1 perm is 57.2 ng/(s.m2.Pa).
"""

from __future__ import annotations

import pytest

from speccheck.judge import Verdict
from tests.rulesets.proposing import published, verdict

RULESET = "vapor-control/southern-african-handbook"
ROWS = published("southern_barriers")


def temperatures(row: dict[str, str]) -> list[str]:
    """Return temperatures that a row stands for: its printed ends, in C and F, and right below the next warmer row."""
    ends = {row["warmest"], row["coldest"]}
    words = [f"{end} C" for end in ends] + [f"{float(end) * 1.8 + 32:g} F" for end in ends]
    return words + ([f"{float(row['read_to']) - 0.1:g} C"] if row["read_to"] else [])


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['warmest']} to {row['coldest']} C")
def test_each_row_of_the_table_of_vapor_barriers(row: dict[str, str]) -> None:
    """The printed permeance complies all over its row, and right past it nothing does, in SI units and in perms."""
    limit = float(row["permeance"]) * 1000
    for temperature in temperatures(row):
        for words, expected in (
            (f"{row['permeance']} g/(s.MN)", Verdict.COMPLIES),
            (f"{limit:g} ng/(s.m2.Pa)", Verdict.COMPLIES),
            (f"{limit / 57.3:.6f} perm", Verdict.COMPLIES),
            (f"{limit * 1.01:g} ng/(s.m2.Pa)", Verdict.FAILS),
            (f"{limit * 1.01 / 57.2:.6f} perm", Verdict.FAILS),
        ):
            line = {"operating temperature": temperature, "ambient temperature": "10 C", "retarder permeance": words}
            assert verdict(RULESET, "1.1", line) is expected, line


@pytest.mark.parametrize(
    ("temperature", "expected"), [("0.1 C", "not applicable"), ("-40.1 C", "cannot be determined")]
)
def test_nothing_is_said_outside_the_table_of_vapor_barriers(temperature: str, expected: str) -> None:
    """Above 0 C the clause does not apply, below -40 C it cannot tell: the printed table ends there."""
    line = {
        "operating temperature": temperature,
        "ambient temperature": "10 C",
        "retarder permeance": "0.5 ng/(s.m2.Pa)",
    }
    assert verdict(RULESET, "1.1", line) == expected
