"""Writes `conversions.json` from pint: `python -m speccheck.quantities.make_conversions`.

Run it after a change of the table in `units.py`. A test holds the file against what pint says.
"""

from __future__ import annotations

import json

from speccheck.quantities.conversion import CONVERSIONS_FILE, conversion
from speccheck.quantities.units import UNITS


def content() -> str:
    """Return the text of the file: for each unit and dimension the factor and the offset to SI, one unit to a line."""
    lines = []
    for name, unit in UNITS.items():
        found = {dimension: conversion(unit.pint_unit, dimension) for dimension in unit.dimensions}
        lines.append(f"{json.dumps(name)}: {json.dumps(found)}")
    return "{\n" + ",\n".join(lines) + "\n}\n"


if __name__ == "__main__":
    CONVERSIONS_FILE.write_text(content(), encoding="utf-8")
