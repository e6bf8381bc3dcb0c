"""How the matrix of the page is grouped: lines by section, service and discipline, clauses by ruleset and part."""

from __future__ import annotations

import re

from speccheck.language.core import Clause
from speccheck.report.line_words import service, shown
from speccheck.review.matrix import Matrix
from speccheck.schedule.lines import Line
from speccheck.schedule.messages.tables import SECTION

DISCIPLINES = {"duct": "Ductwork", "tank": "Tanks and equipment", "equipment": "Tanks and equipment"}
"""What a component belongs to; all other components belong to piping. Common practice, no source."""
_CELL = re.compile(r"[A-Z]*([0-9]+)")
_PART = re.compile(r"(?:.*-)?([0-9]+)(?:\.|$)")


def part(clause: Clause) -> str:
    """Return the ruleset of a clause and the part of it that its number names: "Section 23 07 00, part 2"."""
    numbered = _PART.match(clause.name)
    return f"{clause.ruleset}, part {numbered[1]}" if numbered else clause.ruleset


def discipline(line: Line) -> str:
    """Return the discipline of a line by its component, "" where none is stated."""
    datum = line.data.get("component")
    named = datum.value if datum is not None and isinstance(datum.value, str) else shown(datum)
    return DISCIPLINES.get(named, "Piping") if named else ""


def groups(matrix: Matrix) -> list[tuple[str, str, str]]:
    """Return for each line its section, its service and its discipline; what is not known is ""."""
    headings = _headings(matrix)
    return [(_section(line, headings), service(line), discipline(line)) for line in matrix.schedule.lines]


def _headings(matrix: Matrix) -> dict[str, list[tuple[int, str]]]:
    """Return the section headings of each sheet, with their rows from 1, in the order of the rows."""
    found: dict[str, list[tuple[int, str]]] = {}
    for told in matrix.schedule.diagnostics:
        if told.code == SECTION.code and told.message.count("`") >= 2:
            found.setdefault(told.place.sheet, []).append((_row(told.place.cell), told.message.split("`")[1]))
    return {sheet: sorted(headings) for sheet, headings in found.items()}


def _section(line: Line, headings: dict[str, list[tuple[int, str]]]) -> str:
    """Return the heading that stands last above a line, else the name of its sheet."""
    row = _row(line.place.cell)
    above = [text for number, text in headings.get(line.place.sheet, ()) if number < row]
    return above[-1] if above else line.place.sheet


def _row(cell: str) -> int:
    found = _CELL.fullmatch(cell)
    return int(found[1]) if found else 0
