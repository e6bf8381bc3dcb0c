"""What a calculation is, and how it is worked out for many lines at once, each of which can be explained by itself.

A calculation names its inputs. An input that is not given is worked out, if it is itself a calculation; else its
default is assumed and said to be; else the calculation stops there and names it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import ArrayLike, NDArray

from speccheck.physics.numerics import Array, Flags
from speccheck.physics.thickness import STOCKED_THICKNESSES
from speccheck.physics.working import GivenInput, Origin, Working, WorkingStep

Words = NDArray[np.str_]
Values = Array | Words
"""A column of numbers, NaN where not given, or of words, empty where not given."""

TEXT = "text"

Origins = NDArray[np.int8]
"""Where each value of a column came from, as a place in `ORIGINS`: a million lines have many columns."""

NOT_GIVEN, GIVEN, WORKED_OUT, ASSUMED = (np.int8(code) for code in range(4))
ORIGINS: tuple[Origin, ...] = ("given", "given", "worked out", "assumed")
"""The words of the codes; of what is not given nothing is told."""


@dataclass(frozen=True)
class Input:
    """An input of a calculation: its name, its dimension, what is assumed without it, and the range that holds.

    `least` and `greatest` are in SI. An optional input without a default may stay missing. One that counts only
    `as_stated` is never worked out, and one `only_with` others, named before it, only where one of them is given. A
    line that gives one that is `refused` has no value, and this says why.
    """

    name: str
    dimension: str
    required: bool = True
    default: float | str | None = None
    least: float = -np.inf
    greatest: float = np.inf
    as_stated: bool = False
    only_with: tuple[str, ...] = ()
    refused: str = ""


def with_required(inputs: Iterable[Input], *names: str, required: bool = True) -> tuple[Input, ...]:
    """Return inputs, those of some names required, or not required."""
    return tuple(replace(each, required=required) if each.name in names else each for each in inputs)


@dataclass(frozen=True)
class Inputs:
    """The inputs of a calculation as columns of equal length, and the thicknesses (m) that can be had for all."""

    columns: Mapping[str, Values]
    stocked: Sequence[float] = STOCKED_THICKNESSES

    def numbers(self, name: str) -> Array:
        """Return a column of numbers."""
        return np.asarray(self.columns[name], dtype=np.float64)

    def words(self, name: str) -> Words:
        """Return a column of words."""
        return np.asarray(self.columns[name], dtype=np.str_)


@dataclass(frozen=True)
class TextByLine:
    """A choice among a few texts, line by line: `codes` says which. Small where a column of texts would be large."""

    codes: NDArray[np.intp]
    texts: tuple[str, ...]

    def at(self, row: int) -> str:
        """Return the text of one line."""
        return self.texts[int(self.codes[row])]


StepOfLines = tuple[str, str, Values | TextByLine]
"""An intermediate value of many lines: its name, its dimension, and its values or words."""


@dataclass(frozen=True)
class CalculationOutcome:
    """What a calculation found: values (NaN where none), steps by name and dimension, and why there is none.

    `reasons` are rows and the wording for them, the first that fits counts; `missing` are rows and the input that
    they lack, for inputs that only some lines need. `method` and `source` replace the calculation's own.
    """

    values: Array
    steps: tuple[StepOfLines, ...] = ()
    reasons: tuple[tuple[Flags, str], ...] = ()
    missing: tuple[tuple[Flags, str], ...] = ()
    method: str | TextByLine = ""
    source: str | TextByLine = ""


@dataclass(frozen=True)
class Calculation:
    """A computed value by name: its dimension, its inputs, its method and source in words, and its function."""

    name: str
    dimension: str
    inputs: tuple[Input, ...]
    method: str
    source: str
    function: Callable[[Inputs], CalculationOutcome]


@dataclass
class CalculatedColumn:
    """A calculation worked out for many lines. `values` is in SI, NaN where there is no value."""

    calculation: Calculation
    inputs: dict[str, Values]
    origins: dict[str, Origins]
    outcome: CalculationOutcome
    parts: dict[str, CalculatedColumn] = field(default_factory=dict)

    @property
    def values(self) -> Array:
        """The values in SI units, one for each line, NaN where there is none."""
        return self.outcome.values

    def result(self, row: int) -> tuple[float | None, tuple[str, ...], str]:
        """Return the value of one line, None without one; then the inputs that are missing, or why there is none."""
        value = float(self.values[row])
        return (value, (), "") if np.isfinite(value) else (None, *self._what_stops(row))

    def working(self, row: int) -> Working:
        """Explain the value of one line."""
        made = self.calculation
        known = [each for each in made.inputs if self.origins[each.name][row] != NOT_GIVEN]
        value, missing, cannot = self.result(row)
        return Working(
            name=made.name,
            dimension=made.dimension,
            value=value,
            inputs=tuple(self._given(each, row) for each in known),
            method=_at(self.outcome.method, row) or made.method,
            steps=tuple(step for each in self.outcome.steps for step in _step(each, row)),
            source=_at(self.outcome.source, row) or made.source,
            missing=missing,
            cannot=cannot,
            parts=tuple(
                self.parts[each.name].working(row) for each in known if self.origins[each.name][row] == WORKED_OUT
            ),
        )

    def _given(self, made: Input, row: int) -> GivenInput:
        """Return one input as it was used."""
        origin = ORIGINS[int(self.origins[made.name][row])]
        return GivenInput(made.name, made.dimension, _plain(self.inputs[made.name][row]), origin)

    def _what_stops(self, row: int) -> tuple[tuple[str, ...], str]:
        """Return the inputs that are missing on a line, those of its parts included; or why it has no value."""
        needed = [
            each.name for each in self.calculation.inputs if each.required and self.origins[each.name][row] == NOT_GIVEN
        ]
        needed += [name for rows, name in self.outcome.missing if rows[row]]
        missing: dict[str, None] = {}
        cannot = ""
        for name in needed:
            if name not in self.parts:
                missing[name] = None
                continue
            names, why = self.parts[name]._what_stops(row)
            missing |= dict.fromkeys(names)
            cannot = cannot or (f"{name}: {why}" if why else "")
        if not missing and not cannot:
            cannot = next((why for rows, why in self._reasons() if rows[row]), "its formula gives no value here")
        return tuple(missing), "" if missing else cannot

    def _reasons(self) -> list[tuple[Flags, str]]:
        """Return why lines have no value: inputs outside their range first, then the calculation's own reasons."""
        outside = [
            (self.origins[each.name] != NOT_GIVEN, each.refused) for each in self.calculation.inputs if each.refused
        ]
        for made in self.calculation.inputs:
            if made.dimension != TEXT:
                rows = _outside(made, np.asarray(self.inputs[made.name], dtype=np.float64))
                outside.append((rows, f"{made.name} lies outside the range of the formula"))
        return [*outside, *self.outcome.reasons]


def evaluate(
    name: str,
    given: Mapping[str, ArrayLike | None],
    known: Mapping[str, Calculation],
    finished: dict[str, CalculatedColumn] | None = None,
    stocked: Sequence[float] = STOCKED_THICKNESSES,
) -> CalculatedColumn:
    """Work a calculation out for columns of given values (SI, or words); `known` holds every calculation by name.

    Values of different lengths broadcast; what no calculation asks for is passed over. NaN, an empty word and None
    count as not given. `finished` keeps what was worked out already with the same thicknesses (m) `stocked`.
    """
    asked = {each.name for calculation in known.values() for each in calculation.inputs}
    used = (np.shape(value) for key, value in given.items() if key in asked and value is not None)
    count = np.broadcast_shapes((1,), *used)[0]
    return _Evaluation(given, known, {} if finished is None else finished, stocked, count).column(name)


@dataclass(frozen=True)
class _Evaluation:
    """Calculations worked out for `count` lines; `finished` has those that were."""

    given: Mapping[str, ArrayLike | None]
    known: Mapping[str, Calculation]
    finished: dict[str, CalculatedColumn]
    stocked: Sequence[float]
    count: int

    def column(self, name: str) -> CalculatedColumn:
        """Return a calculation worked out, with the inputs that are calculations themselves and are not given."""
        if name not in self.finished:
            self.finished[name] = self._worked_out(self.known[name])
        return self.finished[name]

    def _worked_out(self, made: Calculation) -> CalculatedColumn:
        columns: dict[str, Values] = {}
        origins: dict[str, Origins] = {}
        parts: dict[str, CalculatedColumn] = {}
        for each in made.inputs:
            values = _column(each, self.given.get(each.name), self.count)
            origin = np.where(_is_given(values), GIVEN, NOT_GIVEN)
            wanted = origin == NOT_GIVEN
            if each.only_with:
                wanted &= np.any([origins[other] != NOT_GIVEN for other in each.only_with], axis=0)
            if each.name in self.known and each.name != made.name and not each.as_stated and np.any(wanted):
                part = parts[each.name] = self.column(each.name)
                fills = wanted & _is_given(part.values)
                values, origin = np.where(fills, part.values, values), np.where(fills, WORKED_OUT, origin)
            if each.default is not None:
                open_yet = origin == NOT_GIVEN
                values, origin = np.where(open_yet, each.default, values), np.where(open_yet, ASSUMED, origin)
            columns[each.name], origins[each.name] = values, origin
        outcome = _run(made, Inputs(columns, self.stocked), origins)
        return CalculatedColumn(made, columns, origins, outcome, parts)


def _run(made: Calculation, inputs: Inputs, origins: dict[str, Origins]) -> CalculationOutcome:
    """Run the function of a calculation; lines that lack a required input or lie outside a range get NaN."""
    with np.errstate(all="ignore"):
        outcome = made.function(inputs)
    stopped = np.zeros(outcome.values.shape, dtype=bool)
    for each in made.inputs:
        if each.required:
            stopped |= origins[each.name] == NOT_GIVEN
        if each.refused:
            stopped |= origins[each.name] != NOT_GIVEN
        if each.dimension != TEXT:
            stopped |= _outside(each, inputs.numbers(each.name))
    for rows, _ in (*outcome.missing, *outcome.reasons):
        stopped |= rows
    values = np.where(stopped | ~np.isfinite(outcome.values), np.nan, outcome.values)
    return CalculationOutcome(values, outcome.steps, outcome.reasons, outcome.missing, outcome.method, outcome.source)


def _column(made: Input, value: ArrayLike | None, count: int) -> Values:
    """Return a given value as a column of numbers or words, all missing where it is None."""
    if made.dimension == TEXT:
        return np.broadcast_to(np.asarray("" if value is None else value, dtype=np.str_), (count,))
    return np.broadcast_to(np.asarray(np.nan if value is None else value, dtype=np.float64), (count,))


def _is_given(values: Values) -> Flags:
    """Return where a column has a value."""
    return values != "" if values.dtype.kind == "U" else ~np.isnan(values)


def _outside(made: Input, values: Array) -> Flags:
    """Return where a column of numbers lies outside the range of an input."""
    return np.asarray((values < made.least) | (values > made.greatest))


def _at(wording: str | TextByLine, row: int) -> str:
    """Return the wording of one line, or that for all."""
    return wording if isinstance(wording, str) else wording.at(row)


def _step(step: StepOfLines, row: int) -> tuple[WorkingStep, ...]:
    """Return the intermediate value of one line, none where it has none."""
    name, dimension, values = step
    value = values.at(row) if isinstance(values, TextByLine) else _plain(values[row])
    return (WorkingStep(name, dimension, value),) if value != "" and value == value else ()


def _plain(value: object) -> float | str:
    """Return an element of a column as a plain number or word."""
    return str(value) if isinstance(value, str) else float(value)  # type: ignore[arg-type]
