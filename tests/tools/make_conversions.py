"""Writes `conversions.json` and `pint_words.json` from pint: `python -m tests.tools.make_conversions`.

Run it after a change of the table in `units.py`. Tests hold the files against what pint says.
"""

from __future__ import annotations

import json
from contextlib import suppress

from pint import UndefinedUnitError

from speccheck.quantities.conversion import CONVERSIONS_FILE, PINT_WORDS_FILE, conversion, registry
from speccheck.quantities.units import DIMENSIONS, UNITS


def content() -> str:
    """Return the text of the file: for each unit and dimension the factor and the offset to SI, one unit to a line."""
    lines = []
    for name, unit in UNITS.items():
        found = {dimension: conversion(unit.pint_unit, dimension) for dimension in unit.dimensions}
        lines.append(f"{json.dumps(name)}: {json.dumps(found)}")
    return "{\n" + ",\n".join(lines) + "\n}\n"


def words() -> str:
    """Return the text of the file of words, one to a line: what pint knows, and the base dimensions of our own."""
    measured = {json.dumps(_exponents(dimension.si_unit)): None for dimension in DIMENSIONS.values()}
    units = []
    for word, unit in sorted(registry()._units.items()):
        with suppress(UndefinedUnitError):  # a word that pint itself cannot read back
            units.append(f"{_json(word)}: {_json([unit.name, _exponents(word)])}")
    prefixes = ",\n".join(_json(prefix) for prefix in sorted(registry()._prefixes))
    parts = {"prefixes": f"[\n{prefixes}\n]", "units": "{\n" + ",\n".join(units) + "\n}"}
    parts["measured"] = "[\n" + ",\n".join(measured) + "\n]"
    return "{\n" + ",\n".join(f"{_json(name)}: {part}" for name, part in parts.items()) + "\n}\n"


def _exponents(unit: str) -> dict[str, float]:
    """Return the exponents of the base dimensions of a unit: {"length": 1, "time": -1}."""
    found = registry().parse_units(unit).dimensionality
    exponents = ((name.strip("[]"), float(exponent)) for name, exponent in sorted(found.items()))
    return {name: int(exponent) if exponent.is_integer() else exponent for name, exponent in exponents}


def _json(thing: object) -> str:
    return json.dumps(thing, ensure_ascii=False)


if __name__ == "__main__":
    CONVERSIONS_FILE.write_text(content(), encoding="utf-8")
    PINT_WORDS_FILE.write_text(words(), encoding="utf-8")
