"""Asking: what a condition asks for in words, with the values that are known of it, whether or not it is met.

"thickness be at least 2 in (energy heating thickness, row over 140 F to 200 F, column 1-1/2 in to under 4 in)".
"""

from __future__ import annotations

from speccheck.engine.evaluating import Amounted, Outcome
from speccheck.engine.stating import Stating
from speccheck.language.core import (
    Adjusted,
    Amount,
    Arithmetic,
    Comparison,
    Every,
    NamedCondition,
    Negation,
    Operation,
    Some,
)
from speccheck.language.wording import amount_text, condition_text


def asked_text(outcome: Outcome, stating: Stating) -> str:
    """Return what a condition asks for, with the number of a table, a definition or a term where it is known."""
    system = stating.system
    match outcome.node:
        case Comparison(left, relation, right):
            verb = relation.value.replace("is", "be", 1)
            return f"{amount_text(left, system)} {verb} {_wanted(right, outcome.amounts[1], stating)}"
        case NamedCondition(name):
            return f"{name} ({asked_text(outcome.parts[0], stating)})"
        case Negation():
            inner = asked_text(outcome.parts[0], stating)
            return f"not ({inner})" if isinstance(outcome.parts[0].node, Every | Some) else f"not {inner}"
        case Every():
            return " and ".join(_grouped(part, stating) for part in outcome.parts)
        case Some():
            return " or ".join(asked_text(part, stating) for part in outcome.parts)
        case node:
            return condition_text(node, be=True, system=system)


def _wanted(node: Amount, found: Amounted, stating: Stating) -> str:
    """Return the amount that is asked for and where it comes from; with what is known of it, where it is not whole."""
    if found.value is not None:
        return stating.other(node, found)
    match node:
        case Adjusted(thickness, stated, proposed, diameter):
            nodes = (thickness, stated, proposed, diameter)
            words = [_part(part, inner, stating) for part, inner in zip(nodes, found.parts, strict=True)]
            return "{} adjusted from {} to {} around {}".format(*words)
        case Arithmetic(operation, left, right):
            first, second = (
                _part(part, inner, stating) for part, inner in zip((left, right), found.parts, strict=True)
            )
            if operation in (Operation.LARGER, Operation.SMALLER):
                return f"{operation} {first} and {second}"
            return f"{first} {operation} {second}"
        case _:
            return amount_text(node, stating.system)


def _part(node: Amount, found: Amounted, stating: Stating) -> str:
    """Return a part of a calculation by its name, with its value where that is known."""
    if found.value is None:
        return _wanted(node, found, stating)
    return stating.worked(node, found)


def _grouped(part: Outcome, stating: Stating) -> str:
    text = asked_text(part, stating)
    return f"({text})" if isinstance(part.node, Some) else text
