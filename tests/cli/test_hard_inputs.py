"""Inputs that are legal and hard: numbers of hundreds of digits, deep nesting, files that others cannot open.

None of them may end with status 1, which says that the schedule does not comply: what cannot be read is a cell that was
not read (status 2), or an input that cannot be used (status 3), and a message says which.
"""

from __future__ import annotations

import zipfile
from pathlib import Path

import pytest
from click.testing import CliRunner
from openpyxl import Workbook

from speccheck.cli import speccheck
from speccheck.extras import how_to_install

LARGE = "9" * 400
RULES = """ruleset "small"
  speaks mechanical insulation
  units inch-pound
clause 1.1 "Thickness"
  where   service is chilled water
  shall   thickness be at least 1 in
"""


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Work in a folder with a small ruleset and a schedule of one line."""
    monkeypatch.chdir(tmp_path)
    Path("small.clauses").write_text(RULES, encoding="utf-8")
    Path("schedule.csv").write_text("Service,Insulation,Thickness\nchilled water,fiberglass,1 in\n", encoding="utf-8")
    return tmp_path


def run(*arguments: str) -> tuple[int, str]:
    """Run a command; return its status and what it printed. No exception but the one that ends it may get out."""
    result = CliRunner().invoke(speccheck, arguments, standalone_mode=False)
    if isinstance(result.exception, SystemExit):
        return int(str(result.exception.code)), result.output
    assert result.exception is None, result.exception
    return result.return_value, result.output


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("large.csv", f"Service,Insulation,Thickness\nchilled water,fiberglass,{LARGE} in\n"),
        ("large.json", f'[{{"service": "chilled water", "insulation": "fiberglass", "thickness": {LARGE}}}]'),
        ("large.toml", f'[[line]]\nservice = "chilled water"\ninsulation = "fiberglass"\nthickness = {LARGE}\n'),
    ],
)
def test_a_number_of_400_digits_in_a_schedule_is_a_cell_that_was_not_read(name: str, text: str) -> None:
    """Whatever the format, the thickness is not given, the cell is told, and the line cannot be determined."""
    Path(name).write_text(text, encoding="utf-8")
    status, output = run("check", name, "--against", "small.clauses", "--full")
    assert status == 2
    told = " ".join(output.split())
    assert "too long for a number (40" in told
    assert "thickness is not given" in told
    assert "It cannot be determined whether the schedule complies." in told


@pytest.mark.parametrize(
    ("option", "text"),
    [
        ("--mapping", f"ignore = {LARGE}\n"),
        ("--deviations", f'[[deviation]]\nclause = "1.1"\nlines = {LARGE}\nreason = "r"\nreference = "RFI 1"\n'),
        ("--products", f'[[product]]\nname = "P"\nthickness = {LARGE}\n'),
        ("--mapping", "ignore = " + "[" * 3000 + "]" * 3000 + "\n"),
        ("--deviations", "deviation = " + "[" * 3000 + "]" * 3000 + "\n"),
        ("--products", "product = " + "[" * 3000 + "]" * 3000 + "\n"),
        ("--mapping", "a" + ".a" * 3000 + " = 1\n"),
    ],
)
def test_large_and_deep_values_in_a_file_beside_the_schedule(option: str, text: str) -> None:
    """A mapping file, a register or a list of products with them is refused by name, and nothing is judged."""
    Path("beside.toml").write_text(text, encoding="utf-8")
    status, output = run("check", "schedule.csv", "--against", "small.clauses", option, "beside.toml")
    assert status == 3
    assert "at beside.toml" in output
    assert "nothing was judged" in output


def test_a_number_of_400_digits_in_a_clause() -> None:
    """The ruleset is refused at the place of the number."""
    Path("large.clauses").write_text(RULES.replace("1 in", f"{LARGE} in"), encoding="utf-8")
    status, output = run("check", "schedule.csv", "--against", "large.clauses")
    assert status == 3
    assert output.startswith(f"error[L205]: `{'9' * 20}...` is too long for a number (403 characters)\n")
    assert "the ruleset large.clauses cannot be used; nothing was judged" in output


def test_parentheses_in_parentheses_are_no_nesting() -> None:
    """Three hundred of them around one condition say what one pair says."""
    condition = "(" * 300 + "service is chilled water" + ")" * 300
    Path("deep.clauses").write_text(RULES.replace("service is chilled water", condition), encoding="utf-8")
    assert run("check", "schedule.csv", "--against", "deep.clauses")[0] == 0


def test_conditions_inside_one_another_without_end_are_refused() -> None:
    """Five thousand denials of one condition are one mistake with its help, and no crash."""
    condition = "not " * 5000 + "service is steam"
    Path("deep.clauses").write_text(RULES.replace("service is chilled water", condition), encoding="utf-8")
    status, output = run("check", "schedule.csv", "--against", "deep.clauses")
    assert status == 3
    assert " ".join(output.split()) == (
        "error[L106]: `deep.clauses` has more than 100 conditions or amounts inside one another at deep.clauses:1:1 "
        '| ruleset "small" | ^ help: split it into several clauses or definitions 1 error. '
        "the ruleset deep.clauses cannot be used; nothing was judged"
    )


def test_a_workbook_that_was_read_and_cannot_be_opened_for_writing(folder: Path) -> None:
    """Styles that openpyxl refuses stop the corrected workbook with a message; the schedule is judged all the same."""
    workbook = Workbook()
    for row in (("Service", "Insulation", "Thickness"), ("chilled water", "fiberglass", "1/2 in")):
        workbook.worksheets[0].append(row)
    workbook.save(folder / "plain.xlsx")
    _with_odd_colours(folder / "plain.xlsx", folder / "odd.xlsx")
    assert run("check", "odd.xlsx", "--against", "small.clauses", "--quiet")[0] == 1
    status, output = run("corrections", "odd.xlsx", "--against", "small.clauses", "--workbook", "corrected.xlsx")
    assert status == 3
    assert "error[R105]: `odd.xlsx` was read, but cannot be opened for writing (ValueError)" in output
    assert "help: save it once more as .xlsx, and run again" in output
    assert not Path("corrected.xlsx").exists()


def _with_odd_colours(source: Path, target: Path) -> None:
    """Write a copy of a workbook with a colour that is none among its styles."""
    colours = b'<colors><indexedColors><rgbColor rgb="none"/></indexedColors></colors></styleSheet>'
    with zipfile.ZipFile(source) as old, zipfile.ZipFile(target, "w") as new:
        for name in old.namelist():
            content = old.read(name)
            new.writestr(name, content.replace(b"</styleSheet>", colours) if name == "xl/styles.xml" else content)


@pytest.mark.parametrize("extra", ["word", "editor", "desk", "proofread", "portfolio"])
def test_advice_to_install_names_no_index_of_packages(extra: str) -> None:
    """Another project could hold this one's name there: the advice is the command of the README, in its folder."""
    assert how_to_install(extra) == f"in the folder of this project, run `pip install '.[{extra}]'`"  # type: ignore[arg-type]
