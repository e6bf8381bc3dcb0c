"""The shipped rulesets and the demo proofread: what is found is listed in `standing_findings.csv`, with the reason."""

from __future__ import annotations

import csv
from functools import cache
from pathlib import Path

import pytest

from speccheck.language import load_ruleset, parse_ruleset, shipped_ruleset_names
from speccheck.language.core import Ruleset
from speccheck.proofread.findings import Proofreading
from speccheck.proofread.proofreading import proofread
from speccheck.proofread.stringency import Stringency, compare_stringency
from tests.proofread.showing import looser_shown, shown

FOLDER = Path(__file__).parent
EXAMPLES = FOLDER.parents[1] / "examples"
DEMO = str(EXAMPLES / "dairy" / "project.clauses")
with (FOLDER / "standing_findings.csv").open(encoding="utf-8", newline="") as opened:
    STANDING = list(csv.DictReader(opened))
RULESETS = (*shipped_ruleset_names(), DEMO)


@cache
def _proofread(name: str) -> tuple[Ruleset, Proofreading]:
    ruleset = load_ruleset(name).ruleset
    assert ruleset is not None
    return ruleset, proofread(ruleset)


@pytest.mark.parametrize("name", RULESETS, ids=lambda name: Path(name).stem)
def test_what_is_found_is_listed_with_a_reason(name: str) -> None:
    """Every finding of a shipped ruleset stands in the list, every row of the list is found, and all is decided."""
    _, found = _proofread(name)
    rows = [row for row in STANDING if row["ruleset"] == name]
    unlisted = [
        one.message
        for one in found.findings
        if not any(row["code"] == one.code and row["about"] in one.message for row in rows)
    ]
    idle = [
        row["about"]
        for row in rows
        if not any(row["code"] == one.code and row["about"] in one.message for one in found.findings)
    ]
    assert (unlisted, idle, [one.question for one in found.undecided]) == ([], [], [])
    assert "" not in [row["why"] for row in rows]


@pytest.mark.parametrize("name", RULESETS, ids=lambda name: Path(name).stem)
def test_each_example_shows_its_finding(name: str) -> None:
    """The example line of each finding, read as a schedule is and judged, shows what the finding says."""
    ruleset, found = _proofread(name)
    silent = [one.message for one in found.findings if one.example and not shown(one, ruleset)]
    assert silent == []


def test_hole_of_a_printed_table_is_found() -> None:
    """IRC 2024, Table N1103.5.2 prints 105 to 140 F and 141 to 200 F: 140.5 F falls between its bands.

    Above 212 F water for washing boils: the vocabulary says so, and nothing is asked of hotter water.
    """
    ruleset, found = _proofread(str(EXAMPLES / "proofreading" / "bands-as-printed.clauses"))
    assert [(one.code, one.message, one.example_text) for one in found.findings] == [
        (
            "P101",
            "`printed hot water thickness` has a hole between `105 F to 140 F` and `141 F to 200 F`: "
            "operating temperature over 140 F to under 141 F",
            "service domestic hot water, operating temperature 140.5 F, thickness 1 in",
        ),
        (
            "P101",
            "`printed hot water thickness` has no band for operating temperature over 200 F to 212 F",
            "service domestic hot water, operating temperature 212 F, thickness 1 in",
        ),
    ]
    assert [one for one in found.findings if not shown(one, ruleset)] == []


def test_demo_is_looser_than_the_energy_code_in_its_nominal_sizes() -> None:
    """By hand: the demo lets 38 mm, which is 1.496 in, stand for 1-1/2 in; the energy code that it builds on does not.

    Beside that the demo only adds to the code. Its other clauses compare temperatures with one another and work out
    surfaces, among which a line has to be found that all of them accept.
    """
    demo, code = (load_ruleset(name).ruleset for name in (DEMO, "energy/ashrae-90.1"))
    assert demo is not None
    assert code is not None
    found = [one for one in compare_stringency(demo, code) if one.looser]
    assert [one.label for one in found] == ["90.1-1.2", "90.1-1.4", "90.1-1.6", "90.1-2.2"]
    assert [one for one in found if not looser_shown(one, demo, code)] == []
    assert {stated.text for one in found for stated in one.looser if stated.term.name == "thickness"} == {
        *("38 mm", "25 mm")
    }


def test_the_same_table_under_two_names_is_the_same() -> None:
    """Two codes whose tables say the same carry a thickness over to another conductivity alike: neither is looser.

    The thickness is a power of ratios, T = r ((1 + t/r)^(K/k) - 1), which no solver is asked to work out.
    """
    text = """
table {name} thickness in inches
  by operating temperature
  up to 200 F | {first}
  over 200 F  | {second}

table {name} conductivity in Btu.in/(h.ft2.F)
  by operating temperature
  up to 200 F | 0.28
  over 200 F  | 0.30

clause 1 "Thickness"
  shall thickness be at least {name} thickness
        adjusted from {name} conductivity to conductivity around pipe outside diameter
"""
    head = 'ruleset "{name}"\n  speaks mechanical insulation\n'
    rulesets = [
        parse_ruleset((head + text).format(name=name, first=first, second=second)).ruleset
        for name, first, second in (("one", "1", "2"), ("other", "1", "2"), ("third", "1-1/2", "2"))
    ]
    one, other, third = (ruleset for ruleset in rulesets if ruleset is not None)
    standing = [compare_stringency(*pair)[0].stringency for pair in ((one, other), (third, one), (one, third))]
    assert standing == [Stringency.SAME, Stringency.STRICTER, Stringency.LOOSER]
