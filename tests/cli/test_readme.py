"""The README: every command of it runs from the top folder, on files that are there."""

from __future__ import annotations

import re
import shlex
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner

from speccheck.cli import speccheck

TOP = Path(__file__).parents[2]
README = (TOP / "README.md").read_text(encoding="utf-8")
NOT_RUN = ("language-server", "desk")  # they wait for an editor and for a browser
LONG = ("examples",)  # it tries every typing error in all rulesets of the demo; tests/proofread runs it on small ones


def commands() -> list[list[str]]:
    """Return the commands of the blocks for a shell, each as its words, in the order of the README."""
    blocks = re.findall(r"```sh\n(.*?)```", README, re.DOTALL)
    lines = re.findall(
        r"^speccheck (?:[^\"\n]|\"[^\"]*\"|\\\\\n)+", "\n".join(blocks).replace("\\\n", " "), re.MULTILINE
    )
    return [shlex.split(line, comments=True)[1:] for line in lines]


def fill_in(path: Path) -> None:
    """Fill one line into a blank schedule, as its contractor would."""
    from openpyxl import load_workbook

    workbook = load_workbook(path)
    heads = {cell.value: cell.column for cell in workbook["Schedule"][1]}
    workbook["Schedule"].cell(2, heads["mark"], "P-1")
    workbook["Schedule"].cell(2, heads["service"], "chilled water")
    workbook.save(path)


def test_every_command_of_the_readme_runs(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """From a top folder with nothing but the examples, one after the other, none ends as unusable or as a fault."""
    shutil.copytree(TOP / "examples", tmp_path / "examples")
    monkeypatch.chdir(tmp_path)
    found = [words for words in commands() if words[0] not in (*NOT_RUN, *LONG)]
    assert len(found) >= 20
    for words in found:
        ended = CliRunner().invoke(speccheck, words, standalone_mode=False)
        assert ended.exception is None, (words, ended.exception)
        assert ended.return_value in (0, 1, 2), (words, ended.output[-500:])
        if words[0] == "blank":
            fill_in(tmp_path / words[2])


def test_commands_that_are_not_run_name_files_that_are_there() -> None:
    """What takes too long for a test is at least there."""
    for words in commands():
        if words[0] in LONG:
            assert all((TOP / word).is_file() for word in words[1:])
