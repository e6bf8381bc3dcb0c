"""Clusters: entries judged by the workers of a Dask cluster, with the same results in the same order.

Nothing but requests, entries and receipts goes over the network: workers read the schedules and the ruleset, and keep
the results, on a disk that all of them see under the same names. A worker that is lost costs nothing; its entries go
to the others. Dask comes with the optional extra `distributed`.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Iterator
from contextlib import ExitStack
from importlib.util import find_spec
from itertools import islice
from typing import TYPE_CHECKING, Any

from speccheck.extras import how_to_install
from speccheck.language.diagnostics import NOWHERE, Diagnostic
from speccheck.review.portfolio.entries import Entry
from speccheck.review.portfolio.judging import Receipt, broken_off, judge_entry
from speccheck.review.portfolio.messages import CLUSTER_NEEDS_DASK, NO_CLUSTER_ANSWERS
from speccheck.review.portfolio.request import Request
from speccheck.review.portfolio.workers import AHEAD

if TYPE_CHECKING:
    from distributed import Client, Future

LOCAL = "local"
_SECONDS_TO_ANSWER = 10


def connected(address: str, workers: int, stack: ExitStack) -> Client | Diagnostic:
    """Return a client of the cluster at an address, closed with `stack`; or why there is none.

    `LOCAL` starts a cluster of so many worker processes on this machine, which ends with `stack`.
    """
    if find_spec("distributed") is None:
        return CLUSTER_NEEDS_DASK.at(NOWHERE, install=how_to_install("distributed"))
    from distributed import Client, LocalCluster

    if address == LOCAL:
        cluster = LocalCluster(n_workers=workers, threads_per_worker=1, processes=True, dashboard_address=None)
        return stack.enter_context(Client(stack.enter_context(cluster)))
    try:
        return stack.enter_context(Client(address, timeout=_SECONDS_TO_ANSWER))
    except (OSError, TimeoutError, ValueError):
        return NO_CLUSTER_ANSWERS.at(NOWHERE, address=address)


def spread_over_cluster(request: Request, entries: Iterable[Entry], client: Client) -> Iterator[Receipt]:
    """Judge entries on a cluster; an entry that ends one worker after the other is given up and reported."""
    remaining = iter(entries)
    threads = sum(client.nthreads().values()) or 1
    window: deque[tuple[Entry, Future[Any]]] = deque()
    for entry in islice(remaining, threads * AHEAD):
        window.append((entry, client.submit(judge_entry, request, entry, pure=False)))
    while window:
        entry, future = window.popleft()
        yield _receipt(request, entry, future)
        for entry in islice(remaining, 1):
            window.append((entry, client.submit(judge_entry, request, entry, pure=False)))


def _receipt(request: Request, entry: Entry, future: Future[Any]) -> Receipt:
    from distributed import KilledWorker

    try:
        receipt: Receipt = future.result()
    except KilledWorker:
        return broken_off(request, entry)
    return receipt
