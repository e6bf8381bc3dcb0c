"""What the section asks to be submitted, checked against the register of what was received.

Each paragraph that asks for a document is satisfied, not satisfied, cannot be determined, or asks for nothing here.
What is in doubt (a line that does not say what it proposes, a document that does not say what it is of, a date that is
not known) is never satisfied.
"""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import TYPE_CHECKING

from speccheck.english import agree, first_of, listed, noun
from speccheck.judge import Judge, Verdict
from speccheck.judge.logic import Truth, every, some
from speccheck.language.core import Clause, RequiredDocument, Ruleset, Some
from speccheck.language.vocabulary.terms import Term, fold
from speccheck.language.vocabulary.values import NotGiven, Single
from speccheck.review.messages.registers import FOR_UNKNOWN_LINES, NOTHING_ASKS_FOR_IT
from speccheck.review.observations import Observation, observed
from speccheck.schedule.lines import Line

if TYPE_CHECKING:
    from speccheck.review.received import ReceivedDocument, ReceivedRegister

MOST_NAMED = 8


class DocumentStanding(StrEnum):
    """Whether what a paragraph asks to be submitted was received."""

    NOT_SATISFIED = "not satisfied"
    CANNOT_TELL = "cannot be determined"
    SATISFIED = "satisfied"
    NOT_ASKED = "not applicable"


@dataclass(frozen=True, slots=True)
class DocumentFinding:
    """How one document that a paragraph asks for stands: what it is to be of, for which lines, and why it stands so."""

    document: RequiredDocument
    subject: str
    lines: tuple[str, ...]
    standing: DocumentStanding
    reason: str


@dataclass(frozen=True, slots=True)
class _Wanted:
    """A document that is asked for: of which value of a term, if of any, and for which lines.

    `open_lines` are those of which it is not known whether they need it.
    """

    term: Term | None
    value: Single | None
    lines: tuple[Line, ...]
    open_lines: tuple[Line, ...]

    @property
    def subject(self) -> str:
        """What it is to be of, in words."""
        return "" if self.term is None else f"{self.term.name} {self.value}"


def documents_of(
    ruleset: Ruleset, lines: Sequence[Line], register: ReceivedRegister | None, on: datetime.date | None = None
) -> tuple[DocumentFinding, ...]:
    """Return how each document stands that a ruleset asks for, for the lines of a schedule, `on` the day of the review.

    Without a register nothing is known of what was received.
    """
    applies = _applying(ruleset, lines)
    return tuple(
        finding
        for document, truths in zip(ruleset.documents, applies, strict=True)
        for finding in _of_document(document, tuple(zip(lines, truths, strict=True)), register, on)
    )


# ---- which lines -------------------------------------------------------------------------------------------------


def _applying(ruleset: Ruleset, lines: Sequence[Line]) -> list[list[Truth]]:
    """Return for each document and each line whether the line needs it.

    The judge is asked by a clause that has the conditions of the document and asks for what no line can meet.
    """
    clauses = tuple(_clause(document) for document in ruleset.documents)
    judge = Judge(replace(ruleset, clauses=clauses))
    known = {Verdict.FAILS: True, Verdict.NOT_APPLICABLE: False}
    rows = [[judge.cell(number, line).verdict for number in range(len(clauses))] for line in lines]
    return [[known.get(row[number]) for row in rows] for number in range(len(clauses))]


def _clause(document: RequiredDocument) -> Clause:
    return Clause(
        document.name,
        document.title,
        document.ruleset,
        label=document.name,
        scope=document.scope,
        exceptions=document.exceptions,
        shall=(Some(()),),
        place=document.place,
    )


def _of_document(
    document: RequiredDocument,
    lines: Sequence[tuple[Line, Truth]],
    register: ReceivedRegister | None,
    on: datetime.date | None,
) -> Iterator[DocumentFinding]:
    concerned = [(line, truth) for line, truth in lines if truth is not False]
    if not concerned:
        yield DocumentFinding(document, "", (), DocumentStanding.NOT_ASKED, "no line of the schedule needs it")
        return
    if document.each:
        yield from _not_stated(document, concerned)
    for wanted in _wanted(document, concerned):
        yield _standing(document, wanted, register, on)


def _not_stated(document: RequiredDocument, lines: Iterable[tuple[Line, Truth]]) -> Iterator[DocumentFinding]:
    """Yield that lines do not state what a document would have to be of."""
    lines = tuple(lines)
    for term in document.each:
        silent = tuple(line.name for line, _ in lines if _stated(line, term) is None)
        if silent:
            reason = f"{term.name} is not given on {_names(silent)}"
            yield DocumentFinding(document, term.name, silent, DocumentStanding.CANNOT_TELL, reason)


def _wanted(document: RequiredDocument, lines: Sequence[tuple[Line, Truth]]) -> Iterator[_Wanted]:
    """Yield the documents that are asked for: one for each value of each term, or one for all lines."""
    if not document.each:
        yield _of_lines(None, None, lines)
    for term in document.each:
        values = dict.fromkeys(_stated(line, term) for line, _ in lines)
        for value in values:
            if value is not None and value != "none":
                yield _of_lines(term, value, [one for one in lines if _stated(one[0], term) == value])


def _of_lines(term: Term | None, value: Single | None, lines: Iterable[tuple[Line, Truth]]) -> _Wanted:
    lines = tuple(lines)
    sure = tuple(line for line, truth in lines if truth is True)
    return _Wanted(term, value, sure, tuple(line for line, truth in lines if truth is None))


def _stated(line: Line, term: Term) -> Single | None:
    datum = line.data.get(term.name)
    if datum is None or isinstance(datum.value, NotGiven) or not isinstance(datum.value, str):
        return None
    return datum.value


# ---- what was received -------------------------------------------------------------------------------------------


def _standing(
    document: RequiredDocument, wanted: _Wanted, register: ReceivedRegister | None, on: datetime.date | None
) -> DocumentFinding:
    """Return how one document stands, by the gravest of its lines."""
    lines = wanted.lines or wanted.open_lines
    names = tuple(line.name for line in lines)
    if register is None:
        reason = "no register of what was received was given"
        return DocumentFinding(document, wanted.subject, names, DocumentStanding.CANNOT_TELL, reason)
    alike = [one for one in register.entries if one.kind is document.kind]
    by_line = {line.name: some(_covers(document, one, line, wanted, on)[0] for one in alike) for line in lines}
    truth = every(by_line.values())
    if truth is True:
        used = [one for one in alike if any(_covers(document, one, line, wanted, on)[0] for line in lines)]
        return DocumentFinding(document, wanted.subject, names, DocumentStanding.SATISFIED, listed(map(str, used)))
    lacking = tuple(name for name, covered in by_line.items() if covered is not True)
    doubts = [_covers(document, one, line, wanted, on) for line in lines for one in alike]
    whys = list(dict.fromkeys(why for covered, why in doubts if why and covered is not True))
    if truth is False and not wanted.lines:
        whys.insert(0, f"it is not known whether {_names(lacking)} {agree(len(lacking), 'needs', 'need')} it")
        truth = None
    standing = DocumentStanding.CANNOT_TELL if truth is None else DocumentStanding.NOT_SATISFIED
    of = f" of {wanted.subject}" if wanted.subject else ""
    reason = "; ".join([f"no {document.kind.value}{of} was received for {_names(lacking)}", *whys])
    return DocumentFinding(document, wanted.subject, lacking, standing, reason if truth is False else "; ".join(whys))


def _covers(
    document: RequiredDocument, entry: ReceivedDocument, line: Line, wanted: _Wanted, on: datetime.date | None
) -> tuple[Truth, str]:
    """Return whether a thing that was received is what is asked for a line, and why not where that needs saying."""
    if entry.lines and line.name not in entry.lines:
        return False, ""
    found = every(_same(value, line, name) for name, value in entry.of.items())
    if found is False:
        return False, ""
    if found is None:
        return None, f"{entry} is of something that line {line.name} does not state"
    if wanted.term is not None and wanted.term.name not in entry.of:
        if any(other.name in entry.of for other in document.each):
            return False, ""
        if entry.lines:
            return _is_recent(document, entry, on)
        return None, f"{entry} does not say of which {wanted.term.name} it is"
    return _is_recent(document, entry, on)


def _same(value: Single, line: Line, name: str) -> Truth:
    datum = line.data.get(name)
    if datum is None or isinstance(datum.value, NotGiven):
        return None
    if isinstance(value, str) and isinstance(datum.value, str):
        return fold(value) == fold(datum.value)
    return datum.value == value


def _is_recent(document: RequiredDocument, entry: ReceivedDocument, on: datetime.date | None) -> tuple[Truth, str]:
    """Return whether a thing is as recent as is asked, and why it is not or cannot be told to be."""
    if document.within is None:
        return True, ""
    if entry.dated is None:
        return None, f"{entry} has no date"
    if on is None:
        return None, "the day of the review is not given"
    if entry.dated > on:
        return None, f"{entry}, is dated after the day of the review"
    if entry.dated < document.within.earliest(on):
        return False, f"{entry}, is older than {document.within}"
    return True, ""


def _names(names: Sequence[str]) -> str:
    return f"{noun(len(names), 'line')} {first_of(names, MOST_NAMED)}"


# ---- what nobody asked for ---------------------------------------------------------------------------------------


def unasked(ruleset: Ruleset, lines: Sequence[Line], register: ReceivedRegister) -> Iterator[Observation]:
    """Yield what was received and is not asked for, and names of lines that the schedule does not have."""
    kinds = {document.kind for document in ruleset.documents}
    names = {line.name for line in lines}
    for entry in register.entries:
        if entry.kind not in kinds:
            yield observed(NOTHING_ASKS_FOR_IT.at(entry.place, entry=entry, kind=entry.kind.value))
        strange = [name for name in entry.lines if name not in names]
        if strange:
            yield observed(FOR_UNKNOWN_LINES.at(entry.place, entry=entry, lines=_names(strange)))
