"""`speccheck rulesets`: what is shipped, from which document and edition, and what is not there."""

from __future__ import annotations

import pytest
from click.testing import CliRunner, Result

from speccheck.cli import speccheck
from speccheck.language import parse_ruleset, shipped_ruleset_names
from speccheck.review.catalogue import Wanted, absent, shipped


def run(*words: str) -> Result:
    """Run the command in this process."""
    return CliRunner().invoke(speccheck, ["rulesets", *words], standalone_mode=False)


def test_every_shipped_ruleset_names_its_document_edition_place_and_what_it_was_verified_against() -> None:
    """No ruleset is shipped without the four facts."""
    for one in shipped(Wanted()):
        ruleset = one.ruleset
        assert all((ruleset.document, ruleset.edition, ruleset.jurisdiction, ruleset.verified)), one.name


def test_rulesets_of_a_place_are_listed_with_what_is_not_there() -> None:
    """For Germany there are two editions of the law, seen, and a standard whose thicknesses stand from memory."""
    found = run("--place", "germany")
    assert found.return_value == 0
    assert [one.name for one in shipped(Wanted(place="germany"))] == [
        "energy/germany-din-1988-200",
        "energy/germany-geg-2020",
        "energy/germany-geg-2024",
    ]
    assert "edition: GEG, Annex 8, in force from 1 January 2024" in found.output
    assert "from memory" in found.output
    assert "RT 2012, hot water loops and heating pipes: France" in run("--place", "France").output


@pytest.mark.parametrize(("about", "first"), [("ducts", "energy/ducts-ashrae-90.1"), ("fire", "fire")])
def test_rulesets_are_found_by_their_subject(about: str, first: str) -> None:
    """What a ruleset covers, its name and its document are searched."""
    assert first in [one.name for one in shipped(Wanted(about=about))]


def test_what_is_not_there_is_no_ruleset_and_ends_with_status_2() -> None:
    """For Spain nothing is shipped; the reason is told."""
    found = run("--place", "Spain")
    assert found.return_value == 2
    assert [one.document for one in absent(Wanted(place="Spain"))] == ["RITE IT 1.2.4.2.1"]
    assert "the tables of thicknesses were not seen" in " ".join(found.output.split())


def test_the_whole_list_fits_a_terminal() -> None:
    """Without anything to choose by, each ruleset has a line or two of at most 80 columns."""
    lines = run().output.splitlines()
    assert max(map(len, lines)) <= 80
    assert len(lines) <= 4 * len(shipped_ruleset_names())


def test_a_project_names_the_edition_that_its_place_adopted() -> None:
    """`edition 2021` behind `builds on` is that of the base; the ruleset has an edition of its own beside it."""
    loaded = parse_ruleset('ruleset "P"\n  edition "3"\n  builds on "energy/irc" edition 2021\n')
    assert loaded.ruleset is not None
    assert loaded.ruleset.edition == "3"
    assert loaded.ruleset.builds_on == ("IRC 2021, mechanical and service hot water insulation",)


@pytest.mark.parametrize("named", ['"energy/irc" edition 2012', '"energy/irc"'])
def test_an_edition_that_is_not_shipped_is_answered_with_those_that_are(named: str) -> None:
    """The help names the editions and how to write one."""
    (found, *_) = parse_ruleset(f'ruleset "P"\n  builds on {named}\n').diagnostics
    assert found.code == "L304"
    assert found.help == (
        'these editions of it are shipped: 2015, 2018, 2021, 2024; write `builds on "energy/irc" edition 2024`'
    )
