"""TOML to a grid: an array of tables, one for each line, as is handy for product data written by hand.

Shape: `[[product]]` over `product = "..."`, `conductivity = "0.25 Btu.in/(h.ft2.F)"` and so on, under any one name.
Keys and values are read as those of JSON are; a date is read as text. Places are JSON Pointers into the array.
"""

from __future__ import annotations

import datetime
from pathlib import Path
from typing import Any

from speccheck.language.diagnostics import Diagnostic
from speccheck.schedule.formats.json_lines import grid_of_objects
from speccheck.schedule.grid import Grid
from speccheck.schedule.messages.files import BAD_TOML, NO_ARRAY_OF_TABLES
from speccheck.toml_files import FileKind, load_toml


def read_toml(path: Path) -> tuple[list[Grid], list[Diagnostic]]:
    """Return the one grid of a TOML file, its keys in row 0, or an error that says why it cannot be read."""
    source = load_toml(path, FileKind(BAD_TOML, BAD_TOML, NO_ARRAY_OF_TABLES.help))
    if isinstance(source, Diagnostic):
        return [], [source]
    arrays = list(source.content.values())
    if len(arrays) != 1 or not isinstance(arrays[0], list):
        place = source.place(*list(source.content)[-1:])
        return [], [NO_ARRAY_OF_TABLES.at(place, source, file=path.name)]
    return grid_of_objects([_with_texts(entry) for entry in arrays[0]], path.name)


def _with_texts(entry: Any) -> Any:
    """Return a table with its dates as texts, which JSON has no other way to hold."""
    if not isinstance(entry, dict):
        return entry
    dates = datetime.date | datetime.time
    return {key: str(value) if isinstance(value, dates) else value for key, value in entry.items()}
