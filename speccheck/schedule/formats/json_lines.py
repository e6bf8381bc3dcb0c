"""JSON to a grid: a list of objects, one for each line of the schedule.

Shape: `[{"mark": "CHW-1", "pipe size": "2 in", "thickness (in)": 1.5, "concealed": true, "vapor stop locations":
["valves", "flanges"], "jacket": null}, ...]`. Keys are read as column headers are, values as cells are; null and a
missing key say that the value is not given. A place in the file is a JSON Pointer (RFC 6901): "/0/pipe size".
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from speccheck.language.diagnostic_rules import Wording
from speccheck.language.diagnostics import Diagnostic, Place
from speccheck.schedule.formats.safety import MOST_FILLED_ROWS
from speccheck.schedule.grid import Grid, GridCell, number_text
from speccheck.schedule.messages.files import (
    JSON_NOT_UTF_8,
    JSON_TOO_DEEP,
    KEY_TWICE_IN_OBJECT,
    NO_JSON,
    NO_LIST_OF_OBJECTS,
    NO_NUMBER_IN_JSON,
    NO_VALUE_OF_A_LINE,
    TOO_MANY_LINES,
)


def read_json(path: Path) -> tuple[list[Grid], list[Diagnostic]]:
    """Return the one grid of a JSON schedule, its keys in row 0, or an error that says why it cannot be read."""
    try:
        content = json.loads(
            path.read_text(encoding="utf-8-sig"), parse_constant=_no_constant, object_pairs_hook=_no_repeats
        )
    except json.JSONDecodeError as error:
        place = Place(path.name, error.lineno, error.colno, 1)
        return [], [NO_JSON.at(place)]
    except UnicodeDecodeError:
        return [], [JSON_NOT_UTF_8.at(Place(path.name), file=path.name)]
    except (ValueError, RecursionError) as error:
        place = Place(path.name)
        if isinstance(error, _NotJsonError):
            return [], [error.said.at(place, word=error.word)]
        return [], [JSON_TOO_DEEP.at(place)]
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
    return TOO_MANY_LINES.at(Place(file), file=file, most=MOST_FILLED_ROWS)


class _NotJsonError(ValueError):
    """What Python's JSON reader would let pass: what is to be said of it, and the word in question."""

    def __init__(self, said: Wording, word: str) -> None:
        super().__init__(word)
        self.said, self.word = said, word


def _no_constant(word: str) -> Any:
    """Refuse NaN and infinity, which JSON (RFC 8259, section 6) does not have."""
    raise _NotJsonError(NO_NUMBER_IN_JSON, word)


def _no_repeats(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    """Return an object; refuse one that states the same key twice."""
    found: dict[str, Any] = {}
    for key, value in pairs:
        if key in found:
            raise _NotJsonError(KEY_TWICE_IN_OBJECT, key)
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
        place = Place(file, cell=at)
        return NO_VALUE_OF_A_LINE.at(place, at=at) if at.count("/") > 1 else NO_LIST_OF_OBJECTS.at(place)
    return None


def _grid(content: list[dict[str, Any]], file: str) -> Grid:
    """Return the grid: the keys in the order in which they first occur, then a row for each object."""
    keys = {key: column for column, key in enumerate(dict.fromkeys(key for line in content for key in line))}
    cells = {(0, column): GridCell(key) for key, column in keys.items() if key.strip()}
    pointers = {(0, column): f"key {key}" for key, column in keys.items()}
    for row, line in enumerate(content, start=1):
        for key, value in line.items():
            text = _text(value)
            if text.strip():
                cells[row, keys[key]] = GridCell(text)
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
