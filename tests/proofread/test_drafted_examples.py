"""Examples drafted for a person to answer: few lines, the most valuable first, and no verdict of the rule's own."""

from __future__ import annotations

from pathlib import Path

from click.testing import CliRunner

from speccheck.cli import speccheck
from speccheck.proofread.drafting_examples import UNANSWERED

BASE = Path(__file__).parent / "planted" / "heating.clauses"


def test_lines_are_drafted_without_verdicts(tmp_path: Path) -> None:
    """The ten lines that notice most are shown, the most valuable first; a file has all, none with a verdict."""
    into = tmp_path / "lines.txt"
    result = CliRunner().invoke(speccheck, ["examples", str(BASE), "--into", str(into)], standalone_mode=False)
    assert result.return_value == 2
    shown = result.output.splitlines()
    noticed = [int(line.split()[2]) for line in shown if line.startswith("-- notices")]
    assert len(noticed) == 10
    assert noticed == sorted(noticed, reverse=True)
    assert len(shown) <= 100
    written = into.read_text(encoding="utf-8")
    drafted = [line for line in written.splitlines() if line.startswith("  example")]
    assert drafted
    assert all(line.endswith(UNANSWERED) for line in drafted)
