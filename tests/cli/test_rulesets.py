"""`speccheck rulesets`: what is shipped, from which document and edition, and what is not there."""

from __future__ import annotations

import re

import pytest
from click.testing import CliRunner, Result

from speccheck.cli import speccheck
from speccheck.cli.rulesets import MARKS
from speccheck.language import parse_ruleset, shipped_ruleset_names
from speccheck.review.catalogue import NotShipped, ShippedRuleset, Wanted, absent, own_parts, shipped


def run(*words: str) -> Result:
    """Run the command in this process."""
    return CliRunner().invoke(speccheck, ["rulesets", *words], standalone_mode=False)


MONTH = "January|February|March|April|May|June|July|August|September|October|November|December"


@pytest.mark.parametrize("one", shipped(Wanted()), ids=lambda one: one.name)
def test_every_shipped_ruleset_names_where_it_comes_from(one: ShippedRuleset) -> None:
    """Document, edition, place, the tables and sections, against what it was verified and in which month: all told."""
    ruleset = one.ruleset
    assert all((ruleset.document, ruleset.edition, ruleset.jurisdiction))
    assert re.search(rf"^nothing: |in ({MONTH}) 20\d\d\b", ruleset.verified), ruleset.verified
    assert [part for part in own_parts(ruleset) if not part.sources] == []
    assert one.places_in_documents
    assert sum(one.marks.values()) >= len(own_parts(ruleset))


@pytest.mark.parametrize("mark", MARKS)
def test_rulesets_are_found_by_the_marks_of_their_clauses_and_tables(mark: str) -> None:
    """Those with a source of the mark are listed, each with how many it has, and no other."""
    found = {one.name for one in shipped(Wanted(mark=mark))}
    assert found
    for one in shipped(Wanted()):
        marked = [str(source.confidence) for part in own_parts(one.ruleset) for source in part.sources]
        assert (one.name in found) is (mark in marked), one.name


@pytest.mark.parametrize("one", absent(Wanted()), ids=lambda one: one.document)
def test_what_is_not_there_says_where_it_holds_and_why_and_is_found_by_both(one: NotShipped) -> None:
    """Each row has a document, a place, a subject and a reason, and is listed by its place and by its subject."""
    assert all((one.document, one.place, one.subject, one.why))
    assert one in absent(Wanted(place=one.place))
    assert one in absent(Wanted(about=one.subject))
    assert one not in absent(Wanted(place="nowhere at all"))


def test_the_tables_that_a_ruleset_was_taken_from_are_named() -> None:
    """The German law's table is number 2 of its annex, beside number 1; many sections are counted."""
    output = " ".join(run("--place", "Germany").output.split())
    assert (
        "GEG, Annex 8, in force from 1 January 2024, No. 1; GEG, Annex 8, in force from 1 January 2024, No. 2" in output
    )
    assert "more" in run("--about", "chapter 23").output


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
