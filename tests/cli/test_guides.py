"""README and guides: every command of them runs from the top folder, in a Unix shell as in Windows' command prompt."""

from __future__ import annotations

import re
import shlex
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner
from openpyxl import load_workbook

from speccheck.cli import COMMANDS, speccheck

TOP = Path(__file__).parents[2]
FOLDERS = (".", "grammar", "rulesets", "examples", "examples/dairy/second-round")
GUIDES = sorted(path for folder in FOLDERS for path in (TOP / folder).glob("*.md")) + sorted(
    (TOP / "examples").glob("*/README.md")
)
NOT_RUN = ("examples",)  # it tries every typing error of the demo's rulesets; tests/proofread runs it on small ones
SHORT = ("schedule.xlsx", "second-round/resubmittal.xlsx")
LAST_ROW = 11  # of the first lines of chilled water, with CHW-3


def lines_of(guide: Path) -> list[str]:
    """Return the lines of the blocks for a shell, as they stand; the two lines that install are run by `.ci/run`."""
    blocks = re.findall(r"(?<!command -->\n)```sh\n(.*?)```", guide.read_text(encoding="utf-8"), re.DOTALL)
    return [line for block in blocks for line in block.splitlines()]


def words_of(line: str) -> list[str]:
    """Return the words of a command behind the name of the program."""
    return shlex.split(line)[1:]


def shorten(path: Path) -> None:
    """Keep of a workbook of the demo the first rows of its first table, so that nothing takes long."""
    workbook = load_workbook(path)
    sheet = workbook["Piping"]
    for merged in list(sheet.merged_cells.ranges):
        if merged.max_row > LAST_ROW:
            sheet.unmerge_cells(str(merged))
    sheet.delete_rows(LAST_ROW + 1, sheet.max_row)
    del workbook["Ductwork & equipment"]
    workbook.save(path)


def fill_in(path: Path) -> None:
    """Fill one line into a blank schedule, as its contractor would."""
    workbook = load_workbook(path)
    heads = {cell.value: cell.column for cell in workbook["Schedule"][1]}
    workbook["Schedule"].cell(2, heads["mark"], "P-1")
    workbook["Schedule"].cell(2, heads["service"], "chilled water")
    workbook.save(path)


@pytest.fixture(scope="module")
def examples(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A top folder with the examples, the demo's schedules shortened."""
    top = tmp_path_factory.mktemp("top")
    shutil.copytree(TOP / "examples", top / "examples")
    for name in SHORT:
        shorten(top / "examples/dairy" / name)
    return top


def named(guide: Path) -> str:
    """Return what a guide is called in the list of tests."""
    return guide.relative_to(TOP).as_posix()


@pytest.mark.parametrize("guide", [guide for guide in GUIDES if lines_of(guide)], ids=named)
def test_the_commands_of_a_guide_run(guide: Path, examples: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """One after the other, from the top folder, none ends as unusable or as a fault of the program."""
    monkeypatch.chdir(examples)
    for line in lines_of(guide):
        words = words_of(line)
        if words[0] in NOT_RUN:
            continue
        ended = CliRunner().invoke(speccheck, words, standalone_mode=False)
        assert ended.exception is None, (line, ended.exception, ended.output[-500:])
        assert ended.return_value in (0, 1, 2), (line, ended.output[-500:])
        if words[0] == "blank":
            fill_in(examples / words[2])


def test_the_readme_has_commands_for_all_three_users() -> None:
    """The test above would be content with a README that shows nothing."""
    shown = {words_of(line)[0] for line in lines_of(TOP / "README.md")}
    assert shown >= {"check", "read", "compare", "reply", "markup", "draft", "test", "blank", "corrections"}


def test_each_command_is_one_line_that_both_shells_read_alike() -> None:
    """The command prompt of Windows knows no `\\` at the end, no single quotes and no `#`."""
    for guide in GUIDES:
        for line in lines_of(guide):
            assert line.startswith("speccheck "), (guide, line)
            assert not re.search(r"['#$\\`|;&]|\\$", re.sub(r'"[^"]*"', '""', line)), (guide, line)
            assert line.count('"') % 2 == 0, (guide, line)


def test_commands_stand_in_blocks_that_are_run() -> None:
    """A block without a language, or a command in a sentence, would be one that nothing runs."""
    for guide in GUIDES:
        text = guide.read_text(encoding="utf-8")
        assert not re.search(r"^```\nspeccheck ", text, re.MULTILINE), guide
        for words in re.findall(r"`speccheck ([^`]+)`", text):
            assert words.split()[0] in COMMANDS, (guide, words)
            of_a_message = "..." in words  # of the page of diagnostics, where the user's own file stands
            assert of_a_message or not re.search(r"\.(xlsx|clauses|toml|docx|pdf|html)\b", words), (guide, words)


def test_what_the_install_lines_run_has_a_line_for_windows() -> None:
    """Each command line for Unix that makes an environment has its like for Windows, with the same files."""
    text = (TOP / "README.md").read_text(encoding="utf-8")
    unix = re.findall(r"command -->\n```sh\n(.*?)\n```", text, re.DOTALL)
    (windows,) = re.findall(r"```bat\n(.*?)```", text, re.DOTALL)
    alike = [
        line.replace("python3", "python").replace(".venv/bin/", ".venv\\Scripts\\").replace("'", "").replace("/", "\\")
        for line in unix
    ]
    assert windows.splitlines() == alike
    assert len(alike) == 2
