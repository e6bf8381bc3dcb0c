"""Layouts: a known list of lines, written as a schedule in one of many layouts.

The truth is a list of lines, each with the value of some terms. A layout writes it as a grid: as a list, columns in
any order, a header of one row or two, units in the header, in the cells or left to the schedule, headings for what
several lines share, merged or repeated cells, notes and totals between, hidden rows, sibling columns, remarks; or with
sizes across, or as a form. Reading it back gives the truth or says that something was not read.
"""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import dataclass, field

from speccheck.schedule.grid import Block, Cell, Grid

SERVICES = ("chilled water", "heating hot water", "refrigerant suction")
SPELLINGS = {
    "chilled water": ("chilled water", "CHW", "Chilled Water", "CHWS"),
    "heating hot water": ("heating hot water", "HHW", "Heating Hot Water"),
    "refrigerant suction": ("refrigerant suction", "RS"),
    "elastomeric foam": ("elastomeric foam", "Elastomeric"),
    "fiberglass": ("fiberglass", "FG", "Fiberglass"),
    "cellular glass": ("cellular glass", "Cellular Glass"),
    "outdoor": ("outdoor", "Outdoor"),
    "plenum": ("plenum", "Plenum"),
    "conditioned": ("conditioned", "Conditioned"),
}
SIZES = ("1", "1-1/2", "2", "3", "4", "6")
THICKNESSES = ("1/2", "1", "1-1/2", "2", "3")
HEADERS = {
    "service": ("Service", "System"),
    "location": ("Location",),
    "insulation": ("Insulation", "Insul"),
    "pipe size": ("Pipe Size", "Size", "NPS"),
    "thickness": ("Thickness", "Thk", "Insulation Thickness"),
    "operating temperature": ("Op. temp", "Fluid temp"),
}
TITLES = ("Some School", "Submittal 3", "Project: North Wing", "Section 23 07 19")
NOTES = ("Note: see drawings", "* Valves left bare", "Subtotal", "NOTES:", "1. Joints sealed.", "Rev B", "HOLD")


@dataclass(frozen=True)
class Layout:
    """A schedule as it is written, and the lines that it was made from."""

    truth: tuple[dict[str, str], ...]
    grid: Grid


@dataclass
class _Sheet:
    """A sheet that is being filled."""

    cells: dict[tuple[int, int], Cell] = field(default_factory=dict)
    blocks: list[Block] = field(default_factory=list)
    hidden: set[int] = field(default_factory=set)
    row: int = 0

    def put(self, column: int, text: str) -> None:
        """Write a text in the row at hand."""
        if text:
            self.cells[self.row, column] = Cell(text)


def draw_layout(seed: int) -> Layout:
    """Return the layout that a seed stands for."""
    chance = random.Random(seed)
    sheet = _Sheet()
    for _ in range(chance.randrange(3)):
        sheet.put(0, chance.choice(TITLES))
        sheet.row += 1
    truth: list[dict[str, str]] = []
    for _ in range(chance.choice((1, 1, 1, 2))):
        sheet.row += chance.choice((0, 1)) if sheet.row else 0
        truth += chance.choice((_list, _list, _list, _sizes_across, _services_across))(sheet, chance)
        sheet.row += 1
    blocks = tuple(sheet.blocks)
    return Layout(tuple(truth), Grid("drawn.xlsx", "Lines", sheet.cells, blocks, hidden_rows=frozenset(sheet.hidden)))


def _written(value: str, chance: random.Random) -> str:
    return chance.choice(SPELLINGS[value])


def _list(sheet: _Sheet, chance: random.Random) -> list[dict[str, str]]:
    """Write a list with a line a row, in runs that share what a heading or a first column says."""
    shared = chance.choice(("service", "location", ""))
    by_heading = bool(shared) and chance.random() < 0.5
    terms = ["service", "location", "insulation", "pipe size", "thickness"]
    terms += ["operating temperature"] if chance.random() < 0.5 else []
    columns = [term for term in terms if not (by_heading and term == shared)]
    chance.shuffle(columns)
    if shared and not by_heading:
        columns.remove(shared)
        columns.insert(0, shared)
    units = _header(sheet, chance, columns)
    truth: list[dict[str, str]] = []
    for _ in range(chance.randint(1, 3)):
        run = _run(chance, terms, shared)
        if by_heading:
            sheet.put(0, _written(run[0][shared], chance).upper() + chance.choice(("", " PIPING", " (rev)")))
            sheet.row += 1
        _rows(sheet, chance, columns, run, units, "" if by_heading else shared)
        truth += run
        if chance.random() < 0.3:
            sheet.put(chance.choice((0, 0, 1)), chance.choice(NOTES))
            sheet.row += 1
    return truth


def _header(sheet: _Sheet, chance: random.Random, columns: Sequence[str]) -> dict[str, str]:
    """Write the header and return, by term, what stands behind each number in the cells."""
    units: dict[str, str] = {}
    for index, term in enumerate(columns):
        text = chance.choice(HEADERS[term])
        unit = {"pipe size": "in", "thickness": "in", "operating temperature": "F"}.get(term, "")
        behind = unit and chance.random() < 0.5
        units[term] = (" " + unit) if behind else ""
        sheet.put(index, text if behind or not unit else f"{text} ({unit})")
    if chance.random() < 0.3:
        sheet.put(len(columns), chance.choice(("Remarks", "Dwg", "Thk", "Alt. thickness")))
    sheet.row += 1
    return units


def _run(chance: random.Random, terms: Sequence[str], shared: str) -> list[dict[str, str]]:
    """Draw some lines that share one value."""
    values = {
        "service": SERVICES,
        "location": ("outdoor", "plenum", "conditioned"),
        "insulation": ("elastomeric foam", "fiberglass", "cellular glass"),
        "pipe size": SIZES,
        "thickness": THICKNESSES,
        "operating temperature": ("42", "180", "20"),
    }
    same = chance.choice(values[shared]) if shared else ""
    lines = [{term: chance.choice(values[term]) for term in terms} for _ in range(chance.randint(1, 4))]
    for line in lines:
        if shared:
            line[shared] = same
        for term in terms:
            if term in ("insulation", "pipe size", "thickness") and chance.random() < 0.08:
                line[term] = ""
    return lines


def _rows(
    sheet: _Sheet,
    chance: random.Random,
    columns: Sequence[str],
    run: Sequence[dict[str, str]],
    units: dict[str, str],
    shared: str,
) -> None:
    """Write the rows of a run; what it shares is repeated, merged, or stands on the first row only."""
    how = chance.choice(("repeated", "merged", "first", "ditto")) if shared else "repeated"
    first = sheet.row
    for number, line in enumerate(run):
        for index, term in enumerate(columns):
            value = line[term]
            text = _written(value, chance) if value in SPELLINGS else value + (units.get(term, "") if value else "")
            if term == shared and number and how != "repeated":
                text = '"' if how == "ditto" else ""
            sheet.put(index, text)
        if chance.random() < 0.1:
            sheet.put(len(columns), chance.choice(("VOID", "see 2", "1 in", "M-101", "-")))
        if chance.random() < 0.05:
            sheet.hidden.add(sheet.row)
        sheet.row += 1
    if how == "merged" and len(run) > 1:
        column = columns.index(shared)
        sheet.blocks.append(Block(first, column, sheet.row - 1, column))


def _sizes_across(sheet: _Sheet, chance: random.Random) -> list[dict[str, str]]:
    """Write services down and sizes across."""
    sizes = sorted(chance.sample(range(len(SIZES)), chance.randint(2, 4)))
    over = chance.choice(("", "Thickness (in)", "Pipe Size / Thickness"))
    if over:
        sheet.put(0, "Service")
        sheet.put(1, over)
        sheet.blocks.append(Block(sheet.row, 1, sheet.row, len(sizes)))
        sheet.blocks.append(Block(sheet.row, 0, sheet.row + 1, 0))
        sheet.row += 1
    else:
        sheet.put(0, "Service")
    for index, size in enumerate(sizes, 1):
        sheet.put(index, f'{chance.choice(("", "NPS ") if not over else ("",))}{SIZES[size]}"')
    sheet.row += 1
    truth = []
    for service in chance.sample(SERVICES, chance.randint(1, 3)):
        sheet.put(0, _written(service, chance))
        for index, size in enumerate(sizes, 1):
            thickness = chance.choice(THICKNESSES)
            sheet.put(index, f'{thickness}"')
            truth.append({"service": service, "pipe size": SIZES[size], "thickness": thickness})
        sheet.row += 1
    return truth


def _services_across(sheet: _Sheet, chance: random.Random) -> list[dict[str, str]]:
    """Write sizes down and services across."""
    services = chance.sample(SERVICES, chance.randint(2, 3))
    sheet.put(0, "Pipe Size")
    for index, service in enumerate(services, 1):
        sheet.put(index, _written(service, chance))
    sheet.row += 1
    truth = []
    for size in sorted(chance.sample(range(len(SIZES)), chance.randint(1, 4))):
        sheet.put(0, f'{SIZES[size]}"')
        for index, service in enumerate(services, 1):
            thickness = chance.choice(THICKNESSES)
            sheet.put(index, f'{thickness}"')
            truth.append({"service": service, "pipe size": SIZES[size], "thickness": thickness})
        sheet.row += 1
    return truth
