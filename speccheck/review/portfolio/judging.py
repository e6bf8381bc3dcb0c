"""Judging one entry of a portfolio: read, judged, and kept under its fingerprint, unless that was done before."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from threading import Lock

from speccheck.language.diagnostic_rules import Wording
from speccheck.language.diagnostics import Diagnostic, Place
from speccheck.review.portfolio.datasets import PARQUET, judged_row_group
from speccheck.review.portfolio.entries import Entry
from speccheck.review.portfolio.fingerprints import combined, content_fingerprint
from speccheck.review.portfolio.matrices import judged_schedule
from speccheck.review.portfolio.messages import (
    ENTRY_NOT_READ,
    FAILED_ON_ENTRY,
    FILE_CHANGED,
    PROCESS_ENDED,
    WORKER_HAS_OTHERS,
)
from speccheck.review.portfolio.request import LoadedRules, Request, rules_of
from speccheck.review.portfolio.store import ScheduleResult, Store
from speccheck.schedule import read_schedule

_ONE_AT_A_TIME = Lock()  # what is read once for all schedules is not made for several threads of one worker


@dataclass(frozen=True, slots=True)
class Receipt:
    """What became of an entry: the fingerprints of its content and its result, and whether it was judged just now."""

    entry: Entry
    content: str
    key: str
    judged: bool


def judge_entry(request: Request, entry: Entry) -> Receipt:
    """Judge an entry and keep its result, or find that it is kept. Nothing that is wrong with a file raises."""
    path, store = request.folder / entry.name, Store(Path(request.into))
    content = content_fingerprint(path)
    key = key_of(request, entry, content)
    if content and store.has(key):
        return Receipt(entry, content, key, judged=False)
    with _ONE_AT_A_TIME:
        rules = rules_of(request)
        if rules is None:
            return _failed(store, entry, content, key, WORKER_HAS_OTHERS)
        try:
            results = _results(path, entry, rules)
        except Exception as error:  # a fault of the program on one schedule must not cost all the others
            return _failed(store, entry, content, key, *_fault(error))
        try:
            store.keep(key, _while_unchanged(results, path, content), again=not content)
        except OSError:
            raise  # the disk is full, or the output folder gone: no fault of the schedule
        except _ChangedError:
            return _failed(store, entry, content, key, FILE_CHANGED)
        except Exception as error:  # as above, in the stream of a Parquet file
            return _failed(store, entry, content, key, *_fault(error))
    return Receipt(entry, content, key, judged=True)


def broken_off(request: Request, entry: Entry) -> Receipt:
    """Keep that the process which judged an entry was ended."""
    content = content_fingerprint(request.folder / entry.name)
    key = key_of(request, entry, content)
    return _failed(Store(Path(request.into)), entry, content, key, PROCESS_ENDED)


def key_of(request: Request, entry: Entry, content: str) -> str:
    """Return the fingerprint of a result: by which rules, of which content.

    The file's own name goes into it, because its ending says how to read it and messages call it by its name; the
    folder that it lies in does not.
    """
    return combined(request.fingerprint, entry.name.rpartition("/")[2], str(entry.part), content)


def _results(path: Path, entry: Entry, rules: LoadedRules) -> Iterable[ScheduleResult]:
    """Return the result of a file, or those of a Parquet file as a stream that tells faults of the file itself."""
    if path.suffix.lower() == PARQUET:
        return judged_row_group(path, entry.part, rules)
    schedule = read_schedule(
        path,
        rules.ruleset.vocabulary,
        rules.mapping,
        units=rules.stated_units,
        usual_units=rules.ruleset.units,
        reader=rules.headers,
    )
    return (judged_schedule(schedule, rules),)


class _ChangedError(Exception):
    """The file is no longer what its fingerprint says."""


def _while_unchanged(results: Iterable[ScheduleResult], path: Path, content: str) -> Iterator[ScheduleResult]:
    """Yield results, and raise `_ChangedError` before they are whole where the file has changed meanwhile."""
    yield from results
    if content_fingerprint(path) != content:
        raise _ChangedError


def _fault(error: Exception) -> tuple[Wording, str]:
    """Return what to say of an exception, and why in words."""
    if isinstance(error, OSError):
        return ENTRY_NOT_READ, (error.strerror or "no access").lower()
    return FAILED_ON_ENTRY, type(error).__name__


def _failed(store: Store, entry: Entry, content: str, key: str, said: Wording, why: str = "") -> Receipt:
    """Keep why an entry was not judged, to be tried again by the next run."""
    problem = said.at(Place(entry.name.rpartition("/")[2]), why=why)
    store.keep(key, _only(problem), again=True)
    return Receipt(entry, content, key, judged=True)


def _only(problem: Diagnostic) -> Iterable[ScheduleResult]:
    return (ScheduleResult((), (problem,)),)
