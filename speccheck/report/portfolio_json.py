"""A portfolio as JSON, written as a stream: every schedule on a line of its own, then the totals.

    {"report": "speccheck portfolio", "version": 1, "ruleset": {...},
    "schedules": [
    {"name": ..., "outcome": ..., "lines": ..., "does_not_comply": ..., "cannot_tell": ..., "complies": ...,
     "not_applicable": ..., "warnings": ..., "problem": ...}],
    "status": ..., "outcomes": {...}, "lines": {...}, "requirements": {...}, "clauses": [...], "left": {...},
    "cautions": [...]}

Verdicts of a schedule count its requirements: lines times mandatory clauses. `lines` counts lines by their worst
verdict. A clause that also advises stands there twice, the second time with `mandatory` false.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping
from typing import Any, BinaryIO

from speccheck.engine.judgement import Verdict
from speccheck.report.escaping import encodable
from speccheck.report.wording import cautions, clause_label
from speccheck.review.outcome import Standing
from speccheck.review.portfolio.summing_up import ClauseTotal, Totals
from speccheck.review.portfolio.tallies import VERDICTS, Tally


def write_portfolio(file: BinaryIO, tallied: Iterable[Tally], totals: Totals, left: Mapping[str, int]) -> None:
    """Write the report; schedules are counted into `totals` as they are written."""
    for text in _texts(tallied, totals, left):
        file.write(text.encode())


def _texts(tallied: Iterable[Tally], totals: Totals, left: Mapping[str, int]) -> Iterator[str]:
    ruleset = {"name": totals.ruleset.name, "edition": totals.ruleset.edition}
    head = {"report": "speccheck portfolio", "version": 1, "ruleset": ruleset}
    yield f'{_json(head)[:-1]},\n"schedules": ['
    between = "\n"
    for tally in tallied:
        totals.add(tally)
        yield between + _json(_schedule(tally))
        between = ",\n"
    yield f"],\n{_json(_rest(totals, left))[1:]}\n"


def _json(content: Any) -> str:
    return json.dumps(encodable(content), ensure_ascii=False)


def _schedule(tally: Tally) -> dict[str, Any]:
    return {
        "name": tally.name,
        "outcome": str(tally.outcome.standing),
        "lines": tally.line_count,
        **_counted(tally.requirements),
        "warnings": tally.outcome.warnings,
        "problem": tally.outcome.problem,
    }


def _rest(totals: Totals, left: Mapping[str, int]) -> dict[str, Any]:
    return {
        "status": totals.status,
        "outcomes": {str(standing): totals.schedules[standing] for standing in Standing},
        "lines": _counted(totals.lines),
        "requirements": _counted(totals.requirements),
        "warnings": totals.warnings,
        "clauses": [_clause(one) for one in totals.clauses],
        "left": dict(left),
        "cautions": list(cautions(totals.ruleset)),
    }


def _clause(one: ClauseTotal) -> dict[str, Any]:
    return {
        "label": clause_label(one.clause),
        "title": one.clause.title,
        "ruleset": one.clause.ruleset,
        "mandatory": one.mandatory,
        **_counted(one.counts),
        "failing_schedules": one.failing_schedules,
    }


def _counted(counts: Mapping[Verdict, int]) -> dict[str, int]:
    return {verdict.value.replace(" ", "_"): counts.get(verdict, 0) for verdict in VERDICTS}
