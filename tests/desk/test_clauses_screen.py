"""The screen Clauses: what it begins with, and what its editor asks."""

from __future__ import annotations

from pathlib import Path

from speccheck.desk.clauses_screen import NEW
from speccheck.desk.work_rulesets import analysis


def test_a_new_ruleset_is_one_that_can_be_used(tmp_path: Path) -> None:
    """What stands in an empty file of one's own has no mistake, and both of its examples come out."""
    text = NEW.format(title="My clauses")
    found = analysis({"text": text, "path": str(tmp_path / "project.clauses")}, lambda *_: None)
    assert [one for one in found["diagnostics"] if one["severity"] == "error"] == []
    assert [(one["label"], one["right"]) for one in found["examples"]] == [("1", True)]
