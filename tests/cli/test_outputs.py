"""The files that commands write: never over the work of others, never over what was read, and always told."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from speccheck.cli import COMMANDS, speccheck

RULES = """ruleset "Small"
  builds on "base"

clause 1.1 "Thickness"
  wording "Insulate with at least 1 in."
  where   service is chilled water
  shall   thickness be at least 1 in
  example "enough" complies
          service chilled water, thickness 1 in
"""
BASE = """ruleset "Base"
  speaks mechanical insulation
  units  inch-pound

clause 9 "Thickness of steam"
  where service is steam
  shall thickness be at least 1 in
"""
LINE = """pipe size 4 in, pipe material steel, insulation elastomeric foam, conductivity 0.25 Btu.in/(h.ft2.F),
jacket emittance 0.9, operating temperature 42 F, ambient temperature 80 F, relative humidity 90 %, thickness 1 in"""
WEATHER = Path(__file__).parents[2] / "examples" / "weather" / "emberlow-hollow.epw"
CHECK = ("check", "schedule.csv", "--against", "small.clauses")

# Every option of every command that names a file to write, with a call that writes it.
WRITES = [
    (*CHECK, "--page"),
    (*CHECK, "--workbook"),
    (*CHECK, "--json"),
    (*CHECK, "--markdown"),
    (*CHECK, "--findings"),
    ("compare", "before.csv", "schedule.csv", "--against", "small.clauses", "--page"),
    ("corrections", "schedule.xlsx", "--against", "small.clauses", "--workbook"),
    ("reply", "schedule.csv", "--against", "small.clauses", "--page"),
    ("reply", "schedule.csv", "--against", "small.clauses", "--word"),
    ("reply", "schedule.csv", "--against", "small.clauses", "--keep-notes"),
    ("markup", "schedule.xlsx", "--against", "small.clauses", "--into"),
    ("blank", "small.clauses"),
    ("sweep", "small.clauses", "service chilled water; thickness 1 in, 2 in", "--page"),
    ("proofread", "small.clauses", "--page"),
    ("proofread", "small.clauses", "--markdown"),
    ("prose", "small.clauses", "--page"),
    ("prose", "small.clauses", "--word"),
    ("examples", "small.clauses", "--into"),
    ("system", LINE, "--picture"),
    ("weather", str(WEATHER), "--into"),
    ("draft", "section.txt", "--into"),
    ("draft", "section.txt", "--into", "drafted.clauses", "--page"),
]


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Stand in a folder with a ruleset that builds on another one, and schedules of one line."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "small.clauses").write_text(RULES, encoding="utf-8")
    (tmp_path / "base.clauses").write_text(BASE, encoding="utf-8")
    for name in ("schedule.csv", "before.csv"):
        (tmp_path / name).write_text("Mark,Service,Thk (in)\nA,CHW,1/2\n", encoding="utf-8")
    (tmp_path / "section.txt").write_text("A. Flame spread shall be not more than 25.\n", encoding="utf-8")
    _write_workbook(tmp_path / "schedule.xlsx")
    return tmp_path


def _write_workbook(path: Path) -> None:
    from openpyxl import Workbook

    workbook = Workbook()
    workbook.active.append(["Mark", "Service", "Thk (in)"])
    workbook.active.append(["A", "CHW", 0.5])
    workbook.save(path)


def run(*words: str) -> Result:
    """Run a command in this process."""
    return CliRunner().invoke(speccheck, list(words), standalone_mode=False, catch_exceptions=False)


def contents(folder: Path) -> dict[str, bytes]:
    """Return every file of a folder with its bytes."""
    return {path.name: path.read_bytes() for path in folder.iterdir()}


def test_every_option_that_names_a_file_to_write_is_tried_here() -> None:
    """A command whose help says "Write ..." stands in the list above, so that a new one is held to the same rules."""
    tried = {(words[0], words[-1]) for words in WRITES if words[-1].startswith("--")}
    writing = set()
    for name in COMMANDS:
        command = speccheck.get_command(None, name)  # type: ignore[arg-type]
        assert command is not None
        for option in command.params:
            told = getattr(option, "help", None) or ""
            if told.startswith("Write ") and "FILE" in str(option.metavar) and name != "compare":
                writing.add((name, option.opts[0]))
    assert writing
    assert writing - tried == set()


@pytest.mark.parametrize("words", WRITES, ids=lambda words: f"{words[0]} {words[-1]}")
def test_a_command_writes_over_no_work_of_others(folder: Path, words: tuple[str, ...]) -> None:
    """It says what it wrote; written again it is replaced; changed by hand it stays until `--replace`, told."""
    first = run(*words, "out")
    assert (first.return_value != 3, (folder / "out").is_file()) == (True, True), first.output
    assert "wrote out" in first.output.splitlines()
    assert run(*words, "out").return_value != 3
    (folder / "out").write_text("an afternoon of work", encoding="utf-8")
    again = run(*words, "out")
    assert again.return_value == 3
    assert "R107" in again.output
    assert (folder / "out").read_text(encoding="utf-8") == "an afternoon of work"
    replaced = run(*words, "out", "--replace")
    assert replaced.return_value == first.return_value
    assert "replaced out" in replaced.output.splitlines()


@pytest.mark.parametrize("words", WRITES, ids=lambda words: f"{words[0]} {words[-1]}")
@pytest.mark.parametrize("read", ["schedule.csv", "schedule.xlsx", "small.clauses", "base.clauses"])
def test_a_command_writes_over_nothing_that_it_read(folder: Path, words: tuple[str, ...], read: str) -> None:
    """Neither the schedule nor the ruleset nor one that it builds on is replaced, not even with `--replace`."""
    reads = read in words or (read == "base.clauses" and "small.clauses" in words) or read == "small.clauses"
    if not reads or words[0] in ("system", "draft", "weather"):
        pytest.skip("this command does not read that file")
    before = contents(folder)
    found = run(*words, read, "--replace")
    assert found.return_value == 3 or isinstance(found.exception, SystemExit)
    assert "R102" in found.output
    assert contents(folder) == before


def test_two_outputs_with_one_name_are_refused(folder: Path) -> None:
    """Nothing is judged or written where one report would silently take the place of another."""
    before = contents(folder)
    found = CliRunner().invoke(speccheck, [*CHECK, "--page", "out", "--json", "./out"])
    assert found.exit_code == 3
    assert "error[R108]: two reports are called `out`" in found.output
    assert contents(folder) == before


def test_standard_output_has_the_report_and_nothing_else(folder: Path) -> None:
    """`--json -` prints the report alone, makes no file called `-`, and keeps the status of the check."""
    import json

    found = subprocess.run(
        [sys.executable, "-m", "speccheck", *CHECK, "--json", "-", "--page", "out.html"],
        capture_output=True,
        check=False,
    )
    assert found.returncode == 1
    assert json.loads(found.stdout)["outcome"]["status"] == 1
    assert found.stderr.decode().splitlines() == ["wrote out.html"]
    assert not (folder / "-").exists()


def test_notes_are_not_wiped(folder: Path) -> None:
    """Notes that are kept from round to round stay where a reply does not read them."""
    keep = ("reply", "schedule.csv", "--against", "small.clauses", "--keep-notes", "notes.toml")
    assert run(*keep).return_value == 0
    notes = (folder / "notes.toml").read_text(encoding="utf-8").replace('text = ""', 'text = "Call me."')
    (folder / "notes.toml").write_text(notes, encoding="utf-8")
    assert run(*keep).return_value == 3
    assert (folder / "notes.toml").read_text(encoding="utf-8") == notes


@pytest.mark.parametrize(
    ("failing", "fault"),
    [
        ("speccheck.report.html.page.render_page", "KeyError('x')"),
        ("speccheck.report.html.page.render_page", "FileNotFoundError(2, 'No such file', 'a template')"),
        ("speccheck.review.reviewing.judge_lines", "KeyError('x')"),
    ],
)
def test_a_fault_of_the_program_is_status_3_and_says_so(folder: Path, failing: str, fault: str) -> None:
    """A crash is no verdict: neither status 1, which says that something does not comply, nor a traceback."""
    module, _, name = failing.rpartition(".")
    script = (
        "import sys; from importlib import import_module\n"
        f"def boom(*_, **__): raise {fault}\n"
        f"owner = {module!r}\n"
        "try: owner = import_module(owner)\n"
        "except ImportError:\n"
        "    at, _, inner = owner.rpartition('.'); owner = getattr(import_module(at), inner)\n"
        f"setattr(owner, {name!r}, boom)\n"
        f"sys.argv = ['speccheck', *{CHECK!r}, '--page', 'out.html']\n"
        "from speccheck.cli import main; main()\n"
    )
    found = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=False)
    assert found.returncode == 3
    assert f"a fault of the program, and no verdict on anything ({fault.partition('(')[0]} in " in found.stderr
    assert "nothing was written" in found.stderr
    assert "Traceback" not in found.stderr


@pytest.mark.skipif(os.name == "nt", reason="Windows has no such signal")
@pytest.mark.parametrize("number", ["SIGINT", "SIGTERM"])
@pytest.mark.parametrize("module", ["speccheck.cli", "click", "speccheck.cli.check"])
def test_ctrl_c_while_modules_are_loaded_is_told(folder: Path, module: str, number: str) -> None:
    """Somebody who stops a run before its commands are loaded gets a message and a status, and no traceback."""
    script = (
        "import sys, os, signal\n"
        "class Stopping:\n"
        "    def find_spec(self, name, *_):\n"
        f"        if name == {module!r}: os.kill(os.getpid(), signal.{number})\n"
        "sys.meta_path.insert(0, Stopping())\n"
        f"sys.argv = ['speccheck', *{CHECK!r}, '--page', 'out.html']\n"
        "from speccheck.__main__ import main; main()\n"
    )
    found = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=False)
    assert (found.returncode, found.stderr.strip(), found.stdout) == (130, "stopped; nothing was written", "")
    assert not (folder / "out.html").exists()


@pytest.mark.skipif(os.name == "nt", reason="Windows has no such signal")
def test_ctrl_c_at_the_end_changes_no_verdict(folder: Path) -> None:
    """When all is written and said it comes too late: the status stays that of the schedule, and no word comes."""
    script = (
        "import sys, os, signal\n"
        "from speccheck.__main__ import main\n"
        f"sys.argv = ['speccheck', *{CHECK!r}, '--page', 'out.html', '--quiet']\n"
        "try: main()\n"
        "finally: os.kill(os.getpid(), signal.SIGINT)\n"
    )
    found = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=False)
    assert (found.returncode, found.stderr) == (1, "")
    assert (folder / "out.html").exists()


@pytest.mark.skipif(os.name == "nt", reason="Windows has no such signal")
def test_a_run_that_passes_over_ctrl_c_goes_on(folder: Path) -> None:
    """Where the signal was passed over before the run began, as under nohup, it stays so."""
    script = (
        "import sys, os, signal\n"
        "signal.signal(signal.SIGINT, signal.SIG_IGN)\n"
        f"sys.argv = ['speccheck', *{CHECK!r}, '--page', 'out.html', '--quiet']\n"
        "import speccheck.cli.check as check\n"
        "os.kill(os.getpid(), signal.SIGINT)\n"
        "from speccheck.__main__ import main\n"
        "try: main()\n"
        "finally: assert signal.getsignal(signal.SIGINT) is signal.SIG_IGN\n"
    )
    found = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=False)
    assert (found.returncode, found.stderr) == (1, "")


@pytest.mark.skipif(os.name == "nt", reason="Windows has no such signal")
def test_an_interruption_says_what_was_written_before(folder: Path) -> None:
    """Somebody who stops a run after the page was written is not told that nothing was."""
    script = (
        "import sys, os, signal\n"
        "import speccheck.report.terminal.short_report as report\n"
        "def late(*_, **__): os.kill(os.getpid(), signal.SIGINT)\n"
        "report.print_short = late\n"
        f"sys.argv = ['speccheck', *{CHECK!r}, '--page', 'out.html']\n"
        "from speccheck.cli import main; main()\n"
    )
    found = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=False)
    assert (found.returncode, found.stderr.strip()) == (130, "stopped; written before that: out.html")
