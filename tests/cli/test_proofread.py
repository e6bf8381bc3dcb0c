"""`speccheck proofread` with its reports: written beside what is printed, whole or not at all, never over the input."""

from __future__ import annotations

from pathlib import Path

import click
import pytest
from click.testing import CliRunner, Result

from speccheck.cli.proofread import command

FOLDER = Path(__file__).parents[1] / "proofread"
WANTING = FOLDER / "wanting.clauses"
CODE = str(FOLDER / "tried.clauses")


def run(*words: str | Path) -> Result:
    """Run the command."""
    return CliRunner().invoke(command, [str(word) for word in words], standalone_mode=False)


@pytest.mark.parametrize("question", [(), ("--against", CODE), ("--since", CODE)])
def test_reports_are_written_for_each_question(tmp_path: Path, question: tuple[str, ...]) -> None:
    """Both reports stand in the folder, and the exit status is that of the question."""
    page, markdown = tmp_path / "report.html", tmp_path / "report.md"
    result = run(WANTING, *question, "--page", page, "--markdown", markdown)
    assert result.return_value == run(WANTING, *question).return_value == 1
    assert page.read_text(encoding="utf-8").startswith("<!DOCTYPE html>")
    assert markdown.read_text(encoding="utf-8").startswith("# ")
    assert {path.name for path in tmp_path.iterdir()} == {"report.html", "report.md"}


def test_report_is_not_written_over_the_ruleset(tmp_path: Path) -> None:
    """A report with the name of its input is refused with status 3, and the input stays as it was."""
    (tmp_path / "vocabulary.clauses").write_bytes((FOLDER / "vocabulary.clauses").read_bytes())
    path = tmp_path / "wanting.clauses"
    path.write_bytes(WANTING.read_bytes())
    result = run(path, "--markdown", path)
    assert result.return_value == 3
    assert "R102" in result.stderr
    assert path.read_bytes() == WANTING.read_bytes()


def test_two_questions_at_once_are_refused() -> None:
    """`--against` and `--since` are two questions, and `--schedule` needs a base."""
    for words in (("--against", CODE, "--since", CODE), ("--schedule", CODE)):
        refused = run(WANTING, *words).exception
        assert isinstance(refused, click.UsageError), words
