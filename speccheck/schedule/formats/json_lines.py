"""JSON to a grid: a list of objects, one for each line of the schedule.

Shape: `[{"mark": "CHW-1", "pipe size": "2 in", "thickness (in)": 1.5, "concealed": true, "vapor stop locations":
["valves", "flanges"], "jacket": null}, ...]`. Keys are read as column headers are, values as cells are; null and a
missing key say that the value is not given. A place in the file is a JSON Pointer (RFC 6901): "/0/pipe size".
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from speccheck.language.diagnostics import Diagnostic, Place, Severity
from speccheck.schedule import codes
from speccheck.schedule.formats.safety import MOST_FILLED_ROWS, refusal
from speccheck.schedule.grid import Cell, Grid, number_text

_SHAPE = "write a list of objects, one for each line, with a text, a number, true, false or null for each term"


def read_json(path: Path) -> tuple[list[Grid], list[Diagnostic]]:
    """Return the one grid of a JSON schedule, its keys in row 0, or an error that says why it cannot be read."""
    try:
        content = json.loads(
            path.read_text(encoding="utf-8-sig"), parse_constant=_no_constant, object_pairs_hook=_no_repeats
        )
    except json.JSONDecodeError as error:
        place = Place(path.name, error.lineno, error.colno, 1)
        return [], [Diagnostic(codes.BAD_JSON, Severity.ERROR, "this is not JSON here", place, _SHAPE)]
    except UnicodeDecodeError:
        return [], [refusal(codes.BAD_JSON, path.name, f"`{path.name}` is not text in UTF-8", _SHAPE)]
    except (ValueError, RecursionError) as error:
        reason = (
            str(error) if isinstance(error, _NotJsonError) else "the file nests too deep or holds a number too long"
        )
        return [], [refusal(codes.BAD_JSON, path.name, reason, _SHAPE)]
    problem = _too_many(content, path.name)
    return ([], [problem]) if problem is not None else grid_of_objects(content, path.name)


def grid_of_objects(content: Any, file: str) -> tuple[list[Grid], list[Diagnostic]]:
    """Return the one grid of a list of objects, or an error that says what is wrong with its shape."""
    problem = _shape_problem(content, file)
    return ([], [problem]) if problem is not None else ([_grid(content, file)], [])


def _too_many(content: Any, file: str) -> Diagnostic | None:
    """Return why a list is too long to be a schedule, None where it is not."""
    if not isinstance(content, list) or len(content) <= MOST_FILLED_ROWS:
        return None
    message = f"`{file}` has more than {MOST_FILLED_ROWS:,} lines, which is the limit"
    return refusal(codes.TOO_LARGE, file, message, "leave only the schedule in the file")


class _NotJsonError(ValueError):
    """What Python's JSON reader would let pass."""


def _no_constant(word: str) -> Any:
    """Refuse NaN and infinity, which JSON (RFC 8259, section 6) does not have."""
    raise _NotJsonError(f"`{word}` is not a number in JSON")


def _no_repeats(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    """Return an object; refuse one that states the same key twice."""
    found: dict[str, Any] = {}
    for key, value in pairs:
        if key in found:
            raise _NotJsonError(f"the key `{key}` stands twice in one object")
        found[key] = value
    return found


def _shape_problem(content: Any, file: str) -> Diagnostic | None:
    """Return what is wrong with the shape of the content, at its first fault."""
    from pydantic import StrictBool, StrictFloat, StrictInt, StrictStr, TypeAdapter, ValidationError

    value = StrictStr | StrictBool | StrictInt | StrictFloat | list[StrictStr] | None
    try:
        TypeAdapter(list[dict[str, value]]).validate_python(content, strict=True)
    except ValidationError as error:
        at = "".join(f"/{_escaped(part)}" for part in error.errors()[0]["loc"][:2])
        message = (
            f"`{at}` is not a value that a line can have" if at.count("/") > 1 else "this is not a list of objects"
        )
        return Diagnostic(codes.BAD_JSON, Severity.ERROR, message, Place(file, cell=at), _SHAPE)
    return None


def _grid(content: list[dict[str, Any]], file: str) -> Grid:
    """Return the grid: the keys in the order in which they first occur, then a row for each object."""
    keys = {key: column for column, key in enumerate(dict.fromkeys(key for line in content for key in line))}
    cells = {(0, column): Cell(key) for key, column in keys.items() if key.strip()}
    pointers = {(0, column): f"key {key}" for key, column in keys.items()}
    for row, line in enumerate(content, start=1):
        for key, value in line.items():
            text = _text(value)
            if text.strip():
                cells[row, keys[key]] = Cell(text)
            pointers[row, keys[key]] = f"/{row - 1}/{_escaped(key)}"
    return Grid(file, "", cells, pointers=pointers)


def _text(value: Any) -> str:
    """Return what a cell with this value would show."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, list):
        return ", ".join(value) if value else "none"
    if isinstance(value, int | float):
        return number_text(value)
    return value or ""


def _escaped(part: Any) -> str:
    """Return one part of a JSON Pointer."""
    return str(part).replace("~", "~0").replace("/", "~1")
