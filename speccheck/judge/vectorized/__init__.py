"""All lines at once: the clauses of a ruleset evaluated over NumPy columns, with the same verdicts as the judge.

In: lines of schedules, or columns of cell texts, and a `Ruleset`. Out: a `VerdictMatrix`, small integers without
reasons; the judge gives the reasons of any one cell. NumPy is imported here and nowhere else in the engine.

    lines --filling--> Columns --+
                                 +--running--> VerdictMatrix
    ruleset --planning--> Program +

A condition becomes two columns of yes and no: where it holds, and where it does not; where neither, it is not known.
A program is a list of array operations in which equal sub-expressions stand once. It is run over blocks of rows that
stay in the processor's cache.

Files:

    amounts           what a clause compares, as operations on columns
    calculating       arithmetic on columns, with the same results as on single values, to the last digit
    column            what many lines state for each term, as arrays of numbers and of small integers
    comparing         comparing two amounts on columns, with the tolerance and the nominal sizes of
                      `speccheck.judge.operations`
    conditions        conditions as operations on columns: where they hold and where they do not; and the matrix of
                      verdicts, the worst smallest
    expression_graph  a program under construction, in which each distinct operation stands once
    from_lines        from the lines of schedules, or from columns of cell texts, to the columns of a ruleset's terms
    operand           what an amount is to a program: the results that hold its values, and where it is known
    physics           computed terms on a block of rows, by the vectorised calculations of the floor `physics`
    planning          from clauses to the program that writes their verdicts
    program           array operations in order, run over one block of rows after the other
    ranges            lines that cover ranges of amounts or of nominal sizes, taken apart into the very cases that the
                      judge tries
    running           from a ruleset and columns to the matrix of verdicts
    tables            for each row, the number of the cell in which its values lie
    terms             the column of a term, completed with what the ruleset assumes and with what is worked out
    thresholds        the exact numbers between which values are equal within a tolerance, nominal metric sizes
                      included
    values            from values of a term, as they are read from cells, to a column of them
"""

from speccheck.judge.vectorized.column import Columns
from speccheck.judge.vectorized.conditions import VerdictMatrix
from speccheck.judge.vectorized.from_lines import CellTexts, columns_of, columns_of_texts
from speccheck.judge.vectorized.running import ColumnJudge, judge_columns

__all__ = ["CellTexts", "ColumnJudge", "Columns", "VerdictMatrix", "columns_of", "columns_of_texts", "judge_columns"]
