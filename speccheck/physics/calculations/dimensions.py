"""Calculations about dimensions and about what the tables say of a material."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from speccheck.physics import equivalent_thickness as equivalent
from speccheck.physics.calculations.calculation import (
    TEXT,
    Calculation,
    CalculationOutcome,
    Input,
    Inputs,
    TextByLine,
    Words,
)
from speccheck.physics.dimensions import (
    EUROPEAN_STEEL,
    TABLES,
    copper_tube_bore,
    copper_tube_outside_diameter,
    european_copper_bore,
    european_copper_outside_diameter,
    european_steel_bore,
    european_steel_outside_diameter,
    insulation_size,
    steel_pipe_bore,
    steel_pipe_outside_diameter,
)
from speccheck.physics.materials import emittances, limit_conductivity, materials
from speccheck.physics.numerics import Array, Flags
from speccheck.physics.published import table
from speccheck.physics.systems import equivalent_flat_thickness

STEELS = ("steel", "galvanized steel", "stainless steel")
FLEXIBLE = ("elastomeric foam", "polyolefin foam")
TABLE_FORMS = ("", "tube", "slit tube", "pipe section")
"""Forms of insulation that come in the sizes of the dimension tables; empty where the form is not given."""

_SCHEDULES = {"standard": "STD", "extra-strong": "XS", "double-extra-strong": "XXS"}

PIPE_SIZE = Input("pipe size", "nominal size")
PIPE_MATERIAL = Input("pipe material", TEXT)
DIAMETER = Input("pipe outside diameter", "length")
THICKNESS = Input("thickness", "length", least=0.0)


def _pipe_outside_diameter(inputs: Inputs) -> CalculationOutcome:
    """Outside diameter from the steel or the copper table."""
    size, kind, standard = inputs.numbers("pipe size"), inputs.words("pipe material"), inputs.words("pipe schedule")
    steel, copper = np.isin(kind, STEELS), kind == "copper"
    european = (steel & np.isin(standard, EUROPEAN_STEEL)) | (copper & (standard == "EN-1057"))
    values = np.where(steel, steel_pipe_outside_diameter(size), np.nan)
    values = np.where(copper, copper_tube_outside_diameter(size), values)
    values = np.where(european & steel, european_steel_outside_diameter(size), values)
    values = np.where(european & copper, european_copper_outside_diameter(size), values)
    reasons = (
        (~steel & ~copper & (kind != ""), "no dimension table here covers the pipe material"),
        ((steel | copper) & np.isnan(values), "the dimension table does not have the pipe size"),
    )
    sources = TextByLine(
        copper.astype(np.intp) + 2 * european, ("ASME B36.10M", "ASTM B88", "EN 10255, EN 10216", "EN 1057")
    )
    return CalculationOutcome(values, reasons=reasons, source=sources)


def _pipe_bore(inputs: Inputs) -> CalculationOutcome:
    """Bore by schedule or tube type."""
    size, kind, schedule = inputs.numbers("pipe size"), inputs.words("pipe material"), inputs.words("pipe schedule")
    values = np.full(size.shape, np.nan)
    for each in np.unique(schedule):
        rows, name = schedule == each, str(each).removeprefix("schedule-").removeprefix("type-")
        steel = steel_pipe_bore(size, _SCHEDULES.get(str(each), name))
        values = np.where(rows & np.isin(kind, STEELS), steel, values)
        values = np.where(rows & (kind == "copper"), copper_tube_bore(size, name), values)
        if name in EUROPEAN_STEEL:
            values = np.where(rows & np.isin(kind, STEELS), european_steel_bore(size, name), values)
        if name == "EN-1057":
            values = np.where(rows & (kind == "copper"), european_copper_bore(size), values)
    return CalculationOutcome(
        values, reasons=((np.isnan(values), "the dimension tables do not have this size and schedule"),)
    )


def _pipe_inside_diameter(inputs: Inputs) -> CalculationOutcome:
    """Inside diameter: the outside diameter less two walls where the wall is stated, else by the standard's table."""
    wall = inputs.numbers("pipe wall thickness")
    by_wall = inputs.numbers("pipe outside diameter") - 2 * wall
    stated = ~np.isnan(by_wall) & (by_wall > 0)
    known = {name: inputs.words(name) != "" for name in ("pipe material", "pipe schedule")}
    found = _pipe_bore(inputs)
    lacks = tuple((~stated & np.isnan(wall) & ~rows, name) for name, rows in known.items())
    size = inputs.numbers("pipe size")
    lacks = (*lacks, (~stated & np.isnan(wall) & np.isnan(size), "pipe size"))
    values = np.where(stated, by_wall, np.where(np.isnan(wall), found.values, np.nan))
    whole = known["pipe material"] & known["pipe schedule"] & ~np.isnan(size)
    return CalculationOutcome(values, (), ((np.isnan(values) & whole, found.reasons[0][1]),), lacks)


def _insulation_form(inputs: Inputs) -> Words:
    """Return the dimension table of each line, empty where none applies."""
    copper = inputs.words("pipe material") == "copper"
    steel = np.isin(inputs.words("pipe material"), STEELS)
    made = np.where(np.isin(inputs.words("insulation"), FLEXIBLE), "flexible", "rigid")
    under = np.where(copper, " on tube", " on pipe")
    fits = (copper | steel) & np.isin(inputs.words("insulation form"), TABLE_FORMS) & (inputs.words("insulation") != "")
    return np.where(fits, np.char.add(made, under), "")


def _insulation_outside_diameter(inputs: Inputs) -> CalculationOutcome:
    """Actual outside diameter over the insulation: from the tables where they have it."""
    bare, thickness = inputs.numbers("pipe outside diameter"), inputs.numbers("thickness")
    forms = _insulation_form(inputs)
    values = bare + 2 * thickness
    codes, texts = np.zeros(values.shape, dtype=np.intp), ["pipe outside diameter plus twice the thickness"]
    for form in TABLES:
        if not np.any(forms == form):
            continue
        made = insulation_size(form, inputs.numbers("pipe size"), thickness)
        listed = (forms == form) & made.from_table & (made.outside_diameter > bare)
        values = np.where(listed, made.outside_diameter, values)
        codes[listed] = len(texts)
        texts.append(made.source)
    steps = (("actual thickness", "length", (values - bare) / 2),)
    return CalculationOutcome(values, steps, source=TextByLine(codes, tuple(texts)))


def _equivalent_thickness(inputs: Inputs) -> CalculationOutcome:
    """Equivalent flat thickness of the round insulation."""
    inner, outer = inputs.numbers("pipe outside diameter"), inputs.numbers("insulation outside diameter")
    return CalculationOutcome(equivalent_flat_thickness(inner, outer))


def _required_thickness(inputs: Inputs) -> CalculationOutcome:
    """Thickness of a code's table carried over to another conductivity."""
    radius = inputs.numbers("pipe outside diameter") / 2
    thickness, conductivity = inputs.numbers("table thickness"), inputs.numbers("conductivity")
    low, high = inputs.numbers("least table conductivity"), inputs.numbers("greatest table conductivity")
    ends = inputs.words("conductivity range end")
    upper = equivalent.required_thickness(radius, thickness, conductivity, low, high, "upper")
    lower = equivalent.required_thickness(radius, thickness, conductivity, low, high, "lower")
    values = np.where(ends == "upper", upper, np.where(ends == "lower", lower, np.nan))
    used = np.where(ends == "upper", high, low)
    inside = np.asarray((conductivity >= low) & (conductivity <= high))
    steps = (
        ("pipe outside radius", "length", radius),
        ("table conductivity used", "conductivity", np.where(inside, np.nan, used)),
    )
    stands = "the conductivity lies in the range of the table, whose thickness stands"
    method = TextByLine(inside.astype(np.intp), ("", stands))
    unknown = (ends != "") & ~np.isin(ends, ("upper", "lower"))
    return CalculationOutcome(values, steps, ((unknown, "the range end must be upper or lower"),), method=method)


def _material_names(inputs: Inputs) -> Words:
    """Return the material of the limits table that each line names, empty where none fits what is given."""
    names = np.full(inputs.words("insulation").shape, "", dtype="<U32")
    for row in table("insulation_materials").rows:
        fits = inputs.words("insulation") == row["insulation"]
        fits &= np.isin(inputs.words("insulation standard"), ["", *_standards(row["standards"])])
        fits &= np.isin(inputs.words("standard type"), ["", row["type"]])
        fits &= np.isin(inputs.words("standard grade"), ["", "none", row["grade"]])
        names = np.where(fits, row["material"], names)
    return names


def _standards(cell: str) -> list[str]:
    """Return the standards of a cell: "ASTM C547 ASTM C553" names two."""
    return [f"ASTM {number}" for number in cell.replace("ASTM", "").split()]


def _conductivity(inputs: Inputs) -> CalculationOutcome:
    """Limit of the material standard at the mean of operating and ambient temperature."""
    names = _material_names(inputs)
    mean: Array = (inputs.numbers("operating temperature") + inputs.numbers("ambient temperature")) / 2
    values, codes, texts = np.full(mean.shape, np.nan), np.zeros(mean.shape, dtype=np.intp), [""]
    for name, limits in materials().items():
        rows: Flags = names == name
        values = np.where(rows, limit_conductivity(name, mean), values)
        codes[rows] = len(texts)
        texts.append(f"limit of {limits.standard} type {limits.grade} ({limits.source}), as the schedule gives none")
    reasons = (
        (
            (names == "") & (inputs.words("insulation") != ""),
            "no published limit covers this insulation, type and grade",
        ),
        ((names != "") & np.isnan(values), "the mean temperature lies outside the published limits"),
    )
    steps = (("mean temperature", "temperature", mean), ("material", TEXT, names))
    return CalculationOutcome(values, steps, reasons, source=TextByLine(codes, tuple(texts)))


def _surface_names(inputs: Inputs, end: str) -> Words:
    """Return the surface of the emittance table that each line shows: its jacket, else its facing, foam or bare pipe.

    Where a table prints or practice knows a range of surfaces, that of the least or the greatest emittance.
    """
    jacket, looks = inputs.words("jacket"), inputs.words("jacket surface")
    unclad, insulation, facing = jacket == "none", inputs.words("insulation"), inputs.words("facing")
    bare = (insulation == "none") & np.isin(jacket, ("", "none"))
    foam = unclad & np.isin(insulation, FLEXIBLE) & np.isin(facing, ("", "none"))
    names = np.where(foam, "elastomeric or polyisobutylene", "").astype("<U64")
    for row in table("facing_surfaces").rows:
        shown = bare if row["term"] == "pipe material" else unclad & ~bare
        names = np.where(shown & (inputs.words(row["term"]) == row["word"]), row[f"{end}_surface"], names)
    for row in table("jacket_surfaces").rows:
        fits = (jacket == row["jacket"]) & (looks == row["jacket_surface"])
        names = np.where(fits, row["surface"], names)
    return names


def outer_material_lacks(inputs: Inputs) -> tuple[tuple[Flags, str], ...]:
    """Return the lines (a yes or no each) that do not say what their outer material is, and what would name it.

    The jacket names it, or the material of a bare pipe.
    """
    jacket, bare = inputs.words("jacket"), inputs.words("insulation") == "none"
    unnamed = bare & np.isin(jacket, ("", "none")) & (inputs.words("pipe material") == "")
    return (unnamed, "pipe material"), (~bare & (jacket == ""), "jacket")


def any_of(lacks: Sequence[tuple[Flags, str]]) -> Flags:
    """Return the lines (a yes or no each) that lack anything."""
    return np.asarray(np.logical_or.reduce([rows for rows, _ in lacks]), dtype=np.bool_)


def _emittance(inputs: Inputs, end: str) -> CalculationOutcome:
    """Emittance of the outer surface from the published table: the least or the greatest that it can have."""
    surface = _surface_names(inputs, end)
    values = np.full(surface.shape, np.nan)
    for name, printed in emittances().items():
        values = np.where(surface == name, printed.least if end == "least" else printed.greatest, values)
    lacks = outer_material_lacks(inputs)
    why = "the emittance table does not have this jacket and surface"
    steps = (("surface in the table", TEXT, surface),)
    return CalculationOutcome(values, steps, ((np.isnan(values) & ~any_of(lacks), why),), lacks)


def _greatest_jacket_emittance(inputs: Inputs) -> CalculationOutcome:
    """The stated emittance, else the greatest that the outer surface can have."""
    stated = inputs.numbers("jacket emittance")
    found = _emittance(inputs, "greatest")
    told = ~np.isnan(stated)
    reasons = tuple((rows & ~told, why) for rows, why in found.reasons)
    lacks = tuple((rows & ~told, name) for rows, name in found.missing)
    return CalculationOutcome(np.where(told, stated, found.values), found.steps, reasons, lacks)


SURFACE_WORDS = (
    Input("jacket", TEXT, required=False),
    Input("jacket surface", TEXT, required=False),
    Input("facing", TEXT, required=False),
    Input("insulation", TEXT, required=False),
    Input("pipe material", TEXT, required=False),
)
"""What tells which surface a line shows."""

DIMENSIONS_AND_TABLES = (
    Calculation(
        "pipe outside diameter",
        "length",
        (PIPE_SIZE, PIPE_MATERIAL, Input("pipe schedule", TEXT, required=False)),
        "dimension table by nominal size",
        "ASME B36.10M, ASTM B88; EN 10255, EN 10216 and EN 1057 where the schedule names them",
        _pipe_outside_diameter,
    ),
    Calculation(
        "pipe bore",
        "length",
        (PIPE_SIZE, PIPE_MATERIAL, Input("pipe schedule", TEXT)),
        "outside diameter less two walls",
        "ASME B36.10M, ASTM B88 (walls of copper tube from memory)",
        _pipe_bore,
    ),
    Calculation(
        "pipe inside diameter",
        "length",
        (
            Input("pipe outside diameter", "length", required=False),
            Input("pipe wall thickness", "length", required=False, least=0.0),
            Input("pipe size", "nominal size", required=False),
            Input("pipe material", TEXT, required=False),
            Input("pipe schedule", TEXT, required=False),
        ),
        "outside diameter less two walls, as stated or by the dimension table of the standard",
        "EN 10255, EN 10216, EN 1057, ASME B36.10M, ASTM B88 (walls of copper and of EN 10216 over DN 150 from memory)",
        _pipe_inside_diameter,
    ),
    Calculation(
        "insulation outside diameter",
        "length",
        (
            DIAMETER,
            THICKNESS,
            Input("pipe size", "nominal size", required=False),
            Input("pipe material", TEXT, required=False),
            Input("insulation", TEXT, required=False),
            Input("insulation form", TEXT, required=False),
        ),
        "dimension table of the insulation where it has the size, else by the thickness",
        "2021 ASHRAE Handbook - Fundamentals (SI), chapter 23, Tables 13 to 16",
        _insulation_outside_diameter,
    ),
    Calculation(
        "equivalent thickness",
        "length",
        (DIAMETER, Input("insulation outside diameter", "length")),
        "r2·ln(r2/r1)",
        "2021 ASHRAE Handbook - Fundamentals (SI), chapter 23, equation 8",
        _equivalent_thickness,
    ),
    Calculation(
        "required thickness",
        "length",
        (
            DIAMETER,
            Input("table thickness", "length", least=0.0),
            Input("conductivity", "conductivity"),
            Input("least table conductivity", "conductivity"),
            Input("greatest table conductivity", "conductivity"),
            Input("conductivity range end", TEXT),
        ),
        "T = r·[(1 + t/r)^(K/k) - 1], with the actual outside radius and the range end that the standard names",
        "ASHRAE 90.1, note to Table 6.8.3-1",
        _required_thickness,
    ),
    Calculation(
        "conductivity",
        "conductivity",
        (
            Input("insulation", TEXT),
            Input("operating temperature", "temperature"),
            Input("ambient temperature", "temperature"),
            Input("insulation standard", TEXT, required=False),
            Input("standard type", TEXT, required=False),
            Input("standard grade", TEXT, required=False),
        ),
        "limit of the material standard at the mean of operating and ambient temperature",
        "2021 ASHRAE Handbook - Fundamentals (SI), chapter 23, Table 8",
        _conductivity,
    ),
    Calculation(
        "jacket emittance",
        "number",
        SURFACE_WORDS,
        "emittance table; of a range the lower end, unfavorable for condensation and touch",
        "2021 ASHRAE Handbook - Fundamentals (SI), chapter 23, Table 12",
        lambda inputs: _emittance(inputs, "least"),
    ),
    Calculation(
        "greatest jacket emittance",
        "number",
        (Input("jacket emittance", "number", required=False, least=0.0, greatest=1.0, as_stated=True), *SURFACE_WORDS),
        "as stated, else the emittance table; of a range the upper end, unfavorable for heat loss",
        "2021 ASHRAE Handbook - Fundamentals (SI), chapter 23, Table 12",
        _greatest_jacket_emittance,
    ),
)
