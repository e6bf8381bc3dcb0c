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

    column       the columns of terms
    filling      lines, or cell texts, to columns; values has those of one term
    thresholds   the exact number at which a comparison with a tolerance changes
    program      array operations in order, run block by block
    circuit      a program under construction, each distinct operation once
    worth        what an amount is to the program
    amounts      amounts to operations
    terms        terms to operations, with what is assumed; physics works out the computed ones
    tables       tables to operations
    calculating  arithmetic on columns
    nominal      nominal metric sizes that stand for inch sizes
    comparing    two amounts compared
    conditions   conditions to operations
    planning     clauses to programs
    ranges       the cases of lines that cover ranges; size_ranges has those of nominal sizes
    verdicts     the matrix of verdicts
    running      from a ruleset and columns to the matrix
"""

from speccheck.judge.vectorized.column import Columns
from speccheck.judge.vectorized.conditions import VerdictMatrix
from speccheck.judge.vectorized.from_lines import CellTexts, columns_of, columns_of_texts
from speccheck.judge.vectorized.running import ColumnJudge, judge_columns

__all__ = ["CellTexts", "ColumnJudge", "Columns", "VerdictMatrix", "columns_of", "columns_of_texts", "judge_columns"]
