"""Workers: many entries judged in this process, or in several of this machine; receipts come in the order of entries.

Only a window of entries is on its way at any time, so that memory does not grow with the portfolio.
"""

from __future__ import annotations

import gc
import os
import signal
from collections import deque
from collections.abc import Callable, Generator, Iterable, Iterator
from concurrent.futures import Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager
from itertools import islice

from speccheck.review.portfolio.entries import Entry
from speccheck.review.portfolio.judging import Receipt, broken_off, judge_entry
from speccheck.review.portfolio.request import Request

Worker = Callable[[Request, Entry], Receipt]

AHEAD = 8
"""Entries on their way for each worker."""


def spread(request: Request, entries: Iterable[Entry], workers: int, worker: Worker = judge_entry) -> Iterator[Receipt]:
    """Judge entries on this machine, in so many processes; with one, in this process."""
    if workers == 1:
        yield from (worker(request, entry) for entry in entries)
        return
    remaining, going_on = iter(entries), True
    while going_on:
        lost = yield from _in_pool(request, remaining, workers, worker)
        yield from _one_by_one(request, lost, worker)
        going_on = bool(lost)


def _in_pool(
    request: Request, remaining: Iterator[Entry], workers: int, worker: Worker
) -> Generator[Receipt, None, list[Entry]]:
    """Judge entries until all are, or a process was ended; return those that were on their way then."""
    window: deque[tuple[Entry, Future[Receipt] | None]] = deque()
    with _pool(workers) as pool:
        try:
            for entry in islice(remaining, workers * AHEAD):
                window.append((entry, None))
                window[-1] = entry, pool.submit(worker, request, entry)
            while window and (future := window[0][1]) is not None:
                receipt = future.result()
                window.popleft()
                yield receipt
                for entry in islice(remaining, 1):
                    window.append((entry, None))
                    window[-1] = entry, pool.submit(worker, request, entry)
        except BrokenProcessPool:
            return [entry for entry, _ in window]
    return []


def _one_by_one(request: Request, entries: list[Entry], worker: Worker) -> Iterator[Receipt]:
    """Judge entries of which one ended its process: alone in a process, it shows itself and costs no other."""
    remaining = deque(entries)
    while remaining:
        with _pool(1) as pool:
            try:
                while remaining:
                    receipt = pool.submit(worker, request, remaining[0]).result()
                    remaining.popleft()
                    yield receipt
            except BrokenProcessPool:
                yield broken_off(request, remaining.popleft())


@contextmanager
def _pool(workers: int) -> Iterator[ProcessPoolExecutor]:
    from multiprocessing import get_context

    pool = ProcessPoolExecutor(workers, mp_context=get_context("spawn"), initializer=_begin)
    try:
        yield pool
    finally:
        pool.shutdown(cancel_futures=True)


def _begin() -> None:
    """Make a new process ready: it looks for garbage as seldom as the command itself does, and ends with it.

    An interruption from the keyboard is for the command, which lets its processes finish what they have begun.
    """
    gc.set_threshold(200_000, 50, 50)
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    signal.signal(signal.SIGTERM, signal.SIG_DFL)
    _end_with_parent()


def _end_with_parent() -> None:
    """End this process when the one that started it ends, be it killed: nobody would take its results any more."""
    from multiprocessing import parent_process
    from multiprocessing.connection import wait
    from threading import Thread

    parent = parent_process()
    if parent is not None:

        def watch() -> None:
            wait([parent.sentinel])
            os._exit(1)

        Thread(target=watch, daemon=True).start()
