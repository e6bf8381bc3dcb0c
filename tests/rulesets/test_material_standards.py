"""Limits of the ASTM material standards, checked against the handbook's table cell by cell.

Source: ASHRAE Handbook - Fundamentals 2021 (SI), chapter 23, Table 8 (seen); the inch-pound rows are converted from it.
"""

from __future__ import annotations

import math

import pytest

from speccheck.judge import Verdict
from tests.rulesets.proposing import published, verdict

RULESET = "material-standards"
CLAIMS = {
    "C533": ("C533", "type I", ""),
    "C534": ("C534", "type I", "grade 1"),
    "C612": ("C612", "type IVB", "category 1"),
    "C552": ("C552", "type I", "grade 1"),
    "C578": ("C578", "type XIII", ""),
    "C591": ("C591", "type IV", "grade 2"),
    "C1126": ("C1126", "type III", ""),
    "C1427": ("C1427", "type I", "grade 1"),
}
MATERIALS = {
    "C533": "calcium silicate",
    "C534": "elastomeric foam",
    "C612": "mineral wool",
    "C552": "cellular glass",
    "C578": "extruded polystyrene",
    "C591": "polyisocyanurate",
    "C1126": "phenolic foam",
    "C1427": "polyolefin foam",
}
CLAUSE_OF = {
    "conductivity": "2.1",
    "permeability": "3.1",
    "water absorption": "3.2",
    "flame spread": "4.1",
    "smoke developed": "4.1",
    "compressive strength": "5.1",
    "hottest service": "6.1",
    "coldest service": "6.2",
}
# A value right past the limit: by a step that is wider than what rounding parts the two editions by.
STEP = {"W/(m.K)": 0.001, "Btu.in/(h.ft2.F)": 0.01, "C": 1.2, "F": 2.1, "kPa": 2, "psi": 1, "%": 0.01, "": 1}
# The clause on surface burning asks for both indices; the other one stays within any limit.
OTHER_INDEX = {"flame spread": {"smoke developed": "0"}, "smoke developed": {"flame spread": "0"}}
LEAST = ("compressive strength", "coldest service")
TERM_OF = {"hottest service": "operating temperature", "coldest service": "operating temperature"}

ROWS = published("material_standards")
FILLED = [(row, standard) for row in ROWS for standard in CLAIMS if row[standard]]
# The rows of quantities stand in pairs, metric and inch-pound.
PAIRED = [row for row in ROWS if row["unit"] not in ("", "%")]
BY_PAIRS = list(zip(PAIRED[::2], PAIRED[1::2], strict=True))


def words(part: dict[str, str] | str) -> str:
    """Return a row or a standard in words, to name a case."""
    return part if isinstance(part, str) else " ".join(filter(None, (part["property"], part["mean"], part["unit"])))


def claim(standard: str) -> dict[str, str]:
    """Return what a schedule states that claims the type and grade of the table."""
    named, standard_type, grade = CLAIMS[standard]
    stated = {"insulation standard": named, "standard type": standard_type}
    return {**stated, "standard grade": grade} if grade else stated


def past(row: dict[str, str], standard: str) -> str:
    """Return a value right past the limit of a cell."""
    limit = float(row[standard])
    step = limit * 0.05 if row["property"] == "permeability" else STEP[row["unit"]]
    value = limit - step if row["property"] in LEAST else limit + step
    return f"{value:.6g} {row['unit']}".strip()


@pytest.mark.parametrize(("row", "standard"), FILLED, ids=words)
def test_each_cell_of_the_table_of_material_standards(row: dict[str, str], standard: str) -> None:
    """The limit complies, in the unit of its edition and at both ends of its mean temperature; right past it fails."""
    term = TERM_OF.get(row["property"], row["property"])
    for mean in means(row["mean"]):
        line = {**claim(standard), **mean, **OTHER_INDEX.get(term, {})}
        exactly = {**line, term: f"{row[standard]} {row['unit']}".strip()}
        assert verdict(RULESET, CLAUSE_OF[row["property"]], exactly) is Verdict.COMPLIES
        beyond = {**line, term: past(row, standard)}
        assert verdict(RULESET, CLAUSE_OF[row["property"]], beyond) is Verdict.FAILS, beyond


def means(printed: str) -> list[dict[str, str]]:
    """Return the ends of what counts as a printed mean temperature: itself, and 1 C to either side where it is in C."""
    if not printed:
        return [{}]
    tried = [printed]
    if printed.endswith("C"):
        degrees = int(printed.split()[0])
        tried += [f"{degrees - 1} C", f"{degrees + 1} C"]
    return [{"conductivity mean temperature": one} for one in tried]


@pytest.mark.parametrize(
    ("row", "standard"), [one for one in FILLED if one[0]["property"] == "conductivity"], ids=words
)
def test_no_conductivity_is_judged_between_two_mean_temperatures(row: dict[str, str], standard: str) -> None:
    """2 C past a printed mean temperature the clause cannot tell: nothing is interpolated."""
    number, unit = row["mean"].split()
    past_it = f"{int(number) + (2 if unit == 'C' else 4)} {unit}"
    line = {
        **claim(standard),
        "conductivity mean temperature": past_it,
        "conductivity": f"{row[standard]} {row['unit']}",
    }
    assert verdict(RULESET, "2.1", line) is Verdict.CANNOT_TELL


@pytest.mark.parametrize("row", ROWS, ids=words)
def test_what_the_table_does_not_state_is_not_judged(row: dict[str, str]) -> None:
    """Where the table has no value the clause does not apply or cannot tell; it never passes or fails a product."""
    term = TERM_OF.get(row["property"], row["property"])
    mean = {"conductivity mean temperature": row["mean"]} if row["mean"] else {}
    for standard in (standard for standard in CLAIMS if not row[standard]):
        line = {**claim(standard), **mean, term: f"1 {row['unit']}".strip()}
        assert verdict(RULESET, CLAUSE_OF[row["property"]], line) in (Verdict.CANNOT_TELL, Verdict.NOT_APPLICABLE)


@pytest.mark.parametrize(("row", "standard"), [one for one in FILLED if "service" in one[0]["property"]], ids=words)
def test_the_service_limits_of_materials_are_those_of_their_standards(row: dict[str, str], standard: str) -> None:
    """The ruleset on safety has the same temperatures, material by material."""
    clause = {"hottest service": "3.1", "coldest service": "3.2"}[row["property"]]
    line = {"insulation": MATERIALS[standard]}
    at_limit = {**line, "operating temperature": f"{row[standard]} {row['unit']}"}
    assert verdict("safety", clause, at_limit) is Verdict.COMPLIES
    beyond = {**line, "operating temperature": past(row, standard)}
    assert verdict("safety", clause, beyond) is Verdict.FAILS


FACTORS = {"W/(m.K)": 0.144228, "ng/(s.m.Pa)": 1.45322, "kPa": 6.894757}


@pytest.mark.parametrize(("metric", "inch"), BY_PAIRS, ids=words)
def test_the_inch_pound_rows_are_the_metric_ones_converted(metric: dict[str, str], inch: dict[str, str]) -> None:
    """Each inch-pound figure is its metric one, but for rounding; factors from ASTM SI 10, temperatures within 2 F."""
    for standard in (standard for standard in CLAIMS if metric[standard]):
        printed, converted = float(metric[standard]), float(inch[standard])
        if metric["unit"] == "C":
            assert math.isclose(printed * 1.8 + 32, converted, abs_tol=2.0)
        else:
            assert math.isclose(printed / FACTORS[metric["unit"]], converted, rel_tol=0.04, abs_tol=0.005)
