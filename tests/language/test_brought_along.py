"""What a wheel brings along is what would be worked out without it, and nothing of another text or program is used."""

from __future__ import annotations

from pathlib import Path

import pytest

from speccheck.language import brought_along, load_ruleset, ruleset_files
from speccheck.language.brought_along import bring_along
from speccheck.language.loading import LoadedRuleset
from speccheck.language.syntax import parsing
from speccheck.shipped import BROUGHT_ALONG, shipped_folder

NAMES = ("condensation", "energy/ashrae-90.1", "mechanical-insulation")


@pytest.fixture
def wheel(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An installation that brings some shipped files along, and the folder of what it brings."""
    folder = tmp_path / BROUGHT_ALONG
    folder.mkdir()
    monkeypatch.setattr(ruleset_files, "shipped_names", lambda: NAMES)
    bring_along(folder)
    monkeypatch.setattr(
        brought_along, "shipped_folder", lambda name: folder if name == BROUGHT_ALONG else shipped_folder(name)
    )
    return folder


@pytest.fixture
def parsed(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The names of the files that were parsed, while nothing is kept between runs."""
    names: list[str] = []
    parse = parsing.parse
    monkeypatch.setattr(parsing, "parse", lambda source: names.append(source.name) or parse(source))
    monkeypatch.setattr("speccheck.language.loading.recall_loaded", lambda path: (None, ()))
    monkeypatch.setattr("speccheck.language.loading.keep_loaded", lambda *told: None)
    return names


def loaded(name: str) -> LoadedRuleset:
    """Return a ruleset with a base and the shipped vocabulary."""
    found = load_ruleset(name)
    assert found.usable
    return found


def test_a_ruleset_that_was_brought_along_is_not_parsed_and_is_the_same(wheel: Path, parsed: list[str]) -> None:
    """The first run with a shipped ruleset parses neither it nor its vocabulary."""
    brought = loaded("energy/ashrae-90.1")
    assert parsed == []
    for path in wheel.iterdir():
        path.unlink()
    assert loaded("energy/ashrae-90.1") == brought
    assert set(parsed) == {"rulesets/energy/ashrae-90.1.clauses", "rulesets/mechanical-insulation.clauses"}


@pytest.mark.parametrize("change", ["program", "damage", "nothing brought"])
def test_what_does_not_belong_to_this_program_is_worked_out_anew(
    wheel: Path, parsed: list[str], change: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A module that changed after the wheel was built, a damaged file and a checkout are as good as nothing brought."""
    if change == "program":
        monkeypatch.setattr(brought_along, "_program_content", lambda: "another")
    for path in wheel.iterdir() if change == "damage" else ():
        path.write_bytes(path.read_bytes()[:100])
    if change == "nothing brought":
        monkeypatch.setattr(brought_along, "shipped_folder", lambda name: wheel / "none")
    loaded("condensation")
    assert set(parsed) == {"rulesets/condensation.clauses", "rulesets/mechanical-insulation.clauses"}


def test_a_file_of_ones_own_is_parsed(
    wheel: Path, parsed: list[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A copy of a shipped ruleset with another number in it is read as it stands."""
    text = (shipped_folder("rulesets") / "condensation.clauses").read_text(encoding="utf-8")
    own = tmp_path / "condensation.clauses"
    own.write_text(text, encoding="utf-8")
    assert loaded(str(own)).ruleset is not None
    assert parsed == ["condensation.clauses"]
