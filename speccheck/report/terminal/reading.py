"""What a schedule was read as, in a terminal: counts first, then tables and columns, then what was not read."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from speccheck.english import count, listed
from speccheck.report.terminal.diagnostics import ConsolePage
from speccheck.schedule.columns_by_cells import BY_ITS_CELLS
from speccheck.schedule.questions import Question, QuestionKind
from speccheck.schedule.sentences import NOTE as SENTENCES
from speccheck.schedule.starter import where
from speccheck.schedule.what_was_read import ColumnRead, TableRead, WhatWasRead

if TYPE_CHECKING:
    from rich.console import Console

MOST_COLUMNS = 14
MOST_QUESTIONS = 8
MOST_TABLES = 2
_ANSWERS = {
    QuestionKind.COLUMN: "perhaps",
    QuestionKind.WORDS: "perhaps",
    QuestionKind.UNITS: "perhaps",
}


def print_reading(
    readings: Sequence[WhatWasRead],
    questions: Sequence[Question],
    console: Console | None = None,
    *,
    width: int | None = None,
    everything: bool = False,
    others: Sequence[str] = (),
) -> None:
    """Print what became of the schedules of a submittal, about 40 lines for one unless `everything` is asked for.

    `others` says what files became that are no schedules.
    """
    page = ConsolePage(console, width)
    for number, read in enumerate(readings):
        if number:
            page.line()
        _print_schedule(page, read, everything)
    for number, words in enumerate(others):
        if readings and not number:
            page.line()
        page.line(words)
    page.line()
    if not questions:
        lines = sum(len(read.schedule.lines) for read in readings)
        nothing = "No line was read: nothing here reads as a schedule."
        page.line("Nothing is open: all that bears on a line was read." if lines else nothing, "bold")
        return
    page.line(f"Not read: {count(len(questions), 'question')}, most lines first", "bold")
    shown = questions if everything else questions[:MOST_QUESTIONS]
    for question in shown:
        _print_question(page, question)
    if len(shown) < len(questions):
        page.line(f"and {len(questions) - len(shown)} more; --all shows them", "dim", indent=2)


def _print_schedule(page: ConsolePage, read: WhatWasRead, everything: bool) -> None:
    page.line(_counts(read), lead=f"{read.schedule.name}:")
    tables = read.tables if everything else read.tables[:MOST_TABLES]
    for table in tables:
        _print_table(page, table, everything)
    if len(tables) < len(read.tables):
        page.line()
        page.line(f"and {count(len(read.tables) - len(tables), 'more table')}; --all shows them", "dim")


def _counts(read: WhatWasRead) -> str:
    """Return "12 lines in 2 tables; 96 of 104 filled cells settled"."""
    schedule = read.schedule
    words = f"{count(len(schedule.lines), 'line')} in {count(len(read.tables), 'table')}"
    if schedule.cells is not None:
        words += f"; {schedule.cells.accounted} of {count(schedule.cells.filled, 'filled cell')} settled"
    return words


def _print_table(page: ConsolePage, table: TableRead, everything: bool) -> None:
    page.line()
    where_it_is = " ".join(filter(None, (table.sheet, table.header and f"(header in {table.header})")))
    page.line(f"{where_it_is or 'Table'}: {count(len(table.lines), 'line')}", "bold")
    columns = table.columns if everything else table.columns[:MOST_COLUMNS]
    for column in columns:
        page.line(_column_words(column), lead=column.letters, indent=2)
    if len(columns) < len(table.columns):
        page.line(f"and {count(len(table.columns) - len(columns), 'more column')}; --all shows them", "dim", indent=2)


def _column_words(column: ColumnRead) -> str:
    """Return "`Thk (in)` is thickness in in: 12 cells, 1 not read"."""
    read = column.column
    header = f"`{' '.join(read.header.split())}`" if read.header else "no header"
    if read.term:
        became = f"is {read.term}" + (f" in {read.unit}" if read.unit else "")
        became += ", inferred from its cells" if read.note == BY_ITS_CELLS else ""
    elif read.note == "names the lines":
        became = "names the lines"
    elif read.note == SENTENCES:
        became = f"is {SENTENCES}"
    else:
        became = "left out" if read.note.startswith("left out") else f"not read ({read.note})"
    counted = count(column.filled, "cell") + (
        f", {column.unread} not read" if column.unread and (read.term or read.note == SENTENCES) else ""
    )
    return f"{header} {became}: {counted}"


def _print_question(page: ConsolePage, question: Question) -> None:
    lead = count(question.lines, "line") if question.lines else ""
    page.line(f"{question.why} ({where(question)})", lead=lead, indent=2)
    if question.likely and question.kind in _ANSWERS:
        page.line(f"{_ANSWERS[question.kind]} {listed(list(question.likely), 'or')}", "dim", indent=4)
