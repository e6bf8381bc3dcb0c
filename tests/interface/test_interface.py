"""The public interface, as a script or a notebook uses it."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pandas as pd
import polars as pl
import pyarrow as pa
import pytest

import speccheck
from speccheck import Review, UnusableInput, Verdict
from tests.some import some
from tests.tools.script_guide import GUIDE, renewed

RULES = """ruleset "Small"
  speaks mechanical insulation
  units  inch-pound

clause 1.1 "Thickness"
  where  service is chilled water
  shall  thickness be at least 1 in

clause 1.2 "Vapor stops"
  where  service is chilled water
  should vapor stop spacing be at most 15 ft
"""
ROWS = [
    {"Mark": "A", "Service": "CHW", "Thk (in)": 1.0},
    {"Mark": "B", "Service": "CHW", "Thk (in)": 0.5},
    {"Mark": "C", "Service": "CHW", "Thk (in)": None},
]
VERDICTS = [("B", "1.1", Verdict.FAILS), ("C", "1.1", Verdict.CANNOT_TELL)]


@pytest.fixture
def rules(tmp_path: Path) -> Path:
    """The path of a small ruleset."""
    path = tmp_path / "small.clauses"
    path.write_text(RULES, encoding="utf-8")
    return path


@pytest.fixture
def schedule(tmp_path: Path) -> Path:
    """The path of a schedule of three lines: one complies, one fails, one lacks its thickness."""
    path = tmp_path / "schedule.csv"
    path.write_text("Mark,Service,Thk (in)\nA,CHW,1\nB,CHW,1/2\nC,CHW,TBD\n", encoding="utf-8")
    return path


def verdicts(review: Review) -> list[tuple[str, str, Verdict]]:
    """Return line, clause and verdict of each finding."""
    return [(one.line, one.clause, one.verdict) for one in review.findings]


def test_a_check_by_paths(rules: Path, schedule: Path) -> None:
    """One call gives the outcome, and findings with line, clause, verdict, reason and place."""
    review = speccheck.check(schedule, against=rules)
    assert (review.outcome.status, review.outcome.heading) == (1, "The schedule does not comply.")
    assert verdicts(review) == VERDICTS
    fails, unknown = review.findings
    assert (fails.reason, fails.place, fails.title) == (
        "thickness is 1/2 in, but must be at least 1 in",
        "A3",
        "Thickness",
    )
    assert (unknown.missing, unknown.mandatory) == (("thickness",), True)
    assert (review.lines, review.clauses) == (("A", "B", "C"), ("1.1", "1.2"))
    assert len(list(review)) == len(review.rows()) == 6


@pytest.mark.parametrize("make", [lambda rows: rows, pd.DataFrame, pl.DataFrame, pa.Table.from_pylist])
def test_frames_are_read_as_files_are(rules: Path, make: type) -> None:
    """Plain rows, and frames of pandas, Polars and Arrow, give the verdicts of the file; what is null is not given."""
    assert verdicts(speccheck.check(make(ROWS), against=rules)) == VERDICTS


def test_a_cell_by_its_names(rules: Path, schedule: Path) -> None:
    """A line and a clause name a cell with its working; a slip in a name is told with the nearest."""
    review = speccheck.check(schedule, against=rules)
    found = review["B", "1.1"]
    assert found.verdict is Verdict.FAILS
    assert "Step by step" in found.working()
    assert "at least 1 in" in found.working()
    with pytest.raises(KeyError, match=r"no clause is called `1\.11`; did you mean `1\.1`\?"):
        review["B", "1.11"]


def test_one_line_judged(rules: Path) -> None:
    """A ruleset judges a line that is stated as a mapping; what is not stated is missing."""
    loaded = speccheck.load_ruleset(rules)
    assert loaded.judge({"service": "chilled water", "thickness": "2 in"}).outcome.status == 0
    assert loaded.judge({"service": "chilled water", "thickness": 0.5}).outcome.status == 1
    assert loaded.judge({"service": "chilled water"}).findings[0].missing == ("thickness",)
    assert loaded.judge({"service": "steam", "thickness": "2 in"}, name="S-1").outcome.unjudged_names == ("S-1",)


def test_reports_are_saved_by_their_ending(rules: Path, schedule: Path, tmp_path: Path) -> None:
    """The ending says which report; an ending that says nothing, and a file that was read, are refused."""
    review = speccheck.check(schedule, against=rules)
    for name in ("r.html", "r.xlsx", "r.json", "r.md", "r.csv"):
        assert review.save(tmp_path / name).stat().st_size > 100
    assert json.loads((tmp_path / "r.json").read_text(encoding="utf-8"))["outcome"]["status"] == 1
    with pytest.raises(ValueError, match=r"no kind of report has the ending `\.pdf`"):
        review.save(tmp_path / "r.pdf")
    before = schedule.read_bytes()
    with pytest.raises(speccheck.NotWritten, match="is a file that the report is made from"):
        review.save(schedule)
    with pytest.raises(speccheck.NotWritten, match="is a file that the report is made from"):
        review.save(rules, kind="json")
    assert (schedule.read_bytes(), rules.read_text(encoding="utf-8")) == (before, RULES)


def test_a_frame_of_the_matrix(rules: Path, schedule: Path) -> None:
    """The matrix as a frame has a row for each cell."""
    frame = speccheck.check(schedule, against=rules).to_frame()
    assert list(frame["verdict"])[:4] == ["complies", "cannot be determined", "does not comply", "cannot be determined"]
    assert list(frame["line"]) == ["A", "A", "B", "B", "C", "C"]


@pytest.mark.parametrize(
    ("schedule_text", "rules_text", "message", "codes"),
    [
        ("Mark,Service,Thk (in)\n", RULES, "no line of schedule.csv can be judged", {"S208"}),
        ("Mark,Service\nA,CHW\n", "ruleset", "the ruleset small.clauses cannot be used", {"L103"}),
    ],
)
def test_what_cannot_be_used_raises_with_its_diagnostics(
    tmp_path: Path, schedule_text: str, rules_text: str, message: str, codes: set[str]
) -> None:
    """The exception says which input, and carries every diagnostic as a value."""
    (tmp_path / "schedule.csv").write_text(schedule_text, encoding="utf-8")
    (tmp_path / "small.clauses").write_text(rules_text, encoding="utf-8")
    with pytest.raises(UnusableInput, match=message) as raised:
        speccheck.check(tmp_path / "schedule.csv", against=tmp_path / "small.clauses")
    assert {found.code for found in raised.value.diagnostics} == codes
    assert str(raised.value.diagnostics[0]) in str(raised.value)


def test_what_is_printed_of_objects_is_short(rules: Path, schedule: Path) -> None:
    """A notebook shows a line for each object, however large the matrix is."""
    review = speccheck.check(schedule, against=rules)
    shown = [repr(one) for one in (review, review.matrix, review.schedule, speccheck.load_ruleset(rules))]
    shown += [repr(review.matrix.ruleset), repr(review.findings[0]), repr(review.outcome)]
    assert shown[0] == "<Review of schedule.csv: The schedule does not comply.>"
    assert shown[5].startswith("<Finding B, 1.1: does not comply. thickness is 1/2 in")
    assert max(map(len, shown)) < 600


def test_everything_that_was_read_is_known(rules: Path, schedule: Path, tmp_path: Path) -> None:
    """A ruleset that builds on another one counts that one's file among those that no report may replace."""
    built = tmp_path / "built.clauses"
    built.write_text('ruleset "Built"\n  builds on "small"\n', encoding="utf-8")
    review = speccheck.check(schedule, against=built)
    assert {rules.resolve(), built.resolve(), schedule.resolve()} <= {path.resolve() for path in review.files}


def test_importing_costs_nothing_until_used() -> None:
    """`import speccheck` loads neither NumPy nor pydantic nor any floor of the house."""
    script = (
        "import sys, speccheck; print([n for n in sys.modules if n.startswith(('speccheck.', 'numpy', 'pydantic'))])"
    )
    run = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    assert run.stdout.strip() == "[]"


def test_public_names_are_all_there() -> None:
    """Each public name can be had, and a name that is none is an AttributeError."""
    assert all(getattr(speccheck, name) is not None for name in some(speccheck.__all__))
    with pytest.raises(AttributeError, match="has no attribute `judge_everything`"):
        speccheck.judge_everything  # noqa: B018


def test_the_guide_runs() -> None:
    """Every example of the guide for scripts runs as it stands and prints what the guide says.

    `python -m tests.tools.script_guide` renews what they print.
    """
    text = GUIDE.read_text(encoding="utf-8")
    assert text.count("```python") >= 5
    assert renewed(text) == text
