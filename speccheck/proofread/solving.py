"""Solving: values for amounts that are compared with one another, or the proof that there are none, by z3.

z3 (de Moura and Bjørner, TACAS 2008, 337) is an optional extra (`pip install '.[proofread]'`); without it only
plain values are tried. Two amounts that are to differ are first asked to differ by a comfortable margin. That there are
no values is only said where not even amounts that differ by the tolerance of comparisons alone would do. Whoever asks
has the judge look at whatever is found.
"""

from __future__ import annotations

from collections.abc import Iterator
from importlib.util import find_spec

from speccheck.language.vocabulary.terms import Form
from speccheck.proofread.encoding import Encoding
from speccheck.proofread.problems import OrderProblem, Values

# Terms of these kinds have no number.
UNSOLVED = (Form.TEXT, Form.SET, Form.YES_NO)
# By how much of the larger amount two amounts are asked to differ, at first.
COMFORTABLE = 0.02
# With how many digits the values that were found are written, until they agree with the problem.
DIGITS = (3, 6, 12, 15)


def has_solver() -> bool:
    """Say whether z3 is installed."""
    return find_spec("z3") is not None


def is_impossible(problem: OrderProblem) -> bool:
    """Say whether it is certain that no values agree with a problem."""
    encoding = Encoding(problem)
    return _can_be_solved(problem) and encoding.solve(0.0)[0] == "unsat" and not encoding.loose


def solved_values(problem: OrderProblem) -> Iterator[Values]:
    """Yield values for the terms of a problem that the solver finds, and that agree with it by the engine's own rules.

    Amounts that are to differ are asked to differ comfortably first.
    """
    for margin in (COMFORTABLE, 0.0) if _can_be_solved(problem) else ():
        encoding = Encoding(problem)
        answer, model = encoding.solve(margin)
        if answer != "sat":
            continue
        for digits in DIGITS:
            values = encoding.values(model, digits)
            if values is not None and problem.holds(values):
                yield values


def _can_be_solved(problem: OrderProblem) -> bool:
    return has_solver() and not any(term.kind.form in UNSOLVED for term in problem.terms)
