"""`speccheck read` as a person runs it: what it shows, what it writes, and its exit status."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from speccheck.cli import speccheck

RULES = """ruleset "Small"
  speaks mechanical insulation
  units  inch-pound
clause 1.1 "Thickness"
  source  "invented for this test" computed
  where   service is chilled water and location is outdoor
  shall   thickness be at least 1 in
"""


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Stand in a folder with a small ruleset, a schedule that is read whole and one that is not."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "small.clauses").write_text(RULES, encoding="utf-8")
    (tmp_path / "whole.csv").write_text("Mark,Service,Thk\nA-1,CHW,1\n", encoding="utf-8")
    (tmp_path / "open.csv").write_text("Mark,Service,Thk,Weight\nA-1,CHW,1,heavy\n", encoding="utf-8")
    (tmp_path / "nothing.csv").write_text("hello\n", encoding="utf-8")
    return tmp_path


def run(*words: str) -> Result:
    """Run the command in this process."""
    return CliRunner().invoke(speccheck, ["read", *words], standalone_mode=False)


def test_a_schedule_that_is_read_whole(folder: Path) -> None:
    """With the units of the ruleset nothing is open, and the status is 0."""
    found = run("whole.csv", "--against", "small.clauses")
    assert (found.return_value, found.output) == (
        0,
        "whole.csv: 1 line in 1 table; 6 of 6 filled cells settled\n\n"
        "(header in row 1): 1 line\n"
        "  A `Mark` is mark: 1 cell\n"
        "  B `Service` is service: 1 cell\n"
        "  C `Thk` is thickness: 1 cell\n\n"
        "Nothing is open: all that bears on a line was read.\n",
    )


def test_the_starter_is_written_and_serves(folder: Path) -> None:
    """The starter has an entry for what is open and one for what clauses want; answered, `check` takes it."""
    found = run("open.csv", "--against", "small.clauses", "--starter", "map.toml")
    assert (found.return_value, found.output.splitlines()[-1]) == (2, "wrote map.toml")
    text = (folder / "map.toml").read_text(encoding="utf-8")
    assert text == (
        "## Starter of a mapping file for open.csv. Lines with ## explain. A line with a single # is an entry:\n"
        "## write the right answer, and take the # away. Then give this file with --mapping. A * stands for any\n"
        "## words.\n\n"
        "## Columns to leave out, by header or letter:\n"
        'ignore = [\n    # "Weight",\n]\n\n'
        "[columns]\n"
        "## the header `Weight` names no term: D2\n## the cells say `heavy`\n"
        '# "Weight" = "?"\n\n'
        "## What clauses ask for and no line states: what holds for all lines.\n"
        '[constants]\n# "location" = "?"\n'
    )
    text = text.replace('    # "Weight"', '    "Weight"').replace('# "location" = "?"', '"location" = "outdoor"')
    (folder / "mine.toml").write_text(text, encoding="utf-8")
    assert run("open.csv", "--against", "small.clauses", "--mapping", "mine.toml").return_value == 0
    checked = CliRunner().invoke(
        speccheck,
        ["check", "open.csv", "--against", "small.clauses", "--units", "inch-pound", "--mapping", "mine.toml"],
        standalone_mode=False,
    )
    assert checked.return_value == 0


def test_a_starter_is_not_written_over_the_work_of_others(folder: Path) -> None:
    """A file that stands there stays, unless `--replace` says so."""
    (folder / "map.toml").write_text("units = 'metric'\n", encoding="utf-8")
    assert run("open.csv", "--starter", "map.toml").return_value == 3
    assert (folder / "map.toml").read_text(encoding="utf-8") == "units = 'metric'\n"
    assert run("open.csv", "--starter", "map.toml", "--replace").return_value == 2


def test_a_starter_on_the_screen_stands_alone(folder: Path) -> None:
    """`-` writes the starter to standard output, and nothing else."""
    assert run("open.csv", "--starter", "-").output.startswith("## Starter of a mapping file for open.csv.")


def test_a_file_of_which_nothing_can_be_read(folder: Path) -> None:
    """What is wrong is told, and the status is 3."""
    found = run("nothing.csv")
    assert found.return_value == 3
    assert "error[S201]: no row of the file reads as the header of a schedule" in found.output


def test_a_long_schedule_fits_the_screen(folder: Path) -> None:
    """Of many columns and questions the first are shown, in 45 lines of 80 columns; `--all` shows the others."""
    header = ",".join(f"Odd {number}" for number in range(30))
    row = ",".join(f"x{number}" for number in range(30))
    (folder / "long.csv").write_text(f"Mark,Service,{header}\nA,CHW,{row}\n", encoding="utf-8")
    lines = run("long.csv").output.splitlines()
    assert len(lines) <= 45
    assert max(map(len, lines)) <= 80
    assert lines[-2] == "  and 22 more; --all shows them"
    assert sum("names no term" in line for line in run("long.csv", "--all").output.splitlines()) == 30


def test_a_column_known_by_its_cells_is_shown_as_inferred(folder: Path) -> None:
    """A column called Type, over nothing but materials, is the insulation, and it is said that this is a guess."""
    (folder / "type.csv").write_text(
        "Mark,Service,Type,Size,Thk\nA-1,CHW,FG,2 in,1\nA-2,HHW,elastomeric,2 in,1\n", "utf-8"
    )
    found = run("type.csv", "--against", "small.clauses")
    assert "C `Type` is insulation, inferred from its cells: 2 cells" in found.output
