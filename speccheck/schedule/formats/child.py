"""Reading in a child process with limits of time and memory, for files that could make their reader run away.

The child sends back grids as JSON. Whatever happens to it, running out of memory or time or dying, ends here as a
diagnostic. `python -P` keeps the folder in which the program was started from lending code to the child.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from speccheck.language.diagnostics import Diagnostic, Place, Severity
from speccheck.schedule.formats.opening import FormatKind, Reading, reader_of
from speccheck.schedule.formats.safety import MEGABYTE, Refused
from speccheck.schedule.grid import Grid, GridCell, MergedRange
from speccheck.schedule.lines import Spot, Unread, UnreadKind
from speccheck.schedule.messages.files import TOO_LONG_TO_READ, TOO_MUCH_MEMORY

MOST_SECONDS = 60
MOST_BYTES = 1_000 * MEGABYTE


def read_in_child(kind: FormatKind, path: Path) -> Reading:
    """Return what the reader of a kind of file makes of it, or why it could not end."""
    try:
        return _reading(json.loads(run_in_child(__name__, kind, str(path.absolute()))))
    except subprocess.TimeoutExpired:
        return [], [TOO_LONG_TO_READ.at(Place(path.name), file=path.name, most=MOST_SECONDS)]
    except (ValueError, KeyError, TypeError):
        return [], [TOO_MUCH_MEMORY.at(Place(path.name), file=path.name, most=MOST_BYTES // MEGABYTE)]


def run_in_child(module: str, *arguments: str, data: bytes = b"") -> bytes:
    """Return what a module of ours, run as a program that is given `data`, writes; b"" where it failed.

    Raises `subprocess.TimeoutExpired` after the seconds that are the limit.
    """
    environment = dict(os.environ)
    home = str(Path(__file__).parents[3])
    environment["PYTHONPATH"] = os.pathsep.join(filter(None, (home, environment.get("PYTHONPATH", ""))))
    environment["PYTHONIOENCODING"] = "utf-8"
    command = [sys.executable, "-P", "-m", module, *arguments]
    done = subprocess.run(command, env=environment, input=data, capture_output=True, timeout=MOST_SECONDS, check=False)
    return b"" if done.returncode else done.stdout


def run_in_child_or_none(module: str, *arguments: str, data: bytes = b"") -> bytes:
    """Return what a module of ours, run as a program, writes; b"" where it failed or took longer than the limit."""
    try:
        return run_in_child(module, *arguments, data=data)
    except subprocess.TimeoutExpired:
        return b""


def limit_this_process() -> None:
    """Limit memory and processor time of this process, where the system can."""
    try:
        import resource
    except ImportError:  # Windows has no such limits; the clock of the parent still runs
        return
    resource.setrlimit(resource.RLIMIT_AS, (MOST_BYTES, MOST_BYTES))
    resource.setrlimit(resource.RLIMIT_CPU, (MOST_SECONDS, MOST_SECONDS))


def main(kind: FormatKind, path: Path) -> None:
    """Read a file under limits and write what was read as JSON."""
    limit_this_process()
    try:
        grids, diagnostics = reader_of(kind)(path)
    except Refused as refused:
        grids, diagnostics = [], [refused.diagnostic]
    written = {"grids": [_grid_written(grid) for grid in grids], "diagnostics": [_told(one) for one in diagnostics]}
    sys.stdout.buffer.write(json.dumps(written, ensure_ascii=True).encode())


def _place_written(place: Place) -> list[str]:
    return [place.file, place.sheet, place.cell]


def _place(written: list[str]) -> Place:
    return Place(written[0], sheet=written[1], cell=written[2])


def _told(one: Diagnostic) -> dict[str, Any]:
    place = _place_written(one.place)
    return {"code": one.code, "severity": one.severity.value, "message": one.message, "place": place, "help": one.help}


def _grid_written(grid: Grid) -> dict[str, Any]:
    return {
        "file": grid.file,
        "sheet": grid.sheet,
        "cells": [[*at, cell.text, cell.trouble] for at, cell in grid.cells.items()],
        "blocks": [[block.top, block.left, block.bottom, block.right] for block in grid.blocks],
        "hidden": grid.hidden,
        "pointers": [[*at, pointer] for at, pointer in grid.pointers.items()],
        "hidden_rows": sorted(grid.hidden_rows),
        "hidden_columns": sorted(grid.hidden_columns),
        "unread": [[one.kind.value, one.text, _place_written(one.place)] for one in grid.unread],
        "spots": [[*at, *spot] for at, spot in grid.spots.items()],
        "table_rows": list(grid.table_rows.items()),
        "page_titles": list(grid.page_titles),
        "fields": list(grid.fields.items()),
    }


def _reading(written: Mapping[str, Any]) -> Reading:
    """Return grids and diagnostics out of what the child wrote."""
    diagnostics = [
        Diagnostic(one["code"], Severity(one["severity"]), one["message"], _place(one["place"]), one["help"])
        for one in written["diagnostics"]
    ]
    return [_grid(one) for one in written["grids"]], diagnostics


def _grid(one: Mapping[str, Any]) -> Grid:
    return Grid(
        one["file"],
        one["sheet"],
        {(row, column): GridCell(text, trouble) for row, column, text, trouble in one["cells"]},
        tuple(MergedRange(*block) for block in one["blocks"]),
        one["hidden"],
        {(row, column): pointer for row, column, pointer in one["pointers"]},
        hidden_rows=frozenset(one["hidden_rows"]),
        hidden_columns=frozenset(one["hidden_columns"]),
        unread=tuple(Unread(UnreadKind(kind), text, _place(place)) for kind, text, place in one["unread"]),
        spots={(row, column): Spot(*spot) for row, column, *spot in one["spots"]},
        table_rows=dict(one["table_rows"]),
        page_titles=tuple(one["page_titles"]),
        fields=dict(one["fields"]),
    )


if __name__ == "__main__":
    main(FormatKind(sys.argv[1]), Path(sys.argv[2]))
