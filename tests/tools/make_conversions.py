"""Writes `conversions.json` and `pint_words.json` from pint: `python -m tests.tools.make_conversions`.

Run it after a change of the table in `units.py`. Tests hold the files against what pint says.
"""

from __future__ import annotations

import json

from speccheck.quantities.conversion import CONVERSIONS_FILE, PINT_WORDS_FILE, conversion, registry
from speccheck.quantities.units import UNITS


def content() -> str:
    """Return the text of the file: for each unit and dimension the factor and the offset to SI, one unit to a line."""
    lines = []
    for name, unit in UNITS.items():
        found = {dimension: conversion(unit.pint_unit, dimension) for dimension in unit.dimensions}
        lines.append(f"{json.dumps(name)}: {json.dumps(found)}")
    return "{\n" + ",\n".join(lines) + "\n}\n"


def words() -> str:
    """Return the text of the file of words: those that pint knows for units, and the prefixes that it knows."""
    known = {"prefixes": sorted(registry()._prefixes), "units": sorted(registry()._units)}
    return json.dumps(known, ensure_ascii=False, indent=0) + "\n"


if __name__ == "__main__":
    CONVERSIONS_FILE.write_text(content(), encoding="utf-8")
    PINT_WORDS_FILE.write_text(words(), encoding="utf-8")
