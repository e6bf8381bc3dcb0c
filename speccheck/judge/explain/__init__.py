"""Explaining: the facts of the judge put into words. Nothing else in the judge writes a sentence.

In: a `Cell`, or what one stands on. Out: an `Explanation`, made once, when somebody asks for it.

Files:

    amounts     the amounts of a comparison in words, each with its value and with what it was worked out from
    cells       a cell as a whole: its reason, its working, the part of a range, the notes that go with its numbers
    causes      what is missing, and why something is not known or was compared otherwise than it is written
    conditions  from the trace of an evaluation to steps of working and sentences with the values in them
    ranges      the sizes and the parts of ranges for which a verdict holds
    workings    the working of a computed value, in as many digits as a reviewer would write
"""

from speccheck.judge.explain.cells import explain

__all__ = ["explain"]
