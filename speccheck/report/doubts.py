"""Diagnostics of a schedule as a reader wants them: errors first, like ones together, the advice said once."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from speccheck.language.diagnostics import Diagnostic, Place, Severity
from speccheck.report.line_words import drawn_together, place_words
from speccheck.schedule.lines import Column, Remark, Schedule

_ADDRESS = re.compile(r"([A-Z]{1,3})([0-9]{1,7})")
_WEIGHTS = {severity: weight for weight, severity in enumerate(Severity)}


@dataclass(frozen=True, slots=True)
class Doubt:
    """Diagnostics of one code with the same help: each message once, with all the places where it holds."""

    severity: Severity
    code: str
    help: str
    messages: tuple[tuple[str, str], ...]
    """Pairs of the places in words and the message."""


def doubts(diagnostics: Iterable[Diagnostic]) -> tuple[Doubt, ...]:
    """Return the diagnostics put together, errors before warnings before notes, otherwise in the order of places."""
    told = tuple(diagnostics)
    if not told:
        return ()
    from speccheck.schedule.schedule import in_sheet_order

    groups: dict[tuple[Severity, str, str], dict[str, list[Place]]] = {}
    for found in sorted(in_sheet_order(told), key=lambda one: _WEIGHTS[one.severity]):
        messages = groups.setdefault((found.severity, found.code, found.help), {})
        messages.setdefault(found.message, []).append(found.place)
    return tuple(
        Doubt(severity, code, help, tuple((places_words(places), message) for message, places in messages.items()))
        for (severity, code, help), messages in groups.items()
    )


def silent_columns(schedule: Schedule) -> tuple[tuple[str, str], ...]:
    """Return place and heading of the columns that became no term and of which no diagnostic speaks."""
    spoken = {found.place for found in schedule.diagnostics}
    return tuple(
        (place_words(column.place), _became_nothing(column))
        for column in schedule.columns
        if not column.term and column.place not in spoken
    )


def _became_nothing(column: Column) -> str:
    return f"column `{column.header}` became no term{': ' if column.note else ''}{column.note}"


def remarks_by_row(remarks: Sequence[Remark]) -> tuple[tuple[str, str], ...]:
    """Return place and text of what belongs to no line, the cells of one row together: "Jacket | Seam"."""
    rows: dict[tuple[str, str, int, str], list[Remark]] = {}
    for remark in remarks:
        place = remark.place
        row = _address(place.cell)[2]
        rows.setdefault((place.file, place.sheet, place.line or row, "" if row else place.cell), []).append(remark)
    return tuple((place_words(row[0].place), " | ".join(remark.text for remark in row)) for row in rows.values())


def places_words(places: Sequence[Place]) -> str:
    """Return several places in words, each sheet named once: "sheet Piping, B4, B7 through B9; line 9"."""
    by_sheet: dict[str, list[str]] = {}
    for place in places:
        words = place_words(replace(place, cell=""))
        by_sheet.setdefault(words, []).extend([place.cell] if place.cell else [])
    listed = (", ".join(filter(None, (sheet, _cells(cells)))) for sheet, cells in by_sheet.items())
    return "; ".join(filter(None, listed))


def _cells(cells: Iterable[str]) -> str:
    """Return the addresses of cells column by column, downwards."""
    return drawn_together(sorted(cells, key=_address))


def _address(cell: str) -> tuple[int, str, int]:
    """Return what sorts the address of a cell: "Z9" comes before "AA1", "B9" before "B10"."""
    found = _ADDRESS.fullmatch(cell)
    return (len(found[1]), found[1], int(found[2])) if found else (99, cell, 0)
