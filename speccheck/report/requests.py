"""What to ask the contractor for: the data that are missing, the lines that lack them, the clauses that wait."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from speccheck.judge.judgement import Verdict
from speccheck.language.core import Clause
from speccheck.language.vocabulary.values import NotGiven
from speccheck.review.matrix import Matrix
from speccheck.schedule.lines import Line


@dataclass(frozen=True, slots=True)
class DatumRequest:
    """One datum of one line to ask for: the term, what the schedule says in its place, the clauses that wait for it."""

    line: Line
    term: str
    says: str
    clauses: tuple[Clause, ...]


@dataclass(frozen=True, slots=True)
class TermRequest:
    """One term to ask for: the lines that lack it and the clauses that wait for it."""

    term: str
    lines: tuple[Line, ...]
    clauses: tuple[Clause, ...]


def requests(matrix: Matrix) -> tuple[DatumRequest, ...]:
    """Return the data that mandatory clauses lack, by line in schedule order, then in the order of the clauses."""
    found: list[DatumRequest] = []
    for line, row in zip(matrix.schedule.lines, matrix.cells, strict=True):
        waiting: dict[str, list[Clause]] = {}
        for clause, cell in zip(matrix.ruleset.clauses, row, strict=True):
            if cell.mandatory and cell.verdict in (Verdict.CANNOT_TELL, Verdict.NOT_CHECKED):
                for term in cell.missing:
                    waiting.setdefault(term, []).append(clause)
        found += [DatumRequest(line, term, says(line, term), tuple(clauses)) for term, clauses in waiting.items()]
    return tuple(found)


def requests_by_term(asked: Sequence[DatumRequest]) -> tuple[TermRequest, ...]:
    """Return the same requests by term, the one that most lines lack first, then by name."""
    lines: dict[str, list[Line]] = {}
    clauses: dict[str, dict[int, Clause]] = {}
    for request in asked:
        lines.setdefault(request.term, []).append(request.line)
        clauses.setdefault(request.term, {}).update({id(clause): clause for clause in request.clauses})
    by_need = sorted(lines, key=lambda term: (-len(lines[term]), term))
    return tuple(TermRequest(term, tuple(lines[term]), tuple(clauses[term].values())) for term in by_need)


def says(line: Line, term: str) -> str:
    """Return what the schedule says in place of the datum: "not stated", "blank", "TBD"."""
    datum = line.data.get(term)
    if datum is None:
        return "not stated"
    why = datum.value.why if isinstance(datum.value, NotGiven) else ""
    if not datum.text.strip():
        return why or "blank"
    return f"{datum.text} ({why})" if why and why != datum.text else datum.text
