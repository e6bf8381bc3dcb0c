"""The workload of 40 clauses as plain columns: numbers, small integers and flags, with data missing in some of them."""

from __future__ import annotations

from dataclasses import dataclass, fields
from fractions import Fraction

import numpy as np
from benchmarks.workload import INSULATIONS, LOCATIONS, SERVICES
from numpy.typing import NDArray

from speccheck.judge.vectorized import Columns
from speccheck.judge.vectorized.column import CodeColumn, Column, NumberColumn, SetColumn
from speccheck.judge.vectorized.operand import SIZE_CODES, codes_of
from speccheck.language.core import Ruleset
from speccheck.language.vocabulary.terms import Form
from speccheck.quantities import NominalSize, quantity

SIZES = ("1/2", "3/4", "1", "5/4", "3/2", "2", "5/2", "3", "4", "6", "8")
THICKNESSES = (0.5, 0.75, 1.0, 1.5, 2.0, 2.5)
JACKETS = ("aluminum", "PVC", "none", "stainless steel")
SEAMS = ("factory adhesive", "contact adhesive", "tape")
STOPS = ("valves", "flanges", "fittings")
HOT, COLD, AIR = (110, 130, 160, 180, 200, 230), (20, 38, 42, 44, 55), (70, 75, 80, 90)


def fahrenheit(degrees: float) -> float:
    """Return a temperature in kelvin."""
    return quantity(f"{degrees} F", "temperature").value


@dataclass(frozen=True)
class Plain:
    """The columns: numbers in SI units with NaN for missing, codes with -1 for missing, stops as bits."""

    service: NDArray[np.int8]
    location: NDArray[np.int8]
    concealed: NDArray[np.int8]
    pipe_size: NDArray[np.float64]
    operating_temperature: NDArray[np.float64]
    ambient_temperature: NDArray[np.float64]
    insulation: NDArray[np.int8]
    thickness: NDArray[np.float64]
    jacket: NDArray[np.int8]
    seam_closure: NDArray[np.int8]
    vapor_stop_spacing: NDArray[np.float64]
    vapor_stop_locations: NDArray[np.uint8]
    flame_spread: NDArray[np.float64]
    smoke_developed: NDArray[np.float64]

    def head(self, count: int) -> Plain:
        """Return the first rows."""
        return Plain(**{one.name: getattr(self, one.name)[:count] for one in fields(self)})


def plain_columns(count: int) -> Plain:
    """Return so many random rows, the same each time."""
    chance = np.random.default_rng(2)

    def numbers(values: list[float]) -> NDArray[np.float64]:
        return np.array(values)[chance.integers(0, len(values), count)]

    def codes(size: int, *, missing: bool = False) -> NDArray[np.int8]:
        return chance.integers(-1 if missing else 0, size, count).astype(np.int8)

    nan = float("nan")
    return Plain(
        service=codes(len(SERVICES)),
        location=codes(len(LOCATIONS)),
        concealed=codes(2, missing=True),
        pipe_size=numbers([float(NominalSize(Fraction(size)).inches) for size in SIZES]),
        operating_temperature=numbers([fahrenheit(degrees) for degrees in (*HOT, *COLD)]),
        ambient_temperature=numbers([fahrenheit(degrees) for degrees in AIR]),
        insulation=codes(len(INSULATIONS)),
        thickness=numbers([inches * 0.0254 for inches in THICKNESSES] + [nan]),
        jacket=codes(len(JACKETS), missing=True),
        seam_closure=codes(len(SEAMS), missing=True),
        vapor_stop_spacing=numbers([feet * 0.3048 for feet in (10, 15, 18, 20)] + [float("inf"), nan]),
        vapor_stop_locations=chance.integers(0, 8, count).astype(np.uint8),
        flame_spread=numbers([20.0, 25.0, 30.0]),
        smoke_developed=numbers([50.0, 150.0, 450.0, nan]),
    )


def as_columns(plain: Plain, ruleset: Ruleset) -> Columns:
    """Return the same rows as the columns that speccheck judges."""
    listed = {
        "service": SERVICES,
        "location": LOCATIONS,
        "insulation": INSULATIONS,
        "jacket": JACKETS,
        "seam closure": SEAMS,
    }
    columns: dict[str, Column] = {}
    for one in fields(plain):
        name, values = one.name.replace("_", " "), getattr(plain, one.name)
        term = ruleset.vocabulary.terms[name]
        if name in listed:
            codes = codes_of(term)
            columns[name] = CodeColumn(np.array([*(codes[word] for word in listed[name]), -1], np.int8)[values])
        elif term.kind.form is Form.SIZE:
            inches = np.array([float(size.inches) for size in SIZE_CODES])
            columns[name] = CodeColumn(np.searchsorted(inches, values).astype(np.int8))
        elif term.kind.form is Form.SET:
            columns[name] = _stops(values, codes_of(term))
        elif term.kind.form is Form.YES_NO:
            columns[name] = CodeColumn(values)
        else:
            columns[name] = NumberColumn(values)
    return Columns(len(plain.service), columns)


def _stops(values: NDArray[np.uint8], codes: dict[str, int]) -> SetColumn:
    bits = np.array(
        [sum(1 << codes[name] for place, name in enumerate(STOPS) if mask >> place & 1) for mask in range(8)]
    )
    return SetColumn(
        (bits[values].astype(np.uint64 if len(codes) > 32 else np.uint16),), np.ones(len(values), np.bool_)
    )
