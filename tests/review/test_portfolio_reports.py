"""The reports of a portfolio: the same numbers in each, text of strangers made harmless, nothing of the machine."""

from __future__ import annotations

import csv
import io
import json
from html import unescape
from html.parser import HTMLParser
from pathlib import Path

import pyarrow.parquet as pq
import pytest
from click.testing import CliRunner
from rich.console import Console

from speccheck.cli.portfolio import command
from speccheck.inputs import UnusableInput
from speccheck.judge import Verdict
from speccheck.report.portfolio import files as portfolio_files
from speccheck.report.portfolio.files import write_portfolio_files
from speccheck.report.terminal.diagnostics import ConsolePage
from speccheck.report.terminal.portfolio import print_portfolio, print_row
from speccheck.review import judge_schedule
from speccheck.schedule import read_schedule
from tests.review.portfolio_schedules import (
    contents,
    judged,
    loaded,
    rows_of,
    totals_of,
    write_csv,
    write_portfolio,
    write_ruleset,
)
from tests.some import some

HOSTILE = '=1+1 <b onclick="x">& \x1b[31m‮'


@pytest.fixture
def plant(tmp_path: Path) -> Path:
    """A folder with a ruleset and a portfolio of five schedules, one with a name that tries to be something else."""
    write_ruleset(tmp_path)
    write_portfolio(tmp_path / "all", 3, 6)
    write_csv(tmp_path / "all/=1+1 <b> & c.csv", [[HOSTILE, *rows_of(9, 1)[0][1:]], *rows_of(5, 4)])
    (tmp_path / "all/broken.json").write_text("[")
    return tmp_path


def findings(folder: Path) -> list[tuple[str, ...]]:
    """Return the findings that the judge makes, in the order of schedules, lines and clauses, requirements first."""
    ruleset = loaded(folder / "rules.clauses")
    rows = []
    for path in sorted((folder / "all").rglob("*.*"), key=lambda path: path.as_posix().encode()):
        schedule = read_schedule(path, ruleset.vocabulary)
        matrix = judge_schedule(schedule, ruleset)
        name = path.relative_to(folder / "all").as_posix()
        for line, cells in zip(schedule.lines, matrix.cells, strict=True):
            pairs = list(zip(ruleset.clauses, cells, strict=True))
            found = [(clause, "requirement", cell.verdict) for clause, cell in pairs if cell.mandatory]
            found += [(clause, "advice", cell.advice) for clause, cell in pairs if cell.advice is not None]
            for clause, kind, verdict in found:
                if verdict in (Verdict.FAILS, Verdict.CANNOT_TELL):
                    rows.append((name, line.place.cell, clause.label, kind, str(verdict)))
    return rows


def test_findings_are_those_of_the_judge(plant: Path) -> None:
    """The Parquet file has a row for each finding of the judge, in order, and no other."""
    run = judged(plant / "all", plant / "rules.clauses", plant / "out")
    write_portfolio_files(run, loaded(plant / "rules.clauses"))
    table = pq.read_table(plant / "out/findings.parquet").to_pydict()
    columns = ("schedule", "cell", "clause", "kind", "verdict")
    assert list(zip(*(table[name] for name in columns), strict=True)) == findings(plant)


def test_findings_without_pyarrow(plant: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Without pyarrow the same rows are comma-separated values, in which nothing looks like a formula."""
    run = judged(plant / "all", plant / "rules.clauses", plant / "out")
    write_portfolio_files(run, loaded(plant / "rules.clauses"))
    table = pq.read_table(plant / "out/findings.parquet")
    monkeypatch.setattr(portfolio_files, "find_spec", lambda name: None)
    write_portfolio_files(run, loaded(plant / "rules.clauses"))
    assert not (plant / "out/findings.parquet").exists()
    text = (plant / "out/findings.csv").read_text(encoding="utf-8-sig")
    rows = list(csv.DictReader(io.StringIO(text, newline="")))
    assert [row["clause"] for row in rows] == table["clause"].to_pylist()
    assert {row["schedule"] for row in rows if row["schedule"].startswith(("=", "'"))} == {"'=1+1 <b> & c.csv"}
    assert not any(cell.startswith(("=", "+", "-", "@")) for row in rows for cell in row.values())


def test_reports_agree(plant: Path) -> None:
    """The JSON adds up: schedules to totals, clauses to requirements; and the terminal and the page say the same."""
    ruleset = loaded(plant / "rules.clauses")
    run = judged(plant / "all", plant / "rules.clauses", plant / "out")
    totals, files = write_portfolio_files(run, ruleset)
    assert {path.name for path in files} == {"summary.json", "summary.html", "findings.parquet"}
    report = json.loads((plant / "out/summary.json").read_text(encoding="utf-8"))
    for verdict in ("does_not_comply", "cannot_be_determined", "complies", "not_applicable"):
        total = report["requirements"][verdict]
        assert total == sum(one[verdict] for one in report["schedules"])
        assert total == sum(one[verdict] for one in report["clauses"] if one["mandatory"])
    assert sum(report["outcomes"].values()) == len(report["schedules"]) == 5
    assert sum(report["lines"].values()) == sum(one["lines"] for one in report["schedules"]) == 23
    assert report["status"] == totals.status == 3
    page = (plant / "out/summary.html").read_text(encoding="utf-8")
    console = Console(file=io.StringIO(), width=80)
    print_portfolio(totals, run.left, console)
    text = console.file.getvalue()  # type: ignore[attr-defined]
    for said in ("5 schedules, 23 lines.", "1 schedule could not be used and was skipped.", "broken.json"):
        assert said in page
        assert said in text
    assert max(map(len, text.splitlines())) <= 80


def test_page_holds_no_markup_of_strangers(plant: Path) -> None:
    """Names of files are text in the page, and the page loads nothing."""
    run = judged(plant / "all", plant / "rules.clauses", plant / "out")
    write_portfolio_files(run, loaded(plant / "rules.clauses"))
    page = (plant / "out/summary.html").read_text(encoding="utf-8")
    tags: list[str] = []
    attributes: set[str] = set()

    class Reader(HTMLParser):
        def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
            tags.append(tag)
            attributes.update(name for name, _ in attrs)

    Reader().feed(page)
    assert "b" not in tags
    assert "=1+1 &lt;b&gt; &amp; c.csv" in page
    assert not attributes & {"src", "href", "onclick", "style"}
    assert "default-src 'none'" in unescape(page)


def test_reports_do_not_depend_on_where_or_when(plant: Path) -> None:
    """The same schedules in another folder give the same output to the byte, name of the folder included."""
    rules = plant / "rules.clauses"
    for source, into in (("all", "one"), ("elsewhere/deep", "two")):
        if source != "all":
            (plant / "elsewhere").mkdir()
            (plant / "all").rename(plant / source)
        write_portfolio_files(judged(plant / source, rules, plant / into), loaded(rules))
    assert contents(plant / "one") == contents(plant / "two")
    assert not any(str(plant).encode() in path.read_bytes() for path in (plant / "one").rglob("*") if path.is_file())


def test_command(plant: Path) -> None:
    """The command judges, writes and sums up; a second call keeps everything, and a wrong folder is refused."""
    call = [str(plant / "all"), "--against", str(plant / "rules.clauses"), "--workers", "1", "--quiet", "--into"]
    runner = CliRunner()
    first = runner.invoke(command, [*call, str(plant / "out")], standalone_mode=False)
    again = runner.invoke(command, [*call, str(plant / "out")], standalone_mode=False)
    assert (first.return_value, again.return_value) == (3, 3)
    assert first.output.startswith("5 schedules, 23 lines. ")
    assert "0 judged now, 5 kept from an earlier run.\n" in again.output
    assert totals_of(judged(plant / "all", plant / "rules.clauses", plant / "out"), plant / "rules.clauses").status == 3
    refused = runner.invoke(command, [*call, str(plant / "all")])
    assert isinstance(refused.exception, UnusableInput)
    assert "the portfolio cannot be judged" in str(refused.exception)
    assert {"summary.json", "summary.html", "findings.parquet", "manifest.jsonl"} <= set(contents(plant / "out"))


def test_disk_that_is_full(plant: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where a report cannot be written the command says so, and leaves no half of it."""

    def full(*others: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(portfolio_files, "write_portfolio", full)
    call = [str(plant / "all"), "--against", str(plant / "rules.clauses"), "--workers", "1", "--into"]
    found = CliRunner().invoke(command, [*call, str(plant / "out")], standalone_mode=False)
    assert found.return_value == 3
    told = "the results cannot be written: no space left on device; what was judged is kept, run again to go on\n"
    assert found.output == told
    assert sorted(path.name for path in (plant / "out").iterdir() if path.name != "unfinished") == [
        "manifest.jsonl",
        "results",
    ]


def test_long_names_beside_counts_are_wrapped() -> None:
    """A title that does not fit beside the counts goes on below itself, and no word of it is lost."""
    console = Console(file=io.StringIO(), width=60)
    title = "90.1-1.3 Heating piping, insulation outside the range of conductivity"
    print_row(ConsolePage(console, 60), ["0", "1,041", "12,345,678"], title)
    lines = console.file.getvalue().splitlines()  # type: ignore[attr-defined]
    assert lines[0] == "        0    1,041 12,345,678  90.1-1.3 Heating piping,"
    assert " ".join(" ".join(lines).split()) == f"0 1,041 12,345,678 {title}"
    assert all(line.startswith(" " * 31) for line in some(lines[1:]))
    assert max(map(len, lines)) <= 60
