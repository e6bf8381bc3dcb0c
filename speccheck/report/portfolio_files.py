"""The reports of a portfolio in its output folder: each whole, and the same for the same schedules.

summary.json      totals, and every schedule
summary.html      totals, for a person
findings.parquet  every finding; findings.csv where pyarrow is not installed
"""

from __future__ import annotations

from importlib.util import find_spec

from speccheck.language.core import Ruleset
from speccheck.report.portfolio_findings import finding_rows, write_comma_separated, write_parquet
from speccheck.report.portfolio_json import write_portfolio
from speccheck.report.portfolio_page import render_portfolio
from speccheck.review.portfolio.running import Run
from speccheck.review.portfolio.summing_up import Totals
from speccheck.review.portfolio.tallies import Layout, tallies

_FINDINGS = {"findings.parquet": write_parquet, "findings.csv": write_comma_separated}


def write_portfolio_files(run: Run, ruleset: Ruleset) -> Totals:
    """Write all reports of a run, as streams, and return the totals. Raises `OSError` where one cannot be written."""
    store, totals = run.store, Totals(ruleset)
    with store.whole_file(store.folder / "summary.json") as file:
        write_portfolio(file, tallies(run.results(), ruleset), totals, run.left)
    with store.whole_file(store.folder / "summary.html") as file:
        file.write(render_portfolio(totals, run.left).encode("utf-8", errors="replace"))
    name, other = _FINDINGS if find_spec("pyarrow") is not None else reversed(_FINDINGS)
    with store.whole_file(store.folder / name) as file:
        _FINDINGS[name](file, finding_rows(run.results(), Layout(ruleset)))
    (store.folder / other).unlink(missing_ok=True)
    store.sweep()
    return totals
