"""A computed value that explains itself: inputs with units, method, steps, source, and what stops it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Origin = Literal["given", "worked out", "assumed"]
"""Where an input came from: the caller, another calculation, or a stated default."""


@dataclass(frozen=True)
class Given:
    """An input as it was used. `value` is in SI for a quantity, a word for a choice."""

    name: str
    dimension: str
    value: float | str
    origin: Origin


@dataclass(frozen=True)
class Step:
    """An intermediate value, in SI."""

    name: str
    dimension: str
    value: float | str


@dataclass(frozen=True)
class Working:
    """One computed value with its working; `value` is None where it cannot be had.

    `dimension` is one of the dimensions of quantities, or "number", "nominal size" or "text". Where there is no value,
    `missing` names the inputs that would settle it, or `cannot` says why there is none. `parts` is the working of
    the inputs that were worked out themselves.
    """

    name: str
    dimension: str
    value: float | None
    inputs: tuple[Given, ...]
    method: str
    steps: tuple[Step, ...]
    source: str
    missing: tuple[str, ...] = ()
    cannot: str = ""
    parts: tuple[Working, ...] = ()
