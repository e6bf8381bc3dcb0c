"""Workbooks: an .xlsx file to one grid a sheet.

Nothing is worked out here: of a formula only the saved result counts, and macros are never run. What a sheet carries
beside its cells (comments, pictures, text boxes) is no data, and is told as something that a person has to read.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import NamedTuple

from speccheck.language.diagnostics import Diagnostic, Place
from speccheck.schedule.formats.drawings import beside_the_cells, struck_on_condition
from speccheck.schedule.formats.number_formats import LONGEST_FORMAT
from speccheck.schedule.formats.package_parts import Events, OpenPackage, PartRelation
from speccheck.schedule.formats.rich_text import FALSE, SharedTexts
from speccheck.schedule.formats.safety import MOST_SHEETS, Refused, check_compound_file, check_parts
from speccheck.schedule.formats.sheet import Rounded, Sheet, Workbook
from speccheck.schedule.formats.styles import Style, Styles
from speccheck.schedule.grid import Grid
from speccheck.schedule.messages.cells import SHOWN_WAS_READ
from speccheck.schedule.messages.files import (
    FORMAT_TOO_LONG,
    MACROS_NEVER_RUN,
    PARTS_OF_NO_WORKBOOK,
    SHEET_MISSING,
    SHEET_WITHOUT_CELLS,
    TOO_MANY_SHEETS,
)

_MOST_NAMED = 10


class _SheetEntry(NamedTuple):
    """One sheet in the list of the workbook."""

    name: str
    relation: str
    hidden: bool


class _Contents(Events):
    """Hears the main part of a workbook: which sheets there are, and how days are counted."""

    def __init__(self) -> None:
        self.sheets: list[_SheetEntry] = []
        self.from_1904 = False

    def start(self, tag: str, attributes: Mapping[str, str]) -> None:
        if tag == "sheet":
            hidden = attributes.get("state", "visible") != "visible"
            self.sheets.append(_SheetEntry(attributes.get("name", ""), attributes.get("id", ""), hidden))
        elif tag == "workbookPr":
            self.from_1904 = attributes.get("date1904", "0") not in FALSE


def read_workbook(path: Path) -> tuple[list[Grid], list[Diagnostic]]:
    """Return a grid for each worksheet, in their order, and what is wrong with the file as a whole.

    An unusable file gives no grid and one error.
    """
    refused = check_compound_file(path) or check_parts(path)
    if refused is not None:
        return [], [refused]
    try:
        with OpenPackage(path) as package:
            return _read(package)
    except Refused as refused_within:
        return [], [refused_within.diagnostic]


def _read(package: OpenPackage) -> tuple[list[Grid], list[Diagnostic]]:
    """Return the grids of an open workbook and what is wrong with it."""
    main = package.main_part()
    if not main or not package.has(main):
        raise package.damaged(PARTS_OF_NO_WORKBOOK)
    contents = _Contents()
    package.parse(main, contents)
    if len(contents.sheets) > MOST_SHEETS:
        raise Refused(
            TOO_MANY_SHEETS.at(Place(package.name), file=package.name, number=len(contents.sheets), most=MOST_SHEETS)
        )
    relations = {relation.id: relation for relation in package.relations(main)}
    shared = _shared(package, relations.values(), contents)
    grids: list[Grid] = []
    notes: list[Diagnostic] = []
    for entry in contents.sheets:
        relation = relations.get(entry.relation)
        if relation is None or not relation.target:
            raise package.damaged(SHEET_MISSING, sheet=entry.name)
        grid, found = _sheet(package, entry, relation, shared)
        grids.append(grid)
        notes += found
    return grids, [*notes, *_macros(package.name)]


def _shared(package: OpenPackage, relations: Iterable[PartRelation], contents: _Contents) -> Workbook:
    """Return what the sheets share."""
    texts, styles = SharedTexts(), Styles()
    for relation in relations:
        if relation.kind == "sharedStrings" and package.has(relation.target):
            package.parse(relation.target, texts)
        elif relation.kind == "styles" and package.has(relation.target):
            package.parse(relation.target, styles)
    if styles.longest_format > LONGEST_FORMAT:
        raise Refused(
            FORMAT_TOO_LONG.at(
                Place(package.name), file=package.name, number=styles.longest_format, most=LONGEST_FORMAT
            )
        )
    return Workbook(package.name, texts.texts, styles.styles or [Style()], contents.from_1904, styles.striking)


def _sheet(
    package: OpenPackage, entry: _SheetEntry, relation: PartRelation, shared: Workbook
) -> tuple[Grid, list[Diagnostic]]:
    """Return the grid of one sheet, with what stands beside its cells."""
    sheet = Sheet(entry.name, entry.hidden, shared)
    if relation.kind == "worksheet":
        package.parse(relation.target, sheet)
        if not sheet.found_data:
            raise package.damaged(SHEET_WITHOUT_CELLS, sheet=entry.name)
    grid = sheet.grid()
    beside = beside_the_cells(package, relation, grid.sheet_place)
    beside += struck_on_condition(sheet.perhaps_struck, grid.sheet_place)
    grid = replace(grid, unread=tuple(found.unread for found in beside))
    return grid, [*(found.diagnostic for found in beside), *_rounded(grid, sheet.rounded)]


def _rounded(grid: Grid, rounded: Sequence[Rounded]) -> Iterator[Diagnostic]:
    """Tell the cells that show a little less or more than they hold."""
    if rounded:
        listed = [f"{grid.place(*one.place).cell} shows `{one.shown}` and holds {one.held}" for one in rounded]
        more = f", and {len(listed) - _MOST_NAMED} more cells are so" if len(listed) > _MOST_NAMED else ""
        yield SHOWN_WAS_READ.at(grid.place(*rounded[0].place), cells=", ".join(listed[:_MOST_NAMED]), more=more)


def _macros(file: str) -> Iterator[Diagnostic]:
    """Note that a workbook may hold macros."""
    if file.lower().endswith(".xlsm"):
        yield MACROS_NEVER_RUN.at(Place(file))
