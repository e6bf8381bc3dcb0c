"""The screen Start: what it offers to check against."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from speccheck.desk.offered import MOST_NAMED, most_named, offered_rulesets, subjects
from speccheck.language import load_ruleset
from speccheck.language.ruleset_files import shipped_names
from tests.browsing import expect
from tests.desk.conftest import RunningDesk


def test_every_shipped_ruleset_is_offered_with_what_it_covers() -> None:
    """The heads of the files, which alone are looked at, say what the rulesets say when they are read."""
    read = [(name, load_ruleset(Path(name)).ruleset) for name in shipped_names()]
    offered = {one.name: one for one in offered_rulesets()}
    assert list(offered) == [name for name, ruleset in read if ruleset is not None and ruleset.clauses]
    for name, ruleset in read:
        if ruleset is not None and name in offered:
            covers = ruleset.covers.split(";")[0]
            assert (offered[name].title, offered[name].covers) == (ruleset.name, covers[:1].upper() + covers[1:])


def test_each_stands_once_under_its_subject_and_place() -> None:
    """What is named most often stands first; every other ruleset under one subject and one country."""
    listed = [one for subject in subjects() for _, some in subject.countries for one in some]
    assert [one.name for one in most_named()] == list(MOST_NAMED)
    assert sorted(one.name for one in (*most_named(), *listed)) == [one.name for one in offered_rulesets()]
    energy = dict(subjects()[0].countries)
    assert [one.name for one in energy["Germany"]] == [
        "energy/germany-din-1988-200",
        "energy/germany-geg-2020",
        "energy/germany-geg-2024",
    ]
    assert next(iter(energy)) == "United States"
    assert "energy/tennessee" in [one.name for one in energy["United States"]]
    assert [subject.title for subject in subjects()][-1] != "Other subjects"  # a new one gets a subject of its own


def test_a_ruleset_is_found_by_words(page: Any, desk: RunningDesk) -> None:
    """Words of title, sentence or place narrow the list, accents or not; what is chosen is said where it is checked."""
    page.goto(desk.home)
    find = page.locator("[data-find]")
    find.fill("zurich buried")
    expect(page.locator("[data-ruleset]:visible")).to_have_count(1)
    expect(page.locator("[data-found]")).to_have_text(f"1 of {len(offered_rulesets())} rulesets")
    page.locator("input[value='energy/zurich-buried']").check()
    expect(page.locator("[data-chosen]")).to_have_text("Checked against: Canton of Zürich, buried lines")
    find.fill("no such place")
    expect(page.locator("[data-ruleset]:visible")).to_have_count(0)
    expect(page.locator("[data-found]")).to_contain_text("try a shorter word")
    find.fill("")
    expect(page.locator("[data-ruleset]:visible")).to_have_count(len(MOST_NAMED))
    expect(page.locator("[data-chosen]")).to_have_text("Checked against: Canton of Zürich, buried lines")


def test_a_file_with_clauses_is_what_is_checked_against(page: Any, desk: RunningDesk) -> None:
    """Who gives clauses of their own need not also say that these are meant."""
    page.goto(desk.home)
    page.set_input_files("input[name=clauses]", {"name": "p.clauses", "mimeType": "", "buffer": b"ruleset"})
    expect(page.locator("[data-chosen]")).to_have_text("Checked against: Clauses of my own")
    expect(page.locator("input[value='own clauses']")).to_be_checked()
