"""Editions beside one another: `builds on` takes the one that is named, `proofread --since` tells what changed.

What changed between the editions of the residential code is known from their texts (seen, as states adopted them):
2021 asks R-3 of suction lines instead of R-4 and R-8 of all ducts outside conditioned space; 2024 a thickness by a
table for hot water pipe instead of R-3, and protection that comes off for 6 ft at the equipment. The German law asks
9 and 19 mm of chilled water lines in 2024 instead of 6 mm.
"""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest
from click.testing import CliRunner

from speccheck.cli import speccheck
from speccheck.language import load_ruleset, parse_ruleset

GUIDE = Path(__file__).parents[2] / "rulesets" / "adding-an-edition.md"


@cache
def changes(revised: str, base: str) -> str:
    """Return what `proofread --since` says of two editions, as one line of words."""
    found = CliRunner().invoke(speccheck, ["proofread", revised, "--since", base], standalone_mode=False)
    assert found.exception is None or isinstance(found.exception, SystemExit)
    return " ".join(found.output.split())


@pytest.mark.parametrize(
    ("document", "edition"),
    [
        ("irc", "2015"),
        ("irc", "2018"),
        ("irc", "2021"),
        ("irc", "2024"),
        ("germany-geg", "2020"),
        ("germany-geg", "2024"),
    ],
)
def test_a_project_takes_over_the_clauses_of_the_edition_that_it_names(document: str, edition: str) -> None:
    """`builds on "energy/irc" edition 2021` has all clauses of that edition and those of no other."""
    project = parse_ruleset(f'ruleset "P"\n  builds on "energy/{document}" edition {edition}\n').ruleset
    shipped = load_ruleset(f"energy/{document}-{edition}").ruleset
    assert project is not None
    assert shipped is not None
    assert [(one.name, one.ruleset) for one in project.clauses] == [(one.name, one.ruleset) for one in shipped.clauses]
    assert edition in shipped.edition


@pytest.mark.parametrize(
    ("revised", "base", "told"),
    [
        ("irc-2021", "irc-2018", "clause `IRC-1.3` is looser on some systems"),
        ("irc-2021", "irc-2018", "service refrigerant suction; installed R-value R-3 to under R-4"),
        ("irc-2021", "irc-2018", "clause `IRC-3.1` is stricter on some systems"),
        ("irc-2024", "irc-2021", "clause `IRC-1.5` is new"),
        ("irc-2024", "irc-2021", "clause `IRC-2.1` is stricter on some systems"),
        ("irc-2018", "irc-2015", "clause `IRC-3.1` is new"),
        ("germany-geg-2024", "germany-geg-2020", "clause `GEG-2.1` is stricter on some systems"),
        ("germany-geg-2024", "germany-geg-2020", "clause `GEG-3.1` is new"),
    ],
)
def test_what_changed_between_editions_is_told_by_meaning(revised: str, base: str, told: str) -> None:
    """The changes that the documents made are found, the tighter ones and the looser ones apart."""
    assert told in changes(f"energy/{revised}", f"energy/{base}")


def test_what_did_not_change_is_not_told() -> None:
    """Mechanical piping has R-3 in 2018, 2021 and 2024, and heat lines have one table in both editions of the law."""
    assert "`IRC-1.1`" not in changes("energy/irc-2021", "energy/irc-2018")
    assert "`IRC-1.1`" not in changes("energy/irc-2024", "energy/irc-2021")
    assert "`GEG-1.1`" not in changes("energy/germany-geg-2024", "energy/germany-geg-2020")


def test_changes_of_a_metric_law_are_told_in_metric() -> None:
    """The example of a changed verdict has millimetres and W/(m.K), as the law has."""
    assert not re.search(r"\d (in|F)\b|Btu", changes("energy/germany-geg-2024", "energy/germany-geg-2020"))


def test_the_guide_quotes_what_is_told() -> None:
    """What the page on adding an edition prints of 2018 and 2021 stands so in the answer of the command."""
    block = re.search(r"```text\n(.*?)```", GUIDE.read_text(encoding="utf-8"), re.DOTALL)
    assert block is not None
    pieces = [" ".join(piece.split()) for piece in re.split(r"\n\s*\n|^\s*\.\.\.$", block[1], flags=re.MULTILINE)]
    told = changes("energy/irc-2021", "energy/irc-2018")
    for piece in filter(None, pieces):
        assert piece in told, piece
