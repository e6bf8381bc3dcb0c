"""What a newcomer adds, by the pages of DEVELOPERS.md: the one place that is enough, or the places that are missed."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner

import speccheck
from speccheck.cli import speccheck as command
from speccheck.language.ruleset_files import file_name
from speccheck.report.kinds import KINDS
from speccheck.shipped import shipped_folder

RULES = """ruleset "Coded"
  speaks mechanical insulation
clause 1 "Color code"
  shall  thickness be at least 1 in and band color is given
  example "coded" complies
          band color "blue", thickness 1 in
"""
TERM = """
term band color  text
  also  "color of band", "code color"
  means "the color that tells what flows in the pipe"
"""


@pytest.fixture
def rules(tmp_path: Path) -> Path:
    """A ruleset that speaks a vocabulary with one term more than the shipped one."""
    name = file_name("mechanical insulation")
    text = (shipped_folder("rulesets") / name).read_text(encoding="utf-8")
    (tmp_path / name).write_text(text + TERM, encoding="utf-8")
    path = tmp_path / "coded.clauses"
    path.write_text(RULES, encoding="utf-8")
    return path


def test_a_term_is_added_in_one_file(rules: Path) -> None:
    """The vocabulary alone: rules ask for it, schedules are read for it, a blank schedule has it."""
    schedule = [
        {"Mark": "P-1", "Code color": "blue", "Thk (in)": 1},
        {"Mark": "P-2", "Color of band": "", "Thk (in)": 1},
    ]
    review = speccheck.check(schedule, against=rules)
    assert [str(review[line, "1"].verdict) for line in ("P-1", "P-2")] == ["complies", "does not comply"]
    assert review["P-2", "1"].reason == "band color is not given, but must be"
    blank = rules.parent / "blank.xlsx"
    for words in (["test", str(rules)], ["blank", str(rules), str(blank)]):
        assert CliRunner().invoke(command, words, standalone_mode=False).return_value == 0, words


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.name)
def test_a_kind_of_report_is_added_in_its_module_and_one_list(rules: Path, kind: object, tmp_path: Path) -> None:
    """Whatever the list names is an option of `check` and of `compare`, and a script saves it by its endings."""
    assert kind in KINDS
    known = next(one for one in KINDS if one is kind)
    for name in ("check", "compare"):
        found = command.get_command(None, name)  # type: ignore[arg-type]
        assert found is not None
        assert f"--{known.name}" in {option for one in found.params for option in one.opts}
    review = speccheck.check([{"Mark": "P-1", "Thk (in)": 1}], against=rules)
    for ending in known.endings:
        assert review.save(tmp_path / f"report{ending}").stat().st_size > 0
