"""Reading: schedules of all layouts, from their cells to lines, beyond opening the file. A new reader each time.

The aim is 0.15 s for 200 lines in any layout, and 1 s for a table of 2,000 cells.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path

from speccheck.language import load_vocabulary
from speccheck.language.vocabulary.terms import Vocabulary
from speccheck.schedule import HeaderReader, ScheduleMapping
from speccheck.schedule.grid import Grid, GridCell, MergedRange
from speccheck.schedule.schedule import read_grids
from speccheck.shipped import shipped_folder

RUNS = 5
LINES = 200
SERVICES = ("Chilled water", "CHWS & CHWR", "Heating Hot Water", "HHWS", "DHW", "DCW", "Steam", "CD")
SIZES = ('1/2"', '1"', '1-1/2" - 3"', '4"', '6" & up')
THICKNESSES = ('1/2"', '1"', '1-1/2"', '2"')
INSULATIONS = ("Fiberglass w/ ASJ", "Elastomeric", "Cellular glass", "FG w/ASJ + PVC jkt")
LOCATIONS = ("Mech. Room", "Plenum", "Outdoor", "Conditioned")

Rows = Sequence[Sequence[str]]


def _listed(count: int) -> list[list[str]]:
    """Return the lines of a list, no two alike in more than half of their cells."""
    return [
        [
            f"P-{number}",
            SERVICES[number % 8],
            LOCATIONS[number % 4],
            SIZES[number % 5],
            f"{40 + number} F",
            INSULATIONS[number // 3 % 4],
            THICKNESSES[number // 2 % 4],
            f"see sheet M-{number}" if number % 9 == 0 else "",
        ]
        for number in range(count)
    ]


_HEADER = ["Tag", "Service", "Location", "Pipe Size", "Op. temp", "Insulation", "Thickness", "Remarks"]


def a_list(count: int) -> Grid:
    """A line a row."""
    return _grid([_HEADER, *_listed(count)])


def a_list_in_sections(count: int) -> Grid:
    """Sections of five lines under headings, and a note after each third."""
    rows: list[list[str]] = [_HEADER[:1] + _HEADER[2:]]
    for number, line in enumerate(_listed(count)):
        if number % 5 == 0:
            rows += [[f"{SERVICES[number // 5 % 8].upper()} PIPING"]]
        rows += [line[:1] + line[2:]]
        if number % 15 == 14:
            rows += [[f"Note {number}: see drawings"]]
    return _grid(rows)


def merged_groups_and_two_header_rows(count: int) -> Grid:
    """Services merged over five rows each, group headings over the columns, a row of units below them."""
    header = [["Service", "Pipe", "", "Insulation", ""], ["", "Size", "Op. temp", "Type", "Thickness"]]
    rows = [*header, ["", "", "(F)", "", ""]]
    blocks = [MergedRange(0, 0, 1, 0), MergedRange(0, 1, 0, 2), MergedRange(0, 3, 0, 4)]
    for number, line in enumerate(_listed(count)):
        top = 3 + number
        rows += [[line[1] if number % 5 == 0 else "", line[3], str(40 + number), line[5], line[6]]]
        blocks += [MergedRange(top, 0, top + 4, 0)] if number % 5 == 0 else []
    return _grid(rows, blocks)


def sizes_across(count: int) -> Grid:
    """A service a row, five sizes across under one heading."""
    rows = [["Service", "Insulation", "Thickness, by pipe size"], ["", "", *SIZES]]
    for number in range(count // 5):
        thicknesses = [THICKNESSES[(number + place) % 4] for place in range(5)]
        rows += [[f"{SERVICES[number % 8]}", INSULATIONS[number % 4], *thicknesses]]
    return _grid(rows, [MergedRange(0, 2, 0, 6), MergedRange(0, 0, 1, 0), MergedRange(0, 1, 1, 1)])


def services_across(count: int) -> Grid:
    """A size a row, five services across."""
    services = ["Chilled Water", "Heating Hot Water", "Steam", "Condensate drain", "Glycol"]
    rows = [["Pipe Size", *services]]
    for number in range(count // 5):
        rows += [[SIZES[number % 5], *(THICKNESSES[(number + place) % 4] for place in range(5))]]
    return _grid(rows)


def a_form_for_each_system(count: int) -> Grid:
    """Six names with their values, one system below another."""
    rows: list[list[str]] = []
    for line in _listed(count):
        pairs = zip(_HEADER[1:7], line[1:7], strict=True)
        rows += [[], *([f"{name}:", value] for name, value in pairs)]
    return _grid(rows)


def cells_of_several_facts(count: int) -> Grid:
    """A list in whose cells stand thickness, material, facing and jacket, or service and temperatures, together."""
    rows = [["Tag", "System", "Pipe Size", "Insulation", "Jacket"]]
    for number, line in enumerate(_listed(count)):
        insulation = f"{THICKNESSES[number % 4]} {INSULATIONS[number % 4]}, k = 0.2{number % 10} @ {70 + number % 30} F"
        system = f"{SERVICES[number % 8]} piping, {120 + number}F / {100 + number}F"
        rows += [[line[0], system, line[3], insulation, f"{10 + number} mil PVC"]]
    return _grid(rows)


def an_outline(count: int) -> Grid:
    """Services, materials, and thicknesses by size, each rank further in than the one above."""
    rows: list[list[str]] = []
    for number in range(count // 2):
        rows += [[f"{number + 1}. {SERVICES[number % 8]}, {41 + number}F"], ["", INSULATIONS[number % 3]]]
        rows += [["", "", f'{THICKNESSES[number % 4]} thick up to 1-1/4"'], ["", "", '2" thick above']]
    return _grid(rows)


def a_list_of_quantities(count: int) -> Grid:
    """Counts beside descriptions of size, service, thickness and material."""
    rows = [["Qty", "Unit", "Description"]]
    for number in range(count):
        system = f'{1 + number % 4}" {SERVICES[number % 8]}, {40 + number}F'
        rows += [[str(10 + number), "LF", f"{system} - {THICKNESSES[number % 4]} {INSULATIONS[number % 3]}"]]
    return _grid(rows)


LAYOUTS: tuple[Callable[[int], Grid], ...] = (
    a_list,
    a_list_in_sections,
    merged_groups_and_two_header_rows,
    sizes_across,
    services_across,
    a_form_for_each_system,
    cells_of_several_facts,
    an_outline,
    a_list_of_quantities,
)


def _grid(rows: Rows, blocks: Sequence[MergedRange] = ()) -> Grid:
    cells = {
        (row, column): GridCell(text) for row, texts in enumerate(rows) for column, text in enumerate(texts) if text
    }
    return Grid("drawn.xlsx", "Lines", cells, tuple(blocks))


def run() -> Iterator[tuple[str, str]]:
    """Yield the rows of the table: the layout, and the least processor time of some runs."""
    found = load_vocabulary(Path(shipped_folder("rulesets")) / "mechanical-insulation.clauses").vocabulary
    assert found is not None
    for layout in LAYOUTS:
        yield f"{LINES} lines, {layout.__name__.replace('_', ' ')}", _timed(layout(LINES), LINES, found)
    for layout in (sizes_across, services_across):
        yield f"2,000 lines, {layout.__name__.replace('_', ' ')}", _timed(layout(2000), 2000, found)


def _timed(grid: Grid, count: int, vocabulary: Vocabulary) -> str:
    """Return the least processor time of some runs, and how many lines were read."""
    times = []
    lines = 0
    for _ in range(RUNS):
        reader = HeaderReader(vocabulary)
        start = time.process_time()
        lines = len(read_grids("drawn.xlsx", [grid], [], reader, ScheduleMapping(units="inch-pound")).lines)
        times.append(time.process_time() - start)
    return f"{min(times):.3f} s, {lines:,} of {count:,} lines"
