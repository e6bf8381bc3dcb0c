"""The reply: review comments by line and clause in the trade's wording, and the HTML page of them, made for paper."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from speccheck.english import capitalized, count
from speccheck.judge.cell import Cell
from speccheck.judge.judgement import Verdict
from speccheck.language.core import Clause
from speccheck.report.html.small_page import render_small_page
from speccheck.report.line_words import brief
from speccheck.report.mending_words import none_text, proposal_texts
from speccheck.report.requests import says, unchecked_sections, unchecked_sentence
from speccheck.report.sections import ReportTable, sections
from speccheck.report.terminal.corrections import CAUTION as PROPOSAL_CAUTION
from speccheck.report.wording import cautions, clause_label, ruleset_heading
from speccheck.review.corrections import Mending
from speccheck.review.matrix import Matrix
from speccheck.review.notes import Note, Notes
from speccheck.review.outcome import outcome_of
from speccheck.schedule.lines import Line

TO_BE_MARKED = "to be marked by the reviewer: ____________________"
WORDS: Mapping[Verdict, str] = {
    Verdict.FAILS: "Does not comply. Revise",
    Verdict.CANNOT_TELL: "Provide data",
    Verdict.ACCEPTED: "Does not comply; deviation accepted",
    Verdict.COMPLIES: "Complies",
    Verdict.NOT_CHECKED: "Not checked for want of data",
    Verdict.NOT_APPLICABLE: "Not applicable",
}
LICENSED_PRACTICE = (
    "This review is for general conformance with the clauses that were written down. It relieves nobody of the "
    "contract documents, the adopted codes, quantities and dimensions, means and methods, or safety at the site. "
    "Whoever signs it decides, under the law of the place that licenses the practice."
)


@dataclass(frozen=True, slots=True)
class ReplyComment:
    """One comment: its number in the reply, the clause, the words, the reason, what to provide, and the notes."""

    number: int
    line: Line
    clause: Clause
    words: str
    reason: str
    provide: str = ""
    notes: tuple[str, ...] = ()

    @property
    def sentence(self) -> str:
        """What stands behind the words: the data that are asked for, else the reason, as a sentence of its own."""
        told = self.provide or self.reason
        return capitalized(told) + ("" if told.endswith(".") else ".")


@dataclass(frozen=True, slots=True)
class LineReply:
    """The comments on one line; `changes` are the changes that would comply, those of each proposal together.

    `word` sums the line up, `none` says why there are no changes that would comply where some were looked for, `notes`
    are those to the line as a whole.
    """

    line: Line
    what: str
    word: str
    comments: tuple[ReplyComment, ...]
    changes: tuple[tuple[str, ...], ...] = ()
    none: str = ""
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Reply:
    """The whole reply.

    `transmittal` are headings with their texts, `summary` sentences, `complying` the names of lines without comments.
    `answered` are notes of earlier rounds to clauses that ask for nothing more, `left` those that no line is for.
    """

    title: str
    transmittal: tuple[tuple[str, str], ...]
    action: str
    summary: tuple[str, ...]
    lines: tuple[LineReply, ...]
    complying: tuple[str, ...]
    unjudged: tuple[str, ...]
    sections: tuple[ReportTable, ...]
    answered: tuple[str, ...]
    left: tuple[str, ...]
    cautions: tuple[str, ...]

    @property
    def comments(self) -> tuple[ReplyComment, ...]:
        """All comments in order."""
        return tuple(comment for line in self.lines for comment in line.comments)


def reply_to(matrix: Matrix, notes: Notes, mendings: Sequence[Mending] = (), action: str = "") -> Reply:
    """Return the reply to a schedule; `action` is the reviewer's word and goes before that of the notes."""
    by_line = {id(mending.line): mending for mending in mendings}
    lines = tuple(_line_replies(matrix, notes, by_line))
    verdicts = [matrix.line_verdict(index) for index in range(len(matrix.schedule.lines))]
    named = list(zip(matrix.schedule.lines, verdicts, strict=True))
    result = outcome_of(matrix)
    standing = (LICENSED_PRACTICE, *((PROPOSAL_CAUTION,) if mendings else ()), *cautions(matrix.ruleset))
    return Reply(
        title=f"Review of {matrix.schedule.name}",
        transmittal=_transmittal(matrix, notes),
        action=action or notes.transmittal.get("action", "") or TO_BE_MARKED,
        summary=(result.heading, *result.details),
        lines=lines,
        complying=tuple(line.name for line, verdict in named if verdict is Verdict.COMPLIES),
        unjudged=tuple(line.name for line, verdict in named if verdict is Verdict.NOT_APPLICABLE),
        sections=(*(() if matrix.stands_alone else sections(matrix)), *unchecked_sections(matrix.ruleset)),
        answered=tuple(_answered(matrix, notes)),
        left=tuple(_left(matrix, notes)),
        cautions=(*standing, *filter(None, [unchecked_sentence(matrix.ruleset)])),
    )


def _transmittal(matrix: Matrix, notes: Notes) -> tuple[tuple[str, str], ...]:
    """Return what the reply is about, who sends it and to whom, as far as that is stated."""
    stated = {key.capitalize(): text for key, text in notes.transmittal.items() if key != "action"}
    about = {"Schedule": matrix.schedule.name, "Checked against": ruleset_heading(matrix.ruleset)}
    order = ("Project", "Submittal", "Round", "From", "To", "Date")
    return (*((key, stated[key]) for key in order if stated.get(key)), *about.items())


def _line_replies(matrix: Matrix, notes: Notes, mendings: Mapping[int, Mending]) -> Iterator[LineReply]:
    """Yield the replies to lines that need one, their comments numbered through."""
    number = 0
    for index, (line, cells) in enumerate(zip(matrix.schedule.lines, matrix.told, strict=True)):
        comments = []
        for clause, cell in zip(matrix.ruleset.clauses, cells, strict=True):
            words = _words(cell)
            if words:
                number += 1
                told = _told(notes.of(line, clause_label(clause), matrix.ruleset))
                comments.append(ReplyComment(number, line, clause, words, _reason(cell), _provide(line, cell), told))
        on_line = _told(notes.of(line, "", matrix.ruleset))
        if comments or on_line:
            mending = mendings.get(id(line))
            changes = () if mending is None else _changes(mending, matrix.ruleset.units)
            none = none_text(mending) if mending is not None and not mending.proposals else ""
            word = WORDS[matrix.line_verdict(index)]
            yield LineReply(line, brief(line), word, tuple(comments), changes, none, on_line)


def _words(cell: Cell) -> str:
    """Return the words of the comment that a cell calls for, "" where it calls for none."""
    if cell.mandatory and cell.verdict in (Verdict.FAILS, Verdict.CANNOT_TELL, Verdict.ACCEPTED):
        return WORDS[cell.verdict]
    return "Advised" if cell.advice in (Verdict.FAILS, Verdict.CANNOT_TELL) else ""


def _reason(cell: Cell) -> str:
    reason = cell.reason
    if _words(cell) == "Advised":
        reason = cell.advice_reason or reason
    return f"{reason} (at {'; '.join(cell.at)})" if cell.at else reason


def _provide(line: Line, cell: Cell) -> str:
    """Return which data are asked for, with what the schedule says in their place."""
    if not cell.mandatory or cell.verdict is not Verdict.CANNOT_TELL or not cell.missing:
        return ""
    return "; ".join(f"{term}: {says(line, term)}" for term in cell.missing)


def _changes(mending: Mending, system: str) -> tuple[tuple[str, ...], ...]:
    return tuple(proposal_texts(proposal, system) for proposal in mending.proposals)


def _told(notes: Iterable[Note]) -> tuple[str, ...]:
    """Return notes in words, each with the round in which it was written; empty ones say nothing."""
    return tuple(f"Round {note.round}: {note.text}" if note.round else note.text for note in notes if note.text.strip())


def _answered(matrix: Matrix, notes: Notes) -> Iterator[str]:
    """Yield the notes to clauses on which there is no comment any more."""
    for line, cells in zip(matrix.schedule.lines, matrix.told, strict=True):
        for clause, cell in zip(matrix.ruleset.clauses, cells, strict=True):
            if not _words(cell):
                for text in _told(notes.of(line, clause_label(clause), matrix.ruleset)):
                    yield f"{line.name}, {clause_label(clause)}: {cell.verdict}. {text}"


def _left(matrix: Matrix, notes: Notes) -> Iterator[str]:
    """Yield the notes that are for no line of the schedule."""
    for note in notes.notes:
        if note.text.strip() and not any(note.is_for(line, matrix.ruleset) for line in matrix.schedule.lines):
            where = ", ".join(f"{name} {words}" for name, words in note.words.items())
            clause = f"; clause {note.clause}" if note.clause else ""
            yield f"{where}{clause}: {_told([note])[0]}"


def render_reply_page(reply: Reply) -> str:
    """Return the page; the same reply gives the same text."""
    return render_small_page(
        "reply.html.j2", styles=("page.css", "reply.css"), reply=reply, label=clause_label, count=count
    )
