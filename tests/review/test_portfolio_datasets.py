"""Parquet files as portfolios: the same verdicts as the same schedules as files, by a reader that shares no code."""

from __future__ import annotations

import csv
from pathlib import Path

import pyarrow as pa
import pytest

from speccheck.language.diagnostics import Diagnostic, Place, Severity
from speccheck.review.outcome import Standing
from speccheck.review.portfolio import Run, datasets, request_for, run_portfolio
from speccheck.review.portfolio.tallies import tallies
from speccheck.schedule import read_mapping
from tests.review.portfolio_schedules import (
    HEADINGS,
    contents,
    judged,
    loaded,
    results_of,
    rows_of,
    totals_of,
    write_csv,
    write_parquet,
    write_ruleset,
)


@pytest.fixture
def ruleset(tmp_path: Path) -> Path:
    """The ruleset that anybody can count by."""
    return write_ruleset(tmp_path)


def columns_of_schedules(schedules: int, lines: int) -> dict[str, list[str]]:
    """Return the lines of several schedules, one after the other, with a column that names the schedule."""
    rows = [(f"s{number}", *row) for number in range(schedules) for row in rows_of(number, lines)]
    return {name: [row[place] for row in rows] for place, name in enumerate(("Submittal", *HEADINGS))}


@pytest.mark.parametrize("rows_in_group", [7, 1_000])
def test_verdicts_are_those_of_the_schedules_as_files(tmp_path: Path, ruleset: Path, rows_in_group: int) -> None:
    """Cut into row groups anywhere, the schedules of a Parquet file have the counts of the same schedules as files."""
    for number in range(6):
        write_csv(tmp_path / f"files/s{number}.csv", rows_of(number, 10))
    write_parquet(tmp_path / "set/all.parquet", columns_of_schedules(6, 10), rows_in_group)
    rules = loaded(ruleset)
    files = list(tallies(judged(tmp_path / "files", ruleset, tmp_path / "a").results(), rules))
    parts = list(tallies(judged(tmp_path / "set/all.parquet", ruleset, tmp_path / "b").results(), rules))
    assert [tally.name for tally in parts] == [f"all.parquet: s{number}" for number in range(6)]
    assert [tally.counts.tolist() for tally in parts] == [tally.counts.tolist() for tally in files]
    assert [tally.lines for tally in parts] == [tally.lines for tally in files]


def test_kinds_of_cells(tmp_path: Path, ruleset: Path) -> None:
    """Numbers, lists and missing values are read as the texts that a schedule would have."""
    columns = {
        "Service": ["chilled water"] * 3,
        "Thk (in)": [0.5, 2.0, None],
        "Seam Closure": [["factory adhesive"], ["tape"], []],
        "Concealed": [True, False, None],
    }
    write_parquet(tmp_path / "all/one.parquet", columns)
    ((_, (found,)),) = results_of(judged(tmp_path / "all", ruleset, tmp_path / "out"))
    assert [line.name for line in found.lines] == ["row 1", "row 2", "row 3"]
    assert [line.marks[0] for line in found.lines] == ["F", "+", "?"]
    assert [line.marks[2] for line in found.lines][:2] == ["+", "F"]


def test_what_is_not_understood_is_told(tmp_path: Path, ruleset: Path) -> None:
    """A column of no term, a second column of one term, and a text that is no value: each has its warning."""
    columns = {
        "Service": ["chilled water"] * 2,
        "Thk (in)": ["1", "thick"],
        "Insul. Thk (in)": ["1", "1"],
        "Colour of the van": ["red", "blue"],
    }
    write_parquet(tmp_path / "all/one.parquet", columns)
    ((_, (found,)),) = results_of(judged(tmp_path / "all", ruleset, tmp_path / "out"))
    told = [(one.code, one.severity, one.message, one.place.cell) for one in found.diagnostics]
    assert told == [
        (
            "S204",
            "warning",
            "the header `Colour of the van` names no term of the vocabulary, and the cells under it were not read",
            "column Colour of the van",
        ),
        ("S301", "warning", "`thickness`: `thick` is not a number", "B2"),
        (
            "S307",
            "warning",
            "the columns of `thickness` disagree: `thick` in B2 and `1` in C2 (unit in from the column)",
            "C2",
        ),
    ]
    assert [line.marks[0] for line in found.lines] == ["+", "?"]


DOUBTS = {
    "an implausible thickness": {"Thk (in)": "25"},
    "several facts in a cell": {"Jacket": "alum 0.016 in"},
    "words with several meanings": {"Service": "HWS"},
    "a remark": {"Remarks": "VOID"},
    "a column that nobody knows": {"Colour of the van": "red"},
    "two columns of one thing": {"Insulation thickness (in)": "1/2"},
    "two systems in a cell": {"Service": "CHW & steam"},
    "an impossible temperature": {"Op. temp (F)": "6"},
    "a ditto mark": {"Service": '"'},
    "nothing of the kind": {},
}


@pytest.mark.parametrize("doubt", DOUBTS)
def test_the_same_cells_have_one_outcome_by_whichever_way_they_come(tmp_path: Path, ruleset: Path, doubt: str) -> None:
    """What a check of a file would not take as it stands does not pass in a dataset either, cell for cell."""
    plain = {"Mark": "L-1", "Service": "chilled water", "Location": "plenum", "Pipe Size (in)": "2", "Thk (in)": "2"}
    rows = [{**plain, **DOUBTS[doubt]}, {**plain, "Mark": "L-2", **dict.fromkeys(DOUBTS[doubt].keys() - plain, "")}]
    write_parquet(tmp_path / "set/one.parquet", {name: [row[name] for row in rows] for name in rows[0]})
    path = tmp_path / "files/one.csv"
    path.parent.mkdir()
    with path.open("w", encoding="utf-8", newline="") as file:
        csv.writer(file).writerows([list(rows[0]), *(row.values() for row in rows)])
    rules = loaded(ruleset)
    (checked,) = tallies(judged(tmp_path / "files", ruleset, tmp_path / "a").results(), rules)
    (found,) = tallies(judged(tmp_path / "set", ruleset, tmp_path / "b").results(), rules)
    assert found.counts.tolist() == checked.counts.tolist()
    assert found.outcome.standing == checked.outcome.standing
    assert found.outcome.unread == checked.outcome.unread
    assert found.outcome.complete == checked.outcome.complete


def test_mapping_settles_columns_and_values(tmp_path: Path, ruleset: Path) -> None:
    """What a mapping file says of headers and words holds for Parquet files as well."""
    columns = {"Medium": ["CWS run", "steam"], "T": ["0.5", "0.5"], "Thickness": ["9 in", "9 in"]}
    write_parquet(tmp_path / "all/one.parquet", columns)
    (tmp_path / "mapping.toml").write_text(
        'ignore = ["Thickness"]\n[columns]\nMedium = "service"\nT = {term = "thickness", unit = "in"}\n'
        '[values.service]\n"CWS run" = "chilled water"\n'
    )
    mapping, problems = read_mapping(tmp_path / "mapping.toml", loaded(ruleset).vocabulary)
    assert problems == ()
    places = {"mapping": tmp_path / "mapping.toml", "read": mapping}
    request = request_for(tmp_path / "all", tmp_path / "out", ruleset, loaded(ruleset), **places)
    run = run_portfolio(request)
    assert isinstance(run, Run)
    ((_, (found,)),) = results_of(run)
    assert [line.marks[0] for line in found.lines] == ["F", "-"]
    assert found.diagnostics == ()


def test_bad_parquet_files(tmp_path: Path, ruleset: Path) -> None:
    """Files that are no Parquet, are cut short, or have no column that is known, are reported, one each."""
    folder = tmp_path / "all"
    write_parquet(folder / "a-good.parquet", columns_of_schedules(1, 3))
    write_parquet(folder / "b-strange.parquet", {"x": [1], "y": [2]})
    write_parquet(folder / "c-empty.parquet", {"Service": pa.array([], pa.string())})
    (folder / "d-none.parquet").write_bytes(b"PAR1 no more PAR1")
    whole = (folder / "a-good.parquet").read_bytes()
    (folder / "e-damaged.parquet").write_bytes(b"PAR1" + b"\x00" * 200 + whole[204:])
    totals = totals_of(judged(folder, ruleset, tmp_path / "out"), ruleset)
    assert {tally.name: tally.outcome.problem for tally in totals.not_read} == {
        "b-strange.parquet": "`b-strange.parquet` has no column that is a term of the vocabulary",
        "c-empty.parquet": "`c-empty.parquet` is not a Parquet file that can be read, or has no rows",
        "d-none.parquet": "`d-none.parquet` is not a Parquet file that can be read, or has no rows",
        "e-damaged.parquet": "`e-damaged.parquet` is damaged and cannot be read to its end",
    }
    assert totals.schedules[Standing.NOT_READ] == 4
    assert totals.status == 3


def test_without_pyarrow(tmp_path: Path, ruleset: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Without the optional library a Parquet file is skipped, and the help line says how to get it."""
    write_parquet(tmp_path / "all/one.parquet", columns_of_schedules(1, 3))
    write_csv(tmp_path / "all/two.csv", rows_of(1, 3))
    monkeypatch.setattr(datasets, "find_spec", lambda name: None)
    results = results_of(judged(tmp_path / "all", ruleset, tmp_path / "out"))
    assert [name for name, _ in results] == ["one.parquet", "two.csv"]
    message = "Parquet files need pyarrow, which is not installed"
    help = "in the folder of this project, run `pip install '.[portfolio]'`"
    assert results[0][1][0].diagnostics == (Diagnostic("V505", Severity.ERROR, message, Place("one.parquet"), help),)


def test_row_groups_are_kept_one_by_one(tmp_path: Path, ruleset: Path) -> None:
    """A run over a Parquet file is taken up at the row group where it ended, and the output is the same."""
    write_parquet(tmp_path / "all.parquet", columns_of_schedules(5, 8), 6)
    judged(tmp_path / "all.parquet", ruleset, tmp_path / "whole")
    judged(tmp_path / "all.parquet", ruleset, tmp_path / "again")
    lost = sorted((tmp_path / "again/results").rglob("*.jsonl"))[::2]
    for path in lost:
        path.unlink()
    run = judged(tmp_path / "all.parquet", ruleset, tmp_path / "again")
    assert (run.judged, run.kept) == (len(lost), 7 - len(lost))
    assert contents(tmp_path / "again") == contents(tmp_path / "whole")
