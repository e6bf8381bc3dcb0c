"""A bracketing root finder for many equations at once, and the array types that the whole floor speaks of."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

Array = NDArray[np.float64]
"""An array of double-precision numbers."""

Flags = NDArray[np.bool_]
"""An array of yes and no."""

Numbers = ArrayLike
"""What a caller may hand in where an array is wanted: a number, a sequence, an array."""


def as_array(values: Numbers) -> Array:
    """Return `values`, in whatever unit, as an array of doubles, without a copy where it is one already."""
    return np.asarray(values, dtype=np.float64)


MOST_STEPS = 100
"""Far more steps than any bracket of doubles needs; bisection alone ends in about 60."""


@dataclass(frozen=True)
class Roots:
    """The roots found: `value`, and the function there, `residual`. Both NaN where the function gave NaN."""

    value: Array
    residual: Array


@dataclass
class _Bracket:
    """The newest point 1, the point 2 on the other side of the root, and the point 3 that was dropped last."""

    x1: Array
    f1: Array
    x2: Array
    f2: Array

    def collapse_at_zeros(self) -> None:
        """Draw the bracket together where an end is a root already, so that the root is not lost between points."""
        at_first, at_second = self.f1 == 0, self.f2 == 0
        self.x2, self.f2 = np.where(at_first, self.x1, self.x2), np.where(at_first, self.f1, self.f2)
        self.x1, self.f1 = np.where(at_second, self.x2, self.x1), np.where(at_second, self.f2, self.f1)

    def shrink(self, x: Array, f: Array) -> None:
        """Take a new point in, so that 1 and 2 still hold the root between them."""
        same = np.signbit(f) == np.signbit(self.f1)
        self.x3, self.f3 = np.where(same, self.x1, self.x2), np.where(same, self.f1, self.f2)
        self.x2, self.f2 = np.where(same, self.x2, self.x1), np.where(same, self.f2, self.f1)
        self.x1, self.f1 = x, f

    def next_fraction(self, least: Array) -> Array:
        """Return how far to go from 1 to 2: by inverse quadratic interpolation where it is safe, else half way."""
        xi = (self.x1 - self.x2) / (self.x3 - self.x2)
        phi = (self.f1 - self.f2) / (self.f3 - self.f2)
        safe = (phi * phi < xi) & ((1 - phi) ** 2 < 1 - xi)
        along = self.f1 / (self.f2 - self.f1) * self.f3 / (self.f2 - self.f3)
        along += (
            (self.x3 - self.x1) / (self.x2 - self.x1) * self.f1 / (self.f3 - self.f1) * self.f2 / (self.f3 - self.f2)
        )
        fraction = np.where(safe, along, 0.5)
        return np.minimum(np.maximum(fraction, least), 1 - least)


def find_roots(
    function: Callable[[Array], Array],
    low: Numbers,
    high: Numbers,
    first: Numbers | None = None,
    near_enough: Numbers = 0.0,
) -> Roots:
    """Return x between `low` and `high`, in their unit, with function(x) = 0, element by element.

    `low`, `high` and `near_enough` are broadcast; the root is NaN where the function gives NaN. `function` must have
    different signs (or a zero) at the two ends. `first` is a first guess inside the bracket, half way unless given. An
    element is done when |function| is at most `near_enough` or the bracket has shrunk to the spacing of doubles.
    Method: Chandrupatla, "A new hybrid quadratic/bisection algorithm for finding the zero of a nonlinear function
    without using derivatives", Advances in Engineering Software 28 (1997).
    """
    low, high, enough = np.broadcast_arrays(as_array(low), as_array(high), as_array(near_enough))
    with np.errstate(all="ignore"):
        return _search(function, _Bracket(low, function(low), high, function(high)), first, enough)


def _search(function: Callable[[Array], Array], bracket: _Bracket, first: Numbers | None, enough: Array) -> Roots:
    """Shrink the bracket until every element is done; the better end of its bracket is the answer of each.

    The answer of an element is that of the step at which it was done, so that it is the same in any company.
    """
    bracket.collapse_at_zeros()
    x = 0.5 * (bracket.x1 + bracket.x2)
    if first is not None:
        inside = (as_array(first) - bracket.x1) * (as_array(first) - bracket.x2) < 0
        x = np.where(inside, as_array(first), x)
    done, value, residual = np.zeros(x.shape, dtype=bool), x, x
    for _ in range(MOST_STEPS):
        bracket.shrink(x, function(x))
        nearer = np.abs(bracket.f2) < np.abs(bracket.f1)
        value = np.where(done, value, np.where(nearer, bracket.x2, bracket.x1))
        residual = np.where(done, residual, np.where(nearer, bracket.f2, bracket.f1))
        width = np.abs(bracket.x2 - bracket.x1)
        spacing = 4 * np.spacing(np.maximum(np.abs(bracket.x1), np.abs(bracket.x2)))
        done = done | (np.abs(residual) <= enough) | (width <= spacing) | np.isnan(bracket.f1) | np.isnan(bracket.f2)
        if bool(np.all(done)):
            break
        x = bracket.x1 + bracket.next_fraction(np.minimum(0.5 * spacing / width, 0.5)) * (bracket.x2 - bracket.x1)
    return Roots(value, residual)
