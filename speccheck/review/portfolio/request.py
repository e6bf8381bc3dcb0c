"""The request: what a portfolio is judged by, small enough to be sent to every worker, which loads the rest itself."""

from __future__ import annotations

import datetime
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING

from speccheck.language import load_ruleset
from speccheck.language.core import Ruleset
from speccheck.review.portfolio.fingerprints import meaning_fingerprint, program_fingerprint
from speccheck.review.review_day import counts_from_review
from speccheck.schedule import HeaderReader, ScheduleMapping, read_mapping

if TYPE_CHECKING:
    from speccheck.judge.vectorized import ColumnJudge


@dataclass(frozen=True, slots=True)
class Request:
    """Where the schedules are, where results go, and what they are judged by.

    Paths are absolute, so that a worker with another working folder finds them; none of them goes into a result.
    `units` is the system of numbers for which nothing states a unit, "" for that of the mapping or the ruleset.
    `reasons` asks for the judge's sentence on every finding in a file; the rows of Parquet files have none.
    `on` is the day of the review ("2026-03-04"), "" where none is stated; kept only where a clause counts from it.
    `fingerprint` changes with all that can change a verdict except the schedule.
    """

    portfolio: str
    into: str
    ruleset: str
    mapping: str = ""
    units: str = ""
    reasons: bool = False
    on: str = ""
    fingerprint: str = ""

    @property
    def folder(self) -> Path:
        """The folder to which the names of entries are relative."""
        portfolio = Path(self.portfolio)
        return portfolio if portfolio.is_dir() else portfolio.parent


@dataclass(frozen=True, slots=True)
class LoadedRules:
    """What a request names, loaded: ruleset, mapping, units, day of the review, judge of columns, a header reader.

    `stated_units` are those of the request, `units` those of the mapping or the ruleset where it states none.
    """

    ruleset: Ruleset
    mapping: ScheduleMapping
    stated_units: str
    units: str
    reasons: bool
    on: datetime.date | None
    judge: ColumnJudge
    headers: HeaderReader


def request_for(
    portfolio: Path,
    into: Path,
    ruleset: Path,
    loaded: Ruleset,
    *,
    mapping: Path | None = None,
    read: ScheduleMapping | None = None,
    units: str = "",
    reasons: bool = False,
    on: datetime.date | None = None,
) -> Request:
    """Return the request for a portfolio; `loaded` and `read` are what the files `ruleset` and `mapping` hold."""
    day = on.isoformat() if on is not None and counts_from_review(loaded) else ""
    return Request(
        str(portfolio.resolve()),
        str(into.resolve()),
        str(ruleset.resolve()) if ruleset.exists() else str(ruleset),
        str(mapping.resolve()) if mapping is not None else "",
        units,
        reasons,
        day,
        _fingerprint(loaded, read or ScheduleMapping(), units, reasons, day),
    )


def rules_of(request: Request) -> LoadedRules | None:
    """Return what a request names; None where it is not, here and now, what it was when the request was made."""
    found = _load(request.ruleset, request.mapping, request.units, request.reasons, request.on)
    return found[0] if found is not None and found[1] == request.fingerprint else None


@lru_cache(maxsize=4)
def _load(ruleset: str, mapping: str, units: str, reasons: bool, on: str) -> tuple[LoadedRules, str] | None:
    from speccheck.judge.vectorized import ColumnJudge

    loaded = load_ruleset(Path(ruleset) if Path(ruleset).is_absolute() else ruleset)
    if loaded.ruleset is None or not loaded.usable:
        return None
    read = read_mapping(Path(mapping), loaded.ruleset.vocabulary)[0] if mapping else ScheduleMapping()
    if read is None:
        return None
    headers = HeaderReader(loaded.ruleset.vocabulary)
    effective = units or read.units or loaded.ruleset.units
    day = datetime.date.fromisoformat(on) if on else None
    rules = LoadedRules(loaded.ruleset, read, units, effective, reasons, day, ColumnJudge(loaded.ruleset), headers)
    return rules, _fingerprint(loaded.ruleset, read, units, reasons, on)


def _fingerprint(ruleset: Ruleset, mapping: ScheduleMapping, units: str, reasons: bool, on: str) -> str:
    return meaning_fingerprint(program_fingerprint(), ruleset, mapping, units, reasons, on)
