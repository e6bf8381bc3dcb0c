"""What a file or its name holds never reaches a terminal as a control code: colors, titles, direction marks."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from click.testing import CliRunner

from speccheck.cli import main, speccheck
from speccheck.cli.saying import cleaned

TOP = Path(__file__).parents[2]
ESCAPE, TITLE, REVERSED = "\x1b[31m", "\x1b]0;title\x07", "\u202e"
RULES = f"""ruleset "s{ESCAPE}x"
  speaks mechanical insulation
clause 1.1 "Thick{ESCAPE}ness{REVERSED}"
  wording "a {TITLE} b"
  where   service is chilled water
  shall   thickness be at least 1 in
  example "e{ESCAPE}x" complies
          service chilled water, thickness 1 in
"""
SHEET = f"Mark,Service,Thickness,Insul{ESCAPE}\nA{ESCAPE},chilled water,1/2 in,{TITLE}x{REVERSED}\n"


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Work in a folder with a ruleset and a schedule whose texts and names hold control codes."""
    monkeypatch.chdir(tmp_path)
    for name in ("r.clauses", f"r{ESCAPE}.clauses"):
        Path(name).write_text(RULES, encoding="utf-8")
    for name in ("s.csv", f"s{ESCAPE}.csv"):
        Path(name).write_text(SHEET, encoding="utf-8")


@pytest.mark.parametrize(
    "call",
    [
        f"check s{ESCAPE}.csv --against r{ESCAPE}.clauses --full --json o{ESCAPE}.json",
        "check s.csv --against r.clauses",
        "test r.clauses --each",
        f"test r{ESCAPE}.clauses",
        f"format r{ESCAPE}.clauses",
        f"read s{ESCAPE}.csv --against r.clauses --starter m{ESCAPE}.toml",
        f"corrections s{ESCAPE}.csv --against r.clauses",
        f"examples r{ESCAPE}.clauses",
        f"markup s{ESCAPE}.csv --against r.clauses --into m{ESCAPE}.csv",
        f"check nothing{ESCAPE}.csv --against r.clauses",
    ],
)
def test_no_command_prints_a_control_code(call: str) -> None:
    """With colors asked for, as on a terminal, nothing is printed but new lines and colors of our own."""
    result = CliRunner().invoke(speccheck, call.split(), color=True)
    shown = re.sub("\x1b\\[(?:0|1|1;3[1-6]|3[1-6]|9[0-6]|2|3|4)m", "", result.output.replace(ESCAPE, "\x07"))
    assert not re.search("[\x00-\x09\x0b-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069]", shown)


@pytest.mark.parametrize("call", [["guide", f"L9{ESCAPE}"], ["check", f"no{ESCAPE}", f"--agai{ESCAPE}nst", "x"]])
def test_a_call_that_is_not_understood_is_told_without_control_codes(
    call: list[str], monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """The words of the call come back in the message, and no code among them."""
    monkeypatch.setattr("sys.argv", ["speccheck", *call])
    monkeypatch.setattr("click.utils.should_strip_ansi", lambda *asked: False)
    with pytest.raises(SystemExit) as stopped:
        main()
    assert stopped.value.code == 3
    assert "\x1b" not in capsys.readouterr().err


def test_new_lines_stay() -> None:
    """A text of two lines is printed as two."""
    assert cleaned(f"one{TITLE}\ntwo\r") == "one ]0;title \ntwo "


def test_commands_print_in_one_way() -> None:
    """No command but the one place prints by itself, so that none can let a code through."""
    for path in sorted((TOP / "speccheck" / "cli").glob("*.py")):
        assert "click.echo(" not in path.read_text(encoding="utf-8") or path.name == "saying.py", path.name
