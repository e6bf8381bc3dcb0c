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

    cluster       entries judged by the workers of a Dask cluster, with the same results in the same order
    messages      every sentence that is said of portfolios
    datasets      parquet files with one row for each line of many schedules, read row group by row group
    entries       the schedules of a portfolio, in an order that depends on their names alone
    fingerprints  of the content of files, of what a ruleset means, of the program that judges
    judging       judging one entry of a portfolio: read, judged, and kept under its fingerprint, unless that was done
                  before
    matrices      lines judged by the columns, in the form that is kept: one mark a verdict
    records       rows of datasets: plain ones for the columns, the others read as a sheet would be
    request       what a portfolio is judged by, small enough to be sent to every worker, which loads the rest itself
    running       every entry of a portfolio judged or found kept, and the manifest that says which result is whose
    store         the folder that a portfolio is written into, and what is kept of each schedule, as JSON Lines
    tallies       the verdicts of one schedule by clause and line, and those of all schedules of a portfolio summed up
    workers       many entries judged in this process, or in several of this machine; receipts come in the order of
                  entries
"""

from speccheck.review.portfolio.request import Request, request_for
from speccheck.review.portfolio.running import Run, run_portfolio
from speccheck.review.portfolio.tallies import Totals, sum_up

__all__ = ["Request", "Run", "Totals", "request_for", "run_portfolio", "sum_up"]
