"""Schedules as contractors send them: from a file to lines of data, with every word accounted for.

In: a file of any kind that `formats` reads, a `Vocabulary`, and where needed a mapping file (.toml) that settles what
cannot be guessed. Out: a `Schedule`: its lines, what each column was read as, the texts that belong to no line,
diagnostics. Design lists and product data are read in the same way. No mistake of a user raises; a file that cannot
be used gives a schedule without lines and an error among its diagnostics.

    file --formats--> Grid --header--> columns --rows--> fill down --> lines

Files:

    accounting        what became of every filled cell, and what a person still has to read
    centered_labels   labels on the middle row of their block, without a merged cell
    columns           what each column of a table was read as, and what was not understood
    columns_by_cells  columns known by their cells: below the corner of a cross table, and below "Description"
    constants         what a mapping file says of all lines, of a sheet or of a table
    context           what stands around a table and belongs to its lines: headings, titles, the sheet's name
    cross_tables      columns of a thickness or an R-value that stand for one size, service or place each
    data              what the words of a line mean, term by term, with a diagnostic for all that cannot be read
    data_sheets       data sheets in PDF and Word, read for what a schedule states of their products
    doubtful          numbers that no insulation has, which mostly stand under a header with another unit
    expanding         the cases for which a line with ranges has to be judged
    fill_down         what a line says by a merged cell, by a ditto mark, or by a blank under a value that groups
                      lines
    formats           files of all kinds (workbooks, text, Word, PDF) to grids, a package of its own
    forms             sheets on which the names of terms stand left of their values
    grid              the cells of a sheet as a reader sees them, each with its place, and the ranges that are merged
    header            where the header of a schedule is: the row, or the rows that belong together, in which most
                      cells name terms
    header_spellings  how headers are shortened and qualified: "Oper. temp.", "Proposed thk"
    header_words      the words of one column header: the term that they name, the unit of its bare numbers, and what
                      else they say
    headings          what stands above the headers of a sheet: title blocks, and headings that say what a table is
    kept_readings     files that were read before, and that nothing has changed since
    labelled          labels with their values, as title blocks have them: "Service: Glycol"
    legends           "Type P-1: fiberglass, ASJ" beside a table, and the cells that name it
    lines             what a schedule says, one proposed system a line, each datum with the words that say it and
                      their place
    mapping           what a person settles about a schedule that the schedule itself leaves open
    mapping_file      mapping files: read from TOML, and checked against the vocabulary
    mapping_shape     the shape of a mapping file, checked by pydantic
    marked_columns    columns headed by values of one term, of which each line marks one: an X under "Fiberglass"
    messages          every sentence that is said of schedules
    note_marks        an asterisk behind the name of a line or in a header, and the note below that begins with it
    outlines          outlines and lists without a table: headings of several ranks over systems in words
    paired_columns    columns of one proposed term that stand for one place or part each
    parts             blocks of a sheet that stand side by side, each a table of its own
    phrases_of_cells  cells that hold more than one value
    questions         what reading a schedule left open, grouped by cause, with the cells that an answer settles
    range_columns     two columns that state the two ends of one range: "Size from" beside "Size to"
    rows              which rows under a header are lines, and which are headings, notes, totals, struck or hidden
    rows_without_lines  what becomes of the rows of which no line was made, and what is told of them
    schedule          the whole way from a schedule file to a `Schedule`
    sections          what a heading such as "CHILLED WATER SYSTEMS" says about the lines under it
    sentences         columns, and rows of a sheet without a table, whose cells propose systems in words
    shifted_rows      rows of separated text that a comma within a cell has moved
    siblings          columns of one term of which one has no value of it
    settling          what the cells of a line, and the lines of a schedule, say together
    starter           the starter of a mapping file: an entry for each question that reading left open
    tables            one header and the rows under it, read into lines
    two_units         numbers under a header that names two units: "Thickness mm (in)"
    under_headings    the lines between two section headings take what the first one says
    unstated_units    numbers for which nothing states a unit, and that may be in the other system's
    what_was_read     what each table and each column of a schedule became, with counts
    words             A line stated in words, as examples of clauses state theirs: terms and values, parted by commas
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from speccheck.schedule.expanding import CASES_LIMIT, Case, cases_of
    from speccheck.schedule.header_words import HeaderReader
    from speccheck.schedule.lines import Column, Datum, Line, Remark, Schedule
    from speccheck.schedule.mapping import ScheduleMapping
    from speccheck.schedule.mapping_file import read_mapping
    from speccheck.schedule.schedule import read_schedule

__all__ = [
    "CASES_LIMIT",
    "Case",
    "Column",
    "Datum",
    "HeaderReader",
    "Line",
    "Remark",
    "Schedule",
    "ScheduleMapping",
    "cases_of",
    "read_mapping",
    "read_schedule",
]

_MODULES = {
    **dict.fromkeys(("CASES_LIMIT", "Case", "cases_of"), "expanding"),
    **dict.fromkeys(("Column", "Datum", "Line", "Remark", "Schedule"), "lines"),
    "HeaderReader": "header_words",
    "ScheduleMapping": "mapping",
    "read_mapping": "mapping_file",
    "read_schedule": "schedule",
}


def __getattr__(name: str) -> Any:
    """Return a public name, imported when it is first asked for: who wants the endings of files reads no schedule."""
    if name not in _MODULES:
        raise AttributeError(f"module `speccheck.schedule` has no attribute `{name}`")
    return getattr(import_module(f"speccheck.schedule.{_MODULES[name]}"), name)
