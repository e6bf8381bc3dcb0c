"""The commands as a person runs them: exit status, what is printed, what is written, and never a traceback."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

import click
import pytest
from click.testing import CliRunner, Result

from speccheck.cli import COMMANDS, main, speccheck
from speccheck.cli.guessed_commands import GUESSED
from tests.some import some

RULES = """ruleset "Small"
  speaks mechanical insulation
  units  inch-pound

clause 1.1 "Thickness"
  wording "Insulate with at least 1 in."
  where   service is chilled water
  shall   thickness be at least 1 in
  example "enough" complies
          service chilled water, thickness 1 in
  example "too thin" fails
          service chilled water, thickness 1/2 in
"""
HEADER = "Mark,Service,Thk (in)\n"


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Stand in an empty folder that holds a small ruleset."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "small.clauses").write_text(RULES, encoding="utf-8")
    return tmp_path


def run(*words: str) -> Result:
    """Run a command in this process and return its output and its status."""
    return CliRunner().invoke(speccheck, list(words), standalone_mode=False, catch_exceptions=True)


def status_of(*words: str, folder: Path) -> int:
    """Run a command as a process of its own and return its exit status; a traceback is a failure here."""
    found = subprocess.run(
        [sys.executable, "-m", "speccheck", *words], cwd=folder, capture_output=True, text=True, check=False
    )
    assert "Traceback" not in found.stderr
    return found.returncode


def schedule(folder: Path, *rows: str) -> str:
    """Write a schedule of the given rows and return its name."""
    (folder / "schedule.csv").write_text(HEADER + "\n".join(rows) + "\n", encoding="utf-8")
    return "schedule.csv"


@pytest.mark.parametrize(
    ("rows", "status"),
    [
        (("A,CHW,1",), 0),
        (("A,CHW,1", "B,CHW,1/2"), 1),
        (("A,CHW,1", "B,CHW,TBD"), 2),
        (("A,CHW,1/2", "B,CHW,TBD"), 1),
        (("A,steam,1",), 3),
        ((), 3),
    ],
)
def test_check_ends_with_the_status_of_the_matrix(folder: Path, rows: tuple[str, ...], status: int) -> None:
    """0 all comply, 1 one does not, 2 one cannot be determined, 3 where nothing was judged or there is no line."""
    assert status_of("check", schedule(folder, *rows), "--against", "small.clauses", folder=folder) == status


@pytest.mark.parametrize(
    "words",
    [
        ("check", "nowhere.xlsx", "--against", "small.clauses"),
        ("check", "schedule.csv", "--against", "nowhere.clauses"),
        ("check", "schedule.csv"),
        ("check", "schedule.csv", "--against", "small.clauses", "--mapping", "nowhere.toml"),
        ("explain", "schedule.csv", "--against", "small.clauses", "--line", "Z", "--clause", "1.1"),
        ("explain", "schedule.csv", "--against", "small.clauses", "--line", "A", "--clause", "9"),
        ("test", "nowhere"),
        ("terms", "nowhere"),
        ("guide", "X999"),
        ("blank", "nowhere", "out.xlsx"),
        ("format", "nowhere.clauses"),
        ("system", "nonsense 4"),
        ("no-such-command",),
    ],
    ids=lambda words: " ".join(words[:2]),
)
def test_a_call_that_cannot_be_used_ends_with_status_3(folder: Path, words: tuple[str, ...]) -> None:
    """Files that are not there, names that are not known and options that lack are told, and nothing is judged."""
    schedule(folder, "A,CHW,1")
    assert status_of(*words, folder=folder) == 3
    assert sorted(path.name for path in folder.iterdir()) == ["schedule.csv", "small.clauses"]


@pytest.mark.parametrize("name", list(COMMANDS))
def test_help_of_each_command_shows_an_example(name: str) -> None:
    """The help of a command says what it does and shows a call of it."""
    found = run(name, "--help")
    assert found.exit_code == 0
    assert f"speccheck {name}" in found.output
    assert "Example" in found.output
    assert all(len(line) <= 80 for line in some(found.output.splitlines()))


def test_check_writes_every_report(folder: Path) -> None:
    """Each kind of report is written where it is asked for, and the schedule is as it was."""
    name = schedule(folder, "A,CHW,1/2")
    before = (folder / name).read_bytes()
    kinds = {"page": "r.html", "workbook": "r.xlsx", "json": "r.json", "markdown": "r.md", "findings": "r.csv"}
    options = [word for kind, file in kinds.items() for word in (f"--{kind}", file)]
    assert run("check", name, "--against", "small.clauses", *options).return_value == 1
    assert all((folder / file).stat().st_size > 100 for file in some(kinds.values()))
    assert (folder / name).read_bytes() == before


def test_no_report_is_written_over_an_input(folder: Path) -> None:
    """A report that would replace the schedule is refused, the schedule stays, and the status says so."""
    name = schedule(folder, "A,CHW,1")
    before = (folder / name).read_bytes()
    assert run("check", name, "--against", "small.clauses", "--json", name).return_value == 3
    assert (folder / name).read_bytes() == before


def test_the_same_check_gives_the_same_bytes(folder: Path) -> None:
    """Two runs in two folders, with other hash seeds, write the same page to the byte."""
    name = schedule(folder, "A,CHW,1/2", "B,CHW,TBD")
    pages = []
    for seed in ("1", "2"):
        subprocess.run(
            [sys.executable, "-m", "speccheck", "check", name, "--against", "small.clauses", "--page", f"{seed}.html"],
            cwd=folder,
            env={"PYTHONHASHSEED": seed, "PATH": "", "HOME": str(folder)},
            capture_output=True,
            check=False,
        )
        pages.append((folder / f"{seed}.html").read_bytes())
    assert pages[0] == pages[1]


def test_explain_shows_the_working(folder: Path) -> None:
    """The verdict, what the line states, each step and the wording of the clause are all there."""
    name = schedule(folder, "A,CHW,1/2")
    found = run("explain", name, "--against", "small.clauses", "--line", "A", "--clause", "1.1")
    assert found.return_value == 1
    for words in (
        "Does not comply: thickness is 1/2 in, but must be at least 1 in",
        "thickness: 1/2 in (",
        "where service is chilled water: holds",
        "shall thickness be at least 1 in: does not hold",
        "Wording: Insulate with at least 1 in.",
    ):
        assert words in found.output


@pytest.mark.parametrize("clause", ["small 1.1", "1.1 (small)"])
def test_explain_takes_the_names_of_inherited_clauses(folder: Path, clause: str) -> None:
    """Where two rulesets have a clause of one number, each is asked for as reports call it."""
    own = 'ruleset "own"\n  builds on "small"\n\nclause 1.1 "Own"\n  shall thickness be at least 2 in\n'
    (folder / "own.clauses").write_text(own, encoding="utf-8")
    name = schedule(folder, "A,CHW,1")
    inherited = run("explain", name, "--against", "own.clauses", "--line", "A", "--clause", clause)
    assert inherited.return_value == 0
    assert "Clause small 1.1:" in inherited.output
    assert run("explain", name, "--against", "own.clauses", "--line", "A", "--clause", "1.1").return_value == 1


def test_test_tells_a_wrong_example(folder: Path) -> None:
    """A ruleset whose examples come out ends with 0, one with a wrong example with 1 and what is wrong."""
    assert run("test", "small.clauses").return_value == 0
    wrong = RULES.replace('"enough" complies', '"enough" fails')
    (folder / "wrong.clauses").write_text(wrong, encoding="utf-8")
    found = run("test", "wrong.clauses")
    assert found.return_value == 1
    assert "1 of 2 examples come out as they say." in found.output


def test_test_tells_what_has_no_example(folder: Path) -> None:
    """A clause without an example is no error, but the status says that the ruleset is not done."""
    (folder / "bare.clauses").write_text(RULES + 'clause 2 "Bare"\n  shall thickness be given\n', encoding="utf-8")
    found = run("test", "bare.clauses")
    assert found.return_value == 2
    assert "1 of 2 clauses and 0 of 0 table cells have an example." in found.output


def test_test_counts_what_has_no_example_and_lists_it_when_asked(folder: Path) -> None:
    """A first ruleset that can be read is told so in four lines, however much has no example yet."""
    bare = "".join(f'clause 2.{n} "Bare"\n  shall thickness be given\n' for n in range(20))
    (folder / "first.clauses").write_text(RULES + bare, encoding="utf-8")
    found = run("test", "first.clauses")
    assert found.return_value == 2
    assert found.output.splitlines() == [
        "first.clauses is read without errors.",
        "2 of 2 examples come out as they say.",
        "1 of 21 clauses and 0 of 0 table cells have an example.",
        "`--missing` lists the others; `speccheck examples first.clauses` proposes lines for them.",
    ]
    assert run("test", "first.clauses", "--missing").output.count("has no example") == 20


@pytest.mark.parametrize(
    ("guessed", "told"),
    [
        ("validate", "there is no command `validate`; write `speccheck test`"),
        ("Vocabulary", "there is no command `Vocabulary`; write `speccheck terms`"),
        ("proofraed", "there is no command `proofraed`; did you mean `proofread`?"),
        ("zzz", "there is no command `zzz`; `speccheck --help` lists them"),
    ],
)
def test_a_guessed_command_is_answered_with_the_one_that_does_it(guessed: str, told: str) -> None:
    """Somebody who guesses how a command is called reads what to write."""
    with pytest.raises(click.UsageError, match=re.escape(told)):
        speccheck.main([guessed], standalone_mode=False)


def test_what_people_guess_is_no_command_and_leads_to_one() -> None:
    """Every guessed word leads to a command, and none hides one."""
    assert set(GUESSED.values()) <= set(COMMANDS)
    assert not set(GUESSED) & set(COMMANDS)


def test_blank_is_read_back_without_a_mapping(folder: Path) -> None:
    """The blank schedule has the columns that the clauses need; filled in, it is checked without a warning."""
    from openpyxl import load_workbook

    assert run("blank", "small.clauses", "blank.xlsx").return_value == 0
    workbook = load_workbook(folder / "blank.xlsx")
    sheet = workbook["Schedule"]
    headers = [cell.value for cell in sheet[1]]
    assert headers[-2:] == ["service", "thickness (in)"]
    for column, value in zip(("A", "B", "C"), ("L-1", "chilled water", "1-1/2"), strict=True):
        sheet[f"{column}2"] = value
    workbook.save(folder / "filled.xlsx")
    found = run("check", "filled.xlsx", "--against", "small.clauses")
    assert found.return_value == 0
    assert "warning" not in found.output


def test_the_lists_of_a_blank_are_no_hidden_schedule(folder: Path) -> None:
    """The hidden sheet that a blank carries is accounted for without a word; a note that somebody put there is not."""
    from openpyxl import load_workbook

    assert run("blank", "small.clauses", "blank.xlsx").return_value == 0
    workbook = load_workbook("blank.xlsx")
    heads = {cell.value: cell.column for cell in workbook["Schedule"][1]}
    for head, value in (("mark", "P-1"), ("service", "chilled water"), ("thickness (in)", 1)):
        workbook["Schedule"].cell(2, heads[head], value)
    workbook.save("filled.xlsx")
    found = run("check", "filled.xlsx", "--against", "small.clauses")
    assert found.return_value == 0
    assert "Lists" not in found.output
    assert "warning" not in found.output
    workbook["Lists"].cell(9, 1, "only on the roof")
    workbook.save("noted.xlsx")
    found = run("check", "noted.xlsx", "--against", "small.clauses", "--full")
    assert "sheet `Lists` is hidden, and its" in " ".join(found.output.split())


def test_names_of_files_need_not_be_text(folder: Path) -> None:
    """A ruleset, a schedule and a page whose names are no UTF-8, as old systems write them, are like any other."""
    import os

    rules, schedule, page = (os.fsdecode(name) for name in (b"r\xff.clauses", b"s\xff.csv", b"p\xff.html"))
    try:
        (folder / rules).write_text(RULES, encoding="utf-8")
    except OSError:
        pytest.skip("this file system takes no such names")
    (folder / schedule).write_text(f"{HEADER}P-1,CHW,1\n", encoding="utf-8")
    for words in (("check", schedule, "--against", rules, "--page", page), ("test", rules), ("proofread", rules)):
        call = [sys.executable, "-m", "speccheck", *words]
        ended = subprocess.run(call, cwd=folder, capture_output=True, env={**os.environ, "PYTHONIOENCODING": "utf-8"})
        assert (ended.returncode, ended.stderr) == (0, b"")
    assert (folder / page).is_file()


def test_blank_offers_the_values_of_a_list(folder: Path) -> None:
    """The column of a term with a closed list has a drop-down that holds all its values."""
    from openpyxl import load_workbook

    run("blank", "small.clauses", "blank.xlsx")
    workbook = load_workbook(folder / "blank.xlsx")
    (choose,) = workbook["Schedule"].data_validations.dataValidation
    assert str(choose.sqref) == "B2:B500"
    listed = [cell.value for cell in workbook["Lists"]["A"]][1:]
    assert {"chilled water", "heating hot water"} <= set(listed)
    assert choose.formula1 == f"Lists!$A$2:$A${len(listed) + 1}"


def test_format_changes_layout_only(folder: Path) -> None:
    """An untidy file is put in the house style once, and then left alone."""
    untidy = RULES.replace("  where   ", " where ").replace(
        "at least 1 in\n  example", "at least 1 in -- why\n example"
    )
    (folder / "untidy.clauses").write_text(untidy, encoding="utf-8")
    assert run("format", "--check", "untidy.clauses").return_value == 1
    assert run("format", "untidy.clauses").return_value == 0
    assert "-- why" in (folder / "untidy.clauses").read_text(encoding="utf-8")
    assert run("format", "--check", "untidy.clauses").return_value == 0


def test_guide_explains_every_code() -> None:
    """Each code in the list has an explanation of its own."""
    listed = [line.split()[0] for line in run("guide").output.splitlines()]
    assert len(listed) > 40
    assert len(set(listed)) == len(listed)
    for code in listed:
        assert run("guide", code.lower()).output.startswith(f"{code}: ")
    assert "It says:\n  `...` is no table: name a table\n" in run("guide", "L201").output


def test_terms_finds_what_schedules_say() -> None:
    """A term is found by a synonym that a contractor writes; words that nothing holds end with status 2."""
    found = run("terms", "--about", "vapor dam")
    assert found.return_value == 0
    assert "vapor stop spacing" in found.output
    assert run("terms", "--about", "no such thing").return_value == 2


def test_interrupted_run_says_so(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    """Somebody who stops a run is told that nothing was written, with a status that no verdict has."""

    def stop(**_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(speccheck, "main", stop)
    with pytest.raises(SystemExit) as ended:
        main()
    assert ended.value.code == 130
    assert capsys.readouterr().err == "stopped; nothing was written\n"


def test_an_output_that_is_closed_is_no_verdict(folder: Path) -> None:
    """A reader that stops early ("... | head") ends the run with status 3, not 1, and still gets the reports."""
    rows = "".join(f"P-{number},CHW,1/2\n" for number in range(4000))
    (folder / "schedule.csv").write_text(HEADER + rows, encoding="utf-8")
    command = f"{sys.executable} -m speccheck check schedule.csv --against small.clauses --json matrix.json"
    piped = f"{command} | head -n 1; echo ${{PIPESTATUS[0]}}"
    found = subprocess.run(["bash", "-c", piped], cwd=folder, capture_output=True, text=True, check=False)
    assert (found.stdout, found.stderr) == ("Small\n3\n", "")
    assert (folder / "matrix.json").exists()


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no device that is always full")
def test_an_output_that_is_full_is_said(folder: Path) -> None:
    """Where nothing can be printed any more the run ends with status 3 and says why."""
    (folder / "schedule.csv").write_text(HEADER + "P-1,CHW,1\n", encoding="utf-8")
    words = [sys.executable, "-m", "speccheck", "check", "schedule.csv", "--against", "small.clauses"]
    with open("/dev/full", "w", encoding="utf-8") as full:
        found = subprocess.run(words, cwd=folder, stdout=full, stderr=subprocess.PIPE, text=True, check=False)
    assert (found.returncode, found.stderr) == (3, "stopped: no space left on device\n")
