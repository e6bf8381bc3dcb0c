"""TOML to a grid: an array of tables, one for each line, as is handy for product data written by hand.

Shape: `[[product]]` over `product = "..."`, `conductivity = "0.25 Btu.in/(h.ft2.F)"` and so on, under any one name.
Keys and values are read as those of JSON are; a date is read as text. Places are JSON Pointers into the array.
"""

from __future__ import annotations

import datetime
import re
from pathlib import Path
from typing import Any

from speccheck.language.diagnostics import Diagnostic, Place, Severity
from speccheck.schedule import codes
from speccheck.schedule.formats.json_lines import grid_of_objects
from speccheck.schedule.formats.safety import refusal
from speccheck.schedule.grid import Grid

_SHAPE = "write one array of tables, such as [[product]], with a text, a number, true or false for each term"


def read_toml(path: Path) -> tuple[list[Grid], list[Diagnostic]]:
    """Return the one grid of a TOML file, its keys in row 0, or an error that says why it cannot be read."""
    import tomllib

    try:
        content = tomllib.loads(path.read_text(encoding="utf-8"))
    except UnicodeDecodeError:
        return [], [refusal(codes.BAD_TOML, path.name, f"`{path.name}` is not text in UTF-8", _SHAPE)]
    except tomllib.TOMLDecodeError as error:
        found = re.search(r"line (\d+), column (\d+)", str(error))
        place = Place(path.name, int(found[1]), int(found[2]), 1) if found else Place(path.name)
        message = f"this is not TOML: {str(error).split(' (at ')[0].lower()}"
        return [], [Diagnostic(codes.BAD_TOML, Severity.ERROR, message, place, _SHAPE)]
    except RecursionError:
        return [], [refusal(codes.BAD_TOML, path.name, f"`{path.name}` has lists in lists, too deep to read", _SHAPE)]
    arrays = list(content.values())
    if len(arrays) != 1 or not isinstance(arrays[0], list):
        return [], [refusal(codes.BAD_TOML, path.name, f"`{path.name}` is not one array of tables", _SHAPE)]
    return grid_of_objects([_with_texts(entry) for entry in arrays[0]], path.name)


def _with_texts(entry: Any) -> Any:
    """Return a table with its dates as texts, which JSON has no other way to hold."""
    if not isinstance(entry, dict):
        return entry
    dates = datetime.date | datetime.time
    return {key: str(value) if isinstance(value, dates) else value for key, value in entry.items()}
