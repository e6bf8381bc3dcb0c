"""What to ask the contractor for: the data that are missing, the lines that lack them, the clauses that wait.

Beside it the paragraphs of the section that no clause checks, which a person has to read.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from speccheck.english import agree, count
from speccheck.judge.cell import told
from speccheck.judge.judgement import Verdict
from speccheck.language.core import Clause, Ruleset, UncheckedParagraph
from speccheck.language.vocabulary.values import NotGiven
from speccheck.review.matrix import Matrix
from speccheck.schedule.lines import Line

if TYPE_CHECKING:
    from speccheck.report.sections import ReportTable


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
                for term in told(cell).missing:
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


_HEADINGS = ("Paragraph", "Title", "Why it is not checked", "Words of the section")


def unchecked_sentence(ruleset: Ruleset) -> str:
    """Return how many paragraphs of the section nothing checks, in one sentence; "" where the ruleset tells of none."""
    number = len(ruleset.unchecked)
    if not number:
        return ""
    verb = agree(number, "is", "are")
    return f"{count(number, 'paragraph')} of the section {verb} not checked by this program."


def unchecked_sections(ruleset: Ruleset) -> tuple[ReportTable, ...]:
    """Return the list of these paragraphs as the one section of a report, or no section where there are none."""
    from speccheck.report.sections import ReportTable

    if not ruleset.unchecked:
        return ()
    rows = tuple(_row(one, ruleset) for one in ruleset.unchecked)
    sentence = f"{unchecked_sentence(ruleset)} Somebody has to read them."
    return (ReportTable("not-checked-paragraphs", "Paragraphs not checked", sentence, _HEADINGS, rows),)


def why(one: UncheckedParagraph) -> str:
    """Return why a paragraph is not checked: the reason, and the words behind it where there are any."""
    return f"{one.reason.value}: {one.because}" if one.because else one.reason.value


def _row(one: UncheckedParagraph, ruleset: Ruleset) -> tuple[str, ...]:
    origin = "" if one.ruleset == ruleset.name else f" of {one.ruleset}"
    return (f"{one.name}{origin}", one.title, why(one), one.wording)
