"""Operand: what an amount is to a program: the results that hold its values, and where it is known."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np

from speccheck.language.vocabulary.terms import Form, Kind, Term
from speccheck.language.vocabulary.values import Single
from speccheck.quantities import ALL_SIZES, NominalSize, Quantity

CODED = (Form.SIZE, Form.CHOICE, Form.TEXT, Form.YES_NO)
"""The forms of value that are small integers in a column; sizes rise with their code."""

SIZE_CODES = {size: code for code, size in enumerate(ALL_SIZES)}
PIPE_CODES = np.array([code for size, code in SIZE_CODES.items() if size.dn is not None], np.intp)
"""The codes of the sizes of pipe, rising; those between them are sizes of tube."""


@dataclass(frozen=True, slots=True)
class StatedOperand:
    """Values that stand in the ruleset: one, or, with `place`, the one of a table cell for each row.

    `place` is the result that numbers the cells; `cells` are their values, None where nothing is covered.
    """

    cells: tuple[Single | None, ...]
    place: int | None = None

    @property
    def single(self) -> Single:
        """The one value."""
        assert self.place is None, self
        assert self.cells[0] is not None
        return self.cells[0]


@dataclass(frozen=True, slots=True)
class Operand:
    """The results of an amount: `given` says where it is known, `values` is made when it is asked for.

    `values` are numbers in SI units, NaN where not known, or codes, -1 where not known. `stated` is set for values
    that stand in the ruleset. `units` holds the units of lengths, where they matter; `choices` the code of each choice.
    """

    kind: Kind
    given: int
    values: Callable[[], int]
    stated: StatedOperand | None = None
    units: Callable[[], int] | None = None
    choices: Mapping[str, int] = field(default_factory=dict)

    @property
    def coded(self) -> bool:
        """Whether the values are codes."""
        return self.kind.form in CODED


def codes_of(term: Term) -> dict[str, int]:
    """Return the code of each choice of a term."""
    codes: dict[str, int] = {}
    for choice in term.choices:
        codes.setdefault(choice.name, len(codes))
    return codes


def bare_number(value: Single) -> float:
    """Return the number that stands in a column for a quantity, a count or a number."""
    return value.value if isinstance(value, Quantity) else float(value)  # type: ignore[arg-type]


def size_code(value: Single) -> int:
    """Return the code of a nominal size."""
    assert isinstance(value, NominalSize), value
    return SIZE_CODES[value]


def exact(kinds: Sequence[Kind]) -> bool:
    """Whether amounts of these kinds are compared without tolerance: counts with counts."""
    return all(kind.form is Form.COUNT for kind in kinds)
