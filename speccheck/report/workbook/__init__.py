"""Workbooks (Office Open XML): the report, the blank schedule, the corrected schedule.

Files:

    blank      a workbook with the columns that the clauses of a ruleset need, for a contractor to fill in
    cells      cells, sheets and styles of a workbook: text that stays text, a frame and letters for each verdict, the
               set-up for print
    corrected  the contractor's own workbook with the cheapest changes in it, each changed cell marked
    report     the matrix and its lists as an Office Open XML file, the same bytes on each run
    sheets     the sheets of the workbook: the matrix, and the lists that a reviewer filters, pastes into a reply or
               sends on
    streaming  sheets whose rows are written as text: a report of 2,000 lines has half a million cells, too many for an
               object each
"""
