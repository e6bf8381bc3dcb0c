"""Every computed value by name: work it out for one line with its working, or for many lines at once."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from numpy.typing import ArrayLike

from speccheck.physics.calculations.air import AIR
from speccheck.physics.calculations.buried import BURIED
from speccheck.physics.calculations.calculation import CalculatedColumn, Calculation, evaluate
from speccheck.physics.calculations.design import DESIGN
from speccheck.physics.calculations.dimensions import DIMENSIONS_AND_TABLES
from speccheck.physics.calculations.freezing import FREEZING
from speccheck.physics.calculations.heat import HEAT
from speccheck.physics.calculations.moisture import MOISTURE
from speccheck.physics.calculations.outdoors import OUTDOORS
from speccheck.physics.calculations.runs import RUNS
from speccheck.physics.calculations.tanks import TANKS
from speccheck.physics.calculations.touch import TOUCH
from speccheck.physics.calculations.vapor import VAPOR
from speccheck.physics.calculations.weather import WEATHER_OF_A_YEAR
from speccheck.physics.calculations.year import A_YEAR
from speccheck.physics.thickness import STOCKED_THICKNESSES
from speccheck.physics.working import Working

CALCULATIONS: dict[str, Calculation] = {
    calculation.name: calculation
    for calculation in (
        *DIMENSIONS_AND_TABLES,
        *AIR,
        *HEAT,
        *OUTDOORS,
        *DESIGN,
        *TANKS,
        *FREEZING,
        *VAPOR,
        *TOUCH,
        *MOISTURE,
        *WEATHER_OF_A_YEAR,
        *RUNS,
        *A_YEAR,
        *BURIED,
    )
}
"""Every calculation by the name of the value that it gives."""

JUDGED: dict[str, Calculation] = {name: made for name, made in CALCULATIONS.items() if name != "conductivity"}
"""The calculations that a verdict may rest on.

The limit of a material standard serves a design; a proposal has to state the conductivity of its product, for with a
worse one it might fail.
"""


def work_out(
    name: str,
    given: Mapping[str, float | str | None],
    known: Mapping[str, Calculation] = CALCULATIONS,
    stocked: Sequence[float] = STOCKED_THICKNESSES,
) -> Working:
    """Work one value out for one line and explain it, by the calculations `known`.

    `given` maps names of inputs to values in SI (a nominal size as its inch number, a choice as its word); what is
    None, NaN or absent is not given. An unknown name is our own bug and raises KeyError. `stocked` are the thicknesses
    (m) that can be had.
    """
    return evaluate(name, given, known, stocked=stocked).working(0)


def work_out_lines(
    name: str,
    given: Mapping[str, ArrayLike | None],
    known: Mapping[str, Calculation] = CALCULATIONS,
    stocked: Sequence[float] = STOCKED_THICKNESSES,
) -> CalculatedColumn:
    """Work one value out for many lines: `values` is the column, `working(row)` explains any one of them.

    `given` maps names of inputs to columns, or to one value for all lines; NaN and empty words are not given.
    `stocked` are the thicknesses (m) that can be had, the same for all lines.
    """
    return evaluate(name, given, known, stocked=stocked)
