"""The review: what a schedule and a ruleset make together.

In: a `Schedule` (floor `submittal`) and a `Ruleset` (floor `language`). Out: a `Matrix` of cells, with its findings.

Files:

    matrix    the compliance matrix
    judging   from a schedule and a ruleset to their matrix
"""

from speccheck.review.judging import judge_schedule
from speccheck.review.matrix import Finding, Matrix

__all__ = ["Finding", "Matrix", "judge_schedule"]
