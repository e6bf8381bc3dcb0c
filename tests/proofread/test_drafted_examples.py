"""Examples drafted for a person to answer: few lines, the most valuable first, and no verdict of the rule's own."""

from __future__ import annotations

from pathlib import Path

from click.testing import CliRunner

from speccheck.cli import speccheck
from speccheck.judge import Judge
from speccheck.judge.examples import comes_out, example_line
from speccheck.language import parse_ruleset
from speccheck.language.core import Ruleset
from speccheck.proofread.drafting_examples import UNANSWERED, DraftedExample, drafted
from speccheck.proofread.mutation import adequacy, unnoticed
from speccheck.proofread.typing_errors import TypingError
from tests.some import some

SECTION = Path(__file__).parent / "section" / "emberlow.clauses"
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
    assert all(line.endswith(UNANSWERED) for line in some(drafted))


def test_a_section_of_55_clauses_is_drafted_in_a_screen(tmp_path: Path) -> None:
    """Of a section without examples at most 100 lines are told, the ten most valuable first, and how many are left."""
    result = CliRunner().invoke(speccheck, ["examples", str(SECTION)], standalone_mode=False)
    shown = result.output.splitlines()
    noticed = [int(line.split()[2]) for line in shown if line.startswith("-- notices")]
    assert len(noticed) == 10
    assert noticed == sorted(noticed, reverse=True)
    assert len(shown) <= 100
    assert "more lines would notice the rest: `--into FILE` writes them all." in result.output


def test_no_line_is_drafted_for_what_another_notices() -> None:
    """By hand: of `at least 1 in` and `over 4 in` four lines tell each step and each edge apart; none can be spared."""
    loaded = parse_ruleset(
        'ruleset "case"\n  speaks mechanical insulation\n\nclause 1 "c"\n  where pipe size is over 4 in\n'
        "  shall thickness be at least 1 in\n"
    ).ruleset
    assert loaded is not None
    answers = unnoticed(loaded, adequacy(loaded))
    lines = drafted(answers, loaded)
    changes = [change.words for line in lines for change in line.changes]
    assert sorted(changes) == sorted(answer.change.words for answer in answers if answer.proposal is not None)
    for left_out in lines:
        others = [line for line in lines if line is not left_out]
        alone = [change for change in left_out.changes if not any(_notices(line, change, loaded) for line in others)]
        assert alone, left_out


def _notices(line: DraftedExample, change: TypingError, ruleset: Ruleset) -> bool:
    """Say whether a drafted line comes out otherwise after a change."""
    number = line.clause
    cell = Judge(change.applied(ruleset)).cell(number, example_line(line.example, ruleset.units))
    return not comes_out(line.example, cell)
