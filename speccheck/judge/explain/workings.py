"""The working of a computed value in words, in as many digits as a reviewer would write."""

from __future__ import annotations

import math
from collections.abc import Iterable
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache

from speccheck.judge.cell import Step
from speccheck.language.core.wording import value_text
from speccheck.language.vocabulary.values import Single
from speccheck.physics.weather_words import told_in_short
from speccheck.physics.working import GivenInput, Working
from speccheck.quantities import DIMENSIONS, NominalSize, Quantity, write_fraction
from speccheck.quantities.writing import write_number, write_with_unit

SIGNIFICANT = 4
DECIMALS_OF_DEGREES = 1
# How many more digits are tried at most; beyond them the roundings of the machine begin.
MOST_MORE = 7


@lru_cache(maxsize=20_000)
def worked_text(value: Single, system: str = "inch-pound", more: int = 0) -> str:
    """Return a value that was worked out in words, with `more` digits than usual; sizes in the units of `system`."""
    if isinstance(value, Quantity) and math.isfinite(value.value):
        number = value.in_unit(value.unit)
        if value.unit in ("in", "ft") and write_fraction(number) != write_number(number):
            return value_text(value)
        return _with_unit(_digits(number, value.dimension, more), value.unit)
    if isinstance(value, float) and math.isfinite(value):
        return _digits(value, "number", more)
    return value_text(value, system)


def mark_text(value: Single, neighbours: Iterable[Single], system: str = "inch-pound") -> str:
    """Return in words a value at which something changes: as it is where it is as short as stated values are.

    Otherwise it was closed in on, and is rounded as far as it keeps its side of its neighbours.
    """
    if not isinstance(value, Quantity) or not math.isfinite(value.value) or _is_short(value):
        return value_text(value, system)
    number = value.in_unit(value.unit)
    others = [one.in_unit(value.unit) for one in neighbours if isinstance(one, Quantity)]
    for more in range(MOST_MORE):
        rounded = float(_digits(number, value.dimension, more))
        if all((rounded - other) * (number - other) > 0 for other in others):
            return worked_text(value, system, more)
    return value_text(value, system)


def _is_short(value: Quantity) -> bool:
    """Say whether a value has at most one digit more than values that were worked out are written with."""
    number = value.in_unit(value.unit)
    return math.isclose(number, float(_digits(number, value.dimension, 1)), rel_tol=1e-9)


def _digits(number: float, dimension: str, more: int) -> str:
    """Return a number with the digits that its dimension is written with, and `more`, without trailing zeros."""
    rounded = round(number, _decimals(number, dimension) + more)
    text = f"{rounded:.15g}"
    if "e" in text and 1e-6 <= abs(rounded) < 1e15:
        text = format(Decimal(text), "f")
    return "0" if text == "-0" else text


def _decimals(number: float, dimension: str) -> int:
    """Return how many decimals a number is written with; digits before the point are never rounded away."""
    if dimension == "temperature":
        return DECIMALS_OF_DEGREES
    return max(0, SIGNIFICANT - 1 - math.floor(math.log10(abs(number)))) if number else 0


def _with_unit(digits: str, unit: str) -> str:
    """Return digits with their unit where it is written: "2.374 in", "R-6.1"."""
    one = "-1" if digits.startswith("-") else "1"
    return write_with_unit(float(one), unit).replace(one, digits, 1)


def amount_words(value: float | str, dimension: str, system: str) -> str:
    """Return a value of `physics` (SI) in the usual unit of `system`, in the digits a reviewer would write."""
    amount = amount_of(value, dimension, system)
    return told_in_short(amount) if isinstance(amount, str) else worked_text(amount, system)


def amount_of(value: float | str, dimension: str, system: str) -> Quantity | NominalSize | float | str:
    """Return a value of `physics` (SI) as a quantity in the usual unit of `system`, where it is one."""
    if dimension == "nominal size" and isinstance(value, float):
        return NominalSize(Fraction(value))
    known = DIMENSIONS.get(dimension)
    if isinstance(value, str) or known is None:
        return value
    return Quantity(value, dimension, known.metric if system == "metric" else known.inch_pound)


def input_words(given: GivenInput, system: str) -> str:
    """Return an input with where it came from: given, worked out, or assumed."""
    return f"{amount_words(given.value, given.dimension, system)} ({given.origin})"


def working_steps(working: Working, system: str, depth: int = 0) -> tuple[Step, ...]:
    """Return the working of a computed value as steps: the value and its method, then what went into it."""
    if working.value is None:
        stopped = f"needs {', '.join(working.missing)}" if working.missing else working.cannot
        head = Step("computed", depth, None, f"{working.name} cannot be worked out", stopped)
    else:
        value = amount_of(working.value, working.dimension, system)
        text = f"{working.name} is {amount_words(working.value, working.dimension, system)}"
        head = Step("computed", depth, True, text, f"{working.method} ({working.source})", (value,))
    inputs = ", ".join(f"{given.name} {input_words(given, system)}" for given in working.inputs)
    between = ", ".join(f"{one.name} {amount_words(one.value, one.dimension, system)}" for one in working.steps)
    inner = [Step("computed", depth + 1, True, f"from {inputs}")] if inputs else []
    inner += [Step("computed", depth + 1, True, f"by way of {between}")] if between else []
    parts = [step for part in working.parts for step in working_steps(part, system, depth + 1)]
    return (head, *inner, *parts)
