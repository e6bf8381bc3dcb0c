"""A computed value that explains itself (inputs, method, steps, source), and the causes for which there is none."""

from __future__ import annotations

from dataclasses import dataclass
from enum import IntEnum
from typing import TYPE_CHECKING, Literal, TypeAlias

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import ArrayLike, NDArray

CauseArray: TypeAlias = "NDArray[np.uint8]"
"""One `Cause` for each element, as its number."""


class Cause(IntEnum):
    """The reason that an element of a result is NaN; `NONE` where there is a value."""

    NONE = 0
    NOT_GIVEN = 1
    NOT_PHYSICAL = 2
    FILM_TEMPERATURE = 3
    RAYLEIGH_NUMBER = 4
    REYNOLDS_NUMBER = 5
    CONDUCTIVITY_RANGE = 6
    SIMPLIFIED_RANGE = 7
    NO_BALANCE = 8
    NO_THICKNESS = 9
    NOT_STOCKED = 10
    LIMIT_BEYOND_AIR = 11

    @property
    def wording(self) -> str:
        """The cause as a clause of a sentence; empty for `NONE`."""
        return _WORDINGS[self]


_WORDINGS = {
    Cause.NONE: "",
    Cause.NOT_GIVEN: "an input is not given",
    Cause.NOT_PHYSICAL: "an input is not physical: sizes, conductivity and absolute temperature must be above zero, "
    "thickness and wind not below zero, emittance from 0 to 1",
    Cause.FILM_TEMPERATURE: "the film temperature lies outside the range of the air properties, -80 °C to 726 °C",
    Cause.RAYLEIGH_NUMBER: "the Rayleigh number lies outside the range of the natural-convection formula",
    Cause.REYNOLDS_NUMBER: "the Reynolds number lies outside the range of the forced-convection formula",
    Cause.CONDUCTIVITY_RANGE: "the mean temperature of a layer lies outside the range of its conductivity",
    Cause.SIMPLIFIED_RANGE: "the system lies outside the range of the simplified coefficients: "
    "pipe of 0.25 m and over or wall, still air indoors, at most 100 K of difference",
    Cause.NO_BALANCE: "no surface temperature balances the heat flow to the stated residual",
    Cause.NO_THICKNESS: "no thickness up to the greatest one tried is enough",
    Cause.NOT_STOCKED: "no stocked thickness is enough",
    Cause.LIMIT_BEYOND_AIR: "the limit lies at or beyond the air temperature, so no thickness can reach it",
}


def no_causes(shape: tuple[int, ...]) -> CauseArray:
    """Return causes of the given shape, all `NONE`."""
    import numpy as np

    return np.zeros(shape, dtype=np.uint8)


def note(causes: CauseArray, where: ArrayLike, cause: Cause) -> None:
    """Write `cause` into `causes`, in place, where `where` is true and no earlier cause stands."""
    import numpy as np

    causes[np.asarray(where, dtype=bool) & (causes == Cause.NONE)] = cause


Origin = Literal["given", "worked out", "assumed"]
"""Where an input came from: the caller, another calculation, or a stated default."""

NEXT_STOCKED = "next stocked thickness"
"""What the least thickness that can be had and is enough is called, as a step of a working."""


@dataclass(frozen=True)
class GivenInput:
    """An input as it was used. `value` is in SI for a quantity, a word for a choice."""

    name: str
    dimension: str
    value: float | str
    origin: Origin


@dataclass(frozen=True)
class WorkingStep:
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
    inputs: tuple[GivenInput, ...]
    method: str
    steps: tuple[WorkingStep, ...]
    source: str
    missing: tuple[str, ...] = ()
    cannot: str = ""
    parts: tuple[Working, ...] = ()
