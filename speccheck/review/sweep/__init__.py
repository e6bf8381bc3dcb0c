"""Sweeps: every combination of stated values of terms, judged by a ruleset and counted.

In: a ruleset, and texts that state terms with their values ("thickness 1/2 in, 1 in", "pipe size 1/2 in to 12 in").
Out: `Sweep`: how many combinations have each verdict, by clause, by value, and over two terms for a picture.

    texts --values--> SweptTerm --combinations--> blocks of columns --running--> Sweep

Combinations are judged block by block, so that memory does not grow with their number.

Files:

    messages  every sentence that is said of sweeps
    running  running a sweep: every value of each term with every value of all others, judged by the columns and
             counted
    values   texts to terms with all their values, each in the words that a schedule would have
"""

from speccheck.review.sweep.running import Axes, Sweep, axes_of, sweep
from speccheck.review.sweep.values import SweptTerm, read_swept

__all__ = ["Axes", "Sweep", "SweptTerm", "axes_of", "read_swept", "sweep"]
