"""The screen Clauses: what it begins with, and what its editor asks."""

from __future__ import annotations

from pathlib import Path
from typing import Literal

import pytest

from speccheck.desk.clauses_screen import begun
from speccheck.desk.projects import Project, write_settings
from speccheck.desk.settings import Settings
from speccheck.desk.work_rulesets import analysis


@pytest.mark.parametrize("units", ["", "inch-pound", "metric"])
def test_a_new_ruleset_is_one_that_can_be_used(units: Literal["", "inch-pound", "metric"], tmp_path: Path) -> None:
    """An empty file begins in the project's units, without a mistake, and with examples that come out."""
    project = Project(tmp_path)
    write_settings(project, Settings(units=units), "")
    text = begun(project)
    assert f"  units {units or 'inch-pound'}\n" in text
    assert ("mm" in text) == (units == "metric")
    found = analysis({"text": text, "path": str(tmp_path / "project.clauses")}, lambda *_: None)
    assert [one for one in found["diagnostics"] if one["severity"] == "error"] == []
    assert [(one["label"], one["right"]) for one in found["examples"]] == [("1", True)]
