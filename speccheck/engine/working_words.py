"""The working of a computed value in words: amounts in the units of one system, inputs with where they came from."""

from __future__ import annotations

from speccheck.engine.judgement import Step
from speccheck.engine.rounding import worked_text
from speccheck.quantities import DIMENSIONS, Quantity
from speccheck.trade.working import Given, Working


def amount_words(value: float | str, dimension: str, system: str) -> str:
    """Return a value of the floor `trade` (SI) in the usual unit of `system`, in the digits a reviewer would write."""
    amount = amount_of(value, dimension, system)
    return amount if isinstance(amount, str) else worked_text(amount, system)


def amount_of(value: float | str, dimension: str, system: str) -> Quantity | float | str:
    """Return a value of the floor `trade` (SI) as a quantity in the usual unit of `system`, where it is one."""
    known = DIMENSIONS.get(dimension)
    if isinstance(value, str) or known is None:
        return value
    return Quantity(value, dimension, known.metric if system == "metric" else known.inch_pound)


def input_words(given: Given, system: str) -> str:
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
