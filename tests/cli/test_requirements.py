"""`speccheck requirements` as a person runs it: words or a line of a schedule, status, and what it says of mistakes."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from speccheck.cli import speccheck

RULES = """ruleset "Small"
  speaks mechanical insulation
clause 1.1 "Thickness"
  source  "invented for this test" computed
  where   service is chilled water
  shall   thickness be at least 1 in
"""


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Stand in a folder with a small ruleset and a schedule of two lines."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "small.clauses").write_text(RULES, encoding="utf-8")
    (tmp_path / "schedule.csv").write_text("Mark,Service,Thk (in)\nA-1,CHW,1\nA-2,steam,TBD\n", encoding="utf-8")
    return tmp_path


def run(*words: str) -> Result:
    """Run the command in this process."""
    return CliRunner().invoke(speccheck, ["requirements", *words], standalone_mode=False)


def test_line_in_words_is_asked_of_all_shipped_rulesets(folder: Path) -> None:
    """A 2 in pipe at 180 F is told the 2 in of ASHRAE 90.1-2010, Table 6.8.3A, with its source and how sure it is."""
    found = run("service heating hot water, pipe size 2 in, operating temperature 180 F, conductivity 0.27", "--full")
    assert found.return_value == 0
    text = " ".join(found.output.split())
    assert "thickness be at least 2 in (ASHRAE 90.1-2010, Table 6.8.3A, row over 140 F to 200 F" in text
    assert "source: ASHRAE 90.1-2010, Table 6.8.3A; 6.8.3-1 from 2013 on (second hand)" in text
    assert "Condensation on cold insulation" in text


def test_line_of_a_schedule_is_asked_of_one_ruleset(folder: Path) -> None:
    """The line is taken by its mark; a line to which nothing applies ends with status 2."""
    applies = run("schedule.csv", "--line", "A-1", "--against", "small.clauses", "--full")
    assert applies.return_value == 0
    assert "1 clause applies, 0 may, in 1 ruleset." in applies.output
    assert "source: invented for this test (computed)" in applies.output
    nothing = run("schedule.csv", "--line", "A-2", "--against", "small.clauses", "--full")
    assert nothing.return_value == 2
    assert "Nothing for this line in: Small" in nothing.output


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["schedule.csv", "--line", "A-3", "--against", "small.clauses"], "no line is called `A-3`; did you mean"),
        (["  , ", "--against", "small.clauses"], "the line states nothing"),
    ],
)
def test_call_that_cannot_be_understood_says_what_to_write(folder: Path, words: list[str], says: str) -> None:
    """A mark that the schedule does not have and a line without words are mistakes of the call."""
    found = run(*words)
    assert found.exception is not None
    assert says in getattr(found.exception, "message", "")


@pytest.mark.parametrize(
    "words",
    [
        ["servise steam", "--against", "small.clauses"],
        ["service steam", "--against", "absent.clauses"],
        ["absent.csv", "--line", "A-1", "--against", "small.clauses"],
    ],
)
def test_unusable_input_ends_with_status_3(folder: Path, words: list[str]) -> None:
    """A word that is no term, a ruleset and a schedule that are not there: told, without a traceback."""
    found = run(*words)
    assert isinstance(found.exception, SystemExit)
    assert found.exception.code == 3


def test_in_short_a_line_is_told_in_some_fifty_lines(folder: Path) -> None:
    """Of all shipped rulesets a chilled line in full takes hundreds; in short what is asked, what is needed, the count.

    Not under 50 lines would be no glance; last stands how many clauses apply, where the eye rests.
    """
    words = "service chilled water, pipe size 2 in, operating temperature 42 F, location mechanical room, layers 1"
    short, full = (run(words, *more).output.splitlines() for more in ((), ("--full",)))
    assert len(full) > 300
    assert len(short) <= 50
    assert max(map(len, short)) <= 80
    assert "  90.1-2.1  shall insulation be not none" in short
    assert any(line.startswith("Information needed for the others: ") for line in short)
    assert re.fullmatch(r"\d+ clauses apply, \d+ may, in \d+ rulesets\.", short[-1])
    assert short[-1] in full
