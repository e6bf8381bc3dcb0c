"""`speccheck examples`: what goes unnoticed, told with an example that would notice it, and the exit status."""

from __future__ import annotations

from pathlib import Path

from click.testing import CliRunner, Result

from speccheck.cli.examples import command

FOLDER = Path(__file__).parents[1] / "proofread"
TRIED = (FOLDER / "tried.clauses").read_text(encoding="utf-8")


def run(folder: Path, text: str, *options: str) -> Result:
    """Run the command on a text beside the vocabulary that it speaks."""
    (folder / "vocabulary.clauses").write_text(
        (FOLDER / "vocabulary.clauses").read_text(encoding="utf-8"), encoding="utf-8"
    )
    path = folder / "tried.clauses"
    path.write_text(text, encoding="utf-8")
    return CliRunner().invoke(command, [str(path), *options], standalone_mode=False)


def test_a_well_tried_ruleset_ends_with_0(tmp_path: Path) -> None:
    """All of its 15 changes are noticed, and with `--all` each is listed with the example that does."""
    result = run(tmp_path, TRIED, "--all")
    assert result.return_value == 0
    assert result.output.endswith("15 of 15 changes are noticed by an example.\n")
    assert "16: `except where jacket is none` is left out: noticed by 1 without jacket\n" in result.output, (
        result.output
    )


def test_what_goes_unnoticed_is_told_with_an_example(tmp_path: Path) -> None:
    """Without the example of its exception the ruleset ends with 2; the proposed one leaves the verdict to a person."""
    text = TRIED[: TRIED.index('  example "without jacket"')]
    result = run(tmp_path, text)
    assert result.return_value == 2
    assert "14 of 15 changes are noticed by an example." in result.output
    assert '-- clause 1 example "jacket none" VERDICT' in " ".join(result.output.split())
    bare = run(tmp_path, text, "--no-proposals")
    assert bare.return_value == 2
    assert "no example that would was found" not in bare.stderr
    assert 'example "jacket none"' not in bare.output


def test_an_example_that_does_not_come_out_comes_first(tmp_path: Path) -> None:
    """Nothing is tried while an example is wrong."""
    result = run(tmp_path, TRIED.replace('"at 80 F" does not apply', '"at 80 F" fails'))
    assert result.return_value == 1
    assert "L502" in result.stderr
    assert "put it right first" in result.output
