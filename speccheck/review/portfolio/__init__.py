"""Portfolios: a whole folder of schedules, or a Parquet dataset of them, judged by one ruleset.

In: a folder, a ruleset, and a folder to write into. Out: a result for each schedule, kept whole under its fingerprint;
a manifest of what is judged; totals by schedule, clause and verdict. A schedule that cannot be used is reported and
skipped. A run that was killed is taken up where it ended: what is kept is not judged again.

    folder --entries--> Entry --workers--> judging --> ScheduleResult --store--> results/
                                   |
                                   +--> Receipt --running--> manifest --summing_up--> Totals

Memory does not grow with the portfolio: schedules are judged one by one, Parquet files row group by row group, and
results are read back one after the other.

Files:

    codes         the diagnostics of portfolios
    fingerprints  fingerprints of files, of the meaning of a ruleset, of the program
    request       what a portfolio is judged by
    entries       the schedules of a folder, in order
    results       what is kept of a schedule
    store         the folder that is written into
    matrices      lines judged, in the form that is kept
    datasets      the row groups of a Parquet file
    judging       one entry: read, judged and kept
    workers       many entries: in this process or in several
    cluster       many entries: on a Dask cluster
    running       the whole run
    tallies       the verdicts of one schedule, counted
    summing_up    the verdicts of all schedules, counted
"""

from speccheck.review.portfolio.request import Request, request_for
from speccheck.review.portfolio.running import Run, run_portfolio
from speccheck.review.portfolio.tallies import Totals, sum_up

__all__ = ["Request", "Run", "Totals", "request_for", "run_portfolio", "sum_up"]
