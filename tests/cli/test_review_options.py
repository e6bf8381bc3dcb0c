"""`check` with a design list, product data and deviations, and `compare`, as a person runs them."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from speccheck.cli import speccheck
from tests.review.rounds import FILES

DEVIATION = """[[deviation]]
name = "D-1"
clause = "1.2"
lines = "orientation is vertical"
reason = "Short risers"
reference = "RFI 12"
until = 2026-06-30
"""


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Stand in a folder with the plant, its riser alone in a schedule, and a register for it."""
    monkeypatch.chdir(tmp_path)
    for name in ("plant.clauses", "plant.csv"):
        (tmp_path / name).write_bytes((FILES / name).read_bytes())
    rows = (FILES / "plant.csv").read_text(encoding="utf-8").splitlines()
    (tmp_path / "riser.csv").write_text("\n".join([rows[0], rows[4]]) + "\n", encoding="utf-8")
    (tmp_path / "mended.csv").write_text("\n".join([rows[0], rows[4].replace(",18,", ",15,")]) + "\n", encoding="utf-8")
    (tmp_path / "deviations.toml").write_text(DEVIATION, encoding="utf-8")
    return tmp_path


def run(*words: str) -> Result:
    """Run a command in this process and return its output and its status."""
    return CliRunner().invoke(speccheck, list(words), standalone_mode=False, catch_exceptions=False)


def status(*words: str) -> int:
    """Run a command and return its exit status; one that stops early states it by leaving."""
    found = CliRunner().invoke(speccheck, list(words), standalone_mode=False)
    return found.return_value if isinstance(found.return_value, int) else found.exit_code


CHECK = ("check", "riser.csv", "--against", "plant.clauses", "--quiet")


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ((), 1),
        (("--deviations", "deviations.toml", "--on", "2026-06-30"), 0),
        (("--deviations", "deviations.toml", "--on", "2026-07-01"), 1),
        (("--deviations", "deviations.toml"), 1),
    ],
)
def test_accepted_deviation_is_no_fail_and_an_expired_one_is(
    folder: Path, words: tuple[str, ...], expected: int
) -> None:
    """The riser fails; accepted it ends with 0, after the last day or without a day it fails again."""
    assert status(*CHECK, *words) == expected


def test_omission_ends_with_cannot_tell(folder: Path) -> None:
    """A schedule that complies and leaves out systems of the design list ends with 2."""
    words = ("check", "mended.csv", "--against", "plant.clauses", "--quiet")
    assert status(*words) == 0
    assert status(*words, "--design", "plant.csv") == 2


@pytest.mark.parametrize(
    "words",
    [
        ("--deviations", "nowhere.toml"),
        ("--design", "nowhere.csv"),
        ("--products", "plant.clauses"),
        ("--on", "4 March"),
    ],
)
def test_files_that_cannot_be_used_end_with_3(folder: Path, words: tuple[str, ...]) -> None:
    """A file that is not there or is no such file, and a day that is none, judge nothing."""
    found = CliRunner().invoke(speccheck, [*CHECK, *words], standalone_mode=False)
    assert found.exit_code in (1, 3)
    assert found.return_value is None
    assert "Traceback" not in found.output


def test_mistake_in_the_register_is_shown_at_its_place(folder: Path) -> None:
    """The condition of a deviation is checked before any line is judged."""
    (folder / "deviations.toml").write_text(DEVIATION.replace("vertical", "upright"), encoding="utf-8")
    found = CliRunner().invoke(speccheck, [*CHECK, "--deviations", "deviations.toml"], standalone_mode=False)
    assert found.exit_code == 3
    assert "`upright` is not a value of `orientation`" in found.output
    assert "at deviations.toml:4:25" in found.output


def test_rounds_are_compared(folder: Path) -> None:
    """The riser was mended: one finding is closed, and the status is that of the new round."""
    found = run("compare", "riser.csv", "mended.csv", "--against", "plant.clauses", "--quiet")
    assert found.output == "Findings: 1 closed. 0 changes not requested by the review.\n"
    assert found.return_value == 0
    back = run("compare", "mended.csv", "riser.csv", "--against", "plant.clauses", "--quiet", "--json", "r.json")
    assert back.output == "Findings: 1 new. 1 change not requested by the review.\nwrote r.json\n"
    assert back.return_value == 1
    report = json.loads((folder / "r.json").read_text(encoding="utf-8"))
    assert [one["fate"] for one in report["comparison"]["findings"]] == ["new"]


def test_compare_takes_what_check_takes(folder: Path) -> None:
    """Deviations, design list and product data are checked against the new round."""
    found = run(
        "compare", "mended.csv", "riser.csv", "--against", "plant.clauses",
        "--deviations", "deviations.toml", "--on", "2026-03-04", "--design", "riser.csv", "--quiet",
    )  # fmt: skip
    assert found.output == "No finding in either round. 1 change not requested by the review.\n"
    assert found.return_value == 0


def test_rulesets_are_compared(folder: Path) -> None:
    """Two editions: 0 where they mean the same, 1 where a clause means something else; with a schedule its status."""
    text = (folder / "plant.clauses").read_text(encoding="utf-8")
    (folder / "same.clauses").write_text(text.replace("15 ft", "180 in"), encoding="utf-8")
    (folder / "looser.clauses").write_text(text.replace("15 ft", "18 ft"), encoding="utf-8")
    same = run("compare", "plant.clauses", "same.clauses")
    assert same.output == "The two editions are the same, clause by clause.\n"
    assert same.return_value == 0
    looser = run("compare", "plant.clauses", "looser.clauses")
    assert "requirement: vapor stop spacing is at most 15 ft; now vapor stop spacing is" in looser.output
    assert looser.return_value == 1
    judged = run("compare", "plant.clauses", "looser.clauses", "--schedule", "riser.csv", "--quiet")
    assert judged.output == "Findings: 1 closed. 0 changes not requested by the review.\n"
    assert judged.return_value == 0


@pytest.mark.parametrize(
    "words",
    [
        ("riser.csv", "mended.csv"),
        ("plant.clauses", "mended.csv", "--against", "plant.clauses"),
        ("plant.clauses", "plant.clauses", "--against", "plant.clauses"),
        ("riser.csv", "mended.csv", "--against", "plant.clauses", "--schedule", "riser.csv"),
    ],
)
def test_calls_that_cannot_be_understood(folder: Path, words: tuple[str, ...]) -> None:
    """A schedule needs a ruleset to be judged by, two rulesets need none, and one of each cannot be compared."""
    import click

    with pytest.raises(click.UsageError):
        run("compare", *words)


def test_reports_are_not_written_over_what_they_are_made_from(folder: Path) -> None:
    """A register is a file that the report is made from, so that no report takes its place."""
    words = (*CHECK, "--deviations", "deviations.toml", "--on", "2026-03-04", "--markdown", "deviations.toml")
    assert status(*words) == 3
    assert (folder / "deviations.toml").read_text(encoding="utf-8") == DEVIATION


def test_guide_explains_the_codes_of_the_review() -> None:
    """`guide` knows what a review finds beside the verdicts."""
    found = run("guide", "V102")
    assert found.output.startswith("V102: system covered in part\n")
