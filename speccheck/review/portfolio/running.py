"""The whole run: every entry of a portfolio judged or found kept, and the manifest that says which result is whose."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator, Mapping
from contextlib import ExitStack
from dataclasses import dataclass
from itertools import groupby
from pathlib import Path

from speccheck.language.diagnostics import NOWHERE, Diagnostic
from speccheck.review.portfolio.cluster import connected, spread_over_cluster
from speccheck.review.portfolio.entries import Listing
from speccheck.review.portfolio.judging import Receipt
from speccheck.review.portfolio.messages import PORTFOLIO_NOT_THERE
from speccheck.review.portfolio.request import Request
from speccheck.review.portfolio.store import MANIFEST, ScheduleResult, Store
from speccheck.review.portfolio.workers import spread

Progress = Callable[[int], None]
"""Called with how many entries are done."""


@dataclass(frozen=True, slots=True)
class Run:
    """A portfolio that is judged: its store, how many entries were judged just now and how many before.

    `left` counts the files of the folder that were read as no schedules, by ending.
    """

    store: Store
    judged: int
    kept: int
    left: Mapping[str, int]

    def results(self) -> Iterator[tuple[str, Iterator[ScheduleResult]]]:
        """Yield the name of each file in the order of the portfolio, and its results; these have to be taken first."""
        with (self.store.folder / MANIFEST).open(encoding="utf-8") as manifest:
            entries = map(json.loads, manifest)
            for name, parts in groupby(entries, key=lambda entry: entry["file"]):
                yield name, (result for part in parts for result in self.store.results(part["result"]))


def run_portfolio(
    request: Request, *, workers: int = 1, on: str = "", progress: Progress | None = None
) -> Run | Diagnostic:
    """Judge every entry of a portfolio that is not kept yet, and write the manifest; or return why that cannot be.

    `workers` are processes of this machine. `on` is the address of a Dask cluster, or `local` for one of so many
    worker processes; "" is none. The results do not depend on either. Raises `OSError` where the output folder cannot
    be written any more, as when the disk is full; a later run takes this one up.
    """
    portfolio, store = Path(request.portfolio), Store(Path(request.into))
    if not portfolio.exists():
        return PORTFOLIO_NOT_THERE.at(NOWHERE, portfolio=portfolio.name)
    problem = store.prepare(portfolio)
    if problem is not None:
        return problem
    listing = Listing(portfolio, store.folder)
    with ExitStack() as stack:
        if not on:
            return _run(spread(request, listing, workers), store, listing, progress)
        client = connected(on, workers, stack)
        if isinstance(client, Diagnostic):
            return client
        return _run(spread_over_cluster(request, listing, client), store, listing, progress)


def _run(receipts: Iterator[Receipt], store: Store, listing: Listing, progress: Progress | None) -> Run:
    """Take the receipts as they come, and write them as the manifest when all are there."""
    counts = {True: 0, False: 0}
    with store.whole_file(store.folder / MANIFEST) as manifest:
        for receipt in receipts:
            counts[receipt.judged] += 1
            manifest.write(_line(receipt))
            if progress is not None:
                progress(counts[True] + counts[False])
    store.sweep()
    return Run(store, counts[True], counts[False], dict(sorted(listing.left.items())))


def _line(receipt: Receipt) -> bytes:
    line = {
        "file": receipt.entry.name,
        "part": receipt.entry.part,
        "content": receipt.content,
        "result": receipt.key,
    }
    return (json.dumps(line) + "\n").encode()
