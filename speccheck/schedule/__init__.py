"""Schedules as contractors send them: from a file to lines of data, with every word accounted for.

In: an .xlsx, .csv, .json or .toml file, a `Vocabulary`, and where needed a mapping file (.toml) that settles what
cannot be guessed. Out: a `Schedule`: its lines, what each column was taken for, the texts that belong to no line,
diagnostics. Design lists and product data are read in the same way. No mistake of a user raises; a file that cannot
be used gives a schedule without lines and an error among its diagnostics.

    file --safety--> workbook / comma_separated / json_lines --> Grid --header--> columns --rows--> filling --> lines

Files:

    lines             what a schedule is: Schedule, Line, Datum, Column, Remark
    codes             the diagnostics of this floor: title and explanation of each
    grid              cells as a file shows them, with their places and merged ranges
    safety            what is refused before it is opened: locked, damaged or oversized files
    workbook          .xlsx to grids
    sheet_marks       what a sheet says beside its values: formulas, number formats, struck cells, hidden rows
    lettering         struck text and raised figures
    number_formats    what a number format adds to a number: a unit, a percent sign
    comma_separated   .csv to a grid
    json_lines        .json to a grid
    toml_lines        .toml to a grid
    mapping           the mapping file; mapping_shape checks its shape
    header            where the header is
    headings          what stands above the headers
    header_words      which term a header names, and in which unit
    header_spellings  how headers are shortened and qualified
    columns           what each column was taken for
    rows              which rows are lines, section headings, notes, totals
    sections          what a section heading says about the lines under it
    filling           values that stand only once: merged cells, ditto marks, groups
    data              cells to data, with a diagnostic for each that cannot be read
    doubtful          amounts that no insulation has, mostly under a header with another unit
    note_marks        lines and columns with the mark of a note
    tables            one header and the rows under it
    words             a line stated in words instead of a file
    schedule          the whole way: read_schedule
    expanding         the cases that a line with ranges stands for
"""

from speccheck.schedule.expanding import CASES_LIMIT, Case, cases_of
from speccheck.schedule.header_words import HeaderReader
from speccheck.schedule.lines import Column, Datum, Line, Remark, Schedule
from speccheck.schedule.mapping import ScheduleMapping, read_mapping
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
