"""Which reader reads a file: by its ending, and by what is in it where the two disagree."""

from __future__ import annotations

from pathlib import Path

from speccheck.language.diagnostics import Diagnostic
from speccheck.schedule import codes
from speccheck.schedule.formats.safety import check_file, refusal
from speccheck.schedule.grid import Grid


def open_schedule(path: Path) -> tuple[list[Grid], list[Diagnostic]]:
    """Return the sheets of a file, going by its ending, and what is wrong with the file."""
    refused = check_file(path)
    if refused is not None:
        return [], [refused]
    match path.suffix.lower():
        case ".xlsx" | ".xlsm" | ".xls":
            from speccheck.schedule.formats.workbook import read_workbook

            return read_workbook(path)
        case ".csv" | ".tsv" | ".txt":
            from speccheck.schedule.formats.comma_separated import read_comma_separated

            return read_comma_separated(path)
        case ".json":
            from speccheck.schedule.formats.json_lines import read_json

            return read_json(path)
        case ".toml":
            from speccheck.schedule.formats.toml_lines import read_toml

            return read_toml(path)
    message = f"`{path.name}` is not a kind of file that schedules are read from"
    return [], [refusal(codes.WRONG_KIND, path.name, message, "save the schedule as .xlsx, .csv or .json")]
