"""Marks: each comment of a reply, and each thing that a review found beside it, with the cell that it speaks of.

In: a matrix and the reply to it. Out: marks, numbered as the comments of the reply are. The cell is that of the datum
that does not comply, or that is missing; where it stands in no cell of the line, the cell with which the line begins.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

from speccheck.english import capitalized
from speccheck.judge.cell import Cell
from speccheck.judge.completing import needs_of
from speccheck.judge.judgement import Verdict
from speccheck.language.core import Clause, Condition, Ruleset
from speccheck.language.core.walking import terms_of
from speccheck.language.diagnostics import Place, Severity
from speccheck.report.escaping import plain
from speccheck.report.line_words import drawn_together
from speccheck.report.paper_places import CELL, column_in_row_of
from speccheck.report.reply.reply import Reply, ReplyComment
from speccheck.report.wording import clause_label
from speccheck.review.matrix import Matrix
from speccheck.schedule.lines import Line, Schedule

_PAGE = re.compile(r"page \d+ ")


class Weight(StrEnum):
    """How a mark is drawn: each weight has a letter, a frame and a shade of its own, so that colour is not needed."""

    REVISE = "revise"
    PROVIDE = "provide data"
    ADVICE = "recommendation"
    ACCEPTED = "accepted deviation"
    QUESTION = "question"


LETTERS = {
    Weight.REVISE: "R",
    Weight.PROVIDE: "P",
    Weight.ADVICE: "A",
    Weight.ACCEPTED: "D",
    Weight.QUESTION: "Q",
}
MEANINGS = {
    Weight.REVISE: "does not comply: revise",
    Weight.PROVIDE: "cannot be determined: provide data",
    Weight.ADVICE: "recommendation, not mandatory",
    Weight.ACCEPTED: "does not comply, accepted as a deviation",
    Weight.QUESTION: "question that the review brought up",
}


@dataclass(frozen=True, slots=True)
class Mark:
    """One mark: its number, its weight, the line and the clause ("" if none) by name, what it says, and its cell."""

    number: int
    weight: Weight
    line: str
    clause: str
    text: str
    place: Place

    @property
    def tag(self) -> str:
        """The few letters that stand at the cell: "3R"."""
        return f"{self.number}{LETTERS[self.weight]}"

    @property
    def whole(self) -> str:
        """The whole comment with its number, line and clause, in one line."""
        about = ", ".join(part for part in (self.line, self.clause and f"clause {self.clause}") if part)
        return plain(f"{self.number}. {about}: {self.text}" if about else f"{self.number}. {self.text}")


def marks_of(matrix: Matrix, reply: Reply) -> tuple[Mark, ...]:
    """Return the marks of a reply in its order, then those of what the review found beside the verdicts."""
    cells = {(id(found.line), id(found.clause)): found.cell for found in matrix}
    marks = [_of_comment(matrix, comment, cells[id(comment.line), id(comment.clause)]) for comment in reply.comments]
    marks += _of_observations(matrix, len(marks))
    return tuple(marks)


def _of_comment(matrix: Matrix, comment: ReplyComment, cell: Cell) -> Mark:
    """Return the mark of one comment, which is about a cell of the matrix."""
    notes = "".join(f" Reviewer: {note}" for note in comment.notes)
    text = f"{comment.words}. {comment.sentence.replace('`', '')}{notes}"
    place = place_of(matrix.schedule, comment.line, terms_spoken_of(matrix.ruleset, comment.clause, cell))
    return Mark(comment.number, _weight(cell), comment.line.name, clause_label(comment.clause), text, place)


def _weight(cell: Cell) -> Weight:
    """Return the weight of the comment on a cell."""
    weights = {
        Verdict.FAILS: Weight.REVISE,
        Verdict.CANNOT_TELL: Weight.PROVIDE,
        Verdict.ACCEPTED: Weight.ACCEPTED,
    }
    return weights.get(cell.verdict, Weight.ADVICE) if cell.mandatory else Weight.ADVICE


def terms_spoken_of(ruleset: Ruleset, clause: Clause, cell: Cell) -> tuple[str, ...]:
    """Return the terms that a finding speaks of: those that are missing, else those of what is not met, first first.

    Where that is worked out, as a surface temperature is, it speaks of what a contractor proposes to reach it.
    """
    if cell.missing:
        return cell.missing
    advised = not cell.mandatory or cell.verdict not in (Verdict.FAILS, Verdict.ACCEPTED)
    part, conditions = ("should", clause.should) if advised else ("shall", clause.shall)
    not_met = _not_met(part, conditions, cell)
    named = terms_of(not_met)
    worked_out_from = needs_of(not_met, ruleset).inputs if named and named[0].computed else ()
    changeable = [term for term in worked_out_from if term.proposed and term.kind.dimension == "length"]
    return tuple(term.name for term in (*changeable, *named))


def _not_met(part: str, conditions: tuple[Condition, ...], cell: Cell) -> Sequence[Condition]:
    """Return the conditions of a part that the working shows as not met; all of them where it does not say."""
    truths = [step.truth for step in cell.steps if step.part == part and step.depth == 0]
    if len(truths) != len(conditions):
        return conditions
    return [one for one, truth in zip(conditions, truths, strict=True) if truth is not True] or conditions


def place_of(schedule: Schedule, line: Line, terms: Iterable[str]) -> Place:
    """Return the cell of the first of the terms that has one on a line: stated there, or blank in the term's column.

    What was inferred has one in the row of the line: a sentence there says it beside the name.
    """
    names = tuple(terms)
    for name in names:
        datum = line.data.get(name)
        if datum is not None and datum.place.cell and (not datum.inferred or column_in_row_of(datum.place, line.place)):
            return datum.place
        found = next((one for one in schedule.columns if one.term == name and _shares_table(one.place, line)), None)
        letters, row = CELL.fullmatch(found.place.cell) if found else None, CELL.fullmatch(line.place.cell)
        if letters is not None and row is not None:
            return Place(line.place.file, sheet=line.place.sheet, cell=f"{letters[1]}{row[2]}")
    return line.place


def _shares_table(place: Place, line: Line) -> bool:
    """Whether a column belongs to the table of a line, which may go on over pages."""
    return place.file == line.place.file and _PAGE.sub("", place.sheet) == _PAGE.sub("", line.place.sheet)


def _of_observations(matrix: Matrix, number: int) -> Iterator[Mark]:
    """Yield the marks of what a review found beside the verdicts and somebody has to answer."""
    lines = {line.name: line for line in matrix.schedule.lines}
    files = {line.place.file for line in matrix.schedule.lines}
    for one in matrix.observations:
        if one.diagnostic.severity is Severity.NOTE:
            continue
        number += 1
        place = one.diagnostic.place
        if place.file not in files or not place.cell:
            named = [lines[name] for name in one.lines if name in lines]
            place = named[0].place if named else Place(matrix.schedule.name)
        told = one.diagnostic.message.replace("`", "")
        help = f" {capitalized(one.diagnostic.help)}." if one.diagnostic.help else ""
        text = f"{capitalized(told)}.{help.replace('`', '')}"
        yield Mark(number, Weight.QUESTION, drawn_together(one.lines), ", ".join(one.clauses), text, place)


@dataclass(frozen=True, slots=True)
class Comments:
    """What goes into the copy: the marks, and what stands around their list.

    `heads` are headings with their texts, `author` and `date` are as the reviewer gave them, "" where not given.
    """

    title: str
    heads: tuple[tuple[str, str], ...]
    summary: tuple[str, ...]
    marks: tuple[Mark, ...]
    cautions: tuple[str, ...]
    author: str = ""
    date: str = ""

    @property
    def legend(self) -> str:
        """What the letters of the marks that are there mean."""
        used = {mark.weight for mark in self.marks}
        return "; ".join(f"{LETTERS[weight]} {MEANINGS[weight]}" for weight in Weight if weight in used)


def comments_on(comments: Comments, file: str, *, with_others: bool = False) -> Comments:
    """Return the comments on one of several files that were sent together; their numbers stay.

    `with_others` keeps those that speak of no file of their own too.
    """
    marks = tuple(mark for mark in comments.marks if mark.place.file == file or (with_others and not mark.place.cell))
    return replace(comments, title=f"Comments on {file}", marks=marks)


def comments_of(matrix: Matrix, reply: Reply, *, author: str = "", date: str = "") -> Comments:
    """Return what goes into the copy of a schedule that was judged and replied to."""
    by = (("Marked by", author), ("Date", date))
    heads = (
        *reply.transmittal,
        ("Action", reply.action),
        *(one for one in by if one[1] and one not in reply.transmittal),
    )
    stated = dict(heads)
    title = f"Comments on {matrix.schedule.name}"
    return Comments(title, tuple(stated.items()), reply.summary, marks_of(matrix, reply), reply.cautions, author, date)
