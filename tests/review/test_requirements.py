"""Requirements of a line: what applies, what may, what is asked with its number, checked by the printed documents."""

from __future__ import annotations

import re

import pytest

from speccheck.language import load_ruleset, parse_ruleset
from speccheck.language.core import Ruleset
from speccheck.review.requirements import PublishedRequirement, RulesetRequirements, requirements_of, shipped_rulesets
from speccheck.schedule.words import line_in_words
from tests.some import some


def shipped(name: str) -> Ruleset:
    """Return a shipped ruleset."""
    ruleset = load_ruleset(name).ruleset
    assert ruleset is not None
    return ruleset


def asked_by(ruleset: Ruleset, line: str, *, inherited: bool = False) -> RulesetRequirements:
    """Return what a ruleset asks of a line in words."""
    stated, diagnostics = line_in_words(line, ruleset.vocabulary)
    assert diagnostics == ()
    (found,) = requirements_of(stated, [ruleset], inherited=inherited)
    return found


def names(requirements: tuple[PublishedRequirement, ...]) -> list[str]:
    """Return the numbers of the clauses."""
    return [one.clause.name for one in requirements]


def named(found: RulesetRequirements, name: str) -> PublishedRequirement:
    """Return the requirement of a clause."""
    (one,) = (one for one in (*found.applying, *found.perhaps) if one.clause.name == name)
    return one


def dew_point_in(requirement: PublishedRequirement) -> float:
    """Return the dew point (F) that a surface has to keep to; psychrolib 2.5 and CoolProp 8 agree on it to 0.01 F."""
    found = re.fullmatch(r"surface temperature be at least ([\d.]+) F \(dew point\)", requirement.asked[0].text)
    assert found is not None, requirement.asked
    return float(found[1])


HEATING = "service heating hot water, operating temperature 180 F, conductivity 0.27 Btu.in/(h.ft2.F)"


def test_number_of_the_table_is_told_with_its_row_column_and_source() -> None:
    """2 in pipe at 180 F needs 2 in by ASHRAE 90.1-2010, Table 6.8.3A (second hand)."""
    found = named(asked_by(shipped("energy/ashrae-90.1"), f"{HEATING}, pipe size 2 in"), "90.1-1.2")
    assert [(one.part, one.text, one.at) for one in found.asked] == [
        (
            "shall",
            "thickness be at least 2 in (ASHRAE 90.1-2010, Table 6.8.3A, row over 140 F to 200 F, "
            "column 1-1/2 in to under 4 in)",
            (),
        )
    ]
    assert "ASHRAE 90.1-2010, Table 6.8.3A; 6.8.3-1 from 2013 on (second hand)" in [str(one) for one in found.sources]
    assert found.depends_on == ()


def test_range_of_sizes_is_told_with_each_number_at_its_sizes() -> None:
    """Sizes from 1 in to 2 in at 180 F need 1-1/2 in up to 1-1/4 in and 2 in from 1-1/2 in up, as the table has it."""
    found = named(asked_by(shipped("energy/ashrae-90.1"), f"{HEATING}, pipe size 1 in to 2 in"), "90.1-1.2")
    assert [(one.text.split(" (")[0], one.at) for one in found.asked] == [
        ("thickness be at least 1-1/2 in", ("1 in", "1-1/4 in")),
        ("thickness be at least 2 in", ("1-1/2 in", "2 in")),
    ]


@pytest.mark.parametrize(
    ("conductivity", "number"),
    [("0.20", "1.159"), ("0.40", "3.448")],
)
def test_adjusted_number_is_that_of_the_published_equation(conductivity: str, number: str) -> None:
    """T = r ((1 + t/r)^(K/k) - 1) with r 1.1875 in, t 2 in, k 0.29: ASHRAE Handbook 2021, ch. 23, Table 2, note a."""
    line = (
        "service heating hot water, operating temperature 180 F, pipe size 2 in, pipe outside diameter 2.375 in, "
        f"conductivity {conductivity} Btu.in/(h.ft2.F)"
    )
    found = named(asked_by(shipped("energy/ashrae-90.1"), line), "90.1-1.3")
    assert found.asked[0].text.startswith(f"thickness be at least {number} in (")


def test_number_that_needs_more_data_is_told_as_far_as_it_is_known() -> None:
    """Without a conductivity the table's 2 in and the end of its range are told, and what is still to be put in."""
    line = "service heating hot water, operating temperature 180 F, pipe size 2 in, pipe material steel"
    found = named(asked_by(shipped("energy/ashrae-90.1"), line), "90.1-1.3")
    assert found.depends_on == ("conductivity",)
    assert found.asked[0].text.startswith(
        "thickness be at least energy heating thickness 2 in adjusted from energy highest heating conductivity 0.29 "
        "Btu.in/(h.ft2.F) to conductivity around pipe outside diameter 2.37"
    )


def test_clause_of_unknown_scope_names_what_would_tell() -> None:
    """Whether a line must not sweat hangs on the room; the dew point that it would be held to is told already."""
    condensation = shipped("condensation")
    line = "component pipe, operating temperature 44 F, insulation fiberglass, thickness 1 in"
    assert named(asked_by(condensation, line), "1.1").depends_on == ("ambient temperature",)
    known = named(asked_by(condensation, f"{line}, ambient temperature 80 F, relative humidity 80 %"), "1.1")
    assert known.depends_on == ()
    assert dew_point_in(known) == pytest.approx(73.27, abs=0.05)


def test_assumption_is_told() -> None:
    """Outdoors the handbook's 90 % is assumed where no humidity is stated, and said to be."""
    line = "component pipe, operating temperature 44 F, ambient temperature 80 F, location outdoor, thickness 1 in"
    found = named(asked_by(shipped("condensation"), line), "1.1")
    assert any("relative humidity 90 % is assumed" in note for note in found.notes)
    assert dew_point_in(found) == pytest.approx(76.80, abs=0.01)


def test_clause_out_of_scope_and_excepted_clause_are_left_out() -> None:
    """Steam has nothing of the cooling clauses; a 1 in run-out close to its coil is excepted from insulation."""
    energy = shipped("energy/ashrae-90.1")
    steam = asked_by(energy, "service steam, operating temperature 300 F, pipe size 2 in, location mechanical room")
    assert not [name for name in names((*steam.applying, *steam.perhaps)) if name.startswith("90.1-2")]
    run_out = "run-out after control valve yes, valve-coil distance 4 ft, pipe size 1 in"
    assert "90.1-1.1" not in names(asked_by(energy, f"{HEATING}, {run_out}").applying)
    assert "90.1-1.1" in names(asked_by(energy, f"{HEATING}, pipe size 1 in").applying)


def test_part_of_a_range_at_which_a_clause_applies_is_named() -> None:
    """A line from 90 F to 120 F is a heating line from 105 F on, where the printed table begins."""
    line = "service domestic hot water recirculating, operating temperature 90 F to 120 F, insulation fiberglass"
    found = named(asked_by(shipped("energy/ashrae-90.1"), line), "90.1-1.1")
    assert found.at == ("operating temperature 105 F through 120 F",)
    assert found.depends_on == ()


def test_all_shipped_rulesets_are_asked_and_each_clause_stands_once() -> None:
    """Rulesets only, no vocabulary, and what one builds on is told with the ruleset that it comes from."""
    rulesets = shipped_rulesets()
    assert {"Condensation on cold insulation", "ASHRAE 90.1, pipe insulation"} <= {one.name for one in rulesets}
    stated, _ = line_in_words(f"{HEATING}, pipe size 2 in", rulesets[0].vocabulary)
    found = requirements_of(stated, rulesets, inherited=False)
    assert [one.ruleset for one in found] == list(rulesets)
    told = [(each.clause.ruleset, each.clause.name) for one in found for each in (*one.applying, *one.perhaps)]
    assert len(told) == len(set(told))
    assert all(each.sources for one in some(found) for each in (*one.applying, *one.perhaps))


def test_inherited_clauses_are_told_where_a_project_is_asked() -> None:
    """A project that builds on the ruleset on fire has its clauses too."""
    project = parse_ruleset(
        'ruleset "Project"\n  builds on "fire"\nclause 9 "Own"\n  shall thickness be at least 1 in\n'
        '  example "enough" complies\n  thickness 1 in\n'
    ).ruleset
    assert project is not None
    line = "service chilled water, location plenum, insulation fiberglass"
    assert names(asked_by(project, line, inherited=True).applying) == ["1.1", "3.1", "9"]
    assert names(asked_by(project, line).applying) == ["9"]


def test_conditions_of_every_form_are_worded() -> None:
    """Lists, sets, answers, alternatives, negations and names are asked for in the words of the clause."""
    ruleset = parse_ruleset(
        """ruleset "Forms"
  speaks mechanical insulation
define fast
  as jacket is aluminum or concealed
define twice
  equal to thickness times 2
clause 1 "Forms"
  shall jacket be one of aluminum, PVC
  shall vapor stop locations include valves
  shall concealed
  shall not (concealed and fast)
  shall (thickness be at least 1 in or concealed) and jacket be given
  shall fast
  shall section length be at least larger of twice and 3 in
  should layers be at least 2
"""
    ).ruleset
    assert ruleset is not None
    found = named(asked_by(ruleset, "thickness 1 in"), "1")
    assert [(one.part, one.text) for one in found.asked] == [
        ("shall", "jacket be one of aluminum, PVC"),
        ("shall", "vapor stop locations include valves"),
        ("shall", "concealed"),
        ("shall", "not (concealed and fast (jacket be aluminum or concealed))"),
        ("shall", "(thickness be at least 1 in or concealed) and jacket be given"),
        ("shall", "fast (jacket be aluminum or concealed)"),
        ("shall", "section length be at least 3 in (larger of twice 2 in and 3 in)"),
        ("should", "layers be at least 2"),
    ]
