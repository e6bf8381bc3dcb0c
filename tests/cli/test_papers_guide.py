"""The guide to papers: its commands are run as they stand."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import pytest
from click.testing import CliRunner

from speccheck.cli import speccheck

TOP = Path(__file__).parents[2]
GUIDE = TOP / "examples" / "papers" / "README.md"
COMMANDS = [
    block.replace("\\\n", " ").strip() for block in re.findall(r"```sh\n(.*?)```", GUIDE.read_text("utf-8"), re.DOTALL)
]


@pytest.mark.parametrize("text", COMMANDS)
def test_the_commands_of_the_guide_run(text: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Each command ends with a verdict, and writes what it says."""
    (tmp_path / "examples").symlink_to(TOP / "examples")
    monkeypatch.chdir(tmp_path)
    result = CliRunner().invoke(speccheck, shlex.split(text)[1:], standalone_mode=False)
    assert result.exception is None, result.output
    assert result.return_value in (0, 1, 2)
