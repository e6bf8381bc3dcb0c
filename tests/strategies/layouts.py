"""Layouts: a known list of lines, written as a schedule in one of many layouts.

The truth is a list of lines, each with the value of some terms. A layout writes it as a grid: one table or several, as
lists (`lists.py`), with sizes or services across, or as forms. Reading it back gives the truth or says that something
was not read.
"""

from __future__ import annotations

import random
from dataclasses import dataclass, field

from speccheck.schedule.grid import Grid, GridCell, MergedRange

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
VALUES = {
    "service": SERVICES,
    "location": ("outdoor", "plenum", "conditioned"),
    "insulation": ("elastomeric foam", "fiberglass", "cellular glass"),
    "pipe size": SIZES,
    "thickness": ("1/2", "1", "1-1/2", "2", "3"),
    "operating temperature": ("42", "180", "20"),
}
UNITS = {"pipe size": "in", "thickness": "in", "operating temperature": "F"}
TITLES = ("Some School", "Submittal 3", "Project: North Wing", "Section 23 07 19")
NOTES = ("Note: see drawings", "* Valves left bare", "Subtotal", "NOTES:", "1. Joints sealed.", "Rev B", "HOLD")


@dataclass(frozen=True)
class Fact:
    """A line of the truth: its values by term, and the terms that a careful reader may leave open on it."""

    values: dict[str, str]
    open: frozenset[str] = frozenset()


@dataclass(frozen=True)
class Layout:
    """A schedule as it is written, and the lines that it was made from; hidden lines are none of them."""

    truth: tuple[Fact, ...]
    grid: Grid


@dataclass
class Sheet:
    """A sheet that is being filled."""

    chance: random.Random
    cells: dict[tuple[int, int], GridCell] = field(default_factory=dict)
    blocks: list[MergedRange] = field(default_factory=list)
    hidden: set[int] = field(default_factory=set)
    row: int = 0

    def put(self, column: int, text: str) -> None:
        """Write a text in the row at hand."""
        if text:
            self.cells[self.row, column] = GridCell(text)

    def odds(self, share: float) -> bool:
        """Whether something happens that does so in a `share` of all cases; at its least it does not."""
        return self.chance.random() > 1 - share

    def merge(self, top: int, left: int, bottom: int, right: int) -> None:
        """Merge a range, unless it is a single cell."""
        if (top, left) != (bottom, right):
            self.blocks.append(MergedRange(top, left, bottom, right))

    def written(self, value: str) -> str:
        """Return a value in one of its spellings."""
        return self.chance.choice(SPELLINGS[value]) if value in SPELLINGS else value


def draw_layout(chance: random.Random) -> Layout:
    """Return a layout, whose parts are drawn by `chance`."""
    from tests.strategies.forms_and_pivots import draw_form, draw_services_across, draw_sizes_across
    from tests.strategies.lists import draw_list

    sheet = Sheet(chance)
    for _ in range(chance.randrange(3)):
        sheet.put(0, chance.choice(TITLES))
        sheet.row += 1
    tables = [draw_list, draw_list, draw_list, draw_sizes_across, draw_services_across]
    truth: list[Fact] = []
    if sheet.odds(0.1):
        truth += draw_form(sheet)
    else:
        for _ in range(chance.choice((1, 1, 1, 2))):
            sheet.row += chance.choice((1, 2)) if truth else 0
            truth += chance.choice(tables)(sheet)
    blocks = tuple(sheet.blocks)
    return Layout(tuple(truth), Grid("drawn.xlsx", "Lines", sheet.cells, blocks, hidden_rows=frozenset(sheet.hidden)))
