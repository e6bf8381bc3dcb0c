"""The matrix of verdicts: small integers, the worst verdict the smallest."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from speccheck.engine.judgement import Verdict

FAILS, CANNOT_TELL, COMPLIES, NOT_APPLICABLE, NO_ADVICE = -1, 0, 1, 2, 3
"""The codes of the verdicts, and of no advice; the least of the codes of several cases is that of their line."""

VERDICTS: Mapping[int, Verdict] = {
    FAILS: Verdict.FAILS,
    CANNOT_TELL: Verdict.CANNOT_TELL,
    COMPLIES: Verdict.COMPLIES,
    NOT_APPLICABLE: Verdict.NOT_APPLICABLE,
}
CODES: Mapping[Verdict, int] = {verdict: code for code, verdict in VERDICTS.items()}


@dataclass(frozen=True, slots=True)
class VerdictMatrix:
    """The codes of all verdicts, a row for each line and a column for each clause.

    `advice` are the verdicts on advice, a column for each clause in `advised` (their numbers in the ruleset).
    """

    codes: NDArray[np.int8]
    advice: NDArray[np.int8]
    advised: tuple[int, ...] = ()

    def verdict(self, line: int, clause: int) -> Verdict:
        """Return the verdict of one clause on one line."""
        return VERDICTS[int(self.codes[line, clause])]

    def advice_on(self, line: int, clause: int) -> Verdict | None:
        """Return the verdict on the advice of one clause on one line, None where there is none."""
        if clause not in self.advised:
            return None
        return VERDICTS[int(self.advice[line, self.advised.index(clause)])]

    def counts(self) -> Mapping[Verdict, NDArray[np.intp]]:
        """Return how many lines have each verdict, clause by clause."""
        by_clause = self.codes.T
        return {
            verdict: np.array([np.count_nonzero(column == code) for column in by_clause], np.intp)
            for code, verdict in VERDICTS.items()
        }

    def line_codes(self, clauses: tuple[int, ...]) -> NDArray[np.int8]:
        """Return the worst code of each line over some clauses; not applicable where there are none."""
        worst = np.full(len(self.codes), NOT_APPLICABLE, np.int8)
        for clause in clauses:
            np.minimum(worst, self.codes[:, clause], out=worst)
        return worst
